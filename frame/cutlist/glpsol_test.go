package cutlist_test

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
	"time"

	"example.com/lapspan/frame/cutlist"
	"example.com/lapspan/units"
)

// TestGLPSOL compares costs with GLPK's solver on the pattern model: one whole variable for every
// pattern of every stock line that has no room for another piece.
func TestGLPSOL(t *testing.T) {
	path, err := exec.LookPath("glpsol")
	if err != nil {
		t.Skip("glpsol is not on the PATH")
	}
	var own, other time.Duration
	const jobs = 8
	for seed := range uint64(jobs) {
		r := rand.New(rand.NewPCG(seed, 11))
		job := medium(r, 4+r.IntN(8), 18)
		start := time.Now()
		plan, err := cutlist.Cut(context.Background(), job, cutlist.Options{})
		own += time.Since(start)
		if err != nil {
			t.Fatal(err)
		}
		model := filepath.Join(t.TempDir(), "model.lp")
		answer := model + ".txt"
		if err := os.WriteFile(model, patternModel(job), 0o600); err != nil {
			t.Fatal(err)
		}
		start = time.Now()
		out, err := exec.Command(path, "--lp", model, "--tmlim", "60", "-o", answer).CombinedOutput()
		other += time.Since(start)
		if err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		text, err := os.ReadFile(answer)
		if err != nil {
			t.Fatal(err)
		}
		found := regexp.MustCompile(`Status:\s+INTEGER OPTIMAL[\s\S]*Objective:\s+\S+\s+=\s+(\S+)`).FindSubmatch(text)
		if found == nil {
			t.Fatalf("job %d: no optimum in time: %s", seed, out)
		}
		want, err := strconv.ParseFloat(string(found[1]), 64)
		if err != nil {
			t.Fatal(err)
		}
		// glpsol counts in cents, and prints few digits of a large number.
		if !plan.Proven || plan.Cost != int64(want+0.5)*100 {
			t.Errorf("job %d: cost %d, proven %v; glpsol %v", seed, plan.Cost, plan.Proven, want)
		}
	}
	t.Logf("%d jobs: %v, glpsol %v", jobs, own, other)
}

// patternModel writes the job in the CPLEX LP format, costs in cents.
func patternModel(job cutlist.Job) []byte {
	kerf := kerfOf(job)
	var cost, whole bytes.Buffer
	rows := make([]bytes.Buffer, len(job.Pieces))
	counts := make([]bytes.Buffer, len(job.Stock))
	columns := 0
	take := make([]int, len(job.Pieces))
	for s, stock := range job.Stock {
		var list func(i int, room units.Length)
		list = func(i int, room units.Length) {
			if i < len(take) {
				fits := min(job.Pieces[i].Count, int(room/(job.Pieces[i].Length+kerf)))
				for take[i] = fits; take[i] >= 0; take[i]-- {
					list(i+1, room-units.Length(take[i])*(job.Pieces[i].Length+kerf))
				}
				take[i] = 0
				return
			}
			for k, n := range take {
				if n < job.Pieces[k].Count && job.Pieces[k].Length+kerf <= room {
					return
				}
			}
			columns++
			fmt.Fprintf(&cost, " + %d x%d\n", price(job, s)/100, columns)
			fmt.Fprintf(&whole, " x%d\n", columns)
			fmt.Fprintf(&counts[s], " + x%d\n", columns)
			for k, n := range take {
				if n > 0 {
					fmt.Fprintf(&rows[k], " + %d x%d\n", n, columns)
				}
			}
		}
		list(0, stock.Length-job.EndTrim+kerf)
	}
	var out bytes.Buffer
	fmt.Fprintf(&out, "Minimize\n cost:\n%sSubject To\n", cost.Bytes())
	for k := range rows {
		fmt.Fprintf(&out, " piece%d:\n%s >= %d\n", k, rows[k].Bytes(), job.Pieces[k].Count)
	}
	for s := range counts {
		if n := job.Stock[s].Count; n > 0 && counts[s].Len() > 0 {
			fmt.Fprintf(&out, " stock%d:\n%s <= %d\n", s, counts[s].Bytes(), n)
		}
	}
	fmt.Fprintf(&out, "Generals\n%sEnd\n", whole.Bytes())
	return out.Bytes()
}

package doors_test

import (
	"context"
	"fmt"
	"math/big"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

// integerModel writes the alternate search as an integer programme in CPLEX LP
// format, in millimetres: how many doors of each width, least cost, cover at
// least the widest reading and no more than the narrowest closes.
func integerModel(s doors.Search, cost func(o doors.Offer) int64) string {
	var b strings.Builder
	term := func(factor func(o doors.Offer) int64) {
		for i, o := range s.Widths {
			fmt.Fprintf(&b, " %+d c%d\n", factor(o), i)
		}
	}
	least, most := int64(s.Gear.Overlap.Min/mm), int64(s.Gear.Overlap.Max/mm)
	b.WriteString("Minimize\n cost:\n")
	term(cost)
	b.WriteString("Subject To\n cover:\n")
	term(func(o doors.Offer) int64 { return int64(o.Width/mm) - least })
	fmt.Fprintf(&b, " >= %d\n closes:\n", int64(s.Fit.Span.Max/mm)-least)
	term(func(o doors.Offer) int64 { return int64(o.Width/mm) - most })
	fmt.Fprintf(&b, " <= %d\n few:\n", int64(s.Fit.Span.Min/mm)-most)
	term(func(doors.Offer) int64 { return 1 })
	fmt.Fprintf(&b, " <= %d\n many:\n", s.MaxDoors)
	term(func(doors.Offer) int64 { return 1 })
	b.WriteString(" >= 2\nBounds\n")
	for i := range s.Widths {
		fmt.Fprintf(&b, " 0 <= c%d <= %d\n", i, s.MaxDoors)
	}
	b.WriteString("General\n")
	for i := range s.Widths {
		fmt.Fprintf(&b, " c%d\n", i)
	}
	b.WriteString("End\n")
	return b.String()
}

// solvers are general-purpose solvers of integer programmes: how each is called
// and how its answer is read, nothing when there is no solution.
var solvers = map[string]struct {
	args   func(model, answer string) []string
	answer *regexp.Regexp
}{
	"glpsol": {
		func(model, answer string) []string { return []string{"--lp", model, "-o", answer} },
		regexp.MustCompile(`(?s)Status: +INTEGER OPTIMAL.*Objective: +cost = ([0-9.e+]+)`),
	},
	"cbc": {
		func(model, answer string) []string {
			return []string{model, "ratio", "0", "allow", "0", "solve", "solu", answer}
		},
		regexp.MustCompile(`(?i)^Optimal - objective value ([0-9.e+]+)`),
	},
}

func TestBestAgainstSolvers(t *testing.T) {
	if testing.Short() {
		t.Skip("the solvers are slow")
	}
	for name, solver := range solvers {
		t.Run(name, func(t *testing.T) {
			path, err := exec.LookPath(name)
			if err != nil {
				t.Skip("not run: " + name + " is not on the PATH")
			}
			rng := rand.New(rand.NewPCG(21, 22))
			var ours, theirs time.Duration
			for i := range 10 {
				kind := []string{"1 mm", "5 mm", "random mm", "gaps", "one apart"}[i%5]
				prices := []string{"rising", "bands", "random", "proportional"}[i%4]
				s := benchSearch(priced(prices, widthsOnSale(kind, 40, rng), rng), 1500*mm+units.Length(rng.Int64N(3000))*mm)
				key, cost := doors.ByPrice, func(o doors.Offer) int64 { return o.Price }
				if i >= 5 {
					key, cost = doors.ByWidth, func(o doors.Offer) int64 { return int64(o.Width / mm) }
				}
				s.Rank, s.Limit = []doors.Key{key}, 1
				began := time.Now()
				found, err := doors.Best(context.Background(), s)
				ours += time.Since(began)
				if err != nil || !found.Proven {
					t.Fatal(err)
				}
				model := filepath.Join(t.TempDir(), "model.lp")
				if err := os.WriteFile(model, []byte(integerModel(s, cost)), 0o600); err != nil {
					t.Fatal(err)
				}
				ctx, cancel := context.WithTimeout(context.Background(), 3*time.Second)
				defer cancel()
				began = time.Now()
				out, err := exec.CommandContext(ctx, path, solver.args(model, model+".txt")...).CombinedOutput()
				if ctx.Err() != nil {
					t.Logf("%s, prices %s: %s found no answer in 3 s", kind, prices, name)
					continue
				}
				theirs += time.Since(began)
				answer, readErr := os.ReadFile(model + ".txt")
				if err != nil || readErr != nil {
					t.Fatalf("%v %v\n%s", err, readErr, out)
				}
				want, got := "none", "none"
				if m := solver.answer.FindSubmatch(answer); m != nil {
					value, ok := new(big.Rat).SetString(string(m[1]))
					if !ok {
						t.Fatalf("%q is no number", m[1])
					}
					want = value.FloatString(0)
				}
				if len(found.Runs) > 0 {
					got = fmt.Sprint(found.Runs[0].Score.Price)
					if key == doors.ByWidth {
						got = fmt.Sprint(int64(found.Runs[0].Score.Width / mm))
					}
				}
				if got != want {
					t.Errorf("%s, prices %s, opening %s, by %s: %s, the solver says %s", kind, prices, s.Fit.Span, key, got, want)
				}
			}
			t.Logf("10 searches: %s, the solver %s: %d times as long", ours, theirs, theirs/max(ours, 1))
		})
	}
}

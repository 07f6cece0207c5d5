// Command mutants measures how many small faults the tests of a package see.
//
//	go run ./.ci/mutants [-list] [-skip PATTERN] DIR...
//
// It copies the module, writes every mutant of a package into one program (a
// comparison moved or turned round, + for −, × for ÷, and for or), compiles
// its tests once and runs them once a mutant, the mutant chosen by the environment.
// A mutant is killed when its own package's tests fail; one that runs on for ever
// counts for nothing. Tests run with -short. Exits 1 when a score is under 85 %.
package main

import (
	"context"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"time"
)

const least = 85 // per cent

func main() {
	list := flag.Bool("list", false, "list the mutants that lived")
	skip := flag.String("skip", "", "leave out the files whose name matches the `pattern`")
	flag.Parse()
	if err := run(flag.Args(), *list, *skip); err != nil {
		fmt.Fprintln(os.Stderr, "mutants:", err)
		os.Exit(1)
	}
}

func run(packages []string, list bool, skip string) error {
	scratch, err := os.MkdirTemp("", "mutants")
	if err != nil {
		return err
	}
	defer os.RemoveAll(scratch)
	if err := copyModule(scratch); err != nil {
		return err
	}
	fmt.Printf("%-10s %8s %8s %10s %10s\n", "package", "killed", "lived", "timed out", "score")
	low := false
	for _, p := range packages {
		result, err := score(filepath.Join(scratch, p), skip)
		if err != nil {
			return fmt.Errorf("%s: %w", p, err)
		}
		rate := 100 * result.killed / max(result.killed+len(result.lived), 1)
		fmt.Printf("%-10s %8d %8d %10d %8d %%\n", p, result.killed, len(result.lived), result.late, rate)
		if list {
			fmt.Println("  " + strings.Join(result.lived, "\n  "))
		}
		low = low || rate < least
	}
	if low {
		return fmt.Errorf("a score is under %d %%", least)
	}
	return nil
}

// copyModule copies the module in the current folder, without what starts with a dot.
func copyModule(to string) error {
	return filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case path != "." && strings.HasPrefix(d.Name(), "."):
			if d.IsDir() {
				return filepath.SkipDir
			}
			return nil
		case d.IsDir():
			return os.MkdirAll(filepath.Join(to, path), 0o777)
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		return os.WriteFile(filepath.Join(to, path), data, 0o666)
	})
}

type result struct {
	killed, late int
	lived        []string
}

func score(dir, skip string) (result, error) {
	mutants, err := instrument(dir, skip)
	if err != nil {
		return result{}, err
	}
	program := filepath.Join(dir, "mutants.test")
	build := exec.Command("go", "test", "-c", "-o", program, ".")
	build.Dir = dir
	if out, err := build.CombinedOutput(); err != nil {
		return result{}, fmt.Errorf("%w\n%s", err, out)
	}
	verdicts := make([]verdict, len(mutants)) // passed: not seen yet
	for _, checks := range []int{100, 1000} { // what lives gets a longer look
		began := time.Now()
		if test(dir, program, -1, checks, time.Hour) != passed {
			return result{}, fmt.Errorf("the tests fail without a mutant")
		}
		look(dir, program, verdicts, checks, 10*time.Since(began)+5*time.Second)
	}
	var r result
	for id, v := range verdicts {
		switch v {
		case failed:
			r.killed++
		case passed:
			r.lived = append(r.lived, mutants[id])
		case late:
			r.late++
		}
	}
	return r, nil
}

// look tests every mutant that still lives, as many at once as there are processors.
func look(dir, program string, verdicts []verdict, checks int, allowed time.Duration) {
	var wait sync.WaitGroup
	next := make(chan int)
	for range runtime.NumCPU() {
		wait.Go(func() {
			for id := range next {
				verdicts[id] = test(dir, program, id, checks, allowed)
			}
		})
	}
	for id, v := range verdicts {
		if v == passed {
			next <- id
		}
	}
	close(next)
	wait.Wait()
}

type verdict int

const (
	passed verdict = iota
	failed
	late
)

// test runs the tests with one mutant and so many cases a property. Nothing is
// shrunk or kept for the next, and the same cases are drawn every time.
func test(dir, program string, id, checks int, allowed time.Duration) verdict {
	ctx, cancel := context.WithTimeout(context.Background(), allowed)
	defer cancel()
	cmd := exec.CommandContext(ctx, program, "-test.short", "-test.failfast")
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), fmt.Sprintf("MUTANT=%d", id), "GOMAXPROCS=1",
		"RAPID_SHRINKTIME=0s", "RAPID_NOFAILFILE=true", "RAPID_SEED=1", fmt.Sprintf("RAPID_CHECKS=%d", checks))
	switch err := cmd.Run(); {
	case ctx.Err() != nil:
		return late
	case err != nil:
		return failed
	}
	return passed
}

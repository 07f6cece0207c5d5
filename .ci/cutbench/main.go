// Command cutbench measures package cutlist: how many jobs of each set are proven, and how fast.
//
//	go run ./.ci/cutbench [-only NAME] [-limit 10s] [-v] [-profile FILE] [DIR]
//
// Times are processor time, so a busy machine changes them little.
//
// It always measures random jobs like a workshop's, and triplets and full bars, whose optimum is known
// by construction. With a folder it also reads the bin-packing files of J. E. Beasley's OR-Library in it
// (binpack1.txt and so on, by any name that ends so), where the answers are compared with the best known.
package main

import (
	"bufio"
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime/pprof"
	"slices"
	"strings"
	"syscall"
	"time"

	"example.com/lapspan/frame/cutlist"
	"example.com/lapspan/units"
)

var verbose = flag.Bool("v", false, "print every job")

func main() {
	only := flag.String("only", "", "measure only the sets whose name contains this")
	limit := flag.Duration("limit", 10*time.Second, "processor time for one job")
	profile := flag.String("profile", "", "write a CPU profile to this file")
	flag.Parse()
	if *profile != "" {
		f, err := os.Create(*profile)
		if err != nil {
			fatal(err)
		}
		if err := pprof.StartCPUProfile(f); err != nil {
			fatal(err)
		}
		defer pprof.StopCPUProfile()
	}
	sets := workshop()
	sets = append(sets, triplets(60, 20), triplets(120, 20), fullBars(10, 20), fullBars(20, 20), fullBars(30, 5))
	if flag.NArg() > 0 {
		files, err := filepath.Glob(filepath.Join(flag.Arg(0), "*binpack*.txt"))
		if err != nil {
			fatal(err)
		}
		for _, f := range files {
			s, err := orLibrary(f)
			if err != nil {
				fatal(err)
			}
			sets = append(sets, s)
		}
	}
	fmt.Println("| set | jobs | proven in 1 s | in 10 s | median | worst | wrong |")
	fmt.Println("|---|---|---|---|---|---|---|")
	for _, s := range sets {
		if strings.Contains(s.name, *only) {
			s.measure(*limit)
		}
	}
}

func fatal(err error) {
	fmt.Fprintln(os.Stderr, err)
	os.Exit(2)
}

// A set is some jobs with the number of bars that is right for each, 0 where that is not known.
type set struct {
	name string
	jobs []cutlist.Job
	bars [][]int
}

func (s set) measure(limit time.Duration) {
	var times []time.Duration
	second, ten, wrong := 0, 0, 0
	for i, job := range s.jobs {
		start := cpuTime()
		ctx, cancel := withCPU(start + limit)
		plan, err := cutlist.Cut(ctx, job, cutlist.Options{Work: 1 << 40})
		took := cpuTime() - start
		cancel()
		if err != nil {
			fatal(fmt.Errorf("%s %d: %w", s.name, i, err))
		}
		times = append(times, took)
		if *verbose {
			nodes := 0
			if plan.Certificate != nil {
				nodes = len(plan.Certificate.Nodes)
			}
			fmt.Printf("%s %d: cost %d bound %d bars %d nodes %d %s\n", s.name, i, plan.Cost, plan.Bound, len(plan.Bars), nodes, short(took))
		}
		if plan.Proven && took <= time.Second {
			second++
		}
		if plan.Proven {
			ten++
		}
		if s.bars != nil && plan.Proven && !slices.Contains(s.bars[i], len(plan.Bars)) {
			wrong++
		}
	}
	slices.Sort(times)
	fmt.Printf("| %s | %d | %d | %d | %s | %s | %d |\n", s.name, len(s.jobs), second, ten,
		short(times[len(times)/2]), short(times[len(times)-1]), wrong)
}

// cpuTime returns the processor time this program has used, so that what else the machine does makes no
// difference.
func cpuTime() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// withCPU returns a context that ends when the program has used so much processor time.
func withCPU(until time.Duration) (context.Context, func()) {
	ctx, cancel := context.WithCancel(context.Background())
	go func() {
		for tick := time.NewTicker(2 * time.Millisecond); ; {
			select {
			case <-ctx.Done():
				tick.Stop()
				return
			case <-tick.C:
				if cpuTime() >= until {
					cancel()
				}
			}
		}
	}()
	return ctx, cancel
}

func short(d time.Duration) string {
	switch {
	case d < time.Millisecond:
		return fmt.Sprintf("%.0f µs", float64(d)/1e3)
	case d < time.Second:
		return fmt.Sprintf("%.1f ms", float64(d)/1e6)
	}
	return fmt.Sprintf("%.2f s", d.Seconds())
}

// workshop returns random jobs: pieces of 300 to 2400 mm, kerf 4 mm, stock from 2400 to 6000 mm.
func workshop() []set {
	var sets []set
	for _, c := range []struct {
		name                           string
		lengths, pieces, stock, offcut int
		list                           bool
		n                              int
	}{
		{"small: 4 lengths, 8 pieces, 1 stock", 4, 8, 1, 0, false, 200},
		{"small: 6 lengths, 12 pieces, 3 stock", 6, 12, 3, 0, true, 200},
		{"60 lengths, 200 pieces, 1 stock", 60, 200, 1, 0, false, 20},
		{"15 lengths, 40 pieces, 3 stock + 3 offcuts, any prices", 15, 40, 3, 3, false, 20},
		{"30 lengths, 120 pieces, 5 stock + 4 offcuts, price list", 30, 120, 5, 4, true, 20},
		{"60 lengths, 200 pieces, 5 stock + 5 offcuts, price list", 60, 200, 5, 5, true, 20},
		{"60 lengths, 200 pieces, 5 stock + 5 offcuts, any prices", 60, 200, 5, 5, false, 20},
	} {
		s := set{name: c.name}
		for seed := range c.n {
			r := rand.New(rand.NewPCG(uint64(seed), uint64(c.lengths*1000+c.pieces)))
			s.jobs = append(s.jobs, workshopJob(r, c.lengths, c.pieces, c.stock, c.offcut, c.list))
		}
		sets = append(sets, s)
	}
	return sets
}

// workshopJob draws one job. On a price list a metre costs the same whatever the bar, and prices end in
// a half or a whole; otherwise a metre's price differs by up to a tenth from bar to bar, to the cent.
// Offcuts of 900 to 2400 mm cost nothing, one or two of each.
func workshopJob(r *rand.Rand, lengths, pieces, stock, offcuts int, list bool) cutlist.Job {
	var job cutlist.Job
	sale := []int{2400, 2700, 3000, 3600, 3900, 4200, 4800, 5100, 5400, 6000}
	r.Shuffle(len(sale), func(i, k int) { sale[i], sale[k] = sale[k], sale[i] })
	if stock == 1 {
		sale[0] = 6000
	}
	for _, mm := range sale[:stock] {
		price := int64(mm) * 32 // ten-thousandths: 3.20 a metre
		if list {
			price = (price + 2500) / 5000 * 5000
		} else {
			price = price * int64(90+r.IntN(21)) / 100 / 100 * 100
		}
		job.Stock = append(job.Stock, cutlist.Stock{
			Length: units.Length(mm) * units.Millimetre,
			Price:  new(units.MoneyOfTenThousandths(price)),
		})
	}
	for range offcuts {
		job.Stock = append(job.Stock, cutlist.Stock{
			Length: units.Length(900+r.IntN(1501)) * units.Millimetre,
			Price:  new(units.MoneyOfTenThousandths(0)),
			Count:  1 + r.IntN(2),
		})
	}
	counts := make([]int, lengths)
	for i := range counts {
		counts[i] = 1
	}
	for range pieces - lengths {
		counts[r.IntN(lengths)]++
	}
	seen := map[int]bool{}
	for _, n := range counts {
		mm := 300 + r.IntN(2101)
		for seen[mm] {
			mm = 300 + r.IntN(2101)
		}
		seen[mm] = true
		job.Pieces = append(job.Pieces, cutlist.Piece{Length: units.Length(mm) * units.Millimetre, Count: n})
	}
	return job
}

// triplets returns jobs of Falkenauer's class T: three pieces fill a bar of 1000 exactly, so the
// optimum is a third of the pieces.
func triplets(pieces, n int) set {
	s := set{name: fmt.Sprintf("triplets, %d pieces", pieces)}
	for seed := range n {
		r := rand.New(rand.NewPCG(uint64(seed), uint64(pieces)))
		job := cutlist.Job{Kerf: new(units.Length(0)), Stock: []cutlist.Stock{{Length: 1000 * units.Millimetre}}}
		for range pieces / 3 {
			a := 380 + r.IntN(111)
			b := 250 + r.IntN((1000-a)/2-250+1)
			for _, mm := range []int{a, b, 1000 - a - b} {
				job.Pieces = append(job.Pieces, cutlist.Piece{Length: units.Length(mm) * units.Millimetre, Count: 1})
			}
		}
		s.jobs, s.bars = append(s.jobs, job), append(s.bars, []int{pieces / 3})
	}
	return s
}

// fullBars returns jobs cut from so many bars of 6000 without any waste, three to six pieces each.
func fullBars(bars, n int) set {
	s := set{name: fmt.Sprintf("%d full bars cut up", bars)}
	for seed := range n {
		r := rand.New(rand.NewPCG(uint64(seed), uint64(bars)))
		job := cutlist.Job{Stock: []cutlist.Stock{{Length: 6000 * units.Millimetre}}}
		for range bars {
			left := 6000
			for k := 2 + r.IntN(4); k > 0; k-- {
				mm := 300 + r.IntN((left-4*k)/k-300)
				job.Pieces = append(job.Pieces, cutlist.Piece{Length: units.Length(mm) * units.Millimetre, Count: 1})
				left -= mm + 4
			}
			job.Pieces = append(job.Pieces, cutlist.Piece{Length: units.Length(left) * units.Millimetre, Count: 1})
		}
		s.jobs, s.bars = append(s.jobs, job), append(s.bars, []int{bars})
	}
	return s
}

// better holds the optima that were proven after the files were made (Delorme, Iori, Martello 2016).
var better = map[string]int{"u120_08": 50, "u120_19": 49, "u250_07": 103, "u250_12": 105}

func orLibrary(name string) (set, error) {
	s := set{name: strings.TrimSuffix(filepath.Base(name), ".txt")}
	f, err := os.Open(name)
	if err != nil {
		return s, err
	}
	defer f.Close()
	in := bufio.NewReader(f)
	var problems int
	if _, err := fmt.Fscan(in, &problems); err != nil {
		return s, fmt.Errorf("%s: %w", name, err)
	}
	for range problems {
		var id string
		var room float64
		var items, best int
		if _, err := fmt.Fscan(in, &id, &room, &items, &best); err != nil {
			return s, fmt.Errorf("%s: %w", name, err)
		}
		if b, ok := better[id]; ok {
			best = b
		}
		job := cutlist.Job{
			Kerf:  new(units.Length(0)),
			Stock: []cutlist.Stock{{Length: units.Length(room*10+0.5) * units.Millimetre / 10}},
		}
		for range items {
			var size float64
			if _, err := fmt.Fscan(in, &size); err != nil {
				return s, fmt.Errorf("%s: %w", name, err)
			}
			job.Pieces = append(job.Pieces, cutlist.Piece{Length: units.Length(size*10+0.5) * units.Millimetre / 10, Count: 1})
		}
		s.jobs, s.bars = append(s.jobs, job), append(s.bars, []int{best})
	}
	return s, nil
}

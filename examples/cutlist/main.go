// Command cutlist cuts bar stock: from the pieces that are wanted to a list of bars, proven best.
//
//	go run ./examples/cutlist [-job FILE] [-json] [-limit 10s]
//
// Without -job it cuts the timber of a demo site of two rooms. It prints a list, or with -json one JSON
// document. The job is
//
//	{ "kerf"?, "end_trim"?, "stock": [{"length","price"?,"count"?}], "pieces": [{"length","count","name"?}] }
//
// Numbers are millimetres, a string carries its unit; the kerf is 4 unless given. Either all stock is
// priced or none is, and then a bar costs its length. An offcut at hand is a line with its count and the
// price 0. The answer is
//
//	{ "bars": [{"stock","price"?,"pieces","names"?,"offcut"}], "cost", "count", "bound", "proven" }
//
// with one entry a bar: the length of the bar, its price, the lengths of the pieces, their names where any
// has one, and what is left whole. Money is written as text, lengths as numbers.
//
// Exit status: 0 with a list, 1 where the stock does not hold the pieces or no list was found in time, 2
// when the job cannot be read; then one line on standard error says what and where, and nothing is printed.
package main

import (
	"context"
	_ "embed"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"example.com/lapspan"
	"example.com/lapspan/frame/cutlist"
	"example.com/lapspan/units"
)

//go:embed demo.json
var demo []byte

func main() {
	os.Exit(run(context.Background(), os.Args[1:], os.Stdout, os.Stderr))
}

const (
	exitList    = 0
	exitNone    = 1
	exitRefused = 2
)

// stepsPerSecond is the work that fits a second on a slow machine, so that the limit rarely stops a search
// by the clock, which would make the answer a matter of luck.
const stepsPerSecond = 200_000_000

func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("cutlist", flag.ContinueOnError)
	flags.SetOutput(stderr)
	file := flags.String("job", "", "JSON `file` with the job; without it the demo site is used")
	asJSON := flags.Bool("json", false, "print the list as JSON")
	limit := flags.Duration("limit", 10*time.Second, "`time` after which the best list so far is printed")
	switch err := flags.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		return exitList
	case err != nil:
		return exitRefused
	case flags.NArg() > 0:
		fmt.Fprintf(stderr, "cutlist: unexpected argument %q\n", flags.Arg(0))
		return exitRefused
	case *limit <= 0 || *limit > time.Hour:
		fmt.Fprintf(stderr, "cutlist: -limit must be more than 0 and at most an hour\n")
		return exitRefused
	}
	name := "demo site"
	if *file != "" {
		name = *file
	}
	job, err := read(*file)
	if err != nil {
		fmt.Fprintf(stderr, "%s: %s\n", name, oneLine(err))
		return exitRefused
	}
	ctx, cancel := context.WithTimeout(ctx, *limit)
	defer cancel()
	plan, err := cutlist.Cut(ctx, job, cutlist.Options{Work: int64(limit.Seconds()*stepsPerSecond) + 1})
	switch {
	case errors.Is(err, cutlist.ErrTooLong), errors.Is(err, cutlist.ErrStockShort),
		errors.Is(err, cutlist.ErrNoStock), errors.Is(err, cutlist.ErrNoPlan):
		fmt.Fprintf(stderr, "%s: %s\n", name, oneLine(err))
		return exitNone
	case err != nil:
		fmt.Fprintf(stderr, "%s: %s\n", name, oneLine(err))
		return exitRefused
	}
	text := []byte(list(job, plan))
	if *asJSON {
		if text, err = json.MarshalIndent(answer(job, plan), "", "  "); err == nil {
			text = append(text, '\n')
		}
	}
	if err == nil {
		_, err = stdout.Write(text)
	}
	if err != nil {
		fmt.Fprintf(stderr, "%s: %s\n", name, oneLine(err))
		return exitRefused
	}
	return exitList
}

func oneLine(err error) string {
	return strings.Join(strings.Fields(err.Error()), " ")
}

// document is the job as it is written in a file.
type document struct {
	Kerf    *units.Length `json:"kerf,omitzero"`
	EndTrim *units.Length `json:"end_trim,omitzero"`
	Stock   []stockLine   `json:"stock"`
	Pieces  []pieceLine   `json:"pieces"`
}

type stockLine struct {
	Length units.Length `json:"length"`
	Price  *units.Money `json:"price,omitempty"`
	Count  int          `json:"count,omitzero"`
}

type pieceLine struct {
	Length units.Length `json:"length"`
	Count  int          `json:"count"`
	Name   string       `json:"name,omitzero"`
}

// read reads the job in file, or the demo. A file that is too long to be a job is not read to its end.
func read(file string) (cutlist.Job, error) {
	data := demo
	if file != "" {
		f, err := os.Open(file)
		if err != nil {
			return cutlist.Job{}, err
		}
		defer f.Close()
		if data, err = io.ReadAll(io.LimitReader(f, lapspan.MaxDocument+1)); err != nil {
			return cutlist.Job{}, err
		}
	}
	var doc document
	if err := lapspan.Decode(data, &doc); err != nil {
		return cutlist.Job{}, err
	}
	switch {
	case doc.Stock == nil:
		return cutlist.Job{}, errors.New("stock: it is missing")
	case doc.Pieces == nil:
		return cutlist.Job{}, errors.New("pieces: it is missing")
	}
	job := cutlist.Job{Kerf: doc.Kerf}
	for _, l := range doc.Stock {
		job.Stock = append(job.Stock, cutlist.Stock(l))
	}
	for _, l := range doc.Pieces {
		job.Pieces = append(job.Pieces, cutlist.Piece(l))
	}
	if doc.EndTrim != nil {
		job.EndTrim = *doc.EndTrim
	}
	return job, nil
}

type barAnswer struct {
	Stock  units.Length   `json:"stock"`
	Price  *units.Money   `json:"price,omitempty"` // a price of 0 is one too
	Pieces []units.Length `json:"pieces"`
	Names  []string       `json:"names,omitzero"`
	Offcut units.Length   `json:"offcut"`
}

type listAnswer struct {
	Bars   []barAnswer `json:"bars"`
	Cost   any         `json:"cost"`
	Count  int         `json:"count"`
	Bound  any         `json:"bound"`
	Proven bool        `json:"proven"`
}

func answer(job cutlist.Job, plan cutlist.Plan) listAnswer {
	named := false
	for _, p := range job.Pieces {
		named = named || p.Name != ""
	}
	out := listAnswer{
		Bars:   []barAnswer{},
		Cost:   amount(plan, plan.Cost),
		Count:  len(plan.Bars),
		Bound:  amount(plan, plan.Bound),
		Proven: plan.Proven,
	}
	for _, b := range plan.Bars {
		s := job.Stock[b.Stock]
		bar := barAnswer{Stock: s.Length, Price: s.Price, Offcut: b.Offcut}
		for _, i := range b.Pieces {
			bar.Pieces = append(bar.Pieces, job.Pieces[i].Length)
			if named {
				bar.Names = append(bar.Names, job.Pieces[i].Name)
			}
		}
		out.Bars = append(out.Bars, bar)
	}
	return out
}

// amount returns a cost as money, or as a length where a bar costs its length.
func amount(plan cutlist.Plan, cost int64) any {
	if plan.Priced {
		return units.MoneyOfTenThousandths(cost)
	}
	return units.Length(cost)
}

// list writes the plan for a person.
func list(job cutlist.Job, plan cutlist.Plan) string {
	var out strings.Builder
	for i, b := range plan.Bars {
		fmt.Fprintf(&out, "%3d  %8s  ", i+1, job.Stock[b.Stock].Length)
		for k, p := range b.Pieces {
			if k > 0 {
				out.WriteString(" + ")
			}
			out.WriteString(job.Pieces[p].Length.Millimetres())
			if name := job.Pieces[p].Name; name != "" {
				fmt.Fprintf(&out, " (%s)", name)
			}
		}
		fmt.Fprintf(&out, ", offcut %s\n", b.Offcut)
	}
	fmt.Fprintf(&out, "%d bars, cost %v", len(plan.Bars), amount(plan, plan.Cost))
	if plan.Proven {
		out.WriteString(", proven the least\n")
	} else {
		fmt.Fprintf(&out, ", the least is not below %v\n", amount(plan, plan.Bound))
	}
	return out.String()
}

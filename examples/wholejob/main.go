// Command wholejob does the whole job: from the readings of a room to an order.
//
//	go run ./examples/wholejob [-job FILE] [-json] [-out DIR]
//
// Without -job it sizes the doors of a demo room. It prints a sheet, or with
// -json the plan as one JSON document; with -out it writes plan.json and
// sheet.txt into the folder, each whole or not at all.
//
// Exit status: 0 with a proposal, 1 with none, 2 when the job cannot be read or
// a file not written; then one line on standard error says what and where, and
// nothing is printed.
package main

import (
	"bytes"
	"context"
	_ "embed"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"example.com/lapspan"
)

//go:embed demo.json
var demo []byte

func main() {
	os.Exit(run(context.Background(), os.Args[1:], os.Stdout, os.Stderr))
}

const (
	exitProposal = 0
	exitNone     = 1
	exitRefused  = 2
)

func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("wholejob", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	file := flags.String("job", "", "JSON `file` with the job; without it the demo room is used")
	asJSON := flags.Bool("json", false, "print the plan as JSON")
	out := flags.String("out", "", "`folder` to write plan.json and sheet.txt into")
	switch err := flags.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		flags.SetOutput(stdout)
		flags.PrintDefaults()
		return exitProposal
	case err != nil:
		fmt.Fprintf(stderr, "wholejob: %v\n", err)
		return exitRefused
	case flags.NArg() > 0:
		fmt.Fprintf(stderr, "wholejob: unexpected argument %q\n", flags.Arg(0))
		return exitRefused
	}
	name := "demo room"
	if *file != "" {
		name = *file
	}
	plan, sheet, err := plan(ctx, *file)
	if err != nil {
		fmt.Fprintf(stderr, "%s: %v\n", name, err)
		return exitRefused
	}
	document, err := json.MarshalIndent(plan, "", "  ")
	if err != nil {
		fmt.Fprintf(stderr, "%s: %v\n", name, err)
		return exitRefused
	}
	document = append(document, '\n')
	if *out != "" {
		for _, f := range []struct {
			name string
			data []byte
		}{{"plan.json", document}, {"sheet.txt", []byte(sheet)}} {
			if err := writeWhole(filepath.Join(*out, f.name), f.data); err != nil {
				fmt.Fprintf(stderr, "%s: %v\n", name, err)
				return exitRefused
			}
		}
	}
	text := []byte(sheet)
	if *asJSON {
		text = document
	}
	if _, err := stdout.Write(text); err != nil {
		fmt.Fprintf(stderr, "%s: %v\n", name, err)
		return exitRefused
	}
	if len(plan.Proposals) == 0 {
		return exitNone
	}
	return exitProposal
}

// plan reads the job and makes its plan and its sheet.
func plan(ctx context.Context, file string) (lapspan.Plan, string, error) {
	var source io.Reader = bytes.NewReader(demo)
	if file != "" {
		f, err := os.Open(file)
		var path *fs.PathError
		if errors.As(err, &path) {
			err = path.Err // the name stands before it in the message
		}
		if err != nil {
			return lapspan.Plan{}, "", err
		}
		defer f.Close()
		source = f
	}
	job, err := lapspan.ReadJob(source)
	if err != nil {
		return lapspan.Plan{}, "", err
	}
	plan, err := lapspan.Propose(ctx, job)
	if err != nil {
		return lapspan.Plan{}, "", err
	}
	plan = lapspan.Explain(job, plan)
	return plan, lapspan.Sheet(job, plan), nil
}

// writeWhole writes a file under another name first, so that it is there whole or not at all.
func writeWhole(name string, data []byte) error {
	if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(name), ".part-*")
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	err = errors.Join(err, f.Chmod(0o666), f.Close())
	if err == nil {
		err = os.Rename(f.Name(), name)
	}
	if err != nil {
		return errors.Join(err, os.Remove(f.Name()))
	}
	return nil
}

package opening

import (
	"cmp"
	"fmt"
	"slices"
)

// Severity says what a finding does to the job. The zero value is not a severity.
type Severity string

const (
	Stop Severity = "stop" // no proposal until the cause is mended
	Warn Severity = "warn" // read it before ordering
	Note Severity = "note" // worth knowing
)

// IsValid reports whether s is one of the three severities.
func (s Severity) IsValid() bool { return s == Stop || s == Warn || s == Note }

// Code names a kind of finding. Codes are stable: a program may switch on them.
type Code string

// Finding is one thing a fitter should know before going on, as data.
type Finding struct {
	Code     Code     `json:"code"`     // of its kind
	Severity Severity `json:"severity"` // what it does to the job
	// Place is the path of its cause in the job document, such as opening.widths[1].size.
	Place   string `json:"place"`
	Message string `json:"message"` // what was found, in a sentence
	Remedy  string `json:"remedy"`  // what to do about it
}

// Findings is a list of findings. It is not an error: see Err.
type Findings []Finding

// Sorted returns the findings by place, then code, then message, each once.
// The receiver is left as it is.
func (f Findings) Sorted() Findings {
	out := slices.Clone(f)
	slices.SortStableFunc(out, func(a, b Finding) int {
		return cmp.Or(
			cmp.Compare(a.Place, b.Place),
			cmp.Compare(a.Code, b.Code),
			cmp.Compare(a.Message, b.Message),
		)
	})
	return slices.Compact(out)
}

// Has reports whether a finding with the code is among them.
func (f Findings) Has(code Code) bool {
	return slices.ContainsFunc(f, func(g Finding) bool { return g.Code == code })
}

// Stops reports whether a finding stops the job.
func (f Findings) Stops() bool {
	return slices.ContainsFunc(f, func(g Finding) bool { return g.Severity == Stop })
}

// Err returns a literal nil when nothing stops the job, else a *StopError that
// holds the findings that do, sorted.
func (f Findings) Err() error {
	var stops Findings
	for _, g := range f {
		if g.Severity == Stop {
			stops = append(stops, g)
		}
	}
	if len(stops) == 0 {
		return nil
	}
	return &StopError{Findings: stops.Sorted()}
}

// StopError is what Findings.Err returns: at least one finding of severity stop.
type StopError struct {
	Findings Findings // sorted, all of severity stop
}

// Error names the first finding and how many others stop the job.
func (e *StopError) Error() string {
	if len(e.Findings) == 0 {
		return "opening: stopped"
	}
	first := e.Findings[0]
	if more := len(e.Findings) - 1; more > 0 {
		return fmt.Sprintf("opening: %s: %s (and %d more)", first.Place, first.Message, more)
	}
	return fmt.Sprintf("opening: %s: %s", first.Place, first.Message)
}

// InputError is an argument that cannot be used at all: not a matter for a
// fitter's judgement but a mistake in the document or the call.
type InputError struct {
	Place  string // path in the job document, such as doors.sizes[0].width
	Reason string // why it cannot be used
}

// Error gives the place and the reason.
func (e *InputError) Error() string { return e.Place + ": " + e.Reason }

// Refuse returns an *InputError with a formatted reason.
func Refuse(place, reason string, args ...any) error {
	return &InputError{Place: place, Reason: fmt.Sprintf(reason, args...)}
}

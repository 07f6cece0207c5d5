package units

import (
	"errors"
	"fmt"
)

// The errors of spans, for [errors.Is].
var (
	// ErrReversed: the Min of a span is greater than its Max.
	ErrReversed = errors.New("span is reversed")
	// ErrNoMultiple: no multiple of a step lies inside a span.
	ErrNoMultiple = errors.New("no multiple of the step inside the span")
)

// Span is the lengths from Min to Max, both among them. The zero value is the span of 0 alone. A
// span whose Min is greater than its Max is reversed: it contains nothing, and [Span.Validate]
// refuses it.
type Span struct {
	Min Length `json:"min"` // the least length inside
	Max Length `json:"max"` // the greatest length inside
}

// Validate returns [ErrReversed], with the span, if Min is greater than Max.
func (s Span) Validate() error {
	if s.Min > s.Max {
		return fmt.Errorf("units: %v: %w", s, ErrReversed)
	}
	return nil
}

// Contains says whether Min <= l <= Max.
func (s Span) Contains(l Length) bool {
	return s.Min <= l && l <= s.Max
}

// Width returns Max - Min, which is negative for a reversed span. Within ±[MaxLength] it cannot wrap.
func (s Span) Width() Length {
	return s.Max - s.Min
}

// RoundInside returns the span with its limits on multiples of step, neither outside the span as
// it was: a minimum rounds up and a maximum down. So a limit of the maker's stays kept.
//
// The error is [ErrReversed] for a reversed span, [ErrStep] for a step of 0 or less, [ErrRange]
// when a multiple does not fit an int64, and [ErrNoMultiple] when nothing is left.
func (s Span) RoundInside(step Length) (Span, error) {
	if err := s.Validate(); err != nil {
		return Span{}, err
	}
	least, err := s.Min.Round(step, Up)
	if err != nil {
		return Span{}, err
	}
	greatest, err := s.Max.Round(step, Down)
	if err != nil {
		return Span{}, err
	}
	if least > greatest {
		return Span{}, fmt.Errorf("units: %v in steps of %v: %w", s, step, ErrNoMultiple)
	}
	return Span{Min: least, Max: greatest}, nil
}

// String returns the span in millimetres, exactly: "30 to 35 mm", or "30 mm" where Min is Max.
func (s Span) String() string {
	if s.Min == s.Max {
		return s.Min.String()
	}
	return s.Min.Millimetres() + " to " + s.Max.String()
}

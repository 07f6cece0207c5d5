package doors

import (
	"context"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// TableRow is the best run for one width of opening.
type TableRow struct {
	Opening units.Length // its width, all over
	// Fits is false when no run closes the opening; Best is the zero Ranked then.
	Fits bool
	Best Ranked // the first in rank
}

// Table returns the best run of a search for every width of opening in a span,
// a step apart from the narrowest on: the widths table of a range. Each opening
// is taken to be of one width all over; of Fit and Wide only the doubts of Fit
// are used, and Limit is not. What does not depend on the opening is worked out
// once for all.
//
// The step must be above zero and the table of at most units.MaxPieces rows; the
// error is an *opening.InputError then, else one of Best, or ErrWork.
func Table(ctx context.Context, s Search, openings units.Span, step units.Length) ([]TableRow, error) {
	if err := opening.CheckSize("step", step); err != nil {
		return nil, err
	}
	s.Fit.Span, s.Wide, s.Limit = openings, Fit{}, 1
	if err := s.validate(); err != nil {
		return nil, err
	}
	if n := int64(openings.Max-openings.Min)/int64(step) + 1; n > units.MaxPieces {
		return nil, opening.Refuse("step", "it makes %d rows; at most %d can be made", n, units.MaxPieces)
	}
	p, err := s.prepare(ctx, openings.Max)
	if err != nil {
		return nil, err
	}
	var rows []TableRow
	for w := openings.Min; w <= openings.Max; w += step {
		fit := s.Fit
		fit.Span = units.Span{Min: w, Max: w}
		found, err := p.best(ctx, fit, fit, 1)
		if err == nil && !found.Proven {
			err = ErrWork
		}
		if err != nil {
			return nil, err
		}
		row := TableRow{Opening: w, Fits: len(found.Runs) > 0}
		if row.Fits {
			row.Best = found.Runs[0]
		}
		rows = append(rows, row)
	}
	return rows, nil
}

package trim

import (
	"fmt"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Edge is one edge of the cover boards that a strip may be put on.
type Edge struct {
	Where  string       `json:"where"`  // one of the words below
	Length units.Length `json:"length"` // of the edge itself
}

// The edges of a front.
const (
	LowerEdge = "lower edge"
	UpperEdge = "upper edge"
	LeftEnd   = "left end"
	RightEnd  = "right end"
	OverJoint = "joint"
)

// Edges returns the edges of a cover, for edging and cover strips: the lower edge of
// all boards as one, for a strip that hides it; the upper edge along the ceiling, for a
// bead over the scribed line; the two ends, where the wall lets them be seen; and each
// joint. With the ends (a, h₁) and (b, h₂) of each straight stretch of the upper edge:
//
//	upper edge   Σ √((b − a)² + (h₂ − h₁)²), each rounded up to a nanometre
//
// A strip is as long as what it covers; mitres and overhang are the buyer's to add.
// The error is units.ErrRange for boards that no CoverBoards returned.
func Edges(boards []Board) ([]Edge, error) {
	if len(boards) == 0 || len(boards) > MaxBoards {
		return nil, fmt.Errorf("trim: edges of %d boards: %w", len(boards), units.ErrRange)
	}
	var upper units.Length
	for _, b := range boards {
		if len(b.Edge) < 2 || len(b.Edge) > MaxStations {
			return nil, fmt.Errorf("trim: an edge of %d places: %w", len(b.Edge), units.ErrRange)
		}
		for i, s := range b.Edge {
			if opening.CheckPosition("", s.At) != nil || opening.CheckPosition("", s.Height) != nil {
				return nil, fmt.Errorf("trim: an edge %s high at %s: %w", s.Height, s.At, units.ErrRange)
			}
			if i == 0 {
				continue
			}
			stretch, err := units.RootSumSquares(s.At-b.Edge[i-1].At, s.Height-b.Edge[i-1].Height)
			if err != nil {
				return nil, fmt.Errorf("trim: %w", err)
			}
			upper += stretch
		}
	}
	first, last := boards[0], boards[len(boards)-1]
	edges := []Edge{
		{LowerEdge, last.To - first.From},
		{UpperEdge, upper},
		{LeftEnd, first.Edge[0].Height},
		{RightEnd, last.Edge[len(last.Edge)-1].Height},
	}
	for _, b := range boards[1:] {
		edges = append(edges, Edge{OverJoint, b.Edge[0].Height})
	}
	return edges, nil
}

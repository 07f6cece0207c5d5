package lapspan

import (
	"example.com/lapspan/doors"
	"example.com/lapspan/frame"
	"example.com/lapspan/opening"
	"example.com/lapspan/trim"
	"example.com/lapspan/units"
)

// Plan is the answer to a job: what was found in the survey, and the proposals, best first.
type Plan struct {
	Findings opening.Findings `json:"findings"` // sorted by place, then code
	// Cautions are the safety notes that apply, each once, in plain words.
	Cautions  []string   `json:"cautions"`
	Total     Total      `json:"total"`     // how many proposals there are, listed or not
	Proposals []Proposal `json:"proposals"` // the best of them by the rank, best first
	// NearMisses are runs of doors that do not close the opening by little, the nearest first.
	NearMisses []NearMiss `json:"near_misses,omitzero"`
	// Refused are the methods that were not offered for a stock height, with the reason.
	Refused []doors.Refusal `json:"refused,omitzero"`
}

// Total says how many proposals there are, listed or not.
type Total struct {
	Count int  `json:"count"` // proposals
	Exact bool `json:"exact"` // false: there are at least so many
}

// Proposal is one way to close the opening that can be built.
type Proposal struct {
	Skirting    Treatments     `json:"skirting"`     // what becomes of the skirtings
	ClearWidth  units.Span     `json:"clear_width"`  // narrowest to widest
	ClearHeight units.Length   `json:"clear_height"` // once a floor covering to come is down
	Doors       []doors.Door   `json:"doors"`        // from left to right
	Overlaps    []units.Length `json:"overlaps"`     // at each junction in the widest reading, 0 where doors meet
	Cover       units.Length   `json:"cover"`        // the widest opening the doors close
	Access      units.Length   `json:"access"`       // the widest clear gap in the narrowest reading
	AccessAt    doors.Gap      `json:"access_at"`    // where it is, from the left wall
	Sight       doors.Sight    `json:"sight"`        // what is seen of each door in the widest reading
	// PullOuts says how each pull-out of the interior comes out.
	PullOuts []PullOutUse `json:"pull_outs,omitzero"`
	// Blind is the stretches that no parking of the doors clears, from the left
	// wall; looked for where the job has an interior.
	Blind []doors.Gap `json:"blind,omitzero"`
	// Uprights is the best places for uprights behind the doors, from the left
	// wall; looked for where the interior has an upright.
	Uprights   []doors.Gap  `json:"uprights,omitzero"`
	DoorMasses []units.Mass `json:"door_masses,omitzero"` // as hung, left to right; none where the build does not tell
	Height     doors.Height `json:"height"`               // how the height is used
	// Packer is the thicknesses of the packer's pieces, ascending.
	Packer   []units.Length  `json:"packer,omitzero"`
	Bulkhead *frame.Bulkhead `json:"bulkhead,omitzero"` // nil for other methods
	CutDown  *trim.CutDown   `json:"cut_down,omitzero"` // nil for other methods
	// CoverBoards cover the front of a bulkhead, where the job has sheets for it.
	CoverBoards *trim.Cover `json:"cover_boards,omitzero"`
	// EndDoors says how the doors at the two ends close on walls that lean; none where no wall is known to.
	EndDoors []opening.EndDoor `json:"end_doors,omitzero"`
	// SideWork is the end panel or the cut skirting at each side; none where neither is.
	SideWork []opening.SideWork `json:"side_work,omitzero"`
	// MeasureAgain is the readings to take again before ordering, the one of most use first.
	MeasureAgain []opening.Again `json:"measure_again,omitzero"`
	// Details are the packing, ends, fixings, stiffness and marks; filled by Explain.
	Details *frame.Details `json:"details,omitzero"`
	Margin  Margins        `json:"margin"` // how far a reading may be out
	Order   []OrderLine    `json:"order"`  // doors, gear, what stands above, sundries
	// CutList says how each bar of the order is cut, longest piece first.
	CutList []BarCut `json:"cut_list,omitzero"`
	// Price is the sum of the order, with the digits of the currency; empty when a line has no price.
	Price    string           `json:"price,omitzero"`
	Working  []units.Line     `json:"working,omitzero"` // filled by Explain
	Findings opening.Findings `json:"findings"`         // sorted by place, then code
}

// Treatments says what becomes of the skirting at each side.
type Treatments struct {
	Left  opening.Treatment `json:"left"`  // none, cut back or end panel
	Right opening.Treatment `json:"right"` // none, cut back or end panel
}

// PullOutUse says how the doors are parked for a pull-out.
type PullOutUse struct {
	Name  string `json:"name"`  // that of the pull-out
	Clear bool   `json:"clear"` // some parking clears it
	// Left is how many doors of each track are parked at the left, by track; none where nothing clears it.
	Left []int `json:"left,omitzero"`
	// Gap is what that leaves clear, from the left wall; nil where nothing clears it.
	Gap *doors.Gap `json:"gap,omitzero"`
}

// Margins say how far a reading may be out before what is ordered, or the method, has to change.
type Margins struct {
	Width  doors.Margin `json:"width"`  // under: the narrowest reading, over: the widest
	Height doors.Margin `json:"height"` // of the clear height
}

// OrderLine is one line of what to buy.
type OrderLine struct {
	Item  string `json:"item"`          // what to buy
	Size  string `json:"size,omitzero"` // of one, in words; empty for parts
	Count int    `json:"count"`         // how many
	// Price is that of the whole line, rounded once to the minor unit of the
	// currency; empty when it is not known.
	Price string `json:"price,omitzero"`
}

// BarCut is one bar of the order and the pieces cut from it.
type BarCut struct {
	Item   string         `json:"item"`   // as in the order
	Stock  units.Length   `json:"stock"`  // length of the bar as bought
	Pieces []units.Length `json:"pieces"` // what is cut from it
	Offcut units.Length   `json:"offcut"` // what is left whole
}

// NearMiss is a run of doors that does not close the opening.
type NearMiss struct {
	Skirting    Treatments   `json:"skirting"`     // what the opening was measured with
	Doors       []doors.Door `json:"doors"`        // from left to right
	StockHeight units.Length `json:"stock_height"` // the tallest that could be hung
	Side        Side         `json:"side"`         // which way it misses
	By          units.Length `json:"by"`           // and by how much
	Message     string       `json:"message"`      // the same in words
	// Changes are the changes of which each alone would make it close the opening, the least first.
	Changes []doors.Change `json:"changes,omitzero"`
}

// Side says which way a run of doors misses.
type Side string

const (
	Short Side = "short" // its cover is less than the widest reading
	Over  Side = "over"  // at the greatest overlap it is still wider than the narrowest reading
)

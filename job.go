package lapspan

import (
	"cmp"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/lapspan/doors"
	"example.com/lapspan/frame"
	"example.com/lapspan/opening"
	"example.com/lapspan/trim"
	"example.com/lapspan/units"
)

// Job is one opening and what may be put into it. Fields that are optional in
// the document are optional here: their zero value means the stated default.
type Job struct {
	// Reference names the job on its sheet: at most MaxReference characters, all printable.
	Reference string         `json:"reference,omitzero"`
	Opening   opening.Survey `json:"opening"`           // what was measured in the room
	Interior  *Interior      `json:"interior,omitzero"` // nil: nothing stands behind the doors
	Doors     doors.Range    `json:"doors"`             // the doors to choose from
	Gear      doors.Gear     `json:"gear"`              // what they run on
	Timber    *doors.Timber  `json:"timber,omitzero"`   // nil: no bulkhead
	Boards    []doors.Board  `json:"boards,omitzero"`   // what packers are stacked from; may be empty
	Frame     frame.Options  `json:"frame,omitzero"`    // what is asked of the frame over the doors
	Cover     *trim.Covering `json:"cover,omitzero"`    // sheets to cover a bulkhead with; nil: no cover boards
	Trim      doors.Cutting  `json:"trim,omitzero"`     // how doors are cut down
	Sundries  Sundries       `json:"sundries,omitzero"` // prices of what else is bought
	Currency  Currency       `json:"currency,omitzero"` // what prices are counted in
	// Rank orders the proposals; none: DefaultRank.
	Rank []Key `json:"rank,omitzero"`
	// Limit is how many proposals are wanted, 1 to MaxLimit; zero: DefaultLimit.
	Limit int `json:"limit,omitzero"`
}

// The bounds of a job.
const (
	MaxReference = 200
	MaxPullOuts  = 100
	MaxLimit     = 1000
	DefaultLimit = 10
	MaxDigits    = 4
)

// Interior is what stands behind the doors.
type Interior struct {
	Depth units.Length `json:"depth"` // clear, from the back wall
	// Clearance stays free at each side of a pull-out; nil: DefaultPullOutClearance.
	Clearance *units.Length `json:"clearance,omitzero"`
	PullOuts  []PullOut     `json:"pull_outs,omitzero"` // at most MaxPullOuts
	// Upright is the thickness of an upright; zero: places for uprights are not looked for.
	Upright units.Length `json:"upright,omitzero"`
}

// DefaultPullOutClearance stays free at each side of a pull-out (common practice).
const DefaultPullOutClearance = 10 * units.Millimetre

// PullOut is a drawer or a basket that must come out between the doors.
type PullOut struct {
	Name string       `json:"name"` // as a person would call it
	From units.Length `json:"from"` // its left side, from the left wall
	To   units.Length `json:"to"`   // its right side, from the left wall; more than From
}

func (in *Interior) clearance() units.Length {
	if in.Clearance == nil {
		return DefaultPullOutClearance
	}
	return *in.Clearance
}

// Sundries are the prices of what an opening may need beside doors, gear, timber and boards; nil: not known.
type Sundries struct {
	EndPanel *units.Money `json:"end_panel,omitempty"` // for one end panel
	Strip    *units.Money `json:"strip,omitempty"`     // a metre of the strip under the rail
}

// Currency is what prices are counted in. The zero value has no code and two digits.
type Currency struct {
	Code   string `json:"code,omitzero"`   // printed beside prices, at most 10 characters
	Digits *int   `json:"digits,omitzero"` // of the minor unit, 0 to MaxDigits; nil: 2
}

// MinorDigits is the number of digits of the minor unit.
func (c Currency) MinorDigits() int {
	if c.Digits == nil {
		return 2
	}
	return *c.Digits
}

func (j Job) limit() int {
	if j.Limit == 0 {
		return DefaultLimit
	}
	return j.Limit
}

// Validate refuses a job that cannot be used, with the place. The error is an
// *opening.InputError. A job whose readings are wrong is valid: Propose says
// what is wrong with them.
func (j Job) Validate() error {
	if err := cmp.Or(
		checkText("reference", j.Reference, MaxReference),
		j.Opening.Validate(),
		j.Interior.validate(),
		j.Doors.Validate(),
		j.Gear.Validate(),
		validateTimber(j.Timber),
		doors.ValidateBoards(j.Boards),
		j.Trim.Validate(),
		j.Frame.Validate(),
		validateCover(j.Cover),
		checkText("currency.code", j.Currency.Code, 10),
		opening.CheckWords("rank", j.Rank, keys),
	); err != nil {
		return err
	}
	for _, side := range []struct {
		place    string
		end      frame.End
		skirting *opening.Skirting
	}{{"frame.left_end", j.Frame.LeftEnd, j.Opening.Skirting.Left}, {"frame.right_end", j.Frame.RightEnd, j.Opening.Skirting.Right}} {
		if side.end.IsFree() && side.skirting != nil {
			return opening.Refuse(side.place, "a %s stands where there is no wall, and a skirting is given there", side.end)
		}
	}
	for i, p := range j.Gear.Parts {
		if checkText("", p.Item, MaxReference) != nil {
			return checkText(fmt.Sprintf("gear.parts[%d].item", i), p.Item, MaxReference)
		}
	}
	if d := j.Currency.MinorDigits(); d < 0 || d > MaxDigits {
		return opening.Refuse("currency.digits", "%d is not 0 to %d", d, MaxDigits)
	}
	if n := j.limit(); n < 1 || n > MaxLimit {
		return opening.Refuse("limit", "%d is not 1 to %d", n, MaxLimit)
	}
	return nil
}

func validateTimber(t *doors.Timber) error {
	if t == nil {
		return nil
	}
	return t.Validate()
}

func validateCover(c *trim.Covering) error {
	if c == nil {
		return nil
	}
	return c.Validate("cover")
}

func (in *Interior) validate() error {
	if in == nil {
		return nil
	}
	if err := cmp.Or(
		opening.CheckSize("interior.depth", in.Depth),
		opening.CheckPosition("interior.clearance", in.clearance()),
		opening.CheckPosition("interior.upright", in.Upright),
	); err != nil {
		return err
	}
	if len(in.PullOuts) > MaxPullOuts {
		return opening.Refuse("interior.pull_outs", "%d pull-outs; at most %d can be used", len(in.PullOuts), MaxPullOuts)
	}
	for i, p := range in.PullOuts {
		if p.validate("") != nil {
			return p.validate(fmt.Sprintf("interior.pull_outs[%d]", i))
		}
	}
	return nil
}

func (p PullOut) validate(place string) error {
	if err := cmp.Or(
		checkText(place+".name", p.Name, MaxReference),
		opening.CheckPosition(place+".from", p.From),
		opening.CheckBound(place+".to", p.To),
	); err != nil {
		return err
	}
	if p.To <= p.From {
		return opening.Refuse(place, "it runs from %s to %s", p.From, p.To)
	}
	return nil
}

// checkText refuses what would not print on one line of a sheet.
func checkText(place, text string, most int) error {
	if utf8.RuneCountInString(text) > most {
		return opening.Refuse(place, "more than %d characters", most)
	}
	if !utf8.ValidString(text) || strings.ContainsFunc(text, func(r rune) bool { return !unicode.IsPrint(r) }) {
		return opening.Refuse(place, "%s has characters that do not print", opening.Quote(text))
	}
	return nil
}

package lapspan_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math/big"
	"regexp"
	"strings"
)

// The oracle reads the job document with its own few lines and computes with
// its own plain integers, so that it shares nothing with what it judges.

// oracleNM is a length in nanometres.
type oracleNM int64

const oracleMM oracleNM = 1_000_000

func (l oracleNM) String() string {
	return new(big.Rat).SetFrac64(int64(l), int64(oracleMM)).FloatString(6)
}

var (
	oracleMetric   = regexp.MustCompile(`^(-?[0-9]+(?:\.[0-9]+)?) ?(mm|cm|m|in|"|ft|')?$`)
	oracleFeetInch = regexp.MustCompile(`^(?:([0-9]+) ?(?:'|ft) ?)?(?:([0-9]+)(?: |$|"))?(?:([0-9]+)/([0-9]+) ?)?(?:"|in)?$`)
	oracleGlyphs   = strings.NewReplacer("½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "′", "'", "″", `"`)
)

// oracleUnit is the length of one of each unit in nanometres.
var oracleUnit = map[string]int64{"": 1e6, "mm": 1e6, "cm": 1e7, "m": 1e9, "in": 254e5, `"`: 254e5, "ft": 3048e5, "'": 3048e5}

// oracleRead reads the spellings the job generator writes.
func oracleRead(text string) (oracleNM, error) {
	plain := strings.TrimSpace(strings.ReplaceAll(oracleGlyphs.Replace(text), "  ", " "))
	if m := oracleMetric.FindStringSubmatch(plain); m != nil {
		number, ok := new(big.Rat).SetString(m[1])
		if !ok {
			return 0, fmt.Errorf("%q is no number", m[1])
		}
		number.Mul(number, new(big.Rat).SetInt64(oracleUnit[m[2]]))
		if !number.IsInt() {
			return 0, fmt.Errorf("%q is finer than a nanometre", text)
		}
		return oracleNM(number.Num().Int64()), nil
	}
	m := oracleFeetInch.FindStringSubmatch(plain)
	if m == nil || m[1]+m[2]+m[3] == "" {
		return 0, fmt.Errorf("%q is no length the oracle knows", text)
	}
	sum := new(big.Rat)
	for i, unit := range []int64{3048e5, 254e5} {
		if m[i+1] == "" {
			continue
		}
		whole, _ := new(big.Rat).SetString(m[i+1])
		sum.Add(sum, whole.Mul(whole, new(big.Rat).SetInt64(unit)))
	}
	if m[3] != "" {
		part, _ := new(big.Rat).SetString(m[3] + "/" + m[4])
		sum.Add(sum, part.Mul(part, new(big.Rat).SetInt64(254e5)))
	}
	if !sum.IsInt() {
		return 0, fmt.Errorf("%q is finer than a nanometre", text)
	}
	return oracleNM(sum.Num().Int64()), nil
}

func (l *oracleNM) UnmarshalJSON(data []byte) error {
	if string(data) == "null" {
		return errors.New("null length")
	}
	text := string(data)
	if data[0] == '"' {
		if err := json.Unmarshal(data, &text); err != nil {
			return err
		}
	}
	read, err := oracleRead(text)
	if err == nil {
		*l = read
	}
	return err
}

type oracleJob struct {
	Reference string
	Opening   struct {
		Widths, Heights []oracleReading
		Depths          []oracleReading
		Levels          []oracleLevel
		Skirting        struct{ Left, Right *oracleSkirting }
		EndPanel        oracleNM  `json:"end_panel"`
		CarpetToCome    oracleNM  `json:"carpet_to_come"`
		Accuracy        *oracleNM `json:"accuracy"`
	}
	Interior *struct {
		PullOuts []struct{ Name string } `json:"pull_outs"`
	}
	Doors struct {
		Sizes         []oracleSize
		MadeToMeasure *oracleMaker `json:"made_to_measure"`
		MaxDoors      *int         `json:"max_doors"`
		MixedWidths   bool         `json:"mixed_widths"`
		Arrangement   string
		Build         *oracleBuild
	}
	Gear struct {
		Tracks             int
		Overlap, Allowance oracleGearSpan
		MeetingGap         oracleNM `json:"meeting_gap"`
		CarriedBy          string   `json:"carried_by"`
	}
	Timber *oracleTimber
	Boards []struct{ Thickness oracleNM }
	Trim   struct {
		CutSplit   string    `json:"cut_split"`
		Step       *oracleNM `json:"step"`
		DeepestCut *oracleNM `json:"deepest_cut"`
	}
	Rank  []string
	Limit *int
}

type oracleReading struct {
	At, Size oracleNM
	Between  string
	Checked  bool
}

type oracleLevel struct{ At, Floor, Ceiling oracleNM }

type oracleSkirting struct {
	Thickness, Height oracleNM
	Treatment         string
}

type oracleSize struct{ Width, Height oracleNM }

type oracleSpan struct{ Min, Max oracleNM }

type oracleMaker struct {
	Width, Height oracleSpan
	Step          *oracleNM
}

type oracleGearSpan struct {
	Min, Max oracleNM
	Aim      *oracleNM
}

type oracleBuild struct {
	TopBar     oracleNM `json:"top_bar"`
	BottomBar  oracleNM `json:"bottom_bar"`
	Bar        oracleNM
	LeastPanel oracleNM `json:"least_panel"`
	Panels     []struct {
		Share     int64
		CutOnSite bool `json:"cut_on_site"`
	}
}

type oracleTimber struct {
	Thickness, Width oracleNM
	Lengths          []struct{ Length oracleNM }
	StudSpacing      *oracleNM `json:"stud_spacing"`
}

func oracleOr[T any](given *T, otherwise T) T {
	if given == nil {
		return otherwise
	}
	return *given
}

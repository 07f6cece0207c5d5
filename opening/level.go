package opening

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/lapspan/units"
)

// levelHeight is the clear height between level planes: least floor plus least ceiling.
func (s Survey) levelHeight() (units.Length, Deciding) {
	floor, ceiling := s.leastLevels()
	// The sum of two squares within MaxLength cannot be out of range.
	uncertainty, _ := units.RootSumSquares(s.accuracy(), s.accuracy())
	return s.Levels[floor].Floor + s.Levels[ceiling].Ceiling, Deciding{
		Places: []string{
			fmt.Sprintf("opening.levels[%d].floor", floor),
			fmt.Sprintf("opening.levels[%d].ceiling", ceiling),
		},
		Uncertainty: uncertainty,
	}
}

// leastLevels returns the indexes of the least level down to the floor and of
// the least up to the ceiling, the first of equal ones.
func (s Survey) leastLevels() (floor, ceiling int) {
	for i, l := range s.Levels {
		if l.Floor < s.Levels[floor].Floor {
			floor = i
		}
		if l.Ceiling < s.Levels[ceiling].Ceiling {
			ceiling = i
		}
	}
	return floor, ceiling
}

// levelSlips are the findings about levels that cannot be right. A level is on
// trial only where the nearest tape height contradicts it: a floor that really
// falls is no slip. There must be heights, and they must have passed.
func (s Survey) levelSlips() Findings {
	if len(s.Levels) == 0 {
		return nil
	}
	// The level line may be struck anywhere, so a level is plausible as long as a room is high.
	anyHeight := units.Span{Min: 1, Max: plausibleHeight.Max}
	floors := series{place: "opening.levels", reading: "opening.levels[%d].floor", noun: "levels down to the floor", plausible: anyHeight}
	ceilings := series{place: "opening.levels", reading: "opening.levels[%d].ceiling", noun: "levels up to the ceiling", plausible: anyHeight}
	doubted := 0
	for i, l := range s.Levels {
		confirmed := (l.Floor + l.Ceiling - s.nearestHeight(l.At)).Abs() <= contradictedBy
		if !confirmed {
			doubted++
		}
		floors.samples = append(floors.samples, sample{i, l.Floor, l.Floor, confirmed})
		ceilings.samples = append(ceilings.samples, sample{i, l.Ceiling, l.Ceiling, confirmed})
	}
	var found Findings
	for _, kind := range []series{floors, ceilings} {
		for _, f := range kind.slips() {
			if f.Severity == Stop { // a confirmed level is no finding at all
				f.Remedy = "read it again; the tape height there does not bear it out"
				found = append(found, f)
			}
		}
	}
	h, _ := s.levelHeight()
	if len(found) == 0 && doubted == len(s.Levels) && !plausibleHeight.Contains(h) {
		found = append(found, Finding{
			Code: CodeUnitSlip, Severity: Stop, Place: "opening.levels",
			Message: fmt.Sprintf("a clear height of %s between the levels is outside %s", h, plausibleHeight),
			Remedy:  "check the unit the levels were written in",
		})
	}
	return found
}

// contradictedBy is how far a reading and a witness of another kind may differ
// before the reading is on trial: half of what makes a slip.
const contradictedBy = slipLeast / 2

// nearestHeight is the tape height read nearest to a place, the first of equally near ones.
func (s Survey) nearestHeight(at units.Length) units.Length {
	nearest := s.Heights[0]
	for _, h := range s.Heights {
		if (h.At - at).Abs() < (nearest.At - at).Abs() {
			nearest = h
		}
	}
	return nearest.Size
}

// disagreements are the places where tape and levels do not tell the same height.
func (s Survey) disagreements() Findings {
	// Two levels and a tape reading: three accuracies. The limit, √3 of them, is
	// never a whole number of nanometres and comes rounded up, so a difference
	// that reaches it is more than the limit.
	limit, err := units.RootSumSquares(s.accuracy(), s.accuracy(), s.accuracy())
	if err != nil {
		return nil // no accuracy within units.MaxLength does this
	}
	var found Findings
	for i, l := range s.Levels {
		for j, h := range s.Heights {
			apart := (l.Floor + l.Ceiling - h.Size).Abs()
			if l.At == h.At && apart >= limit {
				found = append(found, Finding{
					Code: CodeLevelsDisagree, Severity: Warn, Place: fmt.Sprintf("opening.levels[%d]", i),
					Message: fmt.Sprintf("levels and tape (opening.heights[%d]) differ by %s at %s", j, apart, l.At),
					Remedy:  "measure both again at that place",
				})
			}
		}
	}
	return found
}

// Packing is what goes under the rail and above the track at one station so that both lie level.
type Packing struct {
	At    units.Length `json:"at"`    // from the left wall
	Rail  units.Length `json:"rail"`  // under the rail
	Track units.Length `json:"track"` // above the track
}

// Packing returns the packing at each station where levels were taken, from the
// left: under the rail the level down to the floor there less the least, above
// the track the level up to the ceiling there less the least. Nothing goes where
// the floor is highest and where the ceiling is lowest. None without levels.
func (s Survey) Packing() []Packing {
	if len(s.Levels) == 0 {
		return nil
	}
	floor, ceiling := s.leastLevels()
	list := make([]Packing, len(s.Levels))
	for i, l := range s.Levels {
		list[i] = Packing{l.At, l.Floor - s.Levels[floor].Floor, l.Ceiling - s.Levels[ceiling].Ceiling}
	}
	slices.SortStableFunc(list, func(a, b Packing) int { return cmp.Compare(a.At, b.At) })
	return list
}

// fallsAlike is the finding that level planes leave less than the tape finds
// anywhere: floor and ceiling fall the same way.
func (s Survey) fallsAlike() Findings {
	if len(s.Levels) == 0 {
		return nil
	}
	h, d := s.levelHeight()
	least := s.Levels[0].Floor + s.Levels[0].Ceiling
	for _, l := range s.Levels {
		least = min(least, l.Floor+l.Ceiling)
	}
	if least-h <= d.Uncertainty {
		return nil
	}
	return Findings{{
		Code: CodeFallsAlike, Severity: Note, Place: "opening.levels",
		Message: fmt.Sprintf("floor and ceiling fall the same way: the tape finds %s everywhere or more, between level planes there are %s", least, h),
		Remedy:  "pack the rail and the track level as listed station by station; the height between them decides",
	}}
}

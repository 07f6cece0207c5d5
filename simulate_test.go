package lapspan_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/lapspan"
	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// simulatedRooms is how many rooms each simulation draws.
const simulatedRooms = 3000

// simulatedRoom is a room as it is, in millimetres: x from the left plumb line
// to the right, y up from the level plane through the foot of the left plumb
// line, z towards the room from the middle of the gear. Nothing below uses the
// library's formulas or its arithmetic.
type simulatedRoom struct {
	apart       float64    // distance between the two plumb lines
	height      float64    // between the planes that floor and ceiling would be
	lean, bow   [2]float64 // of the left and the right wall, outwards at the top and at half the height
	turn        [2]float64 // of each wall in plan, outwards for each millimetre towards the room
	floor, ceil [2]float64 // rise to the right end, and upwards in the middle
}

// wave is a straight rise and a bow over a length, at a share of it.
func wave(rise, bow, share float64) float64 { return rise*share + bow*4*share*(1-share) }

func (r *simulatedRoom) left(y, z float64) float64 {
	return -wave(r.lean[0], r.bow[0], y/r.height) - r.turn[0]*z
}

func (r *simulatedRoom) right(y, z float64) float64 {
	return r.apart + wave(r.lean[1], r.bow[1], y/r.height) + r.turn[1]*z
}

func (r *simulatedRoom) under(x float64) float64 { return wave(r.floor[0], r.floor[1], x/r.apart) }
func (r *simulatedRoom) over(x float64) float64 {
	return r.height + wave(r.ceil[0], r.ceil[1], x/r.apart)
}

// planes is the height between a level rail on the highest point of the floor
// and a level track under the lowest of the ceiling.
func (r *simulatedRoom) planes() float64 {
	high, low := math.Inf(-1), math.Inf(1)
	for x := 0.0; x <= r.apart; x += 5 {
		high, low = max(high, r.under(x)), min(low, r.over(x))
	}
	return low - high
}

// drawRoom draws a room within DIN 18202:2013: table 1 rows 3 and 4 (±16, ±20),
// table 2 (8 up to 3 m, 12 to 6 m), table 3 rows 3 and 6 (7 at 2.4 m).
func drawRoom(draw *rand.Rand) *simulatedRoom {
	within := func(limit float64) float64 { return (2*draw.Float64() - 1) * limit }
	angle := 8.0
	r := &simulatedRoom{apart: 1500 + math.Floor(draw.Float64()*20)*100, height: 2250 + math.Floor(draw.Float64()*8)*25}
	if r.apart > 3000 {
		angle = 12
	}
	r.apart += within(16)
	r.height += within(20)
	for i := range 2 {
		r.lean[i], r.bow[i], r.turn[i] = within(8), within(7), within(6.0/1000)
	}
	r.floor, r.ceil = [2]float64{within(angle), within(6.8)}, [2]float64{within(angle), within(7.3)}
	return r
}

// drawFlatRoom draws a room without any fault.
func drawFlatRoom(draw *rand.Rand) *simulatedRoom {
	return &simulatedRoom{apart: 1500 + math.Floor(draw.Float64()*200)*10, height: 2250 + math.Floor(draw.Float64()*200)}
}

// survey reads the room as one does: whole millimetres, each within ±2 of the truth.
func (r *simulatedRoom) survey(draw *rand.Rand, full bool) opening.Survey {
	read := func(truth float64) units.Length {
		if draw != nil {
			truth += (2*draw.Float64() - 1) * 1.5
		}
		return units.Length(math.Round(truth)) * units.Millimetre
	}
	exact := func(at float64) units.Length { return units.Length(math.Round(at)) * units.Millimetre }
	var s opening.Survey
	ys := []float64{60, math.Round(r.height / 2), math.Round(r.height) - 60}
	for _, y := range ys {
		s.Widths = append(s.Widths, opening.Width{At: exact(y), Size: read(r.right(y, 0) - r.left(y, 0))})
	}
	for _, x := range []float64{60, math.Round(r.apart / 2), math.Round(r.apart) - 60} {
		s.Heights = append(s.Heights, opening.Height{At: exact(x), Size: read(r.over(x) - r.under(x))})
		if full {
			const line = 1000 // the level line stands anywhere
			s.Levels = append(s.Levels, opening.Level{At: exact(x), Floor: read(line - r.under(x)), Ceiling: read(r.over(x) - line)})
		}
	}
	if full {
		for _, y := range ys {
			const off = 50 // the plumb lines hang inside the opening
			s.Leans.Left = append(s.Leans.Left, opening.Lean{At: exact(y), Size: read(off - r.left(y, 0))})
			s.Leans.Right = append(s.Leans.Right, opening.Lean{At: exact(y), Size: read(off + r.right(y, 0) - r.apart)})
		}
	}
	return s
}

// simulatedJob is a shop's range with room for every method.
func simulatedJob(s opening.Survey) lapspan.Job {
	mm := func(n int64) units.Length { return units.Length(n) * units.Millimetre }
	job := lapspan.Job{Reference: "simulated", Opening: s, Limit: 1}
	for _, w := range []int64{450, 550, 650, 750, 850, 950, 1100} {
		for _, h := range []int64{2000, 2200, 2260, 2400} {
			job.Doors.Sizes = append(job.Doors.Sizes, doors.Size{Width: mm(w), Height: mm(h)})
		}
	}
	job.Doors.MaxDoors = 5
	job.Gear = doors.Gear{
		Tracks: 2, Overlap: doors.Target{Min: mm(25), Max: mm(90)}, Allowance: doors.Target{Min: mm(30), Max: mm(42)},
		Depth: mm(84), Adjuster: mm(12),
	}
	job.Boards = []doors.Board{{Thickness: mm(6)}, {Thickness: mm(9)}, {Thickness: mm(12)}, {Thickness: mm(18)}, {Thickness: mm(25)}}
	job.Timber = &doors.Timber{Thickness: mm(47), Width: mm(95), Lengths: []doors.StockLength{{Length: mm(3000)}, {Length: mm(4800)}}}
	return job
}

// fits stands a proposal's doors in the room, door by door, and says what does
// not fit; "" when all does.
func fits(r *simulatedRoom, job *lapspan.Job, p *lapspan.Proposal) string {
	mm := func(l units.Length) float64 { return float64(l) / float64(units.Millimetre) }
	const rounding = 0.001
	door, gear := mm(p.Height.Door), job.Gear
	planes := r.planes()
	// The rail lies level on the highest point of the floor.
	foot := math.Inf(-1)
	for x := 0.0; x <= r.apart; x += 5 {
		foot = max(foot, r.under(x))
	}
	// End doors are tilted to lie against their wall, from foot to top at their own depth.
	type edge struct{ at, tilt float64 } // x of an edge at the foot of the door, and its run for each millimetre up
	depth := func(track int) float64 { return mm(gear.Depth) / 4 * float64(1-2*track) }
	n := len(p.Doors)
	first, last := p.Doors[0], p.Doors[n-1]
	tilt := [2]float64{
		(r.left(foot+door, depth(first.Track)) - r.left(foot, depth(first.Track))) / door,
		(r.right(foot+door, depth(last.Track)) - r.right(foot, depth(last.Track))) / door,
	}
	raised := max(math.Abs(tilt[0])*mm(first.Width), math.Abs(tilt[1])*mm(last.Width))
	if raised > mm(gear.Adjuster)+rounding {
		return "past the adjuster"
	}
	var start, end edge // where the end doors close on the walls
	start, end = edge{math.Inf(-1), tilt[0]}, edge{math.Inf(1), tilt[1]}
	for y := 0.0; y <= door; y += 5 {
		start.at = max(start.at, r.left(foot+y, depth(first.Track))-tilt[0]*y)
		end.at = min(end.at, r.right(foot+y, depth(last.Track))-tilt[1]*y)
	}
	// The height: under the track there must be the allowance, above the raised corner too.
	var stack float64
	for _, t := range p.Packer {
		stack += mm(t)
	}
	least, most := mm(gear.Allowance.Min), mm(gear.Allowance.Max)
	switch left := planes - door - stack; p.Height.Method {
	case doors.AsIs, doors.Packer, doors.ToMeasure:
		if left-raised < least-rounding {
			return fmt.Sprintf("%s: %.1f less %.1f is under the allowance", p.Height.Method, left, raised)
		}
		if left > most+rounding {
			return fmt.Sprintf("%s: %.1f is over the allowance", p.Height.Method, left)
		}
	case doors.Bulkhead: // built to the height found
		if left-least-raised < 2*mm(job.Timber.Thickness)+mm(doors.ShortestStud)-rounding {
			return "bulkhead: no room for its studs"
		}
	case doors.CutDown: // cut to the height found
		if stock := mm(p.Height.Stock); planes-stock >= least+rounding {
			return "cut down: nothing to cut"
		}
	}
	// The doors between stand plumb and can be slid to and fro; each has places
	// that keep its overlap over its whole height.
	shut := start
	shut.at += mm(first.Width) // the right edge of the door before
	plumb := func(e edge) (in, out float64) { return min(e.at, e.at+e.tilt*door), max(e.at, e.at+e.tilt*door) }
	overlap := [2]float64{mm(gear.Overlap.Min), mm(gear.Overlap.Max)}
	// far and near are how far right the next door's left edge may and must stand.
	in, out := plumb(shut)
	far, near := in-overlap[0], out-overlap[1]
	for _, d := range p.Doors[1 : n-1] {
		if near > far+rounding {
			return "an overlap cannot be kept over the height"
		}
		far, near = far+mm(d.Width)-overlap[0], near+mm(d.Width)-overlap[1]
	}
	begin := edge{end.at - mm(last.Width), end.tilt} // the left edge of the last door
	in, out = plumb(begin)
	if n == 2 { // both ends lean: the overlap at the foot and at the top
		for _, y := range []float64{0, door} {
			o := shut.at + shut.tilt*y - begin.at - begin.tilt*y
			if o < overlap[0]-rounding || o > overlap[1]+rounding {
				return fmt.Sprintf("an overlap of %.1f", o)
			}
		}
		return ""
	}
	if out > far+rounding {
		return fmt.Sprintf("%.1f short", out-far)
	}
	if in < near-rounding {
		return fmt.Sprintf("%.1f too wide", near-in)
	}
	return ""
}

func simulatedPlan(t *testing.T, job lapspan.Job) lapspan.Plan {
	t.Helper()
	plan, err := lapspan.Propose(context.Background(), job)
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

// Of first proposals that need no second reading almost all fit the true room.
func TestSimulatedRoomsFit(t *testing.T) {
	for _, kind := range []struct {
		name string
		full bool
		want float64 // least share that fits
	}{{"levels and plumb lines", true, 0.99}, {"tape alone", false, 0}} {
		draw := rand.New(rand.NewPCG(1, 2))
		var planned, sure, fit, fitAll int
		for range simulatedRooms {
			room := drawRoom(draw)
			job := simulatedJob(room.survey(draw, kind.full))
			plan := simulatedPlan(t, job)
			if len(plan.Proposals) == 0 {
				continue
			}
			planned++
			p := &plan.Proposals[0]
			bad := fits(room, &job, p)
			if bad == "" {
				fitAll++
			}
			if p.Findings.Has(lapspan.CodeMeasureAgain) {
				continue
			}
			sure++
			if bad == "" {
				fit++
			}
		}
		t.Logf("%s: %d of %d rooms planned; first proposals fit in %.2f %%; without measure-again %d, fit in %.2f %%",
			kind.name, planned, simulatedRooms, 100*float64(fitAll)/float64(planned), sure, 100*float64(fit)/float64(sure))
		if planned < simulatedRooms*8/10 || float64(fit) < kind.want*float64(sure) {
			t.Errorf("%s: too few", kind.name)
		}
	}
}

// In a room without fault, read exactly, a margin is used up to its last
// nanometre: the proposal fits with the room moved by the margin and not past it.
func TestSimulatedMargins(t *testing.T) {
	draw := rand.New(rand.NewPCG(3, 4))
	const past = 0.01
	tried := 0
	for range simulatedRooms {
		room := drawFlatRoom(draw)
		job := simulatedJob(room.survey(nil, true))
		plan := simulatedPlan(t, job)
		if len(plan.Proposals) == 0 {
			continue
		}
		p := &plan.Proposals[0]
		move := func(figure string, to func(*simulatedRoom, float64), margin *units.Length, sign float64) {
			if margin == nil {
				return
			}
			tried++
			m := float64(*margin) / float64(units.Millimetre)
			for _, step := range []float64{m, m + past} {
				moved := *room
				to(&moved, sign*step)
				if bad := fits(&moved, &job, p); (bad == "") != (step == m) {
					t.Errorf("%s %s of %v, %s door %s: moved by %v of %v: %q", p.Height.Method, figure, p.ClearWidth, p.ClearHeight, p.Height.Door, sign*step, m, bad)
				}
			}
		}
		width := func(r *simulatedRoom, by float64) { r.apart += by }
		height := func(r *simulatedRoom, by float64) { r.height += by }
		move("width", width, p.Margin.Width.Under, -1)
		move("width", width, p.Margin.Width.Over, 1)
		move("height", height, p.Margin.Height.Under, -1)
		move("height", height, p.Margin.Height.Over, 1)
		if t.Failed() {
			return
		}
	}
	t.Logf("%d margins moved", tried)
	if tried < simulatedRooms {
		t.Error("too few margins")
	}
}

// An honest room goes through; a reading that a slip moved by more than twice
// the limit of DIN 18202 table 1 stops the job.
func TestSimulatedSlips(t *testing.T) {
	draw := rand.New(rand.NewPCG(5, 6))
	honest, stopped := 0, 0
	caught, planted := map[string]int{}, map[string]int{}
	for range simulatedRooms {
		room := drawRoom(draw)
		s := room.survey(draw, draw.IntN(2) == 0)
		honest++
		if m, err := opening.Measure(s); err != nil {
			t.Fatal(err)
		} else if m.Findings.Stops() {
			stopped++
		}
		for _, slip := range slips {
			wrong := s
			wrong.Widths, wrong.Heights = slices.Clone(s.Widths), slices.Clone(s.Heights)
			wrong.Levels = slices.Clone(s.Levels)
			wrong.Leans = opening.Leans{Left: slices.Clone(s.Leans.Left), Right: slices.Clone(s.Leans.Right)}
			at := draw.IntN(3)
			in := 16.0 // DIN 18202:2013, table 1 row 3
			if room.apart > 3000 {
				in = 20
			}
			const up = 20.0 // row 4
			plants := []plant{{"width", &wrong.Widths[at].Size, in}, {"height", &wrong.Heights[at].Size, up}}
			if len(s.Levels) > 0 {
				plants = append(plants,
					plant{"level", &wrong.Levels[at].Floor, up}, plant{"level", &wrong.Levels[at].Ceiling, up},
					plant{"plumb reading", &wrong.Leans.Left[at].Size, in}, plant{"plumb reading", &wrong.Leans.Right[at].Size, in})
			}
			chosen := plants[draw.IntN(len(plants))]
			reading, limit := chosen.reading, chosen.limit
			truth := int64(*reading / units.Millimetre)
			read := slip.read(draw, truth)
			if math.Abs(float64(read-truth)) <= 2*limit {
				continue
			}
			*reading = units.Length(read) * units.Millimetre
			planted[slip.name]++
			planted[chosen.kind]++
			if m, err := opening.Measure(wrong); err != nil {
				t.Fatal(err)
			} else if m.Findings.Stops() {
				caught[slip.name]++
				caught[chosen.kind]++
			}
		}
	}
	total, found := 0, 0
	for _, kind := range []string{"width", "height", "level", "plumb reading"} {
		t.Logf("in a %s: %.2f %% of %d stopped", kind, 100*float64(caught[kind])/float64(planted[kind]), planted[kind])
	}
	for _, slip := range slips {
		t.Logf("%s: %.2f %% of %d stopped", slip.name, 100*float64(caught[slip.name])/float64(planted[slip.name]), planted[slip.name])
		total, found = total+planted[slip.name], found+caught[slip.name]
	}
	t.Logf("slips stopped: %.2f %% of %d; honest rooms stopped: %.2f %% of %d", 100*float64(found)/float64(total), total, 100*float64(stopped)/float64(honest), honest)
	if float64(found) < 0.99*float64(total) {
		t.Error("too few slips are stopped")
	}
	if float64(stopped) > 0.005*float64(honest) {
		t.Error("too many honest rooms are stopped")
	}
}

// plant is a reading that a slip can move, and the limit of its kind.
type plant struct {
	kind    string
	reading *units.Length
	limit   float64
}

// slips are the ways a reading goes wrong between the tape and the paper.
var slips = []struct {
	name string
	read func(draw *rand.Rand, truth int64) int64
}{
	{"centimetres for millimetres", func(_ *rand.Rand, truth int64) int64 { return truth / 10 }},
	{"a digit too many", func(draw *rand.Rand, truth int64) int64 { return 10*truth + draw.Int64N(10) }},
	{"inches for millimetres", func(_ *rand.Rand, truth int64) int64 { return truth * 10 / 254 }},
	{"millimetres for inches", func(_ *rand.Rand, truth int64) int64 { return truth * 254 / 10 }},
	{"two neighbouring digits swapped", func(draw *rand.Rand, truth int64) int64 {
		power := []int64{1, 10, 100}[draw.IntN(3)]
		low, high := truth/power%10, truth/(10*power)%10
		return truth + (low-high)*9*power
	}},
	{"a hundred misread", func(draw *rand.Rand, truth int64) int64 { return truth + 100*(2*draw.Int64N(2)-1) }},
	{"a tape case left out or added twice", func(draw *rand.Rand, truth int64) int64 {
		return truth + (50+draw.Int64N(41))*(2*draw.Int64N(2)-1)
	}},
	{"any amount up to half a metre", func(draw *rand.Rand, truth int64) int64 { return truth + draw.Int64N(1001) - 500 }},
	{"one digit misread", func(draw *rand.Rand, truth int64) int64 {
		power := []int64{10, 100, 1000}[draw.IntN(3)]
		digit := truth / power % 10
		return truth + (draw.Int64N(10)-digit)*power
	}},
}

package lapspan_test

import (
	"encoding/json"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"pgregory.net/rapid"
)

// Realistic and nasty jobs. A draw starts from doors and gear and derives the
// room from them, so that the sums come out on a limit, or a millimetre or a
// nanometre to either side of it, far more often than chance would have it.

type oracleDraw struct {
	t        *rapid.T
	imperial bool // sizes in sixteenths of an inch
}

// oracleBits are whole numbers of up to ten bits, all as likely: rapid's own
// ranges favour the small ones too much for a job with a hundred draws.
var oracleBits = rapid.Custom(func(t *rapid.T) int {
	n := 0
	for range 10 {
		n *= 2
		if rapid.Bool().Draw(t, "bit") {
			n++
		}
	}
	return n
})

// number draws from a span, both ends included.
func (d *oracleDraw) number(label string, from, to int) int {
	return from + oracleBits.Draw(d.t, label)*(to-from+1)>>10
}

// chance is yes so many times in a hundred. Low draws are no, so that a
// failing job shrinks to a plain one.
func (d *oracleDraw) chance(percent int, label string) bool {
	return oracleBits.Draw(d.t, label) >= 1024-percent*1024/100
}

func oraclePick[T any](d *oracleDraw, label string, from ...T) T {
	return from[d.number(label, 0, len(from)-1)]
}

func (d *oracleDraw) mm(label string, from, to int) oracleNM {
	return oracleNM(d.number(label, from, to)) * oracleMM
}

// object is a JSON object; a value may be left out by not setting it.
type oracleObject = map[string]any

// length writes a length as a number or as one of its spellings.
func (d *oracleDraw) length(l oracleNM) json.RawMessage {
	number := strings.TrimSuffix(strings.TrimRight(l.String(), "0"), ".")
	if l <= 0 {
		return json.RawMessage(number)
	}
	spellings := []string{number}
	quoted := func(text string) {
		if len(text) <= 30 {
			data, _ := json.Marshal(text)
			spellings = append(spellings, string(data))
		}
	}
	quoted(number)
	quoted(number + " mm")
	quoted(number + "mm")
	decimal := func(per int64) string {
		text := new(big.Rat).SetFrac64(int64(l), per*int64(oracleMM)).FloatString(9)
		return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
	}
	quoted(decimal(10) + "cm")
	quoted(decimal(1000) + " m")
	const sixtyFourth = 396_875
	if l%sixtyFourth == 0 {
		whole, part, of := int64(l)/sixtyFourth/64, int64(l)/sixtyFourth%64, int64(64)
		for part > 0 && part%2 == 0 {
			part, of = part/2, of/2
		}
		inches := func(n int64, mark string) string {
			switch {
			case part == 0:
				return fmt.Sprintf("%d%s", n, mark)
			case n == 0:
				return fmt.Sprintf("%d/%d%s", part, of, mark)
			}
			return fmt.Sprintf("%d %d/%d%s", n, part, of, mark)
		}
		quoted(inches(whole, ` in`))
		quoted(strings.TrimSuffix(strings.TrimRight(new(big.Rat).SetFrac64(int64(l), 254e5).FloatString(6), "0"), ".") + " in")
		quoted(inches(whole, `"`))
		if whole >= 12 && (whole%12 > 0 || part > 0) {
			quoted(fmt.Sprintf("%d' %s", whole/12, inches(whole%12, `"`)))
			quoted(fmt.Sprintf("%d ft %s", whole/12, inches(whole%12, ` in`)))
		}
		if whole%12 == 0 && part == 0 {
			quoted(fmt.Sprintf("%d ft", whole/12))
		}
		if d.imperial {
			return json.RawMessage(spellings[d.number("spelling", 0, len(spellings)-1)])
		}
	}
	if !d.chance(15, "spelt out") {
		return json.RawMessage(number)
	}
	return json.RawMessage(spellings[d.number("spelling", 0, len(spellings)-1)])
}

// edge moves a length onto a limit, or just off it.
func (d *oracleDraw) edge(label string) oracleNM {
	return oraclePick(d, label, 0, 0, 0, oracleMM, -oracleMM, 1, -1, 5*oracleMM, -5*oracleMM)
}

func oracleDrawJob(t *rapid.T) string {
	d := &oracleDraw{t: t}
	d.imperial = d.chance(25, "imperial")
	unit := oracleMM
	if d.imperial {
		unit = 254e5 / 16
	}
	job := oracleObject{"reference": "oracle"}

	// The gear.
	overlapMin := oraclePick[oracleNM](d, "overlap.min", 30, 25, 20, 50, 0) * oracleMM
	overlapMax := overlapMin + oraclePick[oracleNM](d, "overlap over", 40, 20, 10, 5, 80, 0)*oracleMM
	if overlapMax == 0 {
		overlapMax = 10 * oracleMM
	}
	narrow := d.chance(12, "narrow doors that lap far")
	if narrow {
		overlapMin *= 3
		overlapMax = overlapMin + 60*oracleMM
	}
	overlap := oracleObject{"min": d.length(overlapMin), "max": d.length(overlapMax)}
	if d.chance(30, "overlap.aim") {
		overlap["aim"] = d.length(overlapMin + (overlapMax-overlapMin)/5*oracleNM(d.number("overlap.aim at", 0, 5)))
	}
	allowanceMin := oraclePick[oracleNM](d, "allowance.min", 30, 32, 20, 25) * oracleMM
	allowanceMax := allowanceMin + oraclePick[oracleNM](d, "allowance over", 5, 10, 1, 20, 0)*oracleMM
	allowance := oracleObject{"min": d.length(allowanceMin), "max": d.length(allowanceMax)}
	aim := allowanceMin
	if d.chance(30, "allowance.aim") {
		aim += (allowanceMax - allowanceMin) / 5 * oracleNM(d.number("allowance.aim at", 0, 5))
		allowance["aim"] = d.length(aim)
	}
	tracks := oraclePick(d, "tracks", 2, 3, 4)
	gear := oracleObject{"tracks": tracks, "overlap": overlap, "allowance": allowance}
	meeting := oracleNM(0)
	if d.chance(50, "meeting gap") {
		meeting = oraclePick[oracleNM](d, "meeting_gap", 3, 6, 0, 1) * oracleMM
		gear["meeting_gap"] = d.length(meeting)
	}
	if d.chance(5, "carried by") {
		gear["carried_by"] = oraclePick(d, "carried_by", "floor", "head")
	}
	job["gear"] = gear

	// Doors on sale; the first is the one the room is made to measure for.
	doors := oracleObject{}
	arrangement := oraclePick(d, "arrangement", "", "alternate", "stepped", "any")
	if arrangement != "" {
		doors["arrangement"] = arrangement
	}
	mixed := d.chance(50, "mixed")
	if mixed {
		doors["mixed_widths"] = true
	} else if d.chance(10, "mixed_widths false") {
		doors["mixed_widths"] = false
	}
	most := d.number("max_doors", 2, 5)
	if arrangement == "any" && mixed {
		most = min(most, 4)
	}
	if mixed || arrangement == "any" || !d.chance(30, "default max_doors") {
		doors["max_doors"] = most
	} else {
		most = 6
	}
	var widths, heights []oracleNM
	howMany := d.number("how many widths", 1, 5)
	if mixed && d.chance(15, "a long range") {
		howMany = d.number("how many widths at length", 12, 20)
		if most = min(most, 3); doors["max_doors"] != nil {
			doors["max_doors"] = most
		}
	}
	for range howMany {
		least := 350
		if narrow {
			least = 60
		}
		widths = append(widths, d.size("width", least, 1100, unit))
	}
	for range d.number("how many heights", 1, 3) {
		heights = append(heights, d.size("height", 1900, 2600, unit))
	}
	var sizes []oracleObject
	seen := map[[2]oracleNM]bool{}
	for i, height := range heights {
		for j, width := range widths {
			key := [2]oracleNM{width, height}
			if seen[key] || (i+j > 0 && d.chance(20, "not in this height")) {
				continue
			}
			seen[key] = true
			sizes = append(sizes, oracleObject{"width": d.length(width), "height": d.length(height)})
		}
	}
	doors["sizes"] = sizes
	stock := heights[0]
	step := oracleMM
	if d.chance(40, "made to measure") {
		maker := oracleObject{}
		if d.chance(50, "maker's step") {
			step = oraclePick[oracleNM](d, "step", 1, 5, 10, 2) * unit
			maker["step"] = d.length(step)
		}
		low := d.mm("maker's least width", 300, 900)
		maker["width"] = oracleObject{"min": d.length(low), "max": d.length(low + d.mm("maker's widths", 0, 900))}
		low = d.mm("maker's least height", 1500, 2300)
		maker["height"] = oracleObject{"min": d.length(low), "max": d.length(low + d.mm("maker's heights", 0, 1200))}
		doors["made_to_measure"] = maker
	}
	job["doors"] = doors

	// Timber, boards, build.
	var timberThick, timberWide oracleNM
	if d.chance(60, "timber") {
		timberThick = oraclePick[oracleNM](d, "timber.thickness", 38, 47, 45, 20) * oracleMM
		timberWide = oraclePick[oracleNM](d, "timber.width", 64, 72, 95, 38, 47) * oracleMM
		var lengths []oracleObject
		for _, length := range []oracleNM{4800, 3600, 2400, 1800}[:d.number("timber lengths", 1, 4)] {
			lengths = append(lengths, oracleObject{"length": d.length(length * oracleMM)})
		}
		timber := oracleObject{"thickness": d.length(timberThick), "width": d.length(timberWide), "lengths": lengths}
		if d.chance(30, "stud_spacing") {
			timber["stud_spacing"] = d.length(oraclePick[oracleNM](d, "spacing", 600, 400, 1000, 610) * oracleMM)
		}
		if d.chance(20, "kerf") {
			timber["kerf"] = d.length(3 * oracleMM)
		}
		job["timber"] = timber
	}
	var boardSizes []oracleNM
	if d.chance(60, "boards") {
		boards := []oracleObject{}
		for range d.number("how many boards", 0, 4) {
			thickness := oraclePick[oracleNM](d, "board", 70, 18, 12, 25, 15, 9, 6, 40, 100) * oracleMM
			repeated := false
			for _, other := range boardSizes {
				repeated = repeated || other == thickness
			}
			if !repeated {
				boardSizes = append(boardSizes, thickness)
				boards = append(boards, oracleObject{"thickness": d.length(thickness)})
			}
		}
		job["boards"] = boards
	}
	trim := oracleObject{}
	saw := oracleMM
	if d.chance(40, "cut_split") {
		trim["cut_split"] = oraclePick(d, "split", "pair", "panel", "even", "shares")
	}
	if d.chance(30, "saw step") {
		saw = oraclePick[oracleNM](d, "saw", 1, 2, 5, 10) * unit
		trim["step"] = d.length(saw)
	}
	deepest := oracleNM(0)
	if d.chance(30, "deepest_cut") {
		deepest = d.mm("deepest", 1, 250)
		trim["deepest_cut"] = d.length(deepest)
	}
	if len(trim) > 0 || d.chance(10, "empty trim") {
		job["trim"] = trim
	}
	if d.chance(45, "build") {
		build := oracleObject{
			"top_bar": d.length(d.mm("top_bar", 20, 80)), "bottom_bar": d.length(d.mm("bottom_bar", 20, 120)), "bar": d.length(d.mm("bar", 10, 40)),
			"least_panel": d.length(oraclePick[oracleNM](d, "least_panel", 100, 200, 300, 500, 50) * oracleMM),
		}
		var panels []oracleObject
		for range d.number("how many panels", 1, 5) {
			panel := oracleObject{"share": d.number("share", 1, 4)}
			if d.chance(70, "cut_on_site") {
				panel["cut_on_site"] = true
			}
			panels = append(panels, panel)
		}
		build["panels"] = panels
		doors["build"] = build
	}

	// The room, from the doors.
	n := d.number("doors aimed at", 2, most)
	laps := oracleNM(d.number("junctions aimed at", 1, n-1))
	if arrangement != "any" {
		laps = oracleNM(n - 1)
	}
	cover := (oracleNM(n) - 1 - laps) * meeting
	for i := range n {
		width := widths[0]
		if mixed && i > 0 {
			width = oraclePick(d, "a door aimed at", widths...)
		}
		cover += width
	}
	widest, lowest := cover, oracleNM(0)
	switch oraclePick(d, "aimed at", "between", "least overlap", "greatest overlap", "between", "between", "nothing") {
	case "least overlap":
		widest += d.edge("width edge") - laps*overlapMin
	case "greatest overlap":
		lowest = cover - laps*overlapMax + d.edge("width edge")
		widest = lowest + d.mm("out of square", 0, 20)
	case "between":
		widest -= laps * (overlapMin + overlapMax) / 2
	default:
		widest = d.size("opening", 700, 4500, unit)
	}
	widest = max(widest, 400*oracleMM)
	lowest = min(max(lowest, 390*oracleMM), widest)

	room := oracleObject{}
	panel := oracleNM(0)
	if d.chance(40, "end_panel") {
		panel = oraclePick[oracleNM](d, "end panel", 18, 22, 15, 12) * oracleMM
		room["end_panel"] = d.length(panel)
	}
	skirting := oracleObject{}
	back, shift := oracleNM(0), oracleNM(0)
	for _, side := range []string{"left", "right"} {
		if !d.chance(45, side) {
			continue
		}
		thickness := oraclePick[oracleNM](d, "thickness", 18, 15, 20, 25) * oracleMM
		back += thickness
		one := oracleObject{"thickness": d.length(thickness), "height": d.length(oraclePick[oracleNM](d, "skirting height", 100, 144, 70) * oracleMM)}
		treatment := oraclePick(d, "treatment", "", "cut back", "end panel")
		if treatment != "" {
			one["treatment"] = treatment
		}
		if treatment == "end panel" || treatment == "" && d.chance(50, "aimed at end panels") {
			shift += max(thickness, panel)
		}
		skirting[side] = one
	}
	if len(skirting) > 0 || d.chance(5, "empty skirting") {
		room["skirting"] = skirting
	}
	widest += shift
	lowest = max(lowest+shift, widest-300*oracleMM)
	readings := []oracleNM{widest}
	square := oraclePick(d, "how square", 2, 8, 25)
	for range d.number("more widths", 0, 4) {
		narrower := widest - d.mm("narrower", 0, square)
		readings = append(readings, max(narrower, lowest))
	}
	if len(readings) > 1 && lowest > widest-28*oracleMM {
		readings[len(readings)-1] = lowest
	}
	between := make([]string, len(readings))
	for i := range readings {
		between[i] = oraclePick(d, "between", "", "", "walls", "skirtings")
		if between[i] == "skirtings" {
			readings[i] -= back
		}
	}
	d.slip(readings, "a slip in the widths")
	var list []oracleObject
	for i, size := range readings {
		reading := oracleObject{"at": d.length(oraclePick[oracleNM](d, "height read at", 0, 200, 1000, 2000) * oracleMM)}
		if between[i] != "" {
			reading["between"] = between[i]
		}
		if d.chance(3, "checked") {
			reading["checked"] = i%2 == 0
		}
		reading["size"] = d.length(size)
		list = append(list, reading)
	}
	room["widths"] = list
	if d.chance(1, "no widths") {
		room["widths"] = []oracleObject{}
	}

	height := stock
	switch oraclePick(d, "height aimed at", "as is", "as is, loosely", "packer", "packer", "bulkhead", "cut down", "cut down", "deepest", "nothing") {
	case "as is":
		height += allowanceMin + d.edge("height edge")
	case "as is, loosely":
		height += allowanceMax + d.edge("height edge")
	case "packer":
		pieces := append([]oracleNM{timberThick, timberWide}, boardSizes...)
		for range d.number("pieces", 1, 3) {
			height += oraclePick(d, "piece", pieces...)
		}
		height += oraclePick(d, "rest", allowanceMin, allowanceMax, (allowanceMin+allowanceMax)/2) + d.edge("height edge")
	case "bulkhead":
		height += aim + 2*timberThick + oracleShortestStud + d.edge("height edge") + d.mm("higher", 0, 400)
	case "cut down":
		height += aim - d.mm("cut", 0, 200) + d.edge("height edge")
	case "deepest":
		height += aim - deepest + d.edge("height edge")
	default:
		height = d.size("clear height", 2000, 2800, unit)
	}
	if d.chance(15, "carpet") {
		carpet := oraclePick[oracleNM](d, "carpet_to_come", 12, 8, 10) * oracleMM
		room["carpet_to_come"] = d.length(carpet)
		height += carpet
	}
	tall := []oracleNM{height}
	for range d.number("more heights", 0, 3) {
		tall = append(tall, height+d.mm("higher", 0, 25))
	}
	d.slip(tall, "a slip in the heights")
	list = nil
	for i, size := range tall {
		reading := oracleObject{"at": d.length(widest / 4 * oracleNM(i) / 1000 * 1000), "size": d.length(size)}
		if d.chance(3, "checked") {
			reading["checked"] = true
		}
		list = append(list, reading)
	}
	room["heights"] = list
	if d.chance(1, "no heights") {
		room["heights"] = []oracleObject{}
	}
	if d.chance(20, "levels") {
		floor := d.mm("level line", 900, 1300)
		var levels []oracleObject
		first := d.mm("first station", 0, 400)
		for i := range d.number("stations", 1, 4) {
			levels = append(levels, oracleObject{
				"at":      d.length(first + widest/4*oracleNM(i)/1000*1000),
				"floor":   d.length(floor + d.mm("falls", 0, 15)*oracleNM(min(i, 1))),
				"ceiling": d.length(height - floor + d.mm("rises", 0, 15)*oracleNM(min(i, 1))),
			})
		}
		if d.chance(20, "read from right to left") {
			slices.Reverse(levels)
		}
		room["levels"] = levels
	}
	if d.chance(25, "accuracy") {
		room["accuracy"] = d.length(oraclePick[oracleNM](d, "k = 2", 1, 3, 5, 10) * oracleMM)
	}
	if d.chance(8, "depths") {
		room["depths"] = []oracleObject{{"at": 0, "size": d.length(650 * oracleMM)}, {"at": 2000, "size": d.length(d.mm("depth", 0, 700))}}
	}
	job["opening"] = room
	if d.chance(20, "interior") {
		interior := oracleObject{"depth": d.length(560 * oracleMM)}
		if d.chance(60, "pull-outs") {
			interior["pull_outs"] = []oracleObject{{"name": "drawers", "from": d.length(100 * oracleMM), "to": d.length(d.mm("to", 300, 900))}}
		}
		job["interior"] = interior
	}

	if !d.chance(25, "default rank") {
		job["rank"] = oraclePick(d, "rank",
			[]string{"width", "doors", "access"},
			[]string{"sure", "width", "doors", "access"},
			[]string{"access", "height"},
			[]string{"doors"},
			[]string{"height", "sure", "doors"},
			[]string{"cuts", "width"},
			[]string{"even", "access", "cuts"},
			[]string{"sure", "even"},
			[]string{"cuts", "access", "width"},
			[]string{"height", "even", "doors"},
		)
	}
	if d.chance(80, "limit") {
		job["limit"] = oraclePick(d, "at most", 1000, 1, 3, 50)
	}
	text, err := json.Marshal(job)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// size draws a size on sale: round in its own units, mostly.
func (d *oracleDraw) size(label string, from, to int, unit oracleNM) oracleNM {
	if d.imperial {
		inches := oracleNM(d.number(label, from*10/254+1, to*10/254)) * 16
		if d.chance(30, label+" in sixteenths") {
			inches += oracleNM(d.number(label+" sixteenths", 0, 15))
		}
		return inches * unit
	}
	if d.chance(30, label+" to the millimetre") {
		return d.mm(label, from, to)
	}
	return oracleNM(d.number(label, from/50, to/50)) * 50 * oracleMM
}

// slip spoils one reading, or all, now and then.
func (d *oracleDraw) slip(readings []oracleNM, label string) {
	if !d.chance(5, label) {
		return
	}
	spoil := func(l oracleNM, how string) oracleNM {
		switch how {
		case "/10":
			return l / 10
		case "*10":
			return min(l, 9000*oracleMM) * 10
		case "/25.4":
			return l * 10 / 254
		case "*25.4":
			return min(l, 3900*oracleMM) * 254 / 10
		case "swapped":
			digits := []byte(fmt.Sprint(int64(l / oracleMM)))
			at := d.number("digits", 0, len(digits)-2)
			digits[at], digits[at+1] = digits[at+1], digits[at]
			var whole oracleNM
			fmt.Sscan(string(digits), &whole)
			return max(whole, 1) * oracleMM
		case "hundred":
			return l + 100*oracleMM
		case "far":
			return l + 400*oracleMM
		case "30":
			return l + 30*oracleMM + oraclePick[oracleNM](d, "just past", 0, 1)
		case "zero":
			return 0
		}
		return -l
	}
	how := oraclePick(d, "slip", "/10", "*10", "/25.4", "*25.4", "swapped", "hundred", "far", "30", "zero", "negative")
	if how != "swapped" && d.chance(25, "all of them") {
		for i, l := range readings {
			readings[i] = spoil(l, how)
		}
		return
	}
	at := d.number("slip at", 0, len(readings)-1)
	readings[at] = spoil(readings[at], how)
}

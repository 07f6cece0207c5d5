package opening

import "example.com/lapspan/units"

// Working returns how the figures of a clear opening come about, as one writes
// it on paper: the two ends of the clear width as so many doors of a height find
// it (see ClearFor), and the clear height. The survey is the one that the clear
// opening was measured from.
func (s Survey) Working(c Clear, doors int, height units.Length) []units.Line {
	if len(s.Widths) == 0 || len(s.Heights) == 0 && len(s.Levels) == 0 {
		return nil
	}
	narrowest, widest := s.ends()
	if c.Left == EndPanel && c.Right == EndPanel {
		widest = narrowest
	}
	sum := ""
	if len(s.Levels) > 0 {
		floor, ceiling := s.leastLevels()
		sum = s.Levels[floor].Floor.Millimetres() + " + " + s.Levels[ceiling].Ceiling.Millimetres()
	} else {
		sum = s.Heights[s.leastHeight()].Size.Millimetres()
	}
	if s.CarpetToCome > 0 && s.CarpetNow > 0 {
		sum += " + " + s.CarpetNow.Millimetres()
	}
	if s.CarpetToCome > 0 && !s.CarpetAtRail {
		sum += " − " + s.CarpetToCome.Millimetres()
	}
	narrow, wide := s.widthSum(narrowest, c), s.widthSum(widest, c)
	if doors > 2 && !s.Leans.none() {
		in, out := s.envelope(c, height)
		narrow, wide = in.sum(c), out.sum(c)
	}
	return []units.Line{
		{What: "clear width, narrowest", Sum: narrow, Is: c.Width.Min.Millimetres()},
		{What: "clear width, widest", Sum: wide, Is: c.Width.Max.Millimetres()},
		{What: "clear height", Sum: sum, Is: c.Height.Millimetres()},
	}
}

// sum writes the distance of the plumb lines and what the walls add on either side.
func (e enveloped) sum(c Clear) string {
	sum := e.apart.Millimetres()
	for _, lean := range []units.Length{e.left, e.right} {
		if lean < 0 {
			sum += " − " + lean.Abs().Millimetres()
		} else {
			sum += " + " + lean.Millimetres()
		}
	}
	return sum + offSum(c)
}

func (s Survey) widthSum(i int, c Clear) string {
	sum := s.Widths[i].Size.Millimetres()
	for _, k := range []*Skirting{s.Skirting.Left, s.Skirting.Right} {
		if k != nil && s.Widths[i].Between == Skirtings {
			sum += " + " + k.Thickness.Millimetres()
		}
	}
	return sum + offSum(c)
}

// offSum writes what end panels take off.
func offSum(c Clear) string {
	sum := ""
	for _, off := range []units.Length{c.LeftOff, c.RightOff} {
		if off > 0 {
			sum += " − " + off.Millimetres()
		}
	}
	return sum
}

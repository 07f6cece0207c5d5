package opening

import "example.com/lapspan/units"

// Working returns how the figures of a clear opening come about, as one writes
// it on paper: the two ends of the clear width, and the clear height. The
// survey is the one that the clear opening was measured from.
func (s Survey) Working(c Clear) []units.Line {
	if len(s.Widths) == 0 || len(s.Heights) == 0 && len(s.Levels) == 0 {
		return nil
	}
	narrowest, widest := s.ends()
	if c.Left == EndPanel && c.Right == EndPanel {
		widest = narrowest
	}
	height := ""
	if len(s.Levels) > 0 {
		floor, ceiling := s.leastLevels()
		height = s.Levels[floor].Floor.Millimetres() + " + " + s.Levels[ceiling].Ceiling.Millimetres()
	} else {
		height = s.Heights[s.leastHeight()].Size.Millimetres()
	}
	if s.CarpetToCome > 0 && s.CarpetNow > 0 {
		height += " + " + s.CarpetNow.Millimetres()
	}
	if s.CarpetToCome > 0 && !s.CarpetAtRail {
		height += " − " + s.CarpetToCome.Millimetres()
	}
	return []units.Line{
		{What: "clear width, narrowest", Sum: s.widthSum(narrowest, c), Is: c.Width.Min.Millimetres()},
		{What: "clear width, widest", Sum: s.widthSum(widest, c), Is: c.Width.Max.Millimetres()},
		{What: "clear height", Sum: height, Is: c.Height.Millimetres()},
	}
}

func (s Survey) widthSum(i int, c Clear) string {
	sum := s.Widths[i].Size.Millimetres()
	for _, k := range []*Skirting{s.Skirting.Left, s.Skirting.Right} {
		if k != nil && s.Widths[i].Between == Skirtings {
			sum += " + " + k.Thickness.Millimetres()
		}
	}
	for _, off := range []units.Length{c.LeftOff, c.RightOff} {
		if off > 0 {
			sum += " − " + off.Millimetres()
		}
	}
	return sum
}

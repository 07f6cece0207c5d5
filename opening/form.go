package opening

import "slices"

// Intent is what the doors are meant for, as far as it decides what to measure.
// The zero value means doors alone, without anything behind or above them.
type Intent struct {
	// Interior: something stands behind the doors, and its depth and the gear's are known.
	Interior bool
	// Head: a packer, a bulkhead or a track is to be screwed to the ceiling.
	Head bool
	// EndPanels: a skirting may get an end panel rather than be cut back.
	EndPanels bool
}

// Question is one line of a survey form.
type Question struct {
	// Key is where the answer goes in the job document, such as opening.widths.
	Key string `json:"key"`
	// Ask is what to measure, Where the place, Why what depends on it.
	Ask   string `json:"ask"`
	Where string `json:"where"` // the place to measure at
	Why   string `json:"why"`   // what depends on it
	// Readings is how many to take; 0 for an answer that is not a reading.
	Readings int `json:"readings,omitzero"`
	// If is the key of another question that this one depends on: it is asked only
	// where that has an answer. Empty: always.
	If string `json:"if,omitzero"`
	// Needed says that there are no proposals without it.
	Needed bool `json:"needed,omitzero"`
}

// Form returns the questions to ask in a room, in the order in which one works:
// the floor and its edges first, then across, up, level and plumb, then what is
// behind, above and in the way. It asks what changes the answer and nothing
// else: every reading that it leaves out could be any without changing what
// Measure and the sums for depth, panels and fixings say, and every one that
// it asks for can change it.
func Form(intent Intent) []Question {
	asked := []struct {
		asked bool
		Question
	}{
		{true, Question{Key: "opening.skirting", Ask: "the thickness and height of each skirting, and whether it is cut back or gets an end panel",
			Where: "at both side walls, in the line of the doors", Why: "an end panel takes its thickness off the width; a width read between skirtings gets theirs back"}},
		{intent.EndPanels, Question{Key: "opening.end_panel", If: "opening.skirting", Ask: "the thickness of the end panels",
			Where: "of the board to be bought", Why: "where it is thicker than the skirting it takes more off the width"}},
		{true, Question{Key: "opening.carpet_now", Ask: "the thickness of a soft covering that is there now",
			Where: "under the rail, pressed down", Why: "heights are read on it, and a rail on it gives"}},
		{true, Question{Key: "opening.carpet_to_come", Ask: "the thickness of a floor covering still to come",
			Where: "with its underlay", Why: "it takes its thickness off the height"}},
		{true, Question{Key: "opening.carpet_at_rail", If: "opening.carpet_to_come", Ask: "whether that covering is cut to a rail on the bare floor",
			Where: "along the line of the doors", Why: "then it takes nothing off the height"}},
		{true, Question{Key: "opening.widths", Ask: "the width", Readings: Enough, Needed: true,
			Where: "in the line of the doors: just above the skirtings, in the middle and at the top", Why: "the doors must cover the widest and go into the narrowest"}},
		{true, Question{Key: "opening.heights", Ask: "the height from floor to ceiling", Readings: Enough, Needed: true,
			Where: "in the line of the doors: at both ends and in the middle", Why: "the least decides how the height is used"}},
		{true, Question{Key: "opening.levels", Ask: "the distances from one level line down to the floor and up to the ceiling", Readings: Enough,
			Where: "where the heights were read", Why: "a floor and a ceiling that fall the same way cannot be seen without; it tells the packing under the rail and above the track"}},
		{true, Question{Key: "opening.leans", Ask: "the distance from a plumb line to each side wall", Readings: Enough,
			Where: "at the heights where the widths were read", Why: "walls that lean the same way cannot be seen without; end doors are tilted to them"}},
		{true, Question{Key: "opening.diagonals", Ask: "both diagonals", Readings: 2,
			Where: "corner to corner, in the line of the doors", Why: "they show a width or a height that was misread"}},
		{intent.Interior, Question{Key: "opening.depths", Ask: "the depth from the back wall to the front of the side walls", Readings: 2,
			Where: "at both ends", Why: "interior, setback and gear must fit into it"}},
		{intent.Head, Question{Key: "opening.joists", Ask: "the centres of the joists and which way they run",
			Where: "above the line of the doors", Why: "what is screwed to the ceiling goes into them"}},
		{true, Question{Key: "opening.in_the_way", Ask: "coving, sockets, switches, radiators, pipes, slopes and anything that must not be boxed in",
			Where: "in the line of the doors and behind it", Why: "doors must pass them, and some must stay open and reachable"}},
		{true, Question{Key: "opening.accuracy", Ask: "how far a reading may be out",
			Where: "of the tape or the laser, as it was read", Why: "margins are held against it"}},
	}
	var form []Question
	for _, q := range asked {
		if q.asked {
			form = append(form, q.Question)
		}
	}
	return slices.Clip(form)
}

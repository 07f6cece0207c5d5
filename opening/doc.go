// Package opening turns what was measured in a room into the clear opening for
// sliding doors, and says what is wrong or doubtful about it.
//
// A [Survey] holds the readings, all taken in the line of the doors. [Measure]
// returns the clear opening for every treatment of the skirtings ([Clear]) and
// what was found ([Findings]). All lengths are [units.Length], whole nanometres,
// written here in millimetres; none passes through a float.
//
// # Readings
//
// Widths are read at several heights, heights at several places, depths at both
// ends. The place (at) of a width is above the floor; that of heights, depths and
// levels is from the left wall. At least three widths and three heights belong in
// a survey: fewer are a warning (few-readings), none of either stops the job
// (no-readings), and so does a reading of zero or less (not-positive). What cannot
// be read as a survey at all, a position below zero or a thickness of zero, is
// refused by [Survey.Validate] with its place.
//
// # Skirting
//
// A skirting is cut back, so that the door closes on the wall, or gets an end
// panel, a board standing the full height above it or in its place, flush with
// it or prouder. The panel takes off the width the larger of its own thickness
// and that of the skirting; with no thickness given, that of the skirting.
//
//	off = max(end panel, skirting)        22 over a skirting of 18: 22
//
// A side left open is tried both ways, both open sides together: two variants,
// cutting back first. A width read between skirtings gets the thickness of the
// skirting at each side back before it is used:
//
//	2376 between skirtings of 18 and 18   2376 + 18 + 18 = 2412 between the walls
//
// A width from wall to wall that was read below the top of a skirting is a
// warning (walls-below-skirting). Source: common practice.
//
// # Clear width
//
// The clear width is a span, from the smallest to the largest reading less what
// the end panels take off. End panels are set plumb: where both sides have one,
// both ends of the span are the smallest.
//
//	readings 2412, 2418, 2409, cut back    2409 to 2418
//	the same between end panels of 22      2409 − 22 − 22 = 2365
//
// # Clear height and level
//
// From tape heights alone the clear height is the smallest of them, and a floor
// and a ceiling that fall the same way stay unseen (no-level). Levels are two
// distances from one level line: down to the floor and up to the ceiling. With
// them the clear height is that between two level planes, the rail packed up to
// the highest point of the floor and the track down to the lowest of the ceiling:
//
//	clear height = least floor + least ceiling
//	floor 1000 falling to 1020, ceiling 1300 falling to 1280:
//	tape 2300 at either end, 1000 + 1280 = 2280 between level planes
//
// A tape height and a pair of levels at one place that differ by more than
// √3 × the accuracy are a warning (levels-disagree): three readings combine as
// the root of the sum of their squares (JCGM 100:2008, 5.1). What is packed under
// the rail and above the track at each station is [Survey.Packing]. Source:
// common practice.
//
// # Floor coverings
//
// A covering to come takes its thickness off the height, and a strip as thick goes
// under the rail; one that is cut to a rail on the bare floor (carpet_at_rail)
// takes nothing off. A soft covering that heights were read on (carpet_now) needs
// a strip too; where it is replaced its thickness is given back first.
//
//	2300 read on a covering of 10, one of 12 to come    2300 + 10 − 12 = 2298
//
// Source: common practice.
//
// # Plumb and lean
//
// A lean is the distance from a plumb line to a wall; larger is further out. Two
// walls that lean the same way leave every width alike and a wedge at each side,
// so without plumb readings there is a note (no-plumb). The distance between the
// two plumb lines is told by every width reading, less both leans at its height.
// Doors are rigid and all but the end ones stand plumb: three doors or more must
// cover, over the height of the doors ([Survey.ClearFor]),
//
//	apart + outermost left + outermost right      widths 2400, left 50 to 40, right 50 to 60:
//	                                              apart 2300, 2300 + 50 + 60 = 2410
//	apart + innermost left + innermost right      2300 + 40 + 50 = 2390, for the greatest overlap
//
// Two doors cover from the narrowest to the widest width. A door closes tight on a
// wall that leans p over its height h when one of its wheels, w apart, is raised
// ([Survey.EndDoor])
//
//	w × p / h          650 × 10 / 2300 = 2.83
//
// which comes off the allowance at that corner. Past the range of the adjuster the
// door stays plumb and a wedge of p stays, closed by a tapered liner. Source: plane
// geometry and common practice; NHBC Standards 2020, 9.1.3 allow a wall 8 mm out of
// plumb up to 3 m high.
//
// # Square
//
// With d₁ the rising and d₂ the falling diagonal, W and H the mean width and height
// ([Survey.Square]),
//
//	shear = (d₁² − d₂²) / 4W          d₁² + d₂² = 2 (W² + H² + shear²)
//	1800 × 2400: both diagonals 3000; 3004.806816 and 2995.206838: shear 8
//
// Readings that break the second by more than their accuracy are wrong somewhere:
// the one most likely so is named, with what it would have to be (diagonal-wrong).
// Source: plane geometry (parallelogram law).
//
// # Slips
//
// A reading is tested only when it is further from the median of the others than
// the larger of 30 mm and 1.5 % of that median; the median of an even number is
// the mean of the middle two. The worst is judged first and set aside, so that one
// slip does not bring the good readings under suspicion. Its likely truth is named,
// in this order:
//
//	unit-slip        ten times, a tenth, 25.4 times or 1/25.4 of it fits   240 among 2400s
//	swapped-digits   it fits with two of its digits swapped                2143 for 2413
//	hundred-misread  it is off by 100, give or take 10                     2310 for 2410
//	tape-case        it is off by 50 to 90, the length of a tape case      2330 for 2400
//	outlier          none of these
//
// Readings that agree but cannot be a room (a width outside 300 to 12 000, a
// height outside 1000 to 6000) are a unit-slip too. All of these stop the job; a
// reading marked as checked is a warning instead and is used as it stands. Levels
// are tested only where the nearest tape height contradicts them by more than 15,
// plumb readings where the nearest width does: a floor that really falls and a wall
// that really leans are no slips. Rooms inside DIN 18202:2013 table 1 (±16
// on a clear width of 1 to 3 m) pass. Source of the limits: common practice.
//
// # Depth
//
// The line of the doors, the back edge of the track, is the depth the interior
// needs + a setback of 30 to 50, 40 where there is room for it. With the depth of
// track and rail the sum must not pass the front of the side walls, tested with a
// setback of 30; usually 600 to 650 in all. See [Survey.DoorLine]:
//
//	interior 500, gear 84, walls 650 deep   500 + 40 = 540; 540 + 84 = 624 ≤ 650
//
// Source: common practice.
//
// # Accuracy
//
// The accuracy of a reading is its expanded uncertainty with coverage factor 2,
// 2 mm unless the survey says otherwise. A figure that comes from several readings
// has the root of the sum of their squares (JCGM 100:2008, 5.1), rounded up to a
// nanometre: a clear height between levels 2.828428. Each figure names the
// readings that decide it ([Deciding]); [MeasureAgain] lists those that should be
// read again because less is to spare than they are sure to, the one that is short
// by most first.
//
// # Things in the way
//
// What stands in or near the line of the doors ([Thing]) is a finding with a
// remedy. Vents, flues, meters, boilers, fuse boards, stopcocks and alarms are never
// boxed in. Under a sloping ceiling the height at each door's place decides
// ([Survey.HeightOver]).
//
// # Side walls
//
// An end panel is as deep as the line of the doors and the gear, and as high as the
// room at its side, with a scribe on both: 10, or what the plumb readings say the
// wall is out, 5 at least. A skirting is cut back for the depth of the gear and 5 at
// each end ([Survey.SideWorks]). Source: common practice.
//
// # The second measure
//
// Once frame, panels and floor are in, and before doors are ordered or cut, the
// opening is measured again: [First.MeasureSecond] says what of the first plan holds,
// what to repack, recut or reorder, and why.
//
// # The survey form
//
// [Form] lists what to measure, where, in which order and why: what changes the
// answer for the doors intended, and nothing else.
//
// # Findings
//
// A [Finding] is data: a stable code, a severity, the place of its cause in the
// job document, what was found and what to do about it. All are returned, sorted
// by place, then code, each once. A list of findings is not an error; its Err
// method returns a literal nil when nothing stops the job.
package opening

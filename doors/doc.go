// Package doors chooses the doors that close an opening and says how their
// height is used. All lengths are [units.Length], exact to the nanometre;
// masses are kilograms. A rule marked "common practice" is a fact of the trade
// with no published source.
//
// # Cover
//
// A run of doors closes an opening when neighbours on different tracks overlap
// by no less than the least and no more than the greatest overlap of the gear,
// at the widest and at the narrowest reading of the opening. Neighbours on one
// track meet: they overlap by nothing and keep the gear's meeting gap.
// With L overlapping junctions, at least one (common practice):
//
//	cover           = sum of widths + meeting gaps − L × least overlap
//	overlap in place = (sum of widths + meeting gaps − opening) / L
//
// Four doors of 650 with three overlaps of 50 cover 4 × 650 − 3 × 50 = 2450 mm.
// In an opening of 2400 mm each overlap is (2600 − 2400)/3 = 66 2/3 mm; the
// overlaps listed are whole nanometres and sum exactly. See [Run.Cover],
// [Run.Least] and [Run.OverlapsIn].
//
// Doors on one track may not collide when closed, and none may reach past a
// wall: see [Run.Stands].
//
// # Arrangements
//
// Track 0 is at the room side. [Alternate], the default, puts the doors on
// tracks 0, 1, 0, 1 and so on; [Stepped] on 0, 1, 2 to the last track and back;
// [Any] tries every assignment whose neighbours are at most one track apart.
// Where nothing tells left from right, an arrangement and its mirror image are
// one. The order of mixed widths is the one with the widest access, in a tie the
// one with the larger door leftmost (common practice).
//
// # Made to measure
//
// The width made is the widest reading shared among the doors with the overlaps
// added, rounded up to the maker's step (common practice):
//
//	width = (widest reading + L × overlap aim − meeting gaps) / n
//
// Three doors in 2400 mm with an aim of 40 mm: (2400 + 2 × 40)/3 = 826 2/3,
// made 827 mm. The aim is by default the middle of the gear's span. See
// [MadeToMeasure.Runs].
//
// # Access
//
// Doors on one track keep their order, doors on different tracks pass each
// other. Park some doors of each track at the left and the rest at the right:
// the clear gap is the opening less the longest stack at the left and the
// longest at the right; the widest over all ways to park is the access (common
// practice):
//
//	gap = opening − max over tracks of the left stack − max over tracks of the right stack
//
// Two doors of 650 in 1200 mm leave 1200 − 650 = 550 mm. Four in 2400 mm on
// alternate tracks leave 2400 − 2 × 650 = 1100 mm. See [Run.Access] and
// [Run.Clears].
//
// [Run.Park] says which doors to park where so that a stretch is clear,
// [Run.Blind] which stretches no parking clears, and [Run.Uprights] where
// dividers behind the doors leave compartments that can each be cleared whole.
//
// Handles or stops may keep so much of a door out from behind its neighbour
// ([Gear.Showing]). Doors then cannot pass each other, and of two parked together
// both edges of the inner one stand that much further out: two doors of 650 that
// keep 40 showing take 690 at one end.
//
// # Sight
//
// Of a closed door the room sees its width less the overlaps with neighbours on
// a nearer track; see [Run.Sight]. Three doors of 650 in 1830 mm overlap by 60:
// the one behind shows 650 − 2 × 60 = 530 mm and the run is uneven by 120 mm.
//
// # Heights
//
// With H the clear height, s a height on sale and a the span of the allowance
// that track and rail need together, commonly 30 to 35 mm (all common practice):
//
//	as is            a.min ≤ H − s ≤ a.max
//	packer           H − s > a.max: boards above the track, at most three
//	bulkhead         H − s > a.max: gap = H − s − aim, two plates and studs
//	cut down         H − s < a.min: cut = s − (H − aim), rounded up to the saw step
//	made to measure  door = H − aim, rounded down to the maker's step
//
// Under 2300 mm with an allowance of 30 to 35: a door of 2200 takes a packer of
// 70 and leaves 30; a door of 2000 leaves a bulkhead 2300 − 2000 − 30 = 270 mm
// high; a door of 2400 is cut by 2400 − 2270 = 130 to 2270; one made to measure
// is 2300 − 32.5 = 2267.5, made 2267, with 33 for track and rail. See [HeightsFor].
//
// # Cutting down
//
// A cut comes off both stiles at the top and out of the panels that may be cut.
// Panels share the height between the bars; see [Build.PanelHeights]. Which
// panels give, and how much, is the [Split]; [PanelCuts] shares a cut and
// [DeepestCut] is the deepest there can be. A cut of 130 by [ByPair] takes 65
// out of the bottom panel and 65 out of the top one (common practice).
//
// # Mass
//
// A door weighs its panels by area, its stiles and bars by length:
//
//	mass = sum of width × height × thickness × density + 2 × height × stile + bars × width × bar
//
// Float glass is 2500 kg/m³ (EN 572-1): 4 mm are 10 kg/m², and a pane of 900 ×
// 2300 mm is 20.7 kg. Aluminium is 2700 kg/m³ (EN 1991-1-1). Boards have the
// density their maker states. Where anything is not given the mass is not known.
// See [Build.Mass]. [Lifting] judges it: two people over 15 kg (common practice), a
// warning over the 25 kg of ISO 11228-1, with the revised NIOSH equation
// (94-110) as a screening figure; see [RecommendedMass] for what it does not cover.
//
// # Limits of the gear
//
// Gear may state how many doors it takes, how wide, high and slim they may be,
// the mass of a door and how far its adjuster raises a wheel. [Gear.Limits] names
// each limit a door does not keep, and [Range.Beyond] the widths on sale that the
// gear does not take. A door w wide and h high closes on a wall that leans p over h
// when one wheel is raised by w × p / h: 650 × 10 / 2300 = 2.83 mm. See [Raise].
//
// # Near misses
//
// [Changes] says what would make a run close an opening that it does not close: a
// liner, gear with other overlaps, other tracks, a wider opening. Four doors of
// 650 with overlaps of at least 50 cover 2450; in 2459 they are 9 short: a liner of 9,
// gear that overlaps by no more than (2600 − 2459)/3 = 47 mm, or the last two doors on one
// track would do.
//
// # Search
//
// [Best] finds the best runs of one height without looking at each, from up to
// [MaxWidths] widths, provably: it walks through the totals that the widths can
// make, kept as exact sets, and leaves out only what an integer bound shows to be
// no better than what it has. A search too large is refused before it starts.
// [InOrder] yields the runs one by one, [Count] says how many there are, [Near]
// which miss by little, and [Table] the best run for every width of opening at once.
// [MadeToMeasure.Runs] says which runs can be made to measure, and [Fit.Score] what
// a run comes to in an opening.
//
// # Zero values
//
// A zero [Arrangement] is alternate, a zero [Split] by pair, a zero
// [Range.MaxDoors] six, a zero step one millimetre, a nil aim, gap, clearance,
// kerf, price or mass what its field says. The zero [Run] has no doors.
package doors

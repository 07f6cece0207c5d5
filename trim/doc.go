// Package trim schedules the cut of doors that are cut down to the height found, and
// covers the front of a bulkhead with boards.
//
// Lengths are [units.Length]; formulas and sums are in millimetres.
//
// # Where a cut comes off
//
// A door that is too tall loses the same length twice over: off the top of both
// stiles, and out of its panels. Package doors says how deep the cut is and
// whether the door allows it; here it is shared out:
//
//	stile     cut, once off each stile, at the top
//	panels    cut = Σ shares, each whole steps of the saw
//
// Panels are numbered from the bottom, 1 up. Which of them lose height is asked for:
//
//	panel     one: the tallest that may be cut, the topmost in a tie
//	pair      two: the top and the bottom one that may be cut
//	even      all that may be cut, alike
//	shares    all that may be cut, in proportion to their shares of the door
//
// A step that does not come out even goes to the lowest panel that is cut, further
// ones in pairs from the outside in, by shares to the largest remainders. Each
// panel keeps the least height of the build. Glass and mirror are never cut on
// site. Source: common practice.
//
// Clear height 2300, door 2400, 30 for track and rail: the cut is
// 2400 − (2300 − 30) = 130. Of a door of three panels of which the top and the
// bottom one may be cut, in a pair, each loses 65; of a cut of 131 the bottom one
// loses 66 and the top one 65, which a note says, since the door is then no longer
// alike above and below.
//
// # One schedule for a run
//
// The bars of neighbouring doors stay in line only if all doors of a run are cut
// alike, so there is one schedule for all of them. One door is cut, hung and tried
// before the next is cut: [CutDown.Steps] has that order of work.
//
// # Cover boards
//
// The front of a bulkhead is covered with boards joined on studs, as few as the sheets
// allow. A board is cut as a rectangle from joint to joint, as high as the front at its
// highest; where the ceiling runs out 10 are left on, to be scribed off once the board
// is held up. Under a ceiling 270 to 282 above the plate the rectangle is 292 high.
//
// Boards are cut out of sheets in strips along the sheet, with a saw cut between two:
//
//	in a strip    Σ lengths + kerf·(boards − 1) ≤ sheet length
//	in a sheet    Σ heights of strips + kerf·(strips − 1) ≤ sheet width
//
// at the least price where every sheet has one, then with the fewest sheets, then the
// least area. Every way to lay the boards is tried, within a bound on the work; the
// result says whether the search came to its end. Source: common practice.
package trim

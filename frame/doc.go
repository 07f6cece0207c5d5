// Package frame turns the height left above the doors into timber, and says how to put
// it up: a bulkhead of two plates and studs, strips and tapered packing laid in pieces,
// the ends of a frame, its fixings, its stiffness for information, and the marks to draw.
//
// Lengths are [units.Length]; formulas and sums are in millimetres. Places are
// measured from the left wall; the place of a stud is that of its centre. Where no
// other source is named, a rule is common practice.
//
// # Studs
//
// Two plates as long as the narrowest clear width, and studs between them: the end
// ones flush with the ends of the plates, the others evenly between, as few as keep
// their centres within the widest spacing (1000 unless told otherwise). With W the
// width, t the thickness of the timber, c the widest spacing:
//
//	studs      ⌈(W − t)/c⌉ + 1
//	centres    t/2 + i·(W − t)/(studs − 1)
//
// W 2400, t 47, c 1000: ⌈2353/1000⌉ + 1 = 4 studs, their centres (2400 − 47)/3 =
// 784.333 apart: 23.5, 807.833, 1592.167, 2376.5.
//
// # Stud lengths
//
// A stud is as long as the gap where it stands, less the two plates:
//
//	stud length = local gap − 2t
//	local gap   = gap + ceiling there − least ceiling
//
// The gap is given at the lowest point of the ceiling. Levels measured up to the
// ceiling say how much more there is elsewhere: straight between two of them, level
// past the outermost. Gap 270, t 47: 270 − 2 × 47 = 176; where the ceiling stands
// 12 higher, 188. Or the top plate is packed down to a level line, and all studs are
// gap − 2t long.
//
// # Studs on joists
//
// Where joists cross the plates, studs can be moved onto them: as many of those between
// the end ones as the spacing allows, and of the ways to do that the one that moves them
// least in all. The number of studs stays, and no two come further apart than the
// spacing. Studs at 20, 820, 1620, 2420, joists at 700, 900 and 1600, spacing 1000: the
// studs go to 20, 900, 1600, 2420.
//
// # Joints
//
// Plates longer than the stock are joined on a stud that is not an end one. Two
// joints on one stud are a hinge, so the two plates are joined on different studs
// where they can be; of all ways to do that the one with the fewest pieces is taken,
// and where there is none the fewest pieces, sharing as few studs as they can.
//
// Plates of 3640 with studs at 20, 920, 1820, 2720 and 3620, stock 1900: the one
// joint of two pieces can only be on 1820, for 1820 + 1820; so the other plate is
// 920 + 1800 + 920. That the answer is the best there is, is argued in the code and
// tested against every pair of ways.
//
// # Packing
//
// A rail lies level with the highest point of the floor and a track with the lowest of
// the ceiling. With levels measured down to the floor and up to the ceiling from one
// line, what is to pack at a place is
//
//	under the rail     floor there − least floor
//	above the track    ceiling there − least ceiling
//
// straight between two levels. Floor levels 1000, 1000 and 1020 at 0, 1200 and 2400:
// nothing up to 1200, then a wedge from 0 to 20. Pieces run from level to level, or as
// far as the stock goes. Over a bulkhead the studs take up the ceiling.
//
// # Ends
//
// At a wall the plates are cut tight to its narrowest and the end stud is fixed to it;
// at an end panel, which stands plumb and full height, plates and stud are tight to the
// panel. Where there is no wall, a post or a panel from floor to ceiling stands outside
// the clear opening; a post is two lengths of the timber face to face, as long as
//
//	clear height + (floor there − least floor) + (ceiling there − least ceiling)
//
// A plate narrower than the track it carries is found, with the number of plates side by
// side that reach: ⌈track/plate⌉.
//
// # Fixings
//
// Into joists and studs where they are, one wood screw into each that a piece crosses;
// into masonry a screw in a wall plug; else, and where solid ground leaves more than 600
// between two fixings or 300 to an end, anchors in the board: spring toggles overhead,
// hollow-wall anchors in a wall. A screw is at least as long as what it passes and 40 in
// timber or 50 in masonry: 47 of plate, 12.5 of board and 40 are 99.5. No fixing comes
// nearer than 50 to an end or a joint or 25 to an edge, 35 and 15 in timber drilled
// first: 10, 5, 7 and 3 diameters of a screw of 5 (EN 1995-1-1:2004 table 8.2, from
// memory). A piece with fewer than two fixings into solid ground is found, since anchors
// in board steady a plate and do not carry it. What makers and local code ask goes first.
//
// # Stiffness
//
// For information. How far a rectangular timber on two supports bends in its middle,
// with I = b·h³/12 and E the mean modulus of its class in EN 338:2016:
//
//	uniform load w       5·w·L⁴/(384·E·I)
//	point load P         P·L³/(48·E·I)
//	two loads P at a     P·a·(3·L² − 4·a²)/(24·E·I)
//
// Source: AISC Steel Construction Manual table 3-23, cases 1, 7 and 9. C16 of 38 × 89 on
// edge over 2400 under 500 N in its middle: I = 2 232 401.8 mm⁴, and
// 500 × 2400³/(48 × 8000 × I) = 8.063. The limit, span over some number, is the
// caller's: EN 1995-1-1:2004 table 7.2 has l/300 to l/500, here 8 to 4.8. Timber that
// carries load is for a qualified engineer and local code to judge.
//
// # Marks
//
// In the order they are drawn, each measured from a named point or line and proved by a
// measurement taken another way: a level line round the opening; the end panels; the
// rail's edges from the back wall, the track's plumb above them from the inside, and the
// lines that join both on the walls; the underside of what is above the track, from the
// level line; studs, joints and fixings from the left wall. End panels 1800 apart with
// 2400 of height between rail and bottom plate have diagonals of 3000.
package frame

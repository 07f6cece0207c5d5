// Package cutlist cuts bar stock exactly: which bars to take, and which pieces to cut from each, at the
// least cost. It serves timber, track, rail and trims alike, and knows nothing of doors.
//
// # The rule
//
// Every piece is cut once. Pieces fit a bar when
//
//	sum of lengths + kerf × (pieces − 1) ≤ length of the bar − end trim
//
// because the last piece may end the bar, and then needs no cut. What is left of the bar after that is its
// offcut, less one more kerf: with a kerf of 4, two pieces of 1000 fill a bar of 2004 (offcut 0), and leave
// 2100 − 2 × 1004 = 92 of one of 2100.
//
// Of all ways to cut the pieces the one with the least cost is wanted; of equally cheap ones the one with
// the fewest bars; of these the one with the longest offcut kept in one piece. Without prices a bar costs
// its length. An offcut from an earlier job is a stock line with its count and the price 0: it is used
// before a bar that must be bought wherever that saves money. Several jobs are cut together by cutting all
// their pieces as one job; each piece carries its name.
//
// # Small jobs
//
// A job of at most 16 lengths, 48 pieces and 16 stock lines is first searched directly (direct.go), bar by
// bar, each bar beginning with the longest piece still to cut. Two bounds cut the search short: what the
// rest needs by material, priced by the cheapest sets of whole bars with that much room, and that pieces
// of more than half the longest bar need a bar each (the simplest of the bounds of Martello and Toth,
// Knapsack Problems, 1990, chapter 8). All three orders of the objective are settled; nothing but int64 is
// used. The bulkhead of a wardrobe takes some microseconds this way.
//
// # All other jobs
//
// Equal lengths are merged. With a pattern for each way to fill a bar of each stock line, and a whole
// number of bars for each pattern, least cost is a whole-number linear program with far too many columns to
// write down (Gilmore and Gomory, "A linear programming approach to the cutting-stock problem", Operations
// Research 9, 1961, and part II, 11, 1963). Its relaxation to fractions of bars is solved by a dense revised
// simplex method (simplex.go) that starts from greedy plans and asks for new patterns as it needs them
// (columns.go): the best new pattern of a line is a knapsack with a price for each length, solved by
// depth-first search (knapsack.go) with the bound of Dantzig, "Discrete-variable extremum problems",
// Operations Research 5, 1957.
//
// The relaxation is then divided (search.go) by the number of bars of a stock line, at most so many or at
// least one more; and where all these are whole by the number of bars of a line that hold certain pieces
// together (Vanderbeck, "Branching in branch-and-price: a generic scheme", Mathematical Programming 130,
// 2011, from memory). That branch changes the knapsack only by a prize for these pieces. A part starts from
// the basis of the part it was divided from, with the cheapest patterns found so far. Plans come from
// rounding the relaxation step by step and solving it again for the rest (dive.go), with the direct search
// for the last pieces. At the end the direct search cuts the bar with the longest offcut anew together with
// one or two others (whole.go), for fewer bars and a longer offcut; for jobs beyond the direct search these
// two are the best found, not proven.
//
// See Valério de Carvalho, "LP models for bin packing and cutting stock problems", European Journal of
// Operational Research 141, 2002, for the models, and Delorme, Iori and Martello, "Bin packing and cutting
// stock problems: mathematical models and exact algorithms", the same journal 255, 2016, for what else
// there is.
//
// # The proof
//
// The relaxation is computed in float64, which is only a guide: it proposes prices for the lengths. The
// bound that may discard a part, and that a plan carries, is computed from these prices in integers, by
// weak duality: for any prices u ≥ 0 and the greatest value K of a pattern of each line,
//
//	cost ≥ Σ u × wanted + Σ over lines of the least of (price − K) × bars, for the bars allowed
//
// however the prices were found. K comes from the exact knapsack in integers, or is an upper bound of it.
// Costs are whole multiples of a unit, their greatest common divisor, so the bound is rounded up to one.
// All of it is returned as a [Certificate], whose documentation says how to check it; the package's tests
// do, in some forty lines. Bound = cost is the only meaning of Proven.
//
// # Limits
//
// A job has at most [MaxPieces] pieces and [MaxStock] stock lines. The search stops after a number of steps
// that depend on the job alone ([Options].Work), so that the same job gives the same plan on every machine,
// or when its context is done, which is looked at every fraction of a millisecond. Beyond 600 different
// lengths no linear program is set up: the plan is a greedy one, the bound is that by material, and Proven
// is true only where they meet.
package cutlist

// Package lapspan sizes sliding wardrobe doors for a wall-to-wall opening: from
// the tape readings taken in a room to doors, overlaps, the height method, the
// timber above the doors, cuts and an order, with every sum shown.
//
// # The job
//
// A [Job] is composed of what the other packages define: an opening.Survey, a
// doors.Range, a doors.Gear, timber and boards. [Propose] turns it into a
// [Plan], [Explain] adds the working, [Sheet] writes it as text. [ReadJob] reads a
// job from its JSON document; a Plan marshals to one.
//
//	opening   what the readings say: clear width and height, slips, leans, doubts
//	doors     runs of doors that close the opening, what they give access to, and what to do with the height
//	frame     bulkheads and strips as pieces, fixings and marks; frame/cutlist cuts bar stock
//	trim      cuts on doors, cover boards
//	units     lengths, spans, rounding, splits, money
//
// Everything is a value. Nothing here reads a clock, a file or a random number,
// and all of it may be called from many goroutines at once. The same job gives
// the same plan, to the byte.
//
// # Units
//
// Lengths are whole nanometres (units.Length) and print as millimetres. Prices
// are exact decimals, rounded once a line, half to even, to the minor unit of
// the currency. Nothing is rounded in silence.
//
// # Proposals
//
// A proposal is a treatment of the skirtings × a run of doors × a way to use
// the height. Only what can be built is proposed. With n doors of widths w, L
// overlapping junctions and the gear's overlap span o:
//
//	cover            Σw + meeting gaps − L × o.min, at least the widest reading
//	least            Σw + meeting gaps − L × o.max, at most the narrowest reading
//	overlap in place (Σw + meeting gaps − opening) / L
//
// Four doors of 650 with three overlaps of 50 cover 2450; in 2400 each overlap
// is 66 2/3 (common practice).
//
// # Walls that lean
//
// With plumb readings an end door is raised to its wall, w × p / h for a lean of
// p over its height, and what that lifts comes off the allowance: its least, and
// with it the default aim, is a.min + w × p / h. Three doors or more must cover from
// the outermost point of the left wall to the outermost of the right.
//
// # Rank
//
// Proposals are ranked by a list of keys, see [Key] and [DefaultRank], in a
// total order: the last ties are the method, cutting back before end panels,
// the taller stock, then the widths and the tracks, number by number. A plan lists
// the best [Job].Limit of them, and Total says how many there are. Ranges of hundreds
// of widths are searched exactly (see package doors); where a search reached its
// limit on work first, the finding search-not-proven says that better ones may exist.
//
// # Margins
//
// A margin says how far a reading may be out before what is ordered, or the
// method, has to change. A proposal with a margin smaller than the expanded
// uncertainty of the readings that decide it (JCGM 100:2008, coverage factor
// 2) stays, with the finding measure-again in its own findings; the key "sure"
// ranks it behind those without.
//
// # Findings
//
// A finding is data: a stable code, a severity, a place in the job document, a
// message and a remedy. One of severity stop means no proposals: a slip, a
// reading of zero or less, missing readings, or gear that hangs its doors.
// Everything else is a warn or a note.
//
// # What it does not decide
//
// Lapspan covers gear that rolls on a floor rail. It does not judge glass
// classes, loads, fixings or anything that local code or a qualified person
// has to; the cautions of a plan say so where it applies.
package lapspan

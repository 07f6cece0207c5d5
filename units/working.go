package units

// Line is one line of working, as one writes it on paper: what is worked out, the sum, and what
// it comes to. The zero value is an empty line.
//
//	overlap   (2600 - 2400) / 3   66.666667 mm
type Line struct {
	What string `json:"what"` // "overlap"
	Sum  string `json:"sum"`  // "(2600 - 2400) / 3"
	Is   string `json:"is"`   // "66.666667 mm", with its unit
}

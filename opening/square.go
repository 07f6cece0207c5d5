package opening

import (
	"cmp"
	"fmt"
	"math/big"

	"example.com/lapspan/units"
)

// The codes of findings about the diagonals.
const (
	CodeDiagonalWrong Code = "diagonal-wrong"
	CodeOutOfSquare   Code = "out-of-square"
)

// Diagonals are the two diagonals of the opening, corner to corner.
type Diagonals struct {
	Rising  units.Length `json:"rising"`  // bottom left to top right
	Falling units.Length `json:"falling"` // top left to bottom right
}

func (d *Diagonals) validate() error {
	if d == nil {
		return nil
	}
	return cmp.Or(
		CheckBound("opening.diagonals.rising", d.Rising),
		CheckBound("opening.diagonals.falling", d.Falling),
	)
}

// Squareness is what the diagonals say of the opening.
type Squareness struct {
	// Shear is how far the top stands to the right of the bottom, over the mean
	// height; negative: to the left. Half even to a nanometre.
	Shear units.Length `json:"shear"`
	// Uncertainty is the expanded uncertainty of Shear from the accuracy of the readings, rounded up.
	Uncertainty units.Length `json:"uncertainty"`
	// Wrong is the reading most likely wrong, empty when the four agree: a place
	// such as opening.diagonals.rising, opening.widths or opening.heights.
	Wrong string `json:"wrong,omitzero"`
	// Would is what that reading would have to be for the others to agree.
	Would units.Length `json:"would,omitzero"`
}

// Square compares the diagonals with the mean width W and height H. With
// d₁ rising and d₂ falling
//
//	shear = (d₁² − d₂²) / 4W         d₁² + d₂² = 2 (W² + H² + shear²)
//
// so that 1800 × 2400 has diagonals of 3000. Readings that break the second by
// more than their accuracy can explain are wrong somewhere: the reading most
// likely so is the diagonal that alone tells the more unlikely shear, or, where
// both are out alike, the widths or the heights, whichever were read less
// often. The shear expected is that of the plumb readings, none without them.
// How far widths (or heights) scatter about their mean counts with their
// accuracy. All sums are exact; only results are rounded. Equal diagonals alone
// do not prove that an opening is square: widths and heights must agree too.
//
// The error is an *InputError for a survey without diagonals, widths or
// heights, and for readings that are not more than zero or so far from a
// rectangle that nothing can be said.
func (s Survey) Square() (Squareness, error) {
	if s.Diagonals == nil {
		return Squareness{}, Refuse("opening.diagonals", "they were not read")
	}
	d := *s.Diagonals
	if err := d.check(); err != nil {
		return Squareness{}, err
	}
	var widths, heights []units.Length
	for _, w := range s.Widths {
		widths = append(widths, s.wallToWall(w))
	}
	for _, h := range s.Heights {
		heights = append(heights, h.Size)
	}
	w, err := meanOf("opening.widths", widths, s.accuracy())
	if err != nil {
		return Squareness{}, err
	}
	h, err := meanOf("opening.heights", heights, s.accuracy())
	if err != nil {
		return Squareness{}, err
	}
	rising, falling := rat(d.Rising), rat(d.Falling)
	shear := quotient(difference(square(rising), square(falling)), product(rat(4), w.mean))
	q := Squareness{}
	if q.Shear, err = nearest("opening.diagonals", shear); err != nil {
		return Squareness{}, err
	}
	// The shear moves by d/2W for each of the diagonals, and by shear/W for the width.
	accuracy := rat(s.accuracy())
	u2 := sum(
		square(quotient(product(rising, accuracy), product(rat(2), w.mean))),
		square(quotient(product(falling, accuracy), product(rat(2), w.mean))),
		product(square(quotient(shear, w.mean)), w.variance),
	)
	if q.Uncertainty, err = rootUp("opening.diagonals", u2); err != nil {
		return Squareness{}, err
	}
	// What the readings miss by, and what they may: each moves it by 2d or 4W, 4H.
	miss := difference(sum(square(rising), square(falling)),
		product(rat(2), sum(square(w.mean), square(h.mean), square(shear))))
	may2 := sum(
		product(rat(4), square(product(rising, accuracy))),
		product(rat(4), square(product(falling, accuracy))),
		product(rat(16), product(square(w.mean), w.variance)),
		product(rat(16), product(square(h.mean), h.variance)),
	)
	if square(miss).Cmp(may2) <= 0 {
		return q, nil
	}
	return s.blame(q, w, h)
}

// blame names the reading most likely wrong. Each diagonal alone tells a shear,
// √(d² − H²) and W either way about; the wrong one tells the less likely.
func (s Survey) blame(q Squareness, w, h mean) (Squareness, error) {
	expected := rat(s.leanShear())
	run := func(d units.Length) *big.Rat { // how far apart its two corners are across the opening
		rest := difference(square(rat(d)), square(h.mean))
		if rest.Sign() < 0 {
			return new(big.Rat)
		}
		return root(rest)
	}
	byRising := difference(difference(run(s.Diagonals.Rising), w.mean), expected)
	byFalling := difference(difference(w.mean, run(s.Diagonals.Falling)), expected)
	// Beyond what the readings can tell apart, the further of the two is wrong.
	apart := difference(new(big.Rat).Abs(byRising), new(big.Rat).Abs(byFalling))
	margin := rat(q.Uncertainty)
	var would *big.Rat
	switch {
	case apart.Cmp(margin) > 0:
		q.Wrong = "opening.diagonals.rising"
		across := difference(product(rat(2), w.mean), run(s.Diagonals.Falling))
		would = root(sum(square(across), square(h.mean)))
	case new(big.Rat).Neg(apart).Cmp(margin) > 0:
		q.Wrong = "opening.diagonals.falling"
		across := difference(product(rat(2), w.mean), run(s.Diagonals.Rising))
		would = root(sum(square(across), square(h.mean)))
	case h.count < w.count:
		q.Wrong = "opening.heights"
		would = s.rest(w.mean, rat(q.Shear))
	default:
		q.Wrong = "opening.widths"
		would = s.rest(h.mean, rat(q.Shear))
	}
	var err error
	q.Would, err = nearest(q.Wrong, would)
	return q, err
}

// rest is the side of the opening that the diagonals leave beside the other one.
func (s Survey) rest(side, shear *big.Rat) *big.Rat {
	half := quotient(sum(square(rat(s.Diagonals.Rising)), square(rat(s.Diagonals.Falling))), rat(2))
	left := difference(half, sum(square(side), square(shear)))
	if left.Sign() < 0 {
		return new(big.Rat)
	}
	return root(left)
}

// leanShear is the shear that the plumb readings tell over the mean height:
// half of how much more the right wall leans out than the left.
func (s Survey) leanShear() units.Length {
	if len(s.Leans.Left) < 2 || len(s.Leans.Right) < 2 {
		return 0
	}
	left, right := s.wall(Left), s.wall(Right)
	top := units.MaxLength
	return (right.at(top).size - right.at(0).size - left.at(top).size + left.at(0).size) / 2
}

// squareFindings are the findings about the diagonals.
func (s Survey) squareFindings() Findings {
	if s.Diagonals == nil {
		return nil
	}
	q, err := s.Square()
	if err != nil {
		return Findings{{
			Code: CodeDiagonalWrong, Severity: Warn, Place: "opening.diagonals",
			Message: "the diagonals do not belong to this opening: " + err.Error(),
			Remedy:  "measure both diagonals again, corner to corner",
		}}
	}
	var found Findings
	switch {
	case q.Wrong != "":
		found = append(found, Finding{
			Code: CodeDiagonalWrong, Severity: Warn, Place: q.Wrong,
			Message: fmt.Sprintf("diagonals, widths and heights do not agree; with %s of about %s they would", q.Wrong, about(q.Would)),
			Remedy:  "measure that again first, then both diagonals",
		})
	case q.Shear.Abs() > q.Uncertainty:
		way := "right"
		if q.Shear < 0 {
			way = "left"
		}
		found = append(found, Finding{
			Code: CodeOutOfSquare, Severity: Note, Place: "opening.diagonals",
			Message: fmt.Sprintf("the top of the opening stands %s to the %s of its bottom, give or take %s", about(q.Shear.Abs()), way, about(q.Uncertainty)),
			Remedy:  "plumb readings at both walls say which wall leans, and by how much",
		})
	}
	return found
}

func (d Diagonals) check() error {
	if err := CheckSize("opening.diagonals.rising", d.Rising); err != nil {
		return err
	}
	return CheckSize("opening.diagonals.falling", d.Falling)
}

// mean is the mean of readings of one size, with the square of its expanded uncertainty.
type mean struct {
	mean, variance *big.Rat
	count          int
}

// meanOf returns the mean of readings. Its uncertainty is what their accuracy
// makes of it, accuracy/√n, or half of what they are apart, whichever is larger.
func meanOf(place string, sizes []units.Length, accuracy units.Length) (mean, error) {
	if len(sizes) == 0 {
		return mean{}, Refuse(place, "there are no readings to compare the diagonals with")
	}
	var total units.Length
	least, most := sizes[0], sizes[0]
	for _, size := range sizes {
		if err := CheckSize(place, size); err != nil {
			return mean{}, err
		}
		total, least, most = total+size, min(least, size), max(most, size)
	}
	n := rat(units.Length(len(sizes)))
	m := mean{quotient(rat(total), n), quotient(square(rat(accuracy)), n), len(sizes)}
	if half := square(quotient(rat(most-least), rat(2))); half.Cmp(m.variance) > 0 {
		m.variance = half
	}
	return m, nil
}

func rat(l units.Length) *big.Rat       { return big.NewRat(int64(l), 1) }
func square(x *big.Rat) *big.Rat        { return new(big.Rat).Mul(x, x) }
func product(x, y *big.Rat) *big.Rat    { return new(big.Rat).Mul(x, y) }
func quotient(x, y *big.Rat) *big.Rat   { return new(big.Rat).Quo(x, y) }
func difference(x, y *big.Rat) *big.Rat { return new(big.Rat).Sub(x, y) }
func sum(first *big.Rat, more ...*big.Rat) *big.Rat {
	total := new(big.Rat).Set(first)
	for _, x := range more {
		total.Add(total, x)
	}
	return total
}

// root is the square root of x, not negative, down to a thousandth of a nanometre.
func root(x *big.Rat) *big.Rat {
	scaled := new(big.Int).Mul(x.Num(), big.NewInt(1_000_000))
	scaled.Quo(scaled, x.Denom())
	return new(big.Rat).SetFrac(scaled.Sqrt(scaled), big.NewInt(1000))
}

// rootUp is the square root of x, not negative, rounded up to a nanometre.
func rootUp(place string, x *big.Rat) (units.Length, error) {
	whole, over := new(big.Int).QuoRem(x.Num(), x.Denom(), new(big.Int))
	r := new(big.Int).Sqrt(whole)
	if over.Sign() > 0 || new(big.Int).Mul(r, r).Cmp(whole) < 0 {
		r.Add(r, big.NewInt(1))
	}
	return within(place, r)
}

// nearest rounds half even to a nanometre.
func nearest(place string, x *big.Rat) (units.Length, error) {
	doubled := new(big.Int).Mul(x.Num(), big.NewInt(2))
	doubled.Add(doubled, x.Denom()) // x + 1/2, over 2 × the denominator
	down, over := new(big.Int).DivMod(doubled, new(big.Int).Mul(x.Denom(), big.NewInt(2)), new(big.Int))
	if over.Sign() == 0 && down.Bit(0) == 1 {
		down.Sub(down, big.NewInt(1))
	}
	return within(place, down)
}

func within(place string, x *big.Int) (units.Length, error) {
	if !x.IsInt64() {
		return 0, Refuse(place, "it is too far from a rectangle to say anything")
	}
	l := units.Length(x.Int64())
	return l, CheckBound(place, l)
}

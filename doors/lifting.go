package doors

import (
	"fmt"
	"math/big"

	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// Lift is one lift by one person with two hands, for the revised NIOSH lifting
// equation (Waters, Putz-Anderson and Garg, Applications Manual, DHHS (NIOSH)
// Publication 94-110). The zero value is a lift from the floor, close to the
// body, with a good grip, once in five minutes or less for an hour or less.
type Lift struct {
	Horizontal units.Length // from between the ankles to the hands; less than 250 mm counts as 250
	Vertical   units.Length // from the floor to the hands where the lift begins
	Travel     units.Length // how far up or down; less than 250 mm counts as 250
	Angle      int          // degrees the body is twisted
	// Frequency and Coupling are the multipliers of tables 5 and 7 in hundredths,
	// 1 to 100; zero: 100.
	Frequency, Coupling int
}

// Where the equation ends: beyond these it allows nothing.
const (
	maxHorizontal = 630 * units.Millimetre
	maxVertical   = 1750 * units.Millimetre
	maxTravel     = 1750 * units.Millimetre
	maxAngle      = 135
	leastReach    = 250 * units.Millimetre // horizontal and travel
)

// RecommendedMass returns the recommended weight limit of a lift, rounded down
// to a gram, once, from the exact product:
//
//	23 kg × 25/H × (1 − 0.003 |V − 75|) × (0.82 + 4.5/D) × (1 − 0.0032 A) × FM × CM
//
// with H, V and D in centimetres and A in degrees. H above 63 cm, V or D above 175 cm and A above 135°
// allow nothing. It is a screening figure: the equation does not cover two people,
// one hand, kneeling, narrow space, slippery floors, loads that shift, or
// carrying and pushing, and doors are often handled in such ways.
//
// A negative length, an angle below zero or a multiplier outside 0 to 100 is an *opening.InputError.
func RecommendedMass(l Lift) (units.Mass, error) {
	for _, f := range []struct {
		place string
		at    units.Length
	}{{"horizontal", l.Horizontal}, {"vertical", l.Vertical}, {"travel", l.Travel}} {
		if err := opening.CheckPosition("lift."+f.place, f.at); err != nil {
			return units.Mass{}, err
		}
	}
	if l.Angle < 0 {
		return units.Mass{}, opening.Refuse("lift.angle", "%d is less than 0", l.Angle)
	}
	limit := new(big.Rat).SetInt64(23)
	for _, m := range []struct {
		place      string
		hundredths int
	}{{"frequency", l.Frequency}, {"coupling", l.Coupling}} {
		if m.hundredths < 0 || m.hundredths > 100 {
			return units.Mass{}, opening.Refuse("lift."+m.place, "%d is not 0 to 100 hundredths", m.hundredths)
		}
		if m.hundredths > 0 {
			limit.Mul(limit, big.NewRat(int64(m.hundredths), 100))
		}
	}
	if l.Horizontal > maxHorizontal || l.Vertical > maxVertical || l.Travel > maxTravel || l.Angle > maxAngle {
		return units.Mass{}, nil
	}
	const cm = int64(units.Centimetre)
	limit.Mul(limit, big.NewRat(25*cm, int64(max(l.Horizontal, leastReach))))
	one := big.NewRat(1, 1)
	limit.Mul(limit, one.Sub(one, big.NewRat(3*int64((l.Vertical-75*units.Centimetre).Abs()), 1000*cm)))
	travel := big.NewRat(82, 100)
	limit.Mul(limit, travel.Add(travel, big.NewRat(45*cm, 10*int64(max(l.Travel, leastReach)))))
	limit.Mul(limit, big.NewRat(10_000-32*int64(l.Angle), 10_000))
	grams := new(big.Int).Mul(limit.Num(), big.NewInt(1000))
	grams.Quo(grams, limit.Denom())
	return units.MustMass("0.001").Mul(grams.Int64()), nil
}

// The findings about lifting a door.
const (
	CodeTwoPeople opening.Code = "two-people"
	CodeHeavyDoor opening.Code = "heavy-door"
)

// Lifting returns what there is to say about lifting a door of the mass: over
// 15 kg it takes two people (common practice); over 25 kg, the reference mass of
// ISO 11228-1 for one person, it is a warning; over twice that, that it takes
// more than two or an aid. The screening figure of lift is named where the door passes it.
// The error is that of RecommendedMass.
func Lifting(mass units.Mass, lift Lift) (opening.Findings, error) {
	recommended, err := RecommendedMass(lift)
	if err != nil {
		return nil, err
	}
	if mass.Cmp(units.MustMass("15")) <= 0 {
		return nil, nil
	}
	f := opening.Finding{
		Code: CodeTwoPeople, Severity: opening.Note, Place: "doors.build",
		Message: fmt.Sprintf("a door weighs %s", mass),
		Remedy:  "two people for each door, never alone into the top track",
	}
	reference := units.MustMass("25")
	switch {
	case mass.Cmp(reference.Mul(2)) > 0:
		f.Code, f.Severity = CodeHeavyDoor, opening.Warn
		f.Message += ", more than twice the 25 kg that ISO 11228-1 takes as the reference for one person"
		f.Remedy = "more than two people or a lifting aid for each door, or lighter panels"
	case mass.Cmp(reference) > 0:
		f.Code, f.Severity = CodeHeavyDoor, opening.Warn
		f.Message += ", more than the 25 kg that ISO 11228-1 takes as the reference for one person"
	}
	if mass.Cmp(recommended) > 0 {
		f.Message += fmt.Sprintf("; for one person the revised NIOSH equation gives %s, a screening figure", recommended)
	}
	return opening.Findings{f}, nil
}

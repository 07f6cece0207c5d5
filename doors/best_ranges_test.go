package doors_test

import (
	"math/rand/v2"
	"slices"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

// widthsOnSale makes ranges of many kinds by name: evenly stepped, at random,
// with gaps, and imperial.
func widthsOnSale(kind string, count int, rng *rand.Rand) []units.Length {
	var widths []units.Length
	random := func(from, to, step units.Length) {
		seen := map[units.Length]bool{}
		for len(widths) < count {
			w := from + units.Length(rng.Int64N(int64((to-from)/step)))*step
			if !seen[w] {
				seen[w] = true
				widths = append(widths, w)
			}
		}
	}
	stepped := func(from, step units.Length, count int) {
		for i := range count {
			widths = append(widths, from+units.Length(i)*step)
		}
	}
	switch kind {
	case "1 mm":
		stepped(400*mm, mm, count)
	case "5 mm":
		stepped(300*mm, 5*mm, count)
	case "1/16 in":
		stepped(12*units.Inch, units.Inch/16, count)
	case "random mm":
		random(300*mm, 1500*mm, mm)
	case "random 0.1 mm":
		random(300*mm, 1500*mm, mm/10)
	case "gaps":
		stepped(300*mm, mm, count/2)
		stepped(900*mm, 7*mm, count-count/2)
	case "one apart":
		stepped(300*mm, mm, count-1)
		widths = append(widths, 1000*mm)
	case "two units": // inches beside millimetres
		random(300*mm, 1500*mm, mm)
		widths = widths[:count-count/4]
		for i := 0; len(widths) < count; i++ {
			widths = append(widths, 12*units.Inch+units.Length(i)*units.Inch/2)
		}
		slices.Sort(widths)
		widths = slices.Compact(widths)
	}
	slices.Sort(widths)
	return widths
}

var rangeKinds = []string{"1 mm", "5 mm", "1/16 in", "random mm", "random 0.1 mm", "gaps", "one apart", "two units"}

// priced puts prices on widths by name.
func priced(kind string, widths []units.Length, rng *rand.Rand) []doors.Offer {
	var offers []doors.Offer
	price := int64(500_000)
	for _, w := range widths {
		millimetres := int64(w / mm)
		price += rng.Int64N(60_000)
		o := doors.Offer{Width: w}
		switch kind {
		case "none":
			o.Price = doors.Unpriced
		case "alike":
			o.Price = 990_000
		case "bands":
			o.Price = 890_000 + []int64{0, 100_000, 250_000, 450_000, 700_000, 1_100_000}[min(5, millimetres/200)]
		case "proportional":
			o.Price = (millimetres*1370 + 5000) / 10_000 * 10_000
		case "cents":
			o.Price = (millimetres*1373 + 50) / 100 * 100
		case "rising":
			o.Price = price
		case "random":
			o.Price = 500_000 + rng.Int64N(2_000_000)
		}
		offers = append(offers, o)
	}
	return offers
}

var priceKinds = []string{"none", "alike", "bands", "proportional", "cents", "rising", "random"}

func benchSearch(offers []doors.Offer, opening units.Length) doors.Search {
	fit := doors.Fit{
		Span:        units.Span{Min: opening, Max: opening + 8*mm},
		NarrowDoubt: 2 * mm, WideDoubt: 2 * mm,
	}
	return doors.Search{
		Widths: offers, Fit: fit, MaxDoors: 8, Mixed: true, Limit: 10,
		Gear: doors.Gear{Tracks: 2, Overlap: doors.Target{Min: 20 * mm, Max: 70 * mm}},
		Rank: []doors.Key{doors.BySure, doors.ByWidth, doors.ByDoors, doors.ByAccess},
	}
}

package doors

import (
	"cmp"
	"context"
	"math/bits"
	"slices"
)

// pricing is what doors cost: exactly for a run, and from below for some doors
// that are still to be chosen.
type pricing struct {
	price []int64 // of one door, or Unpriced
	least []int64 // no more than a door's part of the price of any number alike
	step  int64
	fixed [MaxDoors + 1]int64
	d     []int64
	hull  []int // the widths on the lower convex hull of price over d, where it rises
	// The price of n doors is n × base and whole units more, when every door has a price.
	base, unit int64
	// exact[j][x] is the least that j doors cost whose d make x or more, once
	// built, of those widths alone that a run within a limit may have: live.
	exact [MaxDoors + 1][]int64
	live  []bool
}

// unpricedLeast stands for the price of a door without one in sums from below.
// It is more than any run with prices can cost.
const unpricedLeast = noPrice / 8

func newPricing(s *Search, d []int64) *pricing {
	n := len(s.Widths)
	room := make([]int64, 2*n)
	p := &pricing{price: room[:n:n], least: room[n:], step: s.PriceStep, fixed: s.Fixed, d: d}
	for i, o := range s.Widths {
		p.price[i], p.least[i] = o.Price, p.part(o.Price)
	}
	return p
}

// measure finds base and unit.
func (p *pricing) measure() {
	p.unit, p.base = 0, Unpriced
	for _, price := range p.price {
		switch {
		case price == Unpriced:
		case p.step > 1 && price%p.step != 0:
			p.base, p.unit = 0, p.step
			return
		case p.base == Unpriced:
			p.base = price
		default:
			p.unit = gcd(p.unit, max(price-p.base, p.base-price))
		}
	}
}

// total is no more than n doors cost of which some cost so much and those to come,
// whose d make need or more, cost no more than the bound: rounded up to a price there is.
func (p *pricing) total(n int, cost int64, rest int, need int64) int64 {
	return p.run(n, cost+p.bound(rest, need))
}

// run is no more than a run of n doors costs that cost no less than sum.
func (p *pricing) run(n int, sum int64) int64 {
	if sum < unpricedLeast && p.unit > 1 {
		sum += floorMod(int64(n)*p.base-sum, p.unit)
	}
	return sum + p.fixed[n]
}

// part is the least that a door can add when doors of one width are rounded together.
func (p *pricing) part(price int64) int64 {
	if price == Unpriced {
		return unpricedLeast
	}
	least := price
	if p.step > 1 {
		for n := int64(1); n <= MaxDoors; n++ {
			least = min(least, p.line(price, n)/n)
		}
	}
	return least
}

// line is the price of n doors of one width, rounded half even to the step.
func (p *pricing) line(price, n int64) int64 {
	sum := n * price
	if p.step <= 1 {
		return sum
	}
	down := sum / p.step
	switch twice := 2 * (sum % p.step); {
	case twice > p.step, twice == p.step && down%2 == 1:
		down++
	}
	return down * p.step
}

// of is the price of a set of widths, equal ones beside each other, or noPrice.
func (p *pricing) of(set []int16) int64 {
	sum := p.fixed[len(set)]
	for i := 0; i < len(set); {
		n := i + 1
		for n < len(set) && set[n] == set[i] {
			n++
		}
		price := p.price[set[i]]
		if price == Unpriced {
			return noPrice
		}
		sum += p.line(price, int64(n-i))
		i = n
	}
	return sum
}

// raise finds the hull: its slopes rise, and it starts at the cheapest width.
func (p *pricing) raise() {
	start := 0
	for i := range p.least {
		if p.least[i] <= p.least[start] {
			start = i
		}
	}
	p.hull = []int{start}
	for i := start + 1; i < len(p.least); i++ {
		for len(p.hull) > 1 && !p.below(p.hull[len(p.hull)-2], p.hull[len(p.hull)-1], i) {
			p.hull = p.hull[:len(p.hull)-1]
		}
		p.hull = append(p.hull, i)
	}
}

// below reports whether b lies below the line from a to c.
func (p *pricing) below(a, b, c int) bool {
	if p.least[c] <= p.least[b] {
		return false
	}
	// (pb − pa)·(dc − da) < (pc − pa)·(db − da), all of them 0 or more.
	hi1, lo1 := bits.Mul64(uint64(p.least[b]-p.least[a]), uint64(p.d[c]-p.d[a]))
	hi2, lo2 := bits.Mul64(uint64(p.least[c]-p.least[a]), uint64(p.d[b]-p.d[a]))
	return hi1 < hi2 || hi1 == hi2 && lo1 < lo2
}

// bound is no more than j doors cost whose d make need or more. At least
// j × the largest d can be needed.
func (p *pricing) bound(j int, need int64) int64 {
	if j == 0 {
		return 0
	}
	if exact := p.exact[j]; exact != nil {
		return exact[max(need, 0)]
	}
	n := int64(j)
	if need <= n*p.d[p.hull[0]] {
		return n * p.least[p.hull[0]]
	}
	k, _ := slices.BinarySearchFunc(p.hull, need, func(i int, need int64) int { return cmp.Compare(n*p.d[i], need) })
	a, b := p.hull[k-1], p.hull[k]
	// n·pa + (pb − pa)·(need − n·da)/(db − da), rounded up; the last factor is at most n.
	run := uint64(p.d[b] - p.d[a])
	hi, lo := bits.Mul64(uint64(p.least[b]-p.least[a]), uint64(need-n*p.d[a]))
	q, r := bits.Div64(hi, lo, run)
	if r > 0 {
		q++
	}
	return n*p.least[a] + int64(q)
}

// rising is the live widths that no wider one undercuts: all that least prices need.
func (p *pricing) rising() []int {
	var keep []int
	least := int64(noPrice)
	for i := len(p.least) - 1; i >= 0; i-- {
		if p.live[i] && p.least[i] < least {
			keep, least = append(keep, i), p.least[i]
		}
	}
	return keep
}

// reset forgets the exact bounds.
func (p *pricing) reset() { p.exact, p.live = [MaxDoors + 1][]int64{}, nil }

// maxPricingSteps bounds the steps to build the exact bounds.
const maxPricingSteps = 20_000_000

// build fills the exact bounds from the live widths, as far as so many doors may
// need, unless that takes too long or the context ends.
func (p *pricing) build(ctx context.Context, doors int, far *[MaxDoors + 1]int64) error {
	keep, widest := p.rising(), p.d[len(p.d)-1]
	steps := int64(0)
	for j := 1; j <= doors; j++ {
		steps += int64(len(keep)) * min(int64(j)*widest, far[j])
	}
	if steps > maxPricingSteps {
		return nil
	}
	less := []int64{0}
	var exact [MaxDoors + 1][]int64
	for j := 1; j <= doors; j++ {
		row := make([]int64, min(int64(j)*widest, far[j])+1)
		for x := range row {
			row[x] = noPrice
		}
		for _, i := range keep {
			d, price := p.d[i], p.least[i]
			if err := ctx.Err(); err != nil {
				return err
			}
			for x := range min(d, int64(len(row))) {
				row[x] = min(row[x], less[0]+price)
			}
			if d >= int64(len(row)) {
				continue
			}
			part := row[d:]
			for x, before := range less[:min(len(less), len(part))] {
				part[x] = min(part[x], before+price)
			}
		}
		exact[j], less = row, row
	}
	p.exact = exact
	return nil
}

package cutlist

import (
	"math"
	"math/bits"
	"slices"
)

// A prize is added to the value of a pattern of a line that has at least the items of has: the worth of
// a branch on the number of such bars. It may be negative.
type prize struct {
	has   []item
	value int64
}

// knapsack finds the most valuable pattern of one line by depth-first search over the kinds in falling
// order of value for size (Gilmore and Gomory 1963, with the bound of Dantzig 1957: room left × the best
// value for size still to come). Values are integers, so the answer is exact.
type knapsack struct {
	kinds  []kind
	value  []int64 // of one piece of each kind, ≥ 0
	need   []int32 // pieces of each kind, at most
	prizes []prize // of the line being searched
	work   *budget

	order   []int32 // kinds that prizes ask for, then those with a value, the best for their size first
	settled int     // how many of order are the first kind
	top     int     // where in order the best value for size is
	least   []int64 // least size in order from here on
	size    []int64
	worth   []int64
	most    []int64
	take    []int32 // pieces of each kind in the pattern being built
	bonus   int64   // sum of the positive prizes
	best    int64   // best value so far, or what must be exceeded
	found   bool
	pattern []item
	soft    int64 // steps allowed after an improvement, when any improvement will do
	hard    int64 // steps allowed at all
	cut     bool  // the search was cut short: best may not be the greatest value
}

func newKnapsack(kinds []kind, work *budget) *knapsack {
	n := len(kinds)
	k := &knapsack{
		kinds: kinds,
		value: make([]int64, n),
		need:  make([]int32, n),
		work:  work,
		order: make([]int32, 0, n),
		least: make([]int64, n+1),
		size:  make([]int64, n),
		worth: make([]int64, n),
		most:  make([]int64, n),
		take:  make([]int32, n),
	}
	for i := range kinds {
		k.need[i] = int32(kinds[i].need)
	}
	return k
}

// prepare sorts the kinds by their present values and needs. Those that a prize may ask for, in any of the
// rows, come first: once they are settled, so are the prizes.
func (k *knapsack) prepare(rows []row) {
	k.order, k.settled = k.order[:0], 0
	for _, r := range rows {
		for _, it := range r.has {
			if !slices.Contains(k.order, it.kind) && k.need[it.kind] > 0 {
				k.order = append(k.order, it.kind)
			}
		}
	}
	k.settled = len(k.order)
	for i, v := range k.value {
		if v <= 0 || k.need[i] == 0 || slices.Contains(k.order[:k.settled], int32(i)) {
			continue
		}
		at := len(k.order)
		k.order = append(k.order, int32(i))
		for ; at > k.settled; at-- {
			o := k.order[at-1]
			if !less(k.value[o], k.kinds[o].size, v, k.kinds[i].size) {
				break
			}
			k.order[at] = o
		}
		k.order[at] = int32(i)
	}
	n := len(k.order)
	k.top = 0
	k.least[n] = 1 << 62
	for at := n - 1; at >= 0; at-- {
		i := k.order[at]
		k.size[at], k.worth[at], k.most[at] = k.kinds[i].size, k.value[i], int64(k.need[i])
		k.least[at] = min(k.least[at+1], k.size[at])
	}
	for at := range n {
		if less(k.worth[k.top], k.size[k.top], k.worth[at], k.size[at]) {
			k.top = at
		}
	}
	k.work.spend(int64(2 * len(k.value)))
}

// run looks for a pattern of this room worth more than least and returns the greatest value found, or
// least. With soft > 0 it is content with a good one. cut says whether a better one may exist.
func (k *knapsack) run(room, least, soft, hard int64) int64 {
	k.best, k.found, k.cut, k.bonus = least, false, false, 0
	k.soft, k.hard = soft, hard
	for _, z := range k.prizes {
		k.bonus += max(z.value, 0)
	}
	k.settle(0, room, 0)
	k.work.spend((hard - k.hard) % pollEvery)
	return k.best
}

// settle goes through the numbers of the kinds that prizes ask for, from order[at] on.
func (k *knapsack) settle(at int, room, value int64) {
	if at == k.settled {
		k.dive(at, room, value+k.prize())
		return
	}
	if k.cut || k.hopeless(k.top, room, k.best-value-k.bonus) {
		return
	}
	i := k.order[at]
	for t := min(room/k.size[at], k.most[at]); t >= 0 && !k.cut; t-- {
		k.take[i] = int32(t)
		k.settle(at+1, room-t*k.size[at], value+t*k.worth[at])
	}
	k.take[i] = 0
}

// hopeless reports whether this room is worth no more than gap at the value for size of order[at].
func (k *knapsack) hopeless(at int, room, gap int64) bool {
	if gap < 0 {
		return false
	}
	// ⌊room·worth/size⌋ ≤ gap is room·worth < (gap+1)·size.
	h1, l1 := bits.Mul64(uint64(room), uint64(k.worth[at]))
	h2, l2 := bits.Mul64(uint64(gap), uint64(k.size[at]))
	l2, carry := bits.Add64(l2, uint64(k.size[at]), 0)
	h2 += carry
	return h1 < h2 || h1 == h2 && l1 < l2
}

// dive goes through the patterns that extend the one in take with kinds from order[at] on.
func (k *knapsack) dive(at int, room, value int64) {
	if k.hard--; k.hard%pollEvery == 0 {
		k.work.spend(pollEvery)
		k.cut = k.cut || k.work.out()
	}
	if k.hard < 0 || k.cut {
		k.cut = true
		return
	}
	if value > k.best {
		k.compare(value)
	}
	for ; k.least[at] <= room; at++ {
		size := k.size[at]
		if size > room {
			continue
		}
		if k.hopeless(at, room, k.best-value) {
			return
		}
		if k.found && k.soft > 0 {
			if k.soft--; k.soft == 0 {
				k.cut = true
				return
			}
		}
		i := k.order[at]
		n := min(room/size, k.most[at])
		for t := n; t > 0; t-- {
			k.take[i] = int32(t)
			k.dive(at+1, room-t*size, value+t*k.worth[at])
			if k.cut {
				break
			}
		}
		k.take[i] = 0
		if k.cut {
			return
		}
	}
}

// compare keeps the pattern in take, whose value is the best so far.
func (k *knapsack) compare(value int64) {
	k.best, k.found = value, true
	k.pattern = k.pattern[:0]
	for i, n := range k.take {
		if n > 0 {
			k.pattern = append(k.pattern, item{kind: int32(i), n: n})
		}
	}
}

// prize returns the prizes of the pattern in take.
func (k *knapsack) prize() int64 {
	sum := int64(0)
next:
	for _, z := range k.prizes {
		for _, it := range z.has {
			if k.take[it.kind] < it.n {
				continue next
			}
		}
		sum += z.value
	}
	return sum
}

// bound returns a value that no pattern of this room exceeds: all of it at the best value for size.
func (k *knapsack) bound(room int64) int64 {
	if len(k.order) == 0 {
		return k.bonus
	}
	h, l := bits.Mul64(uint64(room), uint64(k.worth[k.top]))
	if h >= uint64(k.size[k.top]) {
		return math.MaxInt64 / 2
	}
	q, _ := bits.Div64(h, l, uint64(k.size[k.top]))
	return int64(min(q, math.MaxInt64/4)) + k.bonus + 1
}

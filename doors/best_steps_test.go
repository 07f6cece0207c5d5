package doors_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

// stepBudgets are searches of many kinds with the steps that each may take: a twentieth
// more than it took when its bounds were last tightened. All that a looser bound
// does is to cost steps, so that nothing but this tells.
var stepBudgets = []struct {
	widths, prices string
	count          int
	opening        units.Length
	arrangement    doors.Arrangement
	rank           []doors.Key
	steps          int
}{
	{"one apart", "cents", 120, 4460 * mm, doors.Alternate, nil, 20040},
	{"random mm", "cents", 120, 4460 * mm, doors.Alternate, nil, 4853},
	{"gaps", "cents", 40, 4460 * mm, doors.Alternate, nil, 1354},
	{"gaps", "cents", 40, 3240 * mm, doors.Alternate, []doors.Key{doors.ByAccess, doors.ByEven}, 62526},
	{"random mm", "cents", 40, 1850 * mm, doors.Alternate, []doors.Key{doors.ByAccess, doors.ByEven}, 50518},
	{"one apart", "cents", 40, 4460 * mm, doors.Alternate, []doors.Key{doors.ByAccess, doors.ByEven}, 49944},
	{"random mm", "rising", 40, 1850 * mm, doors.Alternate, []doors.Key{doors.ByAccess, doors.ByPrice}, 59743},
	{"1 mm", "rising", 40, 1850 * mm, doors.Alternate, []doors.Key{doors.ByAccess, doors.ByPrice}, 51419},
	{"one apart", "cents", 120, 1850 * mm, doors.Alternate, []doors.Key{doors.ByAccess, doors.ByPrice}, 47056},
	{"1 mm", "cents", 40, 1850 * mm, doors.Alternate, []doors.Key{doors.ByEven}, 24869},
	{"random mm", "cents", 40, 3240 * mm, doors.Alternate, []doors.Key{doors.ByEven}, 20616},
	{"gaps", "cents", 40, 1850 * mm, doors.Alternate, []doors.Key{doors.ByEven}, 17669},
	{"gaps", "rising", 120, 4460 * mm, doors.Alternate, []doors.Key{doors.ByPrice, doors.ByEven}, 48928},
	{"1/16 in", "rising", 120, 3240 * mm, doors.Alternate, []doors.Key{doors.ByPrice, doors.ByEven}, 45428},
	{"one apart", "bands", 40, 4460 * mm, doors.Alternate, []doors.Key{doors.ByPrice, doors.ByEven}, 41498},
	{"gaps", "rising", 120, 4460 * mm, doors.Alternate, []doors.Key{doors.ByPrice}, 48928},
	{"1/16 in", "rising", 120, 3240 * mm, doors.Alternate, []doors.Key{doors.ByPrice}, 45428},
	{"one apart", "rising", 120, 4460 * mm, doors.Alternate, []doors.Key{doors.ByPrice}, 32799},
	{"random mm", "cents", 120, 3240 * mm, doors.Alternate, []doors.Key{doors.BySure, doors.ByWidth, doors.ByDoors, doors.ByAccess}, 6493},
	{"one apart", "cents", 120, 4460 * mm, doors.Alternate, []doors.Key{doors.BySure, doors.ByWidth, doors.ByDoors, doors.ByAccess}, 3230},
	{"1 mm", "cents", 40, 3240 * mm, doors.Alternate, []doors.Key{doors.BySure, doors.ByWidth, doors.ByDoors, doors.ByAccess}, 1353},
	{"random mm", "cents", 120, 3240 * mm, doors.Alternate, []doors.Key{doors.ByWidth, doors.ByEven}, 5421},
	{"1 mm", "cents", 40, 3240 * mm, doors.Alternate, []doors.Key{doors.ByWidth, doors.ByEven}, 5708},
	{"1/16 in", "cents", 120, 3240 * mm, doors.Alternate, []doors.Key{doors.ByWidth, doors.ByEven}, 1356},
	{"one apart", "rising", 120, 4460 * mm, doors.Alternate, []doors.Key{doors.ByWidth, doors.ByPrice}, 43277},
	{"random mm", "rising", 120, 4460 * mm, doors.Alternate, []doors.Key{doors.ByWidth, doors.ByPrice}, 22849},
	{"1/16 in", "cents", 40, 1850 * mm, doors.Alternate, []doors.Key{doors.ByWidth, doors.ByPrice}, 18289},
	{"gaps", "cents", 40, 3240 * mm, doors.Any, nil, 51301},
	{"random mm", "cents", 120, 3240 * mm, doors.Any, nil, 25729},
	{"1/16 in", "cents", 120, 1850 * mm, doors.Any, nil, 22247},
	{"1 mm", "cents", 120, 1850 * mm, doors.Any, []doors.Key{doors.ByAccess, doors.ByEven}, 51347},
	{"1/16 in", "bands", 40, 1850 * mm, doors.Any, []doors.Key{doors.ByAccess, doors.ByPrice}, 62653},
	{"1 mm", "rising", 120, 1850 * mm, doors.Any, []doors.Key{doors.ByAccess, doors.ByPrice}, 53044},
	{"gaps", "bands", 40, 3240 * mm, doors.Any, []doors.Key{doors.ByAccess, doors.ByPrice}, 47859},
	{"random mm", "cents", 40, 4460 * mm, doors.Any, []doors.Key{doors.ByPrice, doors.ByEven}, 42547},
	{"gaps", "rising", 120, 3240 * mm, doors.Any, []doors.Key{doors.ByPrice, doors.ByEven}, 18019},
	{"one apart", "rising", 120, 1850 * mm, doors.Any, []doors.Key{doors.ByPrice, doors.ByEven}, 16675},
	{"random mm", "cents", 40, 4460 * mm, doors.Any, []doors.Key{doors.ByPrice}, 42547},
	{"gaps", "bands", 40, 4460 * mm, doors.Any, []doors.Key{doors.ByPrice}, 27484},
	{"1/16 in", "cents", 120, 1850 * mm, doors.Any, []doors.Key{doors.ByPrice}, 13981},
	{"one apart", "cents", 120, 4460 * mm, doors.Any, []doors.Key{doors.BySure, doors.ByWidth, doors.ByDoors, doors.ByAccess}, 32008},
	{"gaps", "cents", 40, 4460 * mm, doors.Any, []doors.Key{doors.BySure, doors.ByWidth, doors.ByDoors, doors.ByAccess}, 18288},
	{"1 mm", "cents", 120, 3240 * mm, doors.Any, []doors.Key{doors.BySure, doors.ByWidth, doors.ByDoors, doors.ByAccess}, 19103},
	{"gaps", "cents", 40, 1850 * mm, doors.Any, []doors.Key{doors.ByWidth, doors.ByEven}, 33890},
	{"random mm", "cents", 120, 4460 * mm, doors.Any, []doors.Key{doors.ByWidth, doors.ByEven}, 24115},
	{"1 mm", "cents", 120, 3240 * mm, doors.Any, []doors.Key{doors.ByWidth, doors.ByEven}, 12497},
	{"random mm", "cents", 120, 3240 * mm, doors.Any, []doors.Key{doors.ByWidth, doors.ByPrice}, 58629},
	{"gaps", "rising", 120, 4460 * mm, doors.Any, []doors.Key{doors.ByWidth, doors.ByPrice}, 48923},
	{"one apart", "rising", 120, 4460 * mm, doors.Any, []doors.Key{doors.ByWidth, doors.ByPrice}, 32798},
}

func TestBestKeepsToItsSteps(t *testing.T) {
	for _, b := range stepBudgets {
		t.Run(fmt.Sprintf("%s %d %s %s by %v in %s", b.arrangement, b.count, b.widths, b.prices, b.rank, b.opening), func(t *testing.T) {
			rng := rand.New(rand.NewPCG(21, 22))
			s := benchSearch(priced(b.prices, widthsOnSale(b.widths, b.count, rng), rng), b.opening)
			s.Rank, s.Arrangement = b.rank, b.arrangement
			if b.arrangement == doors.Any {
				s.Gear.Tracks, s.MaxDoors = doors.MaxTracks, 7
			}
			found, err := doors.Best(context.Background(), doors.Limited(s, b.steps))
			if err != nil || !found.Proven {
				t.Errorf("not proven in %d steps: %v", b.steps, err)
			}
		})
	}
}

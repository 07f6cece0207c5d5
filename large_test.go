package lapspan_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"example.com/lapspan"
	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
	"pgregory.net/rapid"
)

// many is a range of n widths of two heights, some of them in one height only.
func many(n, max int) lapspan.Job {
	job := shop()
	job.Doors.Sizes = nil
	for i := range n {
		for k, h := range []units.Length{2200, 2400} {
			if (i+k)%5 != 0 {
				job.Doors.Sizes = append(job.Doors.Sizes, doors.Size{
					Width: units.Length(360+i*9) * mm, Height: h * mm, Price: new(units.MoneyOfTenThousandths(int64(500000 + i*13777%70000 + k*100))),
				})
			}
		}
	}
	job.Doors.MixedWidths, job.Doors.MaxDoors = true, max
	return job
}

// A range too large to be enumerated gives what the enumeration gives: the same
// count, and the same proposals in the same order.
func TestSearchedLikeEnumerated(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := many(rapid.IntRange(20, 30).Draw(t, "widths"), rapid.IntRange(5, 6).Draw(t, "doors"))
		if len(job.Doors.Sizes) > 40 {
			job.Doors.MaxDoors = 5
		}
		job.Limit = rapid.IntRange(1, 40).Draw(t, "limit")
		job.Rank = rapid.SampledFrom([][]lapspan.Key{
			nil, {lapspan.ByWidth, lapspan.ByDoors, lapspan.ByAccess}, {lapspan.ByPrice}, {lapspan.ByCuts, lapspan.ByAccess},
			{lapspan.ByHeight, lapspan.BySure, lapspan.ByEven}, {lapspan.ByAccess, lapspan.ByPrice}, {lapspan.ByEven, lapspan.ByCuts, lapspan.ByWidth},
		}).Draw(t, "rank")
		if rapid.Bool().Draw(t, "unpriced") {
			job.Doors.Sizes[rapid.IntRange(0, len(job.Doors.Sizes)-1).Draw(t, "which")].Price = nil
		}
		shift := units.Length(rapid.IntRange(0, 300).Draw(t, "wider")) * mm
		for i := range job.Opening.Widths {
			job.Opening.Widths[i].Size += shift
		}
		searched, err := lapspan.Propose(t.Context(), job)
		if err != nil {
			t.Fatal(err)
		}
		// One door narrower than two overlaps, too narrow to be of use, and every set is looked at.
		job.Doors.Sizes = append(job.Doors.Sizes, doors.Size{Width: 1 * mm, Height: 1000 * mm, Price: new(units.Money{})})
		enumerated, err := lapspan.Propose(t.Context(), job)
		if err != nil {
			t.Fatal(err)
		}
		if searched.Total != enumerated.Total || len(searched.Proposals) != len(enumerated.Proposals) {
			t.Fatalf("searched %v, enumerated %v", searched.Total, enumerated.Total)
		}
		for i, p := range searched.Proposals {
			q := enumerated.Proposals[i]
			if !slices.Equal(p.Doors, q.Doors) || p.Height.Method != q.Height.Method || p.Height.Stock != q.Height.Stock || p.Price != q.Price {
				t.Fatalf("proposal %d: searched %v %v %s, enumerated %v %v %s", i, p.Doors, p.Height.Method, p.Price, q.Doors, q.Height.Method, q.Price)
			}
		}
		// The nearest misses are as near; which of those equally near are met first may differ.
		for i, m := range searched.NearMisses {
			if m.By <= 50*mm && (i >= len(enumerated.NearMisses) || m.By != enumerated.NearMisses[i].By) {
				t.Fatalf("near misses: searched %v, enumerated %v", searched.NearMisses, enumerated.NearMisses)
			}
		}
	})
}

// 30 widths, six doors: 1.9 million sets of which none is looked at in turn.
func TestLargeRange(t *testing.T) {
	job := many(30, 6)
	plan := propose(t, job)
	if len(plan.Proposals) != lapspan.DefaultLimit || plan.Total.Count < 1000 || !plan.Total.Exact {
		t.Errorf("%d proposals of %v", len(plan.Proposals), plan.Total)
	}
	if plan.Findings.Has(lapspan.CodeNotProven) {
		t.Error("not proven")
	}
}

// C(m+n−1, n) sets of n doors from m widths: 35 widths make 4 496 352 of up to six
// doors, 36 make 5 245 749, more than 5 million.
func TestTooLargeRangeIsRefused(t *testing.T) {
	for _, test := range []struct {
		widths int
		count  string
	}{{35, ""}, {36, "5245749"}} {
		job := many(test.widths, 6)
		for i := range test.widths { // every width in both heights, so that none is missing
			job.Doors.Sizes = append(job.Doors.Sizes, doors.Size{Width: units.Length(360+i*9) * mm, Height: 1999 * mm})
		}
		_, err := lapspan.Propose(t.Context(), job)
		var refused *opening.InputError
		if test.count == "" {
			if err != nil {
				t.Errorf("%d widths: %v", test.widths, err)
			}
		} else if !errors.As(err, &refused) || !strings.Contains(err.Error(), test.count) {
			t.Errorf("%d widths: error %v, want one that names %s", test.widths, err, test.count)
		}
	}
}

// Doors that the gear does not take at their height are left out of a search
// too, and refused by the name of the limit.
func TestSearchNamesTheLimitsOfTheGear(t *testing.T) {
	job := many(30, 6)
	job.Gear.MaxSlimness = new(doors.Share(5_000_000)) // 2200 high: at least 440 wide
	plan := propose(t, job)
	for _, p := range plan.Proposals {
		for _, d := range p.Doors {
			if 5*d.Width < p.Height.Door {
				t.Errorf("a door of %v × %v is offered", d.Width, p.Height.Door)
			}
		}
	}
	if !slices.ContainsFunc(plan.Refused, func(r doors.Refusal) bool { return strings.Contains(r.Reason, "times the width") }) {
		t.Errorf("refused %v", plan.Refused)
	}
}

package lapspan_test

import (
	"slices"
	"testing"

	"example.com/lapspan"
	"example.com/lapspan/doors"
	"example.com/lapspan/units"
)

// ranked gives the value of every key for a proposal; smaller is better.
func ranked(p lapspan.Proposal, key lapspan.Key) int64 {
	switch key {
	case lapspan.BySure:
		if p.Findings.Has(lapspan.CodeMeasureAgain) {
			return 1
		}
		return 0
	case lapspan.ByPrice:
		if p.Price == "" {
			return 1 << 62
		}
		n, err := units.MustMoney(p.Price).TenThousandths()
		if err != nil {
			return -1
		}
		return n
	case lapspan.ByWidth:
		var sum units.Length
		for _, d := range p.Doors {
			sum += d.Width
		}
		return int64(sum)
	case lapspan.ByDoors:
		return int64(len(p.Doors))
	case lapspan.ByAccess:
		return -int64(p.Access)
	case lapspan.ByHeight:
		return -int64(p.Height.Door)
	case lapspan.ByCuts:
		if p.CutDown == nil {
			return 0
		}
		return int64(len(p.Doors) * (2 + len(p.CutDown.Panels)))
	}
	return 0
}

// mixed is a job with many proposals of every method.
func mixed() lapspan.Job {
	job := shop()
	job.Doors.MixedWidths = true
	job.Doors.Sizes = nil
	for i := range 5 {
		for _, h := range []units.Length{2000, 2200, 2270, 2400} {
			job.Doors.Sizes = append(job.Doors.Sizes, doors.Size{
				Width: units.Length(560+55*i) * mm, Height: h * mm, Price: new(units.MoneyOfTenThousandths(int64(900000 + 70000*i + 9000*(int(h)%7)))),
			})
		}
	}
	job.Doors.Build = &doors.Build{
		TopBar: 40 * mm, BottomBar: 40 * mm, Bar: 20 * mm, LeastPanel: 300 * mm,
		Panels: []doors.Panel{{Share: doors.OneShare, CutOnSite: true}, {Share: doors.OneShare}, {Share: doors.OneShare, CutOnSite: true}},
	}
	job.Timber = &doors.Timber{Thickness: 47 * mm, Width: 72 * mm, Lengths: []doors.StockLength{{Length: 2400 * mm, Price: price("8")}}}
	job.Limit = lapspan.MaxLimit
	return job
}

// However proposals are ranked, they are the same ones, each better by the
// rank than the next, and a smaller limit gives the first of them.
func TestRankOrdersTheSameProposals(t *testing.T) {
	for _, rank := range [][]lapspan.Key{
		{lapspan.ByWidth, lapspan.ByDoors, lapspan.ByAccess},
		{lapspan.ByAccess, lapspan.ByPrice},
		{lapspan.ByHeight, lapspan.ByCuts, lapspan.BySure},
		{lapspan.ByPrice},
		{lapspan.ByCuts, lapspan.ByDoors, lapspan.ByHeight, lapspan.ByAccess},
		{lapspan.BySure, lapspan.ByWidth},
	} {
		job := mixed()
		job.Rank = rank
		all := propose(t, job)
		if all.Total.Count != len(all.Proposals) || !all.Total.Exact || len(all.Proposals) < 50 {
			t.Fatalf("%v: total %v, %d proposals", rank, all.Total, len(all.Proposals))
		}
		for i := 1; i < len(all.Proposals); i++ {
			for _, key := range rank {
				a, b := ranked(all.Proposals[i-1], key), ranked(all.Proposals[i], key)
				if a > b {
					t.Errorf("%v: proposal %d comes before a better one by %s", rank, i-1, key)
				}
				if a != b {
					break
				}
			}
		}
		job.Limit = 7
		few := propose(t, job)
		if few.Total != all.Total || len(few.Proposals) != 7 {
			t.Fatalf("%v: total %v, %d proposals", rank, few.Total, len(few.Proposals))
		}
		for i := range few.Proposals {
			a, b := few.Proposals[i], all.Proposals[i]
			if !slices.Equal(a.Doors, b.Doors) || a.Height.Method != b.Height.Method || a.Height.Stock != b.Height.Stock {
				t.Errorf("%v: proposal %d differs with a smaller limit", rank, i)
			}
		}
	}
}

func TestDefaultRankDependsOnPrices(t *testing.T) {
	job := mixed()
	priced := propose(t, job).Proposals
	for i := 1; i < len(priced); i++ {
		if ranked(priced[i-1], lapspan.BySure) == ranked(priced[i], lapspan.BySure) && ranked(priced[i-1], lapspan.ByPrice) > ranked(priced[i], lapspan.ByPrice) {
			t.Fatalf("priced: proposal %d is dearer than the next", i-1)
		}
	}
	job.Doors.Sizes[7].Price = nil
	unpriced := propose(t, job).Proposals
	for i := 1; i < len(unpriced); i++ {
		if ranked(unpriced[i-1], lapspan.BySure) == ranked(unpriced[i], lapspan.BySure) && ranked(unpriced[i-1], lapspan.ByWidth) > ranked(unpriced[i], lapspan.ByWidth) {
			t.Fatalf("unpriced: proposal %d is wider than the next", i-1)
		}
	}
}

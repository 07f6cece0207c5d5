package lapspan_test

import (
	"cmp"
	"encoding/json"
	"math/big"
	"slices"
)

// An oracle for the whole job: every proposal by nested loops, slowly and
// obviously, from the job document alone.

type oracleProposal struct {
	variant oracleVariant
	tall    oracleNM // the clear height
	run     oracleRun
	height  oracleHeight
	sure    bool
}

type oracleAnswer struct {
	stops     []oracleStop
	proposals []oracleProposal // all of them, best first
}

func oracleDecode(document string) (*oracleJob, error) {
	job := new(oracleJob)
	err := json.Unmarshal([]byte(document), job)
	return job, err
}

func oraclePropose(job *oracleJob) oracleAnswer {
	answer := oracleAnswer{stops: oracleStops(job)}
	for _, stop := range answer.stops {
		if stop.must {
			return answer
		}
	}
	tall := oracleClearHeight(job)
	var heights []oracleNM
	for _, size := range job.Doors.Sizes {
		if !slices.Contains(heights, size.Height) {
			heights = append(heights, size.Height)
		}
	}
	add := func(v oracleVariant, run oracleRun, h oracleHeight) {
		p := oracleProposal{variant: v, tall: tall, run: run, height: h}
		p.sure = oracleSure(job, &p)
		answer.proposals = append(answer.proposals, p)
	}
	for _, v := range oracleVariants(job) {
		for _, s := range heights {
			ways := oracleHeights(job, v, tall, s)
			if len(ways) == 0 {
				continue
			}
			for _, run := range oracleRuns(job, v, s) {
				for _, way := range ways {
					add(v, run, way)
				}
			}
		}
		if job.Doors.MadeToMeasure == nil {
			continue
		}
		if way, ok := oracleMadeHeight(job, tall); ok {
			for _, run := range oracleMadeRuns(job, v) {
				add(v, run, way)
			}
		}
	}
	rank := job.Rank
	if rank == nil {
		rank = []string{"sure", "width", "doors", "access", "cuts", "height"}
	}
	slices.SortFunc(answer.proposals, func(a, b oracleProposal) int { return oracleCompare(rank, &a, &b) })
	return answer
}

// oracleSure says whether no margin is smaller than the uncertainty of the
// readings that decide it.
func oracleSure(job *oracleJob, p *oracleProposal) bool {
	accuracy := oracleOr(job.Opening.Accuracy, 2*oracleMM)
	covers := func(margin *oracleNM, readings int64) bool {
		if margin == nil {
			return true
		}
		have, need := big.NewInt(int64(*margin)), big.NewInt(int64(accuracy))
		return have.Mul(have, have).Cmp(need.Mul(need, need).Mul(need, big.NewInt(readings))) >= 0
	}
	deciding := int64(1)
	if len(job.Opening.Levels) > 0 {
		deciding = 2 // the floor's and the ceiling's
	}
	return covers(&p.run.under, 1) && covers(&p.run.over, 1) && covers(p.height.under, deciding) && covers(p.height.over, deciding)
}

func oracleCompare(rank []string, a, b *oracleProposal) int {
	down := func(order int) int { return -order }
	for _, key := range rank {
		order := 0
		switch key {
		case "sure":
			if a.sure != b.sure {
				order = 1
				if a.sure {
					order = -1
				}
			}
		case "width":
			order = cmp.Compare(a.run.width(), b.run.width())
		case "doors":
			order = cmp.Compare(len(a.run.widths), len(b.run.widths))
		case "access":
			order = down(cmp.Compare(a.run.access, b.run.access))
		case "height":
			order = down(cmp.Compare(a.height.door, b.height.door))
		case "cuts":
			order = cmp.Compare(a.cuts(), b.cuts())
		case "even":
			order = a.run.uneven.Cmp(b.run.uneven)
		}
		if order != 0 {
			return order
		}
	}
	return cmp.Or(
		cmp.Compare(a.height.method, b.height.method),
		cmp.Compare(a.variant.left, b.variant.left), // "cut back" before "end panel"
		cmp.Compare(a.variant.right, b.variant.right),
		down(cmp.Compare(a.height.stock, b.height.stock)),
		slices.Compare(a.run.widths, b.run.widths),
		slices.Compare(a.run.tracks, b.run.tracks),
	)
}

// cuts is the saw cuts on the doors: the two stiles and the panels of each.
func (p *oracleProposal) cuts() int {
	if p.height.cut == 0 {
		return 0
	}
	return len(p.run.widths) * (2 + len(p.height.split))
}

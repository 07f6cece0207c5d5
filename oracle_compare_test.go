package lapspan_test

import (
	"cmp"
	"context"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/lapspan"
	"pgregory.net/rapid"
)

// The plan as the documented JSON has it, and no more of it than is compared.

type oracleFinding struct{ Code, Severity, Place, Message, Remedy string }

type oracleMargin struct{ Under, Over *oracleNM }

type oraclePlannedProposal struct {
	Skirting    struct{ Left, Right string }
	ClearWidth  oracleSpan `json:"clear_width"`
	ClearHeight oracleNM   `json:"clear_height"`
	Doors       []struct {
		Width oracleNM
		Track int
	}
	Overlaps      []oracleNM
	Cover, Access oracleNM
	Height        struct {
		Method                           string
		Stock, Door, Allowance, Gap, Cut *oracleNM
	}
	Packer   []oracleNM
	Bulkhead *struct {
		Plates []oracleNM
		Studs  []struct{ At, Length oracleNM }
	}
	CutDown *struct {
		Stile  oracleNM
		Panels []struct {
			Panel       int
			Cut, Height oracleNM
		}
	} `json:"cut_down"`
	Margin struct {
		Width, Height oracleMargin
	}
	Findings []oracleFinding
}

type oraclePlanned struct {
	Findings []oracleFinding
	Total    struct {
		Count int
		Exact bool
	}
	Proposals []oraclePlannedProposal
}

// oraclePlanText runs the library on a job document, for the plan's JSON.
func oraclePlanText(document string) (string, error) {
	job, err := lapspan.ReadJob(strings.NewReader(document))
	if err != nil {
		return "", fmt.Errorf("ReadJob: %w", err)
	}
	proposed, err := lapspan.Propose(context.Background(), job)
	if err != nil {
		return "", fmt.Errorf("Propose: %w", err)
	}
	text, err := json.Marshal(proposed)
	if err != nil {
		return "", fmt.Errorf("Marshal: %w", err)
	}
	return string(text), nil
}

func oraclePlan(document string) (*oraclePlanned, error) {
	text, err := oraclePlanText(document)
	if err != nil {
		return nil, err
	}
	got := new(oraclePlanned)
	if err := json.Unmarshal([]byte(text), got); err != nil {
		return nil, fmt.Errorf("Unmarshal: %w", err)
	}
	return got, nil
}

// oracleDiff is every difference between the library's plan for a job and the
// oracle's, a line each, at most a dozen.
func oracleDiff(document string) []string {
	job, err := oracleDecode(document)
	if err != nil {
		return []string{"the oracle cannot read the job: " + err.Error()}
	}
	got, err := oraclePlan(document)
	if err != nil {
		return []string{err.Error()}
	}
	want := oraclePropose(job)
	var lines []string
	differ := func(format string, args ...any) {
		if len(lines) < 12 {
			lines = append(lines, fmt.Sprintf(format, args...))
		}
	}
	for _, f := range got.Findings {
		if !slices.Contains([]string{"stop", "warn", "note"}, f.Severity) || f.Code == "" || f.Place == "" || f.Message == "" || f.Remedy == "" {
			differ("findings: too little said: %+v", f)
		}
	}
	inOrder := func(a, b oracleFinding) int {
		return cmp.Or(strings.Compare(a.Place, b.Place), strings.Compare(a.Code, b.Code))
	}
	if !slices.IsSortedFunc(got.Findings, inOrder) {
		differ("findings out of order: %+v", got.Findings)
	}
	if once := slices.Compact(slices.Clone(got.Findings)); len(once) != len(got.Findings) {
		differ("findings said twice: %+v", got.Findings)
	}
	// What may stop the job, or may not, decides the rest when it does.
	must, stopped := false, false
	for _, stop := range want.stops {
		must = must || stop.must
		if stop.must && !slices.ContainsFunc(got.Findings, func(f oracleFinding) bool { return f.Severity == "stop" && stop.matches(f) }) {
			differ("findings: no stop %v at %v", stop.codes, stop.places)
		}
	}
	for _, f := range got.Findings {
		if f.Severity != "stop" {
			continue
		}
		stopped = true
		if !slices.ContainsFunc(want.stops, func(stop oracleStop) bool { return stop.matches(f) }) {
			differ("findings: stop %s at %s: want none", f.Code, f.Place)
		}
	}
	if must || stopped {
		if len(got.Proposals) > 0 || got.Total.Count != 0 {
			differ("a stopped job has %d proposals of %d", len(got.Proposals), got.Total.Count)
		}
		return lines
	}
	all := want.proposals
	if got.Total.Count != len(all) || !got.Total.Exact {
		differ("total: %d, exact %v: want %d", got.Total.Count, got.Total.Exact, len(all))
	}
	all = all[:min(len(all), oracleOr(job.Limit, 10))]
	if len(got.Proposals) != len(all) {
		differ("%d proposals, want %d", len(got.Proposals), len(all))
	}
	for i := range min(len(all), len(got.Proposals)) {
		for _, line := range oracleProposalDiff(job, &all[i], &got.Proposals[i]) {
			differ("proposals[%d]: %s", i, line)
		}
	}
	return lines
}

func (stop oracleStop) matches(f oracleFinding) bool {
	at := func(place string) bool { return strings.HasPrefix(f.Place, place) }
	return slices.ContainsFunc(stop.places, at) && (stop.codes == nil || slices.Contains(stop.codes, f.Code))
}

func oracleProposalDiff(job *oracleJob, want *oracleProposal, got *oraclePlannedProposal) []string {
	var lines []string
	check := func(what string, got, want any) {
		if g, w := fmt.Sprint(got), fmt.Sprint(want); g != w {
			lines = append(lines, fmt.Sprintf("%s %s, want %s", what, g, w))
		}
	}
	near := func(a, b oracleNM, by int) bool { return max(a-b, b-a) <= oracleNM(by) }
	show := func(l *oracleNM) string {
		if l == nil {
			return "absent"
		}
		return l.String()
	}
	check("skirting.left", got.Skirting.Left, want.variant.left)
	check("skirting.right", got.Skirting.Right, want.variant.right)
	check("clear_width", got.ClearWidth, want.variant.width)
	check("clear_height", got.ClearHeight, want.tall)
	var widths []oracleNM
	var tracks []int
	for _, door := range got.Doors {
		widths, tracks = append(widths, door.Width), append(tracks, door.Track)
	}
	check("doors' widths", widths, want.run.widths)
	check("doors' tracks", tracks, want.run.tracks)
	check("overlaps", got.Overlaps, want.run.overlaps)
	check("cover", got.Cover, want.run.cover)
	check("access", got.Access, want.run.access)
	check("height.method", got.Height.Method, oracleMethods[want.height.method])
	check("height.stock", show(got.Height.Stock), want.height.stock)
	check("height.door", show(got.Height.Door), want.height.door)
	check("height.allowance", show(got.Height.Allowance), want.height.allowance)
	check("height.gap", show(got.Height.Gap), want.height.gap)
	check("height.cut", show(got.Height.Cut), want.height.cut)
	packer := slices.Clone(got.Packer)
	slices.Sort(packer)
	check("packer", packer, want.height.packer)
	check("bulkhead given", got.Bulkhead != nil, want.height.method == 2)
	if got.Bulkhead != nil && want.height.method == 2 {
		if want.height.plates != nil {
			check("plates", got.Bulkhead.Plates, want.height.plates)
		}
		same := len(got.Bulkhead.Studs) == len(want.height.studs)
		for i := range min(len(got.Bulkhead.Studs), len(want.height.studs)) {
			stud, ours := got.Bulkhead.Studs[i], want.height.studs[i]
			// Spacings in whole nanometres may add up to one of them a stud.
			same = same && near(stud.At, ours.at, len(want.height.studs)) && near(stud.Length, ours.length, 2)
		}
		if !same {
			check("studs", got.Bulkhead.Studs, want.height.studs)
		}
	}
	check("cut_down given", got.CutDown != nil, want.height.method == 3)
	if got.CutDown != nil && want.height.method == 3 {
		check("stile", got.CutDown.Stile, want.height.cut)
		same, parts := true, 0
		for _, panel := range got.CutDown.Panels {
			if panel.Cut == 0 {
				continue
			}
			parts++
			ours := want.height.split[panel.Panel]
			same = same && panel.Cut == ours.cut && near(panel.Height, ours.height, 1)
		}
		if !same || parts != len(want.height.split) {
			check("panels", got.CutDown.Panels, want.height.split)
		}
	}
	check("margin.width.under", show(got.Margin.Width.Under), want.run.under)
	check("margin.width.over", show(got.Margin.Width.Over), want.run.over)
	check("margin.height.under", show(got.Margin.Height.Under), show(want.height.under))
	check("margin.height.over", show(got.Margin.Height.Over), show(want.height.over))
	again := slices.ContainsFunc(got.Findings, func(f oracleFinding) bool { return f.Code == "measure-again" && f.Severity == "warn" })
	check("measure-again", again, !want.sure)
	// The sums close, whatever the oracle thinks.
	closed := want.variant.width.Max
	for _, overlap := range got.Overlaps {
		closed += overlap
	}
	for i, door := range got.Doors {
		closed -= door.Width
		if i > 0 && door.Track == got.Doors[i-1].Track {
			closed -= job.Gear.MeetingGap
		}
	}
	check("left open", closed, oracleNM(0))
	return lines
}

func oracleProperty(t *rapid.T) {
	document := oracleDrawJob(t)
	if lines := oracleDiff(document); len(lines) > 0 {
		t.Fatalf("%s\n%s", document, strings.Join(lines, "\n"))
	}
}

func TestProposalsMatchOracle(t *testing.T) { rapid.Check(t, oracleProperty) }

func FuzzProposals(f *testing.F) {
	// A job takes some hundred draws: start from inputs long enough for one.
	for seed := range uint64(8) {
		bits := rand.New(rand.NewPCG(seed, 0))
		var data []byte
		for range 4096 {
			data = binary.LittleEndian.AppendUint64(data, bits.Uint64())
		}
		f.Add(data)
	}
	f.Fuzz(rapid.MakeFuzz(oracleProperty))
}

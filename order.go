package lapspan

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"example.com/lapspan/doors"
	"example.com/lapspan/frame"
	"example.com/lapspan/frame/cutlist"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// unpriced stands for a price that is not known. Known prices are whole
// ten-thousandths; ParseMoney and the bounds on counts keep their sums inside an int64.
const unpriced int64 = -1

// kit is some lines of an order with their price in ten-thousandths.
type kit struct {
	lines []OrderLine
	price int64
}

func (k *kit) add(b buyer, item, size string, count int, exact *units.Money) {
	line := OrderLine{Item: item, Size: size, Count: count}
	price := unpriced
	if exact != nil {
		price = b.rounded(*exact)
		line.Price = b.text(price)
	}
	k.lines = append(k.lines, line)
	k.price = addPrices(k.price, price)
}

func addPrices(prices ...int64) int64 {
	var sum int64
	for _, p := range prices {
		if p == unpriced {
			return unpriced
		}
		sum += p
	}
	return sum
}

// buyer turns parts into order lines in one currency.
type buyer struct{ digits int }

// rounded is the price of a line: rounded once, half even, to the minor unit.
func (b buyer) rounded(exact units.Money) int64 {
	m, err := exact.Round(b.digits, units.HalfEven)
	if err != nil {
		return unpriced
	}
	return tenThousandths(m)
}

// tenThousandths is an amount of at most four decimals as a whole number.
func tenThousandths(m units.Money) int64 {
	n, err := m.TenThousandths()
	if err != nil {
		return unpriced
	}
	return n
}

// times is rounded(count × price) without a decimal, for the ranking of many proposals.
func (b buyer) times(price int64, count int) int64 {
	if price == unpriced {
		return unpriced
	}
	step := units.Nanometre // a ten-thousandth here
	for range MaxDigits - b.digits {
		step *= 10
	}
	n, err := (units.Length(price) * units.Length(count)).Round(step, units.HalfEven)
	if err != nil {
		return unpriced
	}
	return int64(n)
}

// text writes a price with the digits of the currency; empty when it is not known.
func (b buyer) text(price int64) string {
	if price == unpriced {
		return ""
	}
	text, err := units.MoneyOfTenThousandths(price).Fixed(b.digits)
	if err != nil {
		return ""
	}
	return text
}

// pieceWork bounds the search for the cheapest bars of one line of an order.
const pieceWork = 5_000_000

// CodeCutsNotProven is the note that cheaper bars may exist than those ordered.
const CodeCutsNotProven opening.Code = "cuts-not-proven"

// bars buys the stock that pieces are cut from: the cheapest bars, then the fewest.
func (b buyer) bars(ctx context.Context, k *kit, item string, stock []doors.StockLength, kerf units.Length, pieces []units.Length) (opening.Findings, error) {
	job := cutlist.Job{Kerf: &kerf, Stock: make([]cutlist.Stock, len(stock)), Pieces: make([]cutlist.Piece, len(pieces))}
	for i, s := range stock {
		job.Stock[i] = cutlist.Stock{Length: s.Length, Price: s.Price}
	}
	for i, p := range pieces {
		job.Pieces[i] = cutlist.Piece{Length: p, Count: 1}
	}
	plan, err := cutlist.Cut(ctx, job, cutlist.Options{Work: pieceWork})
	if err != nil {
		return nil, err
	}
	counts := make([]int, len(stock))
	for _, bar := range plan.Bars {
		counts[bar.Stock]++
	}
	for i, n := range counts {
		if n == 0 {
			continue
		}
		var exact *units.Money
		if stock[i].Price != nil {
			exact = new(stock[i].Price.Mul(int64(n)))
		}
		k.add(b, item, stock[i].Length.String(), n, exact)
	}
	if plan.Proven {
		return nil, nil
	}
	return opening.Findings{{
		Code: CodeCutsNotProven, Severity: opening.Note, Place: "order",
		Message: fmt.Sprintf("%s: the bars ordered may not be the cheapest", item),
		Remedy:  "offer fewer stock lengths, or cut the list with more time",
	}}, nil
}

// CodeJoint is the finding that a track or a rail does not come in one piece.
const CodeJoint opening.Code = "joint"

// profile buys the track or the rail: in one piece where a length allows it.
func (b buyer) profile(ctx context.Context, k *kit, item string, p *doors.Profile, width units.Length) (opening.Findings, error) {
	need := width - p.Clear()
	if need <= 0 {
		return nil, opening.Refuse("gear."+item+".clearance", "%s leaves nothing of a width of %s", p.Clear(), width)
	}
	if p == nil {
		k.add(b, item, need.String(), 1, nil)
		return nil, nil
	}
	pieces, err := frame.Strip(need, longest(p.Lengths))
	if err != nil {
		return nil, err
	}
	findings, err := b.bars(ctx, k, item, p.Lengths, doors.DefaultKerf, pieces)
	if err != nil {
		return nil, err
	}
	if len(pieces) > 1 {
		findings = append(findings, opening.Finding{
			Code: CodeJoint, Severity: opening.Warn, Place: "gear." + item + ".lengths",
			Message: fmt.Sprintf("a %s of %s takes %d pieces: the longest sold is %s", item, need, len(pieces), longest(p.Lengths)),
			Remedy:  "look for a longer one; else joint it where no wheel or guide rests with the doors closed, track and rail at different places",
		})
	}
	return findings, nil
}

func longest(lengths []doors.StockLength) units.Length {
	return slices.MaxFunc(lengths, func(a, b doors.StockLength) int { return cmp.Compare(a.Length, b.Length) }).Length
}

// parts buys the parts of the gear for a run.
func (b buyer) parts(k *kit, parts []doors.Part, run int) {
	for _, p := range parts {
		count := p.For(run)
		var exact *units.Money
		if p.Price != nil {
			exact = new(p.Price.Mul(int64(count)))
		}
		k.add(b, p.Item, "", count, exact)
	}
}

// sheet is a size in two directions.
func sheet(w, h units.Length) string {
	return w.Millimetres() + " × " + h.String()
}

// doors buys the doors of a run, the widest first.
func (b buyer) doors(k *kit, r doors.Range, h doors.Height, widths []units.Length) {
	for i := len(widths) - 1; i >= 0; {
		w, count := widths[i], 0
		for i >= 0 && widths[i] == w {
			count, i = count+1, i-1
		}
		item := "door"
		if h.Method == doors.ToMeasure {
			item = "door made to measure"
		}
		k.add(b, item, sheet(w, h.Stock), count, doorPrice(r, h, w, count))
	}
}

// doorPrice is the exact price of so many doors; nil when it is not known.
func doorPrice(r doors.Range, h doors.Height, w units.Length, count int) *units.Money {
	if h.Method == doors.ToMeasure {
		if r.MadeToMeasure.Price == nil {
			return nil
		}
		return new(r.MadeToMeasure.Price.PerSquareMetre(units.AreaOf(w, h.Stock)).Mul(int64(count)))
	}
	i := slices.IndexFunc(r.Sizes, func(s doors.Size) bool { return s.Width == w && s.Height == h.Stock })
	if i < 0 || r.Sizes[i].Price == nil {
		return nil
	}
	return new(r.Sizes[i].Price.Mul(int64(count)))
}

// above buys what stands above the track: the boards and the timber of a packer, or a bulkhead's timber.
func (b buyer) above(ctx context.Context, k *kit, job *Job, c *choice, width units.Length) (opening.Findings, error) {
	var timber []units.Length
	if c.bulkhead != nil {
		timber = append(timber, c.bulkhead.Plates...)
		for _, s := range c.bulkhead.Studs {
			timber = append(timber, s.Length)
		}
	}
	counts := make(map[int]int, len(c.Stack))
	for _, p := range c.Stack {
		if p.Board >= 0 {
			counts[p.Board]++
			continue
		}
		strip, err := frame.Strip(width, longest(job.Timber.Lengths))
		if err != nil {
			return nil, err
		}
		timber = append(timber, strip...)
	}
	for i, board := range job.Boards {
		if counts[i] == 0 {
			continue
		}
		var exact *units.Money
		if board.Price != nil {
			exact = new(board.Price.PerMetre(width).Mul(int64(counts[i])))
		}
		k.add(b, "packer board "+board.Thickness.String(), width.String(), counts[i], exact)
	}
	if len(timber) == 0 {
		return nil, nil
	}
	item := "timber " + sheet(job.Timber.Thickness, job.Timber.Width)
	return b.bars(ctx, k, item, job.Timber.Lengths, job.Timber.Cut(), timber)
}

// run buys what the opening itself needs: track, rail, end panels, the strip under the rail.
func (b buyer) run(ctx context.Context, job *Job, c opening.Clear) (gear, sundries kit, findings opening.Findings, err error) {
	found, err := b.profile(ctx, &gear, "track", job.Gear.Track, c.Width.Min)
	if err != nil {
		return gear, sundries, nil, err
	}
	findings = append(findings, found...)
	found, err = b.profile(ctx, &gear, "rail", job.Gear.Rail, c.Width.Min)
	if err != nil {
		return gear, sundries, nil, err
	}
	findings = append(findings, found...)
	for _, p := range endPanels(job.Opening, c) {
		sundries.add(b, "end panel "+p.thickness.String(), p.size, p.count, times(job.Sundries.EndPanel, p.count))
	}
	if t := job.Opening.CarpetToCome; t > 0 {
		var exact *units.Money
		if job.Sundries.Strip != nil {
			exact = new(job.Sundries.Strip.PerMetre(c.Width.Min))
		}
		sundries.add(b, "strip under the rail "+t.String(), c.Width.Min.String(), 1, exact)
	}
	return gear, sundries, findings, nil
}

func times(price *units.Money, count int) *units.Money {
	if price == nil {
		return nil
	}
	return new(price.Mul(int64(count)))
}

// endPanel is so many end panels of one thickness.
type endPanel struct {
	thickness units.Length
	size      string
	count     int
}

// endPanels are the end panels of an opening, alike ones together: as high as
// the clear height and, where the depth was read, as deep as its deepest reading.
func endPanels(s opening.Survey, c opening.Clear) []endPanel {
	size := c.Height.String()
	if len(s.Depths) > 0 {
		var deepest units.Length
		for _, d := range s.Depths {
			deepest = max(deepest, d.Size)
		}
		size = sheet(deepest, c.Height)
	}
	var panels []endPanel
	for _, side := range []struct {
		treatment opening.Treatment
		off       units.Length
	}{{c.Left, c.LeftOff}, {c.Right, c.RightOff}} {
		if side.treatment != opening.EndPanel {
			continue
		}
		thickness := cmp.Or(s.EndPanel, side.off)
		if n := len(panels); n > 0 && panels[n-1].thickness == thickness {
			panels[n-1].count++
			continue
		}
		panels = append(panels, endPanel{thickness, size, 1})
	}
	return panels
}

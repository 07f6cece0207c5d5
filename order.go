package lapspan

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strconv"

	"example.com/lapspan/doors"
	"example.com/lapspan/frame"
	"example.com/lapspan/frame/cutlist"
	"example.com/lapspan/opening"
	"example.com/lapspan/trim"
	"example.com/lapspan/units"
)

// unpriced stands for a price that is not known. Known prices are whole
// ten-thousandths; ParseMoney and the bounds on counts keep their sums inside an int64.
const unpriced int64 = -1

// kit is some lines of an order with their price in ten-thousandths.
type kit struct {
	lines []OrderLine
	cuts  []BarCut
	price int64
}

// add appends a line; price is that of the whole line.
func (k *kit) add(b buyer, item, size string, count int, price int64) {
	k.lines = append(k.lines, OrderLine{Item: item, Size: size, Count: count, Price: b.text(price)})
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

// rounded is the price of a line that is measured: rounded once, half even, to the minor unit.
func (b buyer) rounded(exact units.Money) int64 {
	m, err := exact.Round(b.digits, units.HalfEven)
	if err != nil {
		return unpriced
	}
	return tenThousandths(&m)
}

// times is the price of a line that is counted, rounded alike.
func (b buyer) times(price int64, count int) int64 {
	if price == unpriced {
		return unpriced
	}
	n, err := (units.Length(price) * units.Length(count)).Round(b.step(), units.HalfEven)
	if err != nil {
		return unpriced
	}
	return int64(n)
}

// step is the minor unit of the currency in ten-thousandths.
func (b buyer) step() units.Length {
	step := units.Nanometre // a ten-thousandth here
	for range MaxDigits - b.digits {
		step *= 10
	}
	return step
}

// tenThousandths is an amount of at most four decimals as a whole number.
func tenThousandths(m *units.Money) int64 {
	if m == nil {
		return unpriced
	}
	n, err := m.TenThousandths()
	if err != nil {
		return unpriced
	}
	return n
}

// text writes a rounded price with the digits of the currency; empty when it is not known.
func (b buyer) text(price int64) string {
	if price == unpriced {
		return ""
	}
	const unit = 10_000
	var room [24]byte
	text := strconv.AppendInt(room[:0], price/unit, 10)
	if b.digits > 0 {
		point := len(text)
		text = strconv.AppendInt(text, unit+price%unit, 10) // a 1 before the decimals keeps their zeros
		text[point] = '.'
		text = text[:point+1+b.digits]
	}
	return string(text)
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
		cut := BarCut{Item: item, Stock: stock[bar.Stock].Length, Pieces: make([]units.Length, len(bar.Pieces)), Offcut: bar.Offcut}
		for i, p := range bar.Pieces {
			cut.Pieces[i] = pieces[p]
		}
		k.cuts = append(k.cuts, cut)
	}
	for i, n := range counts {
		if n == 0 {
			continue
		}
		k.add(b, item, stock[i].Length.String(), n, b.times(tenThousandths(stock[i].Price), n))
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
		k.add(b, item, need.String(), 1, unpriced)
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
	k.lines = slices.Grow(k.lines, len(parts))
	for _, p := range parts {
		count := p.For(run)
		k.add(b, p.Item, "", count, b.times(tenThousandths(p.Price), count))
	}
}

// sheet is a size in two directions.
func sheet(w, h units.Length) string {
	var room [64]byte
	text, _ := h.AppendText(append(w.AppendMillimetres(room[:0]), " × "...)) // whose error is always nil
	return string(text)
}

// doors buys the doors of a run, the widest first.
func (s *search) doors(k *kit, h *choice, set *widthSet) {
	item := "door"
	if set.madeToMeasure {
		item = "door made to measure"
	}
	for i := set.count - 1; i >= 0; {
		w, count := set.widths[i], 0
		for i >= 0 && set.widths[i] == w {
			count, i = count+1, i-1
		}
		k.add(s.buy, item, sheet(w, h.Stock), count, s.doorPrice(h, w, count))
	}
}

// doorPrice is the price of so many doors of one width.
func (s *search) doorPrice(h *choice, w units.Length, count int) int64 {
	if h.Method != doors.ToMeasure {
		return s.buy.times(s.price[[2]units.Length{w, h.Stock}], count)
	}
	rate := s.job.Doors.MadeToMeasure.Price
	if rate == nil {
		return unpriced
	}
	return s.buy.rounded(rate.PerSquareMetre(units.AreaOf(w, h.Stock)).Mul(int64(count)))
}

// above buys what stands above the track: the boards and the timber of a packer, or a bulkhead's timber.
func (s *search) above(ctx context.Context, v *variant, c *choice) (opening.Findings, error) {
	b, k, job, width := s.buy, &c.kit, s.job, v.clear.Width.Min
	var timber []units.Length
	if c.bulkhead != nil {
		timber = append(timber, c.bulkhead.Plates...)
		for _, s := range c.bulkhead.Studs {
			timber = append(timber, s.Length)
		}
	}
	posts, err := s.posts(v, c)
	if err != nil {
		return nil, err
	}
	timber = append(timber, posts...)
	counts := make([]int, len(job.Boards))
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
		price := unpriced
		if board.Price != nil {
			price = b.rounded(board.Price.PerMetre(width).Mul(int64(counts[i])))
		}
		k.add(b, "packer board "+board.Thickness.String(), width.String(), counts[i], price)
	}
	b.coverSheets(k, coverable(job), c.cover)
	if len(timber) == 0 {
		return nil, nil
	}
	item := "timber " + sheet(job.Timber.Thickness, job.Timber.Width)
	return b.bars(ctx, k, item, job.Timber.Lengths, job.Timber.Cut(), timber)
}

func coverable(job *Job) []trim.Sheet {
	if job.Cover == nil {
		return nil
	}
	return job.Cover.Sheets
}

// run buys what the opening itself needs: track, rail, end panels, the strip under the rail.
func (b buyer) run(ctx context.Context, job *Job, c opening.Clear, sides []opening.SideWork) (gear, sundries kit, findings opening.Findings, err error) {
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
	for _, p := range endPanels(job, c, sides) {
		sundries.add(b, "end panel "+p.thickness.String(), p.size, p.count, b.times(tenThousandths(job.Sundries.EndPanel), p.count))
	}
	for _, end := range []frame.End{job.Frame.LeftEnd, job.Frame.RightEnd} {
		if end == frame.FreePanel {
			sundries.add(b, "end panel, free standing", c.Height.String(), 1, b.times(tenThousandths(job.Sundries.EndPanel), 1))
		}
	}
	if t := job.Opening.StripThickness(); t > 0 {
		price := unpriced
		if job.Sundries.Strip != nil {
			price = b.rounded(job.Sundries.Strip.PerMetre(c.Width.Min))
		}
		sundries.add(b, "strip under the rail "+t.String(), c.Width.Min.String(), 1, price)
	}
	return gear, sundries, findings, nil
}

// endPanel is so many end panels of one kind.
type endPanel struct {
	thickness units.Length
	size      string
	count     int
}

// endPanels are the end panels of an opening, alike ones together: depth ×
// height, the scribe with it, where the depth of the gear is known, else the clear height.
func endPanels(job *Job, c opening.Clear, sides []opening.SideWork) []endPanel {
	var panels []endPanel
	for _, work := range sides {
		if work.Treatment != opening.EndPanel {
			continue
		}
		off := c.LeftOff
		if work.Side == opening.Right {
			off = c.RightOff
		}
		p := endPanel{thickness: cmp.Or(job.Opening.EndPanel, off), count: 1}
		if work.Panel != nil {
			p.size = sheet(work.Panel.Depth, work.Panel.Height)
		} else {
			p.size = c.Height.String()
		}
		if n := len(panels); n > 0 && panels[n-1].thickness == p.thickness && panels[n-1].size == p.size {
			panels[n-1].count++
			continue
		}
		panels = append(panels, p)
	}
	return panels
}

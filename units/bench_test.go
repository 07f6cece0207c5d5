package units_test

import (
	"testing"

	"example.com/lapspan/units"
)

func BenchmarkLengthAdd(b *testing.B) {
	b.ReportAllocs()
	sum, step := units.Length(0), 650*mm
	for b.Loop() {
		sum += step
	}
	_ = sum
}

func BenchmarkLengthCompare(b *testing.B) {
	b.ReportAllocs()
	span, l := units.Span{Min: 30 * mm, Max: 35 * mm}, 32*mm
	for b.Loop() {
		if !span.Contains(l) {
			b.Fatal("not inside")
		}
	}
}

func BenchmarkParse(b *testing.B) {
	for _, in := range []struct{ name, text string }{
		{"plain", "2400"},
		{"mm", "2400 mm"},
		{"metres", "2.4 m"},
		{"inches", "94 1/2 in"},
		{"feet", "7' 10 1/2\""},
		{"unicode", "94½″"},
	} {
		b.Run(in.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := units.Parse(in.text); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkAppendText(b *testing.B) {
	b.ReportAllocs()
	buf, l := make([]byte, 0, 32), 66_666_667*units.Nanometre
	for b.Loop() {
		buf, _ = l.AppendText(buf[:0])
	}
}

func BenchmarkRound(b *testing.B) {
	b.ReportAllocs()
	l := 66_666_667 * units.Nanometre
	for b.Loop() {
		if _, err := l.Round(mm, units.HalfEven); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSplit(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := units.Split(200*mm, 3); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkMoneyAdd(b *testing.B) {
	b.ReportAllocs()
	price, more := units.MustMoney("129.95"), units.MustMoney("12.5")
	for b.Loop() {
		price.Add(more)
	}
}

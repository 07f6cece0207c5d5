package opening_test

import (
	"testing"

	"example.com/lapspan/opening"
)

func BenchmarkMeasure(b *testing.B) {
	s := alcove()
	s.Levels = levels([2]int64{1000, 1331}, [2]int64{1003, 1323}, [2]int64{1005, 1316})
	b.ReportAllocs()
	for b.Loop() {
		if _, err := opening.Measure(s); err != nil {
			b.Fatal(err)
		}
	}
}

package main

import (
	"testing"
	"testing/fstest"
)

func TestFloatUses(t *testing.T) {
	for src, want := range map[string]int{
		`var x = 1 // a float64 in a comment`:            0,
		`var s = "float64"`:                              0,
		`func FloatGlass() {}`:                           0,
		`const big = math.MaxInt64 + math.MinInt32`:      0,
		`const big = math.MaxUint64`:                     0,
		`var hi, lo = bits.Mul64(1, 2)`:                  0,
		`var r = big.NewRat(1, 2)`:                       0,
		`var x float64`:                                  1,
		`type t struct{ a, b float32 }`:                  1,
		`var x = y(complex128(1))`:                       1,
		`var x = 0.5`:                                    1,
		`var x = 1.5e3`:                                  1,
		`var x = math.Sqrt(2)`:                           1,
		`var x = math.MaxFloat64`:                        1,
		`var x big.Float`:                                1,
		`var x, _ = strconv.ParseFloat("1", 64)`:         1,
		`var x int64 = 1e9`:                              0,
		`var x = 0x1p-2`:                                 1,
		`var x = d.InexactFloat64()`:                     1,
		`func f(x float64) float64 { return x + 1.5 }`:   3,
		`func f(n json.Number) { n.Float64() }`:          1,
		`type Float64 struct{}`:                          1,
		`import "math/bits"; var x = bits.TrailingZeros`: 0,
	} {
		got, err := floatUses("a.go", []byte("package p\n"+src+"\n"))
		if err != nil || len(got) != want {
			t.Errorf("%s: got %q, error %v, want %d", src, got, err, want)
		}
	}
}

func TestCheckFloats(t *testing.T) {
	uses, free := &fstest.MapFile{Data: []byte("package p\nvar x float64\n")}, &fstest.MapFile{Data: []byte("package p\n")}
	for name, tc := range map[string]struct {
		files   fstest.MapFS
		allowed string
		want    int
	}{
		"none":                        {fstest.MapFS{"a.go": free, "p/b.go": free}, "", 0},
		"two files":                   {fstest.MapFS{"a.go": uses, "p/b.go": uses}, "", 2},
		"tests and examples are free": {fstest.MapFS{"a_test.go": uses, "examples/x/main.go": uses, ".ci/c.go": uses, "p/testdata/d.go": uses}, "", 0},
		"allowed":                     {fstest.MapFS{"p/b.go": uses}, "# why\n\np/b.go square roots\n", 0},
		"allowed elsewhere":           {fstest.MapFS{"p/b.go": uses, "p/c.go": uses}, "p/c.go square roots\n", 1},
		"allowed without a reason":    {fstest.MapFS{"p/b.go": uses}, "p/b.go\n", 2},
		"allowed and not needed":      {fstest.MapFS{"p/b.go": free}, "p/b.go square roots\n", 1},
		"allowed and not there":       {fstest.MapFS{"p/b.go": free}, "p/gone.go square roots\n", 1},
	} {
		t.Run(name, func(t *testing.T) {
			tc.files[floatAllowed] = &fstest.MapFile{Data: []byte(tc.allowed)}
			got, err := checkFloats(tc.files)
			if err != nil || len(got) != tc.want {
				t.Errorf("got %q, error %v, want %d", got, err, tc.want)
			}
		})
	}
	if _, err := checkFloats(fstest.MapFS{"a.go": free}); err == nil {
		t.Error("no list of allowed files: no error")
	}
}

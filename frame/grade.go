package frame

import (
	"errors"
	"fmt"
	"slices"

	"example.com/lapspan/opening"
)

// Grade is a strength class of softwood, with the means and characteristic values
// that stiffness needs.
type Grade struct {
	Name        string `json:"name"`         // C14 to C50
	MeanE       int64  `json:"mean_e"`       // E₀,mean: modulus of elasticity along the grain, mean, N/mm²
	FifthE      int64  `json:"fifth_e"`      // E₀,05: the same, 5 % fractile, N/mm²
	MeanG       int64  `json:"mean_g"`       // G_mean: shear modulus, mean, N/mm²
	MeanDensity int64  `json:"mean_density"` // ρ_mean, kg/m³
}

// ErrGrade: a strength class is none that is known.
var ErrGrade = errors.New("no such strength class")

// Grades returns the softwood classes of EN 338:2016, table 1, weakest first. The
// mean densities of some classes differ from those of the editions before it.
func Grades() []Grade {
	return []Grade{
		{"C14", 7000, 4700, 440, 350},
		{"C16", 8000, 5400, 500, 370},
		{"C18", 9000, 6000, 560, 380},
		{"C20", 9500, 6400, 590, 400},
		{"C22", 10000, 6700, 630, 410},
		{"C24", 11000, 7400, 690, 420},
		{"C27", 11500, 7700, 720, 430},
		{"C30", 12000, 8000, 750, 460},
		{"C35", 13000, 8700, 810, 470},
		{"C40", 14000, 9400, 880, 480},
		{"C45", 15000, 10100, 940, 490},
		{"C50", 16000, 10700, 1000, 520},
	}
}

// GradeOf returns the class of a name such as C24, written just so. The error is ErrGrade.
func GradeOf(name string) (Grade, error) {
	grades := Grades()
	i := slices.IndexFunc(grades, func(g Grade) bool { return g.Name == name })
	if i < 0 {
		return Grade{}, fmt.Errorf("frame: %s: %w", opening.Quote(name), ErrGrade)
	}
	return grades[i], nil
}

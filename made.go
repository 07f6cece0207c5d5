package lapspan

import (
	"example.com/lapspan/doors"
	"example.com/lapspan/opening"
)

// madeRuns are the runs of doors made to measure, which are few.
type madeRuns struct {
	closing []option
	misses  []nearMiss
}

// makePlumb finds the runs made to measure between plumb walls, hung as h says.
func (s *search) makePlumb(v *variant, h *choice) error {
	q := s.query(v, doors.Search{Fit: fitOf(&v.clear)})
	if q.MinDoors > q.MaxDoors {
		return nil
	}
	runs, err := s.job.Doors.MadeToMeasure.Runs(q)
	for _, run := range runs {
		s.keepMade(v, h, &v.clear, run)
	}
	return err
}

// keepMade keeps a run made to measure: it closes the opening, or misses it.
func (s *search) keepMade(v *variant, h *choice, clear *opening.Clear, run doors.Run) {
	for i := range run.Len() {
		if !s.carries(h, run.At(i).Width) {
			return
		}
	}
	if score, closes := fitOf(clear).Score(run, s.job.Gear); closes {
		s.made.closing = append(s.made.closing, s.priced(option{v, h, clear, doors.Ranked{Run: run, Score: score}}))
		return
	}
	// Made for the widest reading it is never short of it.
	if over := run.Least(s.job.Gear) - clear.Width.Min; over > 0 {
		s.made.misses = append(s.made.misses, newNearMiss(v, clear, h.Stock, doors.Miss{Run: run, Over: over}))
	}
}

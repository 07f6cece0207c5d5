package frame_test

import (
	"fmt"

	"example.com/lapspan/frame"
	"example.com/lapspan/opening"
	"example.com/lapspan/units"
)

// A floor that falls 20 over the right half, and a ceiling that is lowest in the middle.
func ExamplePack() {
	packing, err := frame.Pack(frame.Head{
		Width: 2400 * units.Millimetre,
		Levels: []opening.Level{
			{At: 0, Floor: 1000 * units.Millimetre, Ceiling: 1310 * units.Millimetre},
			{At: 1200 * units.Millimetre, Floor: 1000 * units.Millimetre, Ceiling: 1300 * units.Millimetre},
			{At: 2400 * units.Millimetre, Floor: 1020 * units.Millimetre, Ceiling: 1304 * units.Millimetre},
		},
	}, 2400*units.Millimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range packing.Stations {
		fmt.Printf("at %v: %v under the rail, %v above the track\n", s.At, s.UnderRail, s.AboveTrack)
	}
	for _, w := range packing.UnderRail {
		fmt.Printf("under the rail from %v to %v: %v to %v thick\n", w.From, w.To, w.Left, w.Right)
	}
	for _, w := range packing.AboveTrack {
		fmt.Printf("above the track from %v to %v: %v to %v thick\n", w.From, w.To, w.Left, w.Right)
	}
	// Output:
	// at 0 mm: 0 mm under the rail, 10 mm above the track
	// at 1200 mm: 0 mm under the rail, 0 mm above the track
	// at 2400 mm: 20 mm under the rail, 4 mm above the track
	// under the rail from 1200 mm to 2400 mm: 0 mm to 20 mm thick
	// above the track from 0 mm to 1200 mm: 10 mm to 0 mm thick
	// above the track from 1200 mm to 2400 mm: 0 mm to 4 mm thick
}

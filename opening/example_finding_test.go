package opening_test

import (
	"errors"
	"fmt"

	"example.com/lapspan/opening"
)

var found = opening.Findings{
	{Code: "no-level", Severity: opening.Note, Place: "opening.levels", Message: "no levels were taken"},
	{Code: "unit-slip", Severity: opening.Stop, Place: "opening.heights[0].size", Message: "230 mm is a tenth of the others"},
	{Code: "no-level", Severity: opening.Note, Place: "opening.levels", Message: "no levels were taken"},
}

func ExampleSeverity_IsValid() {
	fmt.Println(opening.Warn.IsValid(), opening.Severity("").IsValid())
	// Output: true false
}

func ExampleFindings_Sorted() {
	for _, f := range found.Sorted() {
		fmt.Println(f.Place, f.Code)
	}
	// Output:
	// opening.heights[0].size unit-slip
	// opening.levels no-level
}

func ExampleFindings_Has() {
	fmt.Println(found.Has(opening.CodeUnitSlip), found.Has(opening.CodeNoPlumb))
	// Output: true false
}

func ExampleFindings_Stops() {
	fmt.Println(found.Stops(), found[:1].Stops())
	// Output: true false
}

func ExampleFindings_Err() {
	var stop *opening.StopError
	if errors.As(found.Err(), &stop) {
		fmt.Println(len(stop.Findings), "stops the job")
	}
	fmt.Println(found[:1].Err())
	// Output:
	// 1 stops the job
	// <nil>
}

func ExampleStopError_Error() {
	fmt.Println(found.Err())
	// Output: opening: opening.heights[0].size: 230 mm is a tenth of the others
}

func ExampleInputError_Error() {
	err := &opening.InputError{Place: "opening.accuracy", Reason: "-2 mm is not more than 0"}
	fmt.Println(err)
	// Output: opening.accuracy: -2 mm is not more than 0
}

// Command rules holds the library to two rules of the house that no general checker knows.
//
//	go run ./.ci/rules imports    which package may import which, and what none may import
//	go run ./.ci/rules floats     no binary floating point where lengths, areas, masses or money are computed
//
// Run it in the root of the module. It prints each breach and exits 1 if there is one.
package main

import (
	"fmt"
	"os"
)

func main() {
	var breaches []string
	var err error
	switch {
	case len(os.Args) == 2 && os.Args[1] == "imports":
		breaches, err = checkImports()
	case len(os.Args) == 2 && os.Args[1] == "floats":
		breaches, err = checkFloats(os.DirFS("."))
	default:
		err = fmt.Errorf("want one word, imports or floats")
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "rules:", err)
		os.Exit(2)
	}
	for _, b := range breaches {
		fmt.Println(b)
	}
	if len(breaches) > 0 {
		os.Exit(1)
	}
	fmt.Println(os.Args[1], "hold")
}

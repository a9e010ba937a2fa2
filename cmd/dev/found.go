package main

import (
	"fmt"
	"strconv"
)

// found tries N plans that people may find themselves with, drawn anew each from
// its own seed: the tests of the solver that go by them, with every weakening.
func found(m machine, args []string) error {
	if len(args) != 1 {
		return fmt.Errorf("%w: found needs how many plans, such as 20000", errMisused)
	}
	n, err := strconv.Atoi(args[0])
	if err != nil || n <= 0 {
		return fmt.Errorf("%w: %q is no number of plans, such as 20000", errMisused, args[0])
	}
	return goTest(m, append(noCgo[:len(noCgo):len(noCgo)], "KEDGE_FOUND="+strconv.Itoa(n)), "-count=1", "-run=^TestFound", "./solver")
}

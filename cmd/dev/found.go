package main

import (
	"errors"
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
	var failed []error
	for after := 0; after < n; after += foundAtOnce {
		count := min(foundAtOnce, n-after)
		env := append(noCgo[:len(noCgo):len(noCgo)], "KEDGE_FOUND="+strconv.Itoa(count), "KEDGE_FOUND_AFTER="+strconv.Itoa(after))
		if err := goTest(m, env, "-count=1", "-run=^TestFound", "./solver"); err != nil {
			failed = append(failed, fmt.Errorf("seeds %d to %d: %w", after+1, after+count, err))
		}
	}
	return errors.Join(failed...)
}

// foundAtOnce is how many plans are held in memory with their answers, some
// 500 MB of them.
const foundAtOnce = 5000

package main

import (
	"fmt"
	"strconv"
)

// killsUsual is how many kills there are when nobody says.
const killsUsual = 1000

// kill kills a process that saves a plan of some hundred things, again and again, at
// random moments, and looks at the file after each: the test of the store that does so
// in the check, for longer.
func kill(m machine, args []string) error {
	n := killsUsual
	if len(args) > 1 {
		return fmt.Errorf("%w: kill takes how many kills, such as 200", errMisused)
	}
	if len(args) == 1 {
		var err error
		if n, err = strconv.Atoi(args[0]); err != nil || n <= 0 {
			return fmt.Errorf("%w: %q is no number of kills, such as 200", errMisused, args[0])
		}
	}
	env := append(noCgo[:len(noCgo):len(noCgo)], "KEDGE_KILLS="+strconv.Itoa(n))
	return goTest(m, env, "-count=1", "-timeout=4h", "-run=^TestSaveSurvivesKilling$", "./canvas/store")
}

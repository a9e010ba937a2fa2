package main

import (
	"flag"
	"fmt"
	"strconv"
	"strings"
)

// killsUsual is how many kills there are when nobody says.
const killsUsual = 1000

// kill kills a process that saves a plan of some hundred things, again and again, at
// random moments, and looks at the file after each: the test of the store that does so
// in the check, for longer. With -window it kills the board while it is edited.
func kill(m machine, args []string) error {
	flags := flag.NewFlagSet("kill", flag.ContinueOnError)
	yes := flags.Bool("y", false, "")
	window := flags.Bool("window", false, "")
	count := ""
	if len(args) > 0 && !strings.HasPrefix(args[len(args)-1], "-") {
		args, count = args[:len(args)-1], args[len(args)-1]
	}
	if err := parse(flags, args); err != nil {
		return err
	}
	n := killsUsual
	if *window {
		n = windowKillsUsual
	}
	if count != "" {
		var err error
		if n, err = strconv.Atoi(count); err != nil || n <= 0 {
			return fmt.Errorf("%w: %q is no number of kills, such as 200", errMisused, count)
		}
	}
	if *window {
		return killWindow(m, n, *yes)
	}
	env := append(noCgo[:len(noCgo):len(noCgo)], "KEDGE_KILLS="+strconv.Itoa(n))
	return goTest(m, env, "-count=1", "-timeout=4h", "-run=^TestSaveSurvivesKilling$", "./canvas/store")
}

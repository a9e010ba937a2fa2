package main

import (
	"flag"
	"fmt"
	"strings"
	"time"
)

// minimizeRuns bounds the shrinking of each new input; Go's own bound is a
// minute each.
const minimizeRuns = "50x"

// fuzz runs each fuzz target in turn for some time. An input that breaks
// something is written below testdata/fuzz of its package, where it is a seed
// from then on.
func fuzz(m machine, args []string) error {
	flags := flag.NewFlagSet("fuzz", flag.ContinueOnError)
	var each time.Duration
	if len(args) > 0 && !strings.HasPrefix(args[0], "-") {
		var err error
		if each, err = time.ParseDuration(args[0]); err != nil || each <= 0 {
			return fmt.Errorf("%w: %q is no time, such as 10s or 10m", errMisused, args[0])
		}
		args = args[1:]
	}
	if err := parse(flags, args); err != nil {
		return err
	}
	if each == 0 {
		return fmt.Errorf("%w: fuzz needs the time for each target, such as 10m", errMisused)
	}
	all, err := packages(m)
	if err != nil {
		return err
	}
	began := time.Now()
	c := &checks{m: m}
	for _, p := range all {
		for _, target := range p.fuzzTargets(m) {
			c.step(strings.TrimPrefix(p.ImportPath, "kedge/")+" "+target, func() error {
				return goTest(m, noCgo, "-run=^$", "-fuzz=^"+target+"$", "-fuzztime="+each.String(), "-fuzzminimizetime="+minimizeRuns, p.ImportPath)
			})
		}
	}
	return c.summary(time.Since(began))
}

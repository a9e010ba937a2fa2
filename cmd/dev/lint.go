package main

import (
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"
)

// awaited are functions that no program calls yet, each with what will: a file
// and the beginning of the function's name.
var awaited = map[string]string{
	"solver/doubt/ask.go One":                 cases,
	"solver/doubt/band.go Band":               cases,
	"solver/doubt/drivers.go RankCorrelation": cases,
	"solver/doubt/drivers.go Share":           cases,
	"solver/doubt/drivers.go Shares":          "total shares, which are asked for by name",
	"solver/travel/course.go ":                courses,
	"solver/travel/drum.go ":                  courses,
	"solver/travel/events.go ":                courses,
	"solver/travel/motion.go ":                courses,
	"solver/travel/peak.go ":                  courses,
	"solver/travel/ride.go ":                  courses,
	"solver/travel/rows.go ":                  courses,
	"solver/travel/scan.go ":                  courses,
	"solver/travel/touch.go ":                 courses,
	"solver/travel/tour.go ":                  courses,
	"solver/travel/turning.go ":               courses,
}

// cases are the reference cases of doubt, and the tests of its closed forms.
const cases = "what the reference cases ask a sample for, until the board draws it"

// courses are what the reference cases are: nothing of the trade is in them.
const courses = "rigs of numbers, which the pulls of plans are held against"

// lints are the checks that read the sources of everything, the board's program
// with them: they need what cgo makes for it.
func lints(c *checks) {
	c.step("staticcheck", func() error {
		return c.m.Run(cmd("go", "tool", "staticcheck", "./...").with(withCgo...))
	})
	c.step("dead code", func() error {
		text, err := c.m.Output(cmd("go", "tool", "deadcode", "./cmd/...").with(withCgo...))
		if err != nil {
			return err
		}
		amiss := deadCode(text, awaited)
		for _, line := range amiss {
			c.m.Say(line)
		}
		if len(amiss) > 0 {
			return fmt.Errorf("%d functions without a caller, or awaited no more", len(amiss))
		}
		return nil
	})
}

// deadCode is what deadcode names and nothing awaits, and what is awaited and
// has come: its lines are "file:line:column: unreachable func: name".
func deadCode(text string, awaited map[string]string) (amiss []string) {
	came := maps.Clone(awaited)
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		file, _, _ := strings.Cut(filepath.ToSlash(line), ":")
		_, name, _ := strings.Cut(line, "unreachable func: ")
		waits := false
		for start := range awaited {
			if strings.HasPrefix(file+" "+name, start) {
				waits = true
				delete(came, start)
			}
		}
		if !waits {
			amiss = append(amiss, line)
		}
	}
	for _, start := range slices.Sorted(maps.Keys(came)) {
		amiss = append(amiss, strings.TrimSpace(start)+" is called now: it is awaited no more")
	}
	return amiss
}

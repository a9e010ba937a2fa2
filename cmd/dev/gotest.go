package main

import (
	"fmt"
	"slices"
	"strings"
)

// testTimeout is the time each package's tests have. It stops what hangs, and
// leaves room for a machine that is busy with other work: the longest take some
// minutes.
const testTimeout = "-timeout=40m"

// goTest runs tests in sight; its error names those that failed.
func goTest(m machine, env []string, args ...string) error {
	said, err := m.Tee(cmd(append([]string{"go", "test", "-vet=off", testTimeout}, args...)...).with(env...))
	if err == nil {
		return nil
	}
	if failed := failures(said); len(failed) > 0 {
		return fmt.Errorf("%s", strings.Join(failed, "; "))
	}
	return err
}

// mostNamed is how many tests of one package are named.
const mostNamed = 5

// failures reads what go test says: each package that failed with its tests, of
// which only the innermost are named.
func failures(said string) (found []string) {
	var tests []string
	running := false // what follows are the tests that ran when the time was over
	for line := range strings.Lines(said) {
		line = strings.TrimRight(line, "\r\n")
		trimmed := strings.TrimSpace(line)
		if rest, ok := strings.CutPrefix(trimmed, "--- FAIL: "); ok {
			name, _, _ := strings.Cut(rest, " ")
			tests = slices.DeleteFunc(tests, func(t string) bool { return strings.HasPrefix(name, t+"/") })
			if !slices.ContainsFunc(tests, func(t string) bool { return t == name || strings.HasPrefix(t, name+"/") }) {
				tests = append(tests, name)
			}
		}
		if running && strings.HasPrefix(trimmed, "Test") || running && strings.HasPrefix(trimmed, "Fuzz") {
			tests = append(tests, trimmed+" when the time was over")
		} else {
			running = trimmed == "running tests:"
		}
		rest, ok := strings.CutPrefix(line, "FAIL\t")
		if !ok {
			continue
		}
		path, why, _ := strings.Cut(rest, "\t")
		path, notBuilt, _ := strings.Cut(path, " ") // "kedge/a [build failed]"
		if strings.HasPrefix(why, "[") {
			notBuilt = why
		}
		more := len(tests) - mostNamed
		switch {
		case len(tests) == 0 && notBuilt != "":
			tests = []string{strings.Trim(notBuilt, "[]")}
		case len(tests) == 0:
			tests = []string{"ended without naming a test"}
		case more > 0:
			tests = append(tests[:mostNamed], fmt.Sprintf("and %d more", more))
		}
		found = append(found, strings.TrimPrefix(path, "kedge/")+": "+strings.Join(tests, ", "))
		tests, running = nil, false
	}
	return found
}

package main

import (
	"flag"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// rapidSeed fixes the random cases of the property tests: the same commit
// gives the same answer. Fuzz targets run on their seeds alone.
const rapidSeed = "RAPID_SEED=20260801"

var (
	noCgo   = []string{"CGO_ENABLED=0", rapidSeed}
	withCgo = []string{"CGO_ENABLED=1", rapidSeed}
)

// test runs every check. The board's program compiles in the background while
// everything that needs no cgo is checked.
func test(m machine, args []string) error {
	flags := flag.NewFlagSet("test", flag.ContinueOnError)
	yes := flags.Bool("y", false, "")
	if err := parse(flags, args); err != nil {
		return err
	}
	if err := provide(m, testNeeds(), *yes); err != nil {
		return err
	}
	began := time.Now()
	c := &checks{m: m}
	m.Say("Checking everything: under a quarter of an hour the first time, since " + lowerFirst(longBuild))
	var board *background
	if m.Matches("cmd/kedge-board/*.go") {
		board = inBackground(m, buildBoard(m))
	}
	c.step("gofmt", func() error { return formatted(m) })
	all, err := packages(m)
	if err != nil {
		c.step("list of packages", func() error { return err })
	} else {
		withoutCgo(c, all)
	}
	if board == nil {
		c.skip("board", "cmd/kedge-board is not there")
	} else {
		theBoard(c, board)
	}
	races(c, all)
	return c.summary(time.Since(began))
}

func lowerFirst(s string) string { return strings.ToLower(s[:1]) + s[1:] }

// formatted fails when gofmt would change a file.
func formatted(m machine) error {
	gofmt := "gofmt"
	if root, err := m.Output(cmd("go", "env", "GOROOT")); err == nil {
		inRoot := filepath.Join(strings.TrimSpace(root), "bin", gofmt)
		if m.Matches(inRoot + "*") {
			gofmt = inRoot
		}
	}
	files, err := m.Output(cmd(gofmt, "-l", "."))
	if err != nil {
		return err
	}
	if files = strings.TrimSpace(files); files != "" {
		return fmt.Errorf("gofmt would change %s", strings.Join(strings.Fields(files), ", "))
	}
	return nil
}

func withoutCgo(c *checks, all []pkg) {
	names := paths(all)
	c.step("vet", func() error {
		return c.m.Run(cmd(append([]string{"go", "vet"}, names...)...).with(noCgo...))
	})
	var others []string
	for _, name := range names {
		if name != devPackage {
			others = append(others, name)
		}
	}
	if len(others) < len(names) {
		c.step("imports and files", func() error { // -count=1: what they read is not all in Go's cache key
			return goTest(c.m, noCgo, "-count=1", devPackage)
		})
	}
	c.step("build without cgo", func() error {
		return c.m.Run(cmd(append([]string{"go", "build"}, names...)...).with(noCgo...))
	})
	c.step("tests without cgo", func() error {
		return goTest(c.m, noCgo, others...)
	})
	if !c.m.Matches("cmd/kedge/*.go") {
		c.skip("command line", "cmd/kedge is not there")
		return
	}
	c.step("bin/kedge", func() error { return c.m.Run(buildKedge(c.m)) })
}

// theBoard waits for the board's program, then vets it and tries it in a real
// window. Its tests start their own virtual display. What it was built of is
// there for the checks that read everything.
func theBoard(c *checks, built *background) {
	if c.wait("board built", built) != nil {
		c.skip("board's vet", "it did not build")
		c.skip("board's window", "it did not build")
		c.skip("staticcheck", "the board did not build")
		c.skip("dead code", "the board did not build")
		return
	}
	c.step("board's vet", func() error {
		return c.m.Run(cmd("go", "vet", boardPackage).with(withCgo...))
	})
	c.step("board's window", func() error {
		bin := "KEDGE_BOARD_BIN=" + binary(c.m, "kedge-board")
		return goTest(c.m, append(slices.Clone(withCgo), bin), "-count=1", boardPackage)
	})
	lints(c)
}

// races runs the tests of packages with goroutines under the race detector, in
// short: more draws of the same show it no more.
func races(c *checks, all []pkg) {
	var names []string
	for _, p := range all {
		is, err := p.concurrent()
		if err != nil {
			c.step("races", func() error { return err })
			return
		}
		if is && p.tested() {
			names = append(names, p.ImportPath)
		}
	}
	if len(names) == 0 {
		c.skip("races", "no tested package has goroutines")
		return
	}
	c.step("races", func() error {
		return goTest(c.m, withCgo, append([]string{"-race", "-short"}, names...)...)
	})
}

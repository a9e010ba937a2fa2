package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// mutable are the folders whose packages are changed: those that make figures.
var mutable = []string{"kedge/solver", "kedge/canvas/sheet"}

// mutate changes one thing at a time in the sources of some packages and runs
// the package's own tests on each change: one that no test notices is printed.
// The tree is never touched: go test is told of the changed file by -overlay.
func mutate(m machine, args []string) error {
	if len(args) == 0 || strings.HasPrefix(args[0], "-") && args[0] != "-h" {
		return fmt.Errorf("%w: mutate needs packages, such as ./solver/hold", errMisused)
	}
	flags := flag.NewFlagSet("mutate", flag.ContinueOnError)
	if args[0] == "-h" {
		return parse(flags, args)
	}
	every := flags.Int("every", 1, "")
	seed := flags.Int("seed", 0, "")
	limit := flags.Duration("limit", 2*time.Minute, "")
	if err := parse(flags, args[1:]); err != nil {
		return err
	}
	if *every < 1 || *seed < 0 || *limit <= 0 {
		return fmt.Errorf("%w: -every and -limit are above 0, -seed is not below", errMisused)
	}
	all, err := matching(m, args[0])
	if err != nil {
		return err
	}
	dir, err := os.MkdirTemp("", "kedge-mutate-")
	if err != nil {
		return fmt.Errorf("mutate: %w", err)
	}
	defer os.RemoveAll(dir)
	t := &trial{m: m, dir: dir, every: *every, seed: *seed, limit: *limit}
	for _, p := range all {
		if err := t.tryPackage(p); err != nil {
			return err
		}
	}
	if t.found == 0 {
		return fmt.Errorf("mutate: nothing to change in %s: it changes tested packages of %s", args[0], strings.Join(mutable, " and "))
	}
	m.Say(t.summary())
	return nil
}

// trial is what one run of mutate tries, and how it went.
type trial struct {
	m           machine
	dir         string // for the changed file and the overlay
	every, seed int    // of the changes in their order, each so manieth from the seed's
	limit       time.Duration

	found, tried, killed, late, survived, unbuilt int
}

func (t *trial) summary() string {
	return fmt.Sprintf("tried %d of %d changes: %d killed (%d of them by the time limit), %d survived, %d not compiled",
		t.tried, t.found, t.killed+t.late, t.late, t.survived, t.unbuilt)
}

// tryPackage tries the changes of one package; its tests must pass without any.
func (t *trial) tryPackage(p pkg) error {
	if !slices.ContainsFunc(mutable, func(folder string) bool { return below(p.ImportPath, folder) }) || !p.tested() {
		return nil
	}
	if said, err := t.m.Quietly(t.test(p, "")); err != nil {
		return fmt.Errorf("mutate: the tests of %s fail as they are: %s", p.ImportPath, strings.Join(failures(said), "; "))
	}
	for _, name := range p.GoFiles {
		full := filepath.Join(p.Dir, name)
		source, ok := t.m.ReadFile(full)
		if !ok {
			return fmt.Errorf("mutate: %s cannot be read", full)
		}
		all, err := mutants(source)
		if err != nil {
			return fmt.Errorf("%s: %w", full, err)
		}
		for _, u := range all {
			t.found++
			if (t.found-1)%t.every != t.seed%t.every {
				continue
			}
			if err := t.try(p, full, u, u.apply(source)); err != nil {
				return err
			}
		}
	}
	return nil
}

// test is the command that runs a package's tests, with an overlay if there is
// one. It ends at the first failure.
func (t *trial) test(p pkg, overlay string) command {
	words := []string{"go", "test", "-vet=off", "-count=1", "-failfast", "-timeout=" + t.limit.String()}
	if overlay != "" {
		words = append(words, "-overlay="+overlay)
	}
	return cmd(append(words, p.ImportPath)...).with(noCgo...)
}

// try runs the tests of a package on one change and counts how that went.
func (t *trial) try(p pkg, full string, u mutant, changed string) error {
	instead, overlay := filepath.Join(t.dir, "changed.go"), filepath.Join(t.dir, "overlay.json")
	list, err := json.Marshal(map[string]map[string]string{"Replace": {full: instead}})
	err = errors.Join(err, os.WriteFile(instead, []byte(changed), 0o600), os.WriteFile(overlay, list, 0o600))
	if err != nil {
		return fmt.Errorf("mutate: %w", err)
	}
	t.tried++
	said, err := t.m.Quietly(t.test(p, overlay))
	switch {
	case err == nil:
		t.survived++
		name := strings.TrimPrefix(p.ImportPath, "kedge/") + "/" + filepath.Base(full)
		t.m.Say(fmt.Sprintf("%s:%d: %s", name, u.line, u.change))
	case strings.Contains(said, "[build failed]") || strings.Contains(said, "[setup failed]"):
		t.unbuilt++
	case strings.Contains(said, "panic: test timed out"):
		t.late++
	default:
		t.killed++
	}
	return nil
}

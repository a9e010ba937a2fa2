package main

import (
	_ "embed"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// mutable are the folders whose packages are changed: those that make figures,
// ask for them, or keep them.
var mutable = []string{"kedge/solver", "kedge/canvas/sheet", "kedge/canvas/exercise", "kedge/canvas/store"}

// choice is the source of the functions that know which change is chosen.
//
//go:embed mutantchoice.txt
var choice string

// mutate makes one change at a time in the sources of some packages and runs
// the package's own tests, or those of another, on each change: one that no test notices is printed.
// All changes of a package are compiled at once, and an environment variable
// chooses one; only tests that come to where it makes a difference are run. The
// tree is never touched: the compiler is told of the changed files by -overlay.
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
	by := flags.String("by", "", "")
	within := flags.Duration("within", time.Hour, "")
	run := flags.String("run", "^(Test|Fuzz|Example)", "")
	if err := parse(flags, args[1:]); err != nil {
		return err
	}
	if *every < 1 || *seed < 0 || *within <= 0 {
		return fmt.Errorf("%w: -every and -within are above 0, -seed is not below", errMisused)
	}
	all, err := matching(m, args[0])
	if err != nil {
		return err
	}
	t := &trial{m: m, every: *every, seed: *seed, within: *within, run: *run}
	if *by != "" {
		others, err := matching(m, *by)
		if err != nil || len(others) != 1 {
			return errors.Join(fmt.Errorf("%w: -by is one package", errMisused), err)
		}
		t.by = &others[0]
	}
	for _, p := range all {
		if slices.ContainsFunc(mutable, func(folder string) bool { return below(p.ImportPath, folder) }) && p.tested() {
			if err := t.tryPackage(p); err != nil {
				return err
			}
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
	every, seed int           // of the changes in their order, each so manieth from the seed's
	by          *pkg          // whose tests try them, if not the package's own
	within      time.Duration // tests that take longer are left out
	run         string        // what tests are asked, a regular expression

	found, tried, killed, late, survived, unbuilt int
}

func (t *trial) summary() string {
	return fmt.Sprintf("tried %d of %d changes: %d killed (%d of them by the time limit), %d survived, %d not compiled",
		t.tried, t.found, t.killed+t.late, t.late, t.survived, t.unbuilt)
}

// tryPackage tries the changes of one package; its tests must pass without any.
func (t *trial) tryPackage(p pkg) error {
	dir, err := os.MkdirTemp("", "kedge-mutate-")
	if err != nil {
		return fmt.Errorf("mutate: %w", err)
	}
	defer os.RemoveAll(dir)
	b := &changed{pkg: p, by: p, m: t.m, dir: dir}
	if t.by != nil {
		b.by = *t.by
	}
	if err := b.read(); err != nil {
		return err
	}
	if len(b.all) == 0 {
		return nil
	}
	if err := b.build(); err != nil {
		return err
	}
	reach, err := b.reach(t.run, t.within)
	if err != nil {
		return err
	}
	for i, u := range b.all {
		t.found++
		if (t.found-1)%t.every == t.seed%t.every {
			t.try(b, i+1, u, reach[i+1])
		}
	}
	return nil
}

// try runs the tests that a change makes a difference to and counts how that
// went: the quickest first, as most changes are noticed by many.
func (t *trial) try(b *changed, number int, u mutant, tests []timed) {
	t.tried++
	if u.out {
		t.unbuilt++
		return
	}
	slices.SortStableFunc(tests, func(a, b timed) int { return int(a.took - b.took) })
	quick := len(tests) * 2 / 3
	for _, some := range [][]timed{tests[:quick], tests[quick:]} {
		if len(some) == 0 {
			continue
		}
		said, err := b.run(number, some)
		if err != nil && strings.Contains(said, "panic: test timed out") {
			t.late++
			return
		}
		if err != nil {
			t.killed++
			return
		}
	}
	t.survived++
	line := fmt.Sprintf("%s/%s:%d: %s", strings.TrimPrefix(b.ImportPath, "kedge/"), u.name, u.line, u.change)
	if len(tests) == 0 {
		line += "  (no test comes to where it matters)"
	}
	t.m.Say(line)
}

// changed is a package with all its changes in one test binary, of which one is
// chosen when it runs.
type changed struct {
	pkg
	by      pkg // whose tests run
	m       machine
	dir     string // for the binary and what it is built of
	sources []string
	starts  []int // of each source, in all
	all     []mutant
}

// timed is a test, and how long it ran.
type timed struct {
	name string
	took time.Duration
}

func (b *changed) read() error {
	for _, name := range b.GoFiles {
		source, ok := b.m.ReadFile(filepath.Join(b.Dir, name))
		if !ok {
			return fmt.Errorf("mutate: %s cannot be read", filepath.Join(b.Dir, name))
		}
		some, err := mutants(name, source)
		if err != nil {
			return err
		}
		b.sources, b.starts, b.all = append(b.sources, source), append(b.starts, len(b.all)), append(b.all, some...)
	}
	return nil
}

var complaint = regexp.MustCompile(`([\w.]+\.go):(\d+):`)

// build makes the binary. What the compiler complains of, such as a sum of
// texts, is taken out, and it is tried again.
func (b *changed) build() error {
	for {
		overlay, err := b.overlay()
		if err != nil {
			return fmt.Errorf("mutate: %w", err)
		}
		said, err := b.m.Quietly(cmd("go", "test", "-c", "-vet=off", "-gcflags="+b.ImportPath+"=-e", "-overlay="+overlay, "-o", b.binary(), b.by.ImportPath).with(noCgo...))
		if err == nil {
			return nil
		}
		if !b.without(said) {
			return fmt.Errorf("mutate: the tests of %s do not build: %s", b.by.ImportPath, said)
		}
	}
}

func (b *changed) binary() string { return filepath.Join(b.dir, "changed.test") }

// without takes out the changes on the lines that the compiler named, and
// reports whether there were any.
func (b *changed) without(said string) bool {
	some := false
	for _, named := range complaint.FindAllStringSubmatch(said, -1) {
		line, _ := strconv.Atoi(named[2])
		for i, u := range b.all {
			if u.name == named[1] && u.first <= line && line <= u.last && !u.out {
				b.all[i].out, some = true, true
			}
		}
	}
	return some
}

// overlay writes the changed files, and the list of them for the compiler.
func (b *changed) overlay() (string, error) {
	instead := map[string]string{}
	put := func(name, text string) error {
		instead[filepath.Join(b.Dir, name)] = filepath.Join(b.dir, name)
		return os.WriteFile(filepath.Join(b.dir, name), []byte(text), 0o600)
	}
	var errs []error
	for i, name := range b.GoFiles {
		end := len(b.all)
		if i+1 < len(b.starts) {
			end = b.starts[i+1]
		}
		errs = append(errs, put(name, chosen(b.sources[i], b.all[b.starts[i]:end], b.starts[i]+1)))
	}
	clause := regexp.MustCompile(`(?m)^package \w+$`).FindString(b.sources[0])
	errs = append(errs, put("mutantchoice.go", clause+"\n"+strings.Replace(choice, "MUTANTS", strconv.Itoa(len(b.all)+2), 1)))
	list, err := json.Marshal(map[string]map[string]string{"Replace": instead})
	name := filepath.Join(b.dir, "overlay.json")
	return name, errors.Join(append(errs, err, os.WriteFile(name, list, 0o600))...)
}

var reached = regexp.MustCompile(`mutant-reached-(\d+)\.`)

// reach runs each test alone and tells which come to where each change makes a
// difference, of those that take no longer. Each must pass.
func (b *changed) reach(run string, within time.Duration) (map[int][]timed, error) {
	list, err := b.m.Quietly(cmd(b.binary(), "-test.list="+run).in(b.by.Dir))
	if err != nil {
		return nil, fmt.Errorf("mutate: the tests of %s do not run: %s", b.by.ImportPath, list)
	}
	to := map[int][]timed{}
	for name := range strings.FieldsSeq(list) {
		start := time.Now()
		said, err := b.run(-1, []timed{{name, time.Minute}})
		if err != nil {
			return nil, fmt.Errorf("mutate: the tests of %s fail as they are: %s", b.by.ImportPath, strings.Join(failures(said), "; "))
		}
		test := timed{name, time.Since(start)}
		if test.took > within {
			continue
		}
		for _, m := range reached.FindAllStringSubmatch(said, -1) {
			number, _ := strconv.Atoi(m[1])
			to[number] = append(to[number], test)
		}
	}
	return to, nil
}

// run runs some of the tests with one change chosen, at most some ten times as
// long as they took. It ends at the first failure.
func (b *changed) run(number int, tests []timed) (string, error) {
	var names []string
	limit := 20 * time.Second
	for _, t := range tests {
		names, limit = append(names, t.name), limit+10*t.took
	}
	return b.m.Quietly(cmd(b.binary(), "-test.failfast", "-test.timeout="+limit.String(), "-test.run=^("+strings.Join(names, "|")+")$").
		in(b.by.Dir).with("KEDGE_MUTANT="+strconv.Itoa(number), rapidSeed))
}

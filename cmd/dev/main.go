package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

const usage = `usage: go run ./cmd/dev VERB [flags]

  run  [-y]    build Kedge and open the board on the example plan;
               without a display: print the check and write the sheet instead
  test [-y]    run every check of the project
  fuzz DURATION
               throw random inputs at each fuzz target in turn, for so long each (10m)
  found N
               try N plans as people rig them, and every way of making each hold less
  kill [N]     kill a process that saves a plan N times (1000), at random moments
  kill -window [-y] [N]
               kill the board N times (200) while it is edited on a virtual display
  mutate PATTERN [-every N] [-seed S] [-by PACKAGE] [-run TESTS] [-within TIME]
               make one change at a time in the packages (below ./solver;
               ./canvas/sheet, exercise and store) and print those that none of their tests notices;
               -every N: each N-th change, from the S-th on
               -by PACKAGE: the tests of that package, not of each its own;
               -run TESTS: those alone whose names match;
               -within TIME: without tests that take longer
  fonts        make the embedded faces of the unmodified ones beside them
  package [-y] [VERSION]
               packages for Linux and Windows and the command line for others, in dist/
  look [-y] [-size WxH,...] [-theme light,dark] [-scale N] [-act STEPS] [-plan FILE] [-sheet] [-readme]
               pictures of the window, or of the printed sheet, in .look/;
               -readme: those that the README shows, in assets/

  -y           answer yes when asked whether to install packages
`

func main() {
	os.Exit(dev(newHost(), os.Args[1:]))
}

// dev runs one verb and returns the exit status: 0 done, 1 failed, 2 misused.
func dev(m machine, args []string) int {
	if sentence := tooOld(runtime.Version()); sentence != "" {
		m.Say(sentence)
		return 1
	}
	if len(args) == 0 {
		m.Say(strings.TrimSuffix(usage, "\n"))
		return 2
	}
	verbs := map[string]func(machine, []string) error{"run": run, "test": test, "fuzz": fuzz, "found": found, "kill": kill, "mutate": mutate, "fonts": fonts, "look": look, "package": packaged}
	verb, known := verbs[args[0]]
	if !known {
		m.Say(strings.TrimSuffix(usage, "\n"))
		return 2
	}
	if _, ok := m.ReadFile("go.mod"); !ok {
		m.Say("Start this in the project's top folder, where go.mod is.")
		return 1
	}
	err := verb(m, args[1:])
	switch {
	case err == nil:
		return 0
	case errors.Is(err, flag.ErrHelp):
		m.Say(strings.TrimSuffix(usage, "\n"))
		return 0
	case errors.Is(err, errMisused):
		m.Say(err.Error())
		m.Say(strings.TrimSuffix(usage, "\n"))
		return 2
	}
	m.Say("dev: " + err.Error())
	return 1
}

var errMisused = errors.New("dev: cannot read the command line")

// parse reads a verb's flags, refusing words that are left over.
func parse(flags *flag.FlagSet, args []string) error {
	flags.SetOutput(io.Discard)
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return err
		}
		return fmt.Errorf("%w: %w", errMisused, err)
	}
	if flags.NArg() > 0 {
		return fmt.Errorf("%w: %q is one word too many", errMisused, flags.Arg(0))
	}
	return nil
}

// binary is where a program of the project is built to, as an absolute path.
func binary(m machine, name string) string {
	if m.OS() == "windows" {
		name += ".exe"
	}
	path, err := filepath.Abs(filepath.Join("bin", name))
	if err != nil { // no working folder: the relative name is all there is
		return filepath.Join("bin", name)
	}
	return path
}

package main

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"

	"github.com/spf13/cobra"
)

// boardName is the program with the window.
const boardName = "kedge-board"

// desk is what open needs to know of the machine.
type desk struct {
	system     string                            // runtime.GOOS
	getenv     func(string) string               // environment
	executable func() (string, error)            // this program's file
	exists     func(file string) bool            // a file that may be run
	lookPath   func(file string) (string, error) // on PATH
	run        func(file string, args []string) (status int, err error)
	associate  func(board string) error // has plans opened with that program; nil: the system has other ways
	dissociate func() error             // takes that back
}

func newOpen(status *int) *cobra.Command {
	var on, off bool
	c := &cobra.Command{
		Use:  "open",
		Args: onePlan(0),
		RunE: func(_ *cobra.Command, args []string) (err error) {
			if on || off {
				return register(thisDesk(), on, off, args)
			}
			*status, err = open(thisDesk(), args)
			return err
		},
	}
	c.Flags().BoolVar(&on, "register", false, "")
	c.Flags().BoolVar(&off, "unregister", false, "")
	return c
}

// register has the system open plans with the board that open would start, or takes
// that back.
func register(d desk, on, off bool, args []string) error {
	switch {
	case on && off || len(args) > 0:
		return wrongUse(registerAlone.At(""))
	case d.associate == nil:
		return wrongUse(registerElsewhere.At(""))
	case off:
		if err := d.dissociate(); err != nil {
			return refused(notRegistered.At("").Because(err))
		}
		return nil
	}
	board, err := findBoard(d)
	if err != nil {
		return err
	}
	if board, err = filepath.Abs(board); err == nil {
		err = d.associate(board)
	}
	if err != nil {
		return refused(notRegistered.At("").Because(err))
	}
	return nil
}

func thisDesk() desk {
	return desk{
		associate: associate, dissociate: dissociate,
		system: runtime.GOOS, getenv: os.Getenv, executable: os.Executable, lookPath: exec.LookPath,
		exists: func(file string) bool {
			info, err := os.Stat(file)
			return err == nil && info.Mode().IsRegular()
		},
		run: func(file string, args []string) (int, error) {
			c := exec.Command(file, args...)
			c.Stdin, c.Stdout, c.Stderr = os.Stdin, os.Stdout, os.Stderr
			err := c.Run()
			if exit := (*exec.ExitError)(nil); errors.As(err, &exit) {
				return exit.ExitCode(), nil
			}
			return 0, err
		},
	}
}

// open starts the board and waits for it; its exit status is the board's.
func open(d desk, args []string) (status int, err error) {
	if len(args) == 1 {
		if args[0] == stdinName {
			return 0, wrongUse(boardStdin.At(""))
		}
		if _, err := readPlan(args[0], nil); err != nil {
			return 0, err
		}
	}
	if d.system == "linux" && d.getenv("DISPLAY") == "" && d.getenv("WAYLAND_DISPLAY") == "" {
		return 0, wrongUse(noDisplay.At(""))
	}
	board, err := findBoard(d)
	if err != nil {
		return 0, err
	}
	if status, err = d.run(board, args); err != nil {
		return 0, wrongUse(notStarted.At("", board).Because(err))
	}
	return status, nil
}

func findBoard(d desk) (string, error) {
	name := boardName
	if d.system == "windows" {
		name += ".exe"
	}
	if self, err := d.executable(); err == nil {
		if beside := filepath.Join(filepath.Dir(self), name); d.exists(beside) {
			return beside, nil
		}
	}
	if found, err := d.lookPath(name); err == nil {
		return found, nil
	}
	return "", wrongUse(noBoard.At("", name))
}

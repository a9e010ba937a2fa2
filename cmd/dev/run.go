package main

import (
	"errors"
	"flag"
	"fmt"
	"os/exec"
)

// example is the plan that the board opens on.
const example = "assets/plans/redirect.kedge"

// exampleSheet is written where there is no display to open the board on.
const exampleSheet = "redirect.pdf"

const longBuild = "The first build compiles the window toolkit's C parts: about four minutes on two cores. Later ones take seconds."

// run builds both programs and opens the board. Without a display it shows
// what the command line makes of the example instead.
func run(m machine, args []string) error {
	flags := flag.NewFlagSet("run", flag.ContinueOnError)
	yes := flags.Bool("y", false, "")
	if err := parse(flags, args); err != nil {
		return err
	}
	lacks := provide(m, runNeeds(), *yes)
	display := hasDisplay(m)
	if lacks != nil && display {
		return lacks
	}
	kedge := binary(m, "kedge")
	m.Say("Building bin/kedge, the command line ...")
	if err := m.Run(buildKedge(m)); err != nil {
		return fmt.Errorf("bin/kedge was not built: %w", err)
	}
	if !display {
		m.Say("There is no display here (neither DISPLAY nor WAYLAND_DISPLAY is set), so the board cannot open.")
		m.Say("This is what the command line says of the same plan:")
		if err := check(m, cmd(kedge, "check", example)); err != nil {
			return err
		}
		sheet := cmd(kedge, "sheet", example, "-o", exampleSheet)
		m.Say("$ " + sheet.String())
		if err := m.Run(sheet); err != nil {
			return fmt.Errorf("no sheet was written: %w", err)
		}
		m.Say("Its sheet is in " + exampleSheet + ".")
	}
	if lacks != nil {
		return fmt.Errorf("bin/kedge-board was not built: %w", lacks)
	}
	m.Say("Building bin/kedge-board, the window ...")
	m.Say(longBuild)
	if err := m.Run(buildBoard(m)); err != nil {
		return fmt.Errorf("bin/kedge-board was not built: %w", err)
	}
	if !display {
		m.Say("bin/kedge-board is ready. On a display: bin/kedge-board " + example)
		return nil
	}
	m.Say("Opening the board on " + example + " ...")
	return m.Run(cmd(binary(m, "kedge-board"), example))
}

// check runs kedge check, which tells by its exit status that a plan has
// findings: a status is no failure here, not starting is.
func check(m machine, c command) error {
	m.Say("$ " + c.String())
	err := m.Run(c)
	var status *exec.ExitError
	if errors.As(err, &status) {
		m.Say(fmt.Sprintf("(%v)", status))
		return nil
	}
	return err
}

func hasDisplay(m machine) bool {
	if m.OS() != "linux" {
		return true
	}
	return m.Getenv("DISPLAY") != "" || m.Getenv("WAYLAND_DISPLAY") != ""
}

// The programs carry no version-control stamp: a checkout owned by another
// user would stop the build.
func buildKedge(m machine) command {
	return cmd("go", "build", "-buildvcs=false", "-o", binary(m, "kedge"), "./cmd/kedge").with("CGO_ENABLED=0")
}

func buildBoard(m machine) command {
	return cmd("go", "build", "-buildvcs=false", "-o", binary(m, "kedge-board"), "./cmd/kedge-board").with("CGO_ENABLED=1")
}

package main

import (
	"errors"
	"fmt"
	"strings"
)

// errLacking: something the machine lacks could not be installed. What it is
// has been said already.
var errLacking = errors.New("the machine lacks what is listed above")

// provide makes sure that needs are met: nothing happens when they are,
// otherwise the packages are named and installed. yes answers the question.
func provide(m machine, needs []need, yes bool) error {
	s := recognise(m)
	missing := lacking(m, s, needs)
	if len(missing) == 0 {
		return nil
	}
	m.Say("This machine lacks:")
	for _, n := range missing {
		m.Say(fmt.Sprintf("  %s: %s", n.words, n.why))
	}
	if s.name == unknown.name {
		m.Say("Dev knows no package names for this system. Install the above with its package manager and start again.")
		return errLacking
	}
	packages := packagesOf(s, missing)
	m.Say(fmt.Sprintf("Packages on %s: %s", s.name, strings.Join(packages, " ")))
	steps, way := installSteps(m, s, packages)
	if steps == nil {
		m.Say(way)
		return errLacking
	}
	if s.note != "" {
		m.Say(s.note)
	}
	if way == ask && !yes && !m.Ask("Install them now?") {
		m.Say("Not installed. Install them and start again:")
		for _, c := range steps {
			m.Say("  " + c.String())
		}
		return errLacking
	}
	for i, c := range steps {
		m.Say("$ " + c.String())
		err := m.Run(c)
		if err != nil && i < len(steps)-1 { // an old package list may still do
			m.Say(fmt.Sprintf("The list of packages was not brought up to date (%v); going on with the old one.", err))
			continue
		}
		if err != nil {
			m.Say(fmt.Sprintf("The packages were not installed: %v", err))
			return errLacking
		}
	}
	if still := lacking(m, s, needs); len(still) > 0 {
		m.Say("Installed, and still not found:")
		for _, n := range still {
			m.Say("  " + n.words)
		}
		if s.note != "" {
			m.Say(s.note)
		}
		return errLacking
	}
	return nil
}

const (
	ask      = "ask"
	straight = "straight"
)

// installSteps are the commands that bring the packages, and whether to ask
// first. No steps: the machine lets nobody install, and way is the sentence
// that says so.
func installSteps(m machine, s system, packages []string) (steps []command, way string) {
	for _, p := range packages {
		if strings.Contains(p, " ") {
			return nil, "Part of it dev cannot install: do what the list says and start again."
		}
	}
	if !m.Has(s.manager) {
		return nil, fmt.Sprintf("%s is not on PATH, so dev cannot install them. Install them and start again.", s.manager)
	}
	update, install := cmd(s.update...), cmd(append(append([]string(nil), s.install...), packages...)...)
	way = ask
	switch {
	case !s.asRoot:
	case m.Root():
		update, install = update.with(s.env...), install.with(s.env...)
		way = straight
	case m.Has("sudo"):
		prefix := []string{"sudo"}
		if len(s.env) > 0 { // sudo drops the caller's environment
			prefix = append(append(prefix, "env"), s.env...)
		}
		update.words = append(append([]string(nil), prefix...), update.words...)
		install.words = append(append([]string(nil), prefix...), install.words...)
	default:
		return nil, "You are not root and there is no sudo, so dev cannot install them. Have them installed and start again."
	}
	if s.update != nil {
		steps = append(steps, update)
	}
	return append(steps, install), way
}

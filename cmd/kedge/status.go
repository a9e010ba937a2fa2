package main

import (
	"kedge/solver"
	"kedge/solver/part"
)

// The exit statuses.
const (
	statusDone      = 0
	statusDanger    = 1
	statusUse       = 2
	statusRefused   = 3
	statusUnsettled = 4
	statusHelp      = `0  every part was computed, has a limit, and no finding is above NOTICE
1  a finding is a DANGER (this wins over 4)
2  wrong use, or what was asked for is not there: a rig, a part, the board
3  a file was refused: it is missing, damaged, or made for a newer Kedge
4  a finding is a WARNING or a CAUTION, or something was not computed, has no
   limit, or was not understood
`
)

// exitStatus is the status of one answer.
func exitStatus(a *solver.Assessment) int {
	status := statusDone
	if !settled(a) {
		status = statusUnsettled
	}
	for i := range a.Findings {
		switch l := a.Findings[i].Level; {
		case l == part.Notice:
		case l == part.Caution || l == part.Warning:
			status = statusUnsettled
		default: // a level nobody knows is a danger, as its signal word is
			return statusDanger
		}
	}
	return status
}

// settled tells that every part was computed and is within its limit.
func settled(a *solver.Assessment) bool {
	if !a.Complete || a.Status != part.Within || !a.Move.Known || len(a.Parts) == 0 {
		return false
	}
	for i := range a.Parts {
		switch p := &a.Parts[i]; p.Status {
		case part.Within, part.Near:
			if !p.Known() {
				return false
			}
		case part.Slack:
		default:
			return false
		}
	}
	return true
}

// worse is the status of two answers together.
func worse(a, b int) int {
	switch {
	case a == statusDanger || b == statusDanger:
		return statusDanger
	case a == statusUnsettled || b == statusUnsettled:
		return statusUnsettled
	}
	return statusDone
}

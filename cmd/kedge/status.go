package main

import (
	"kedge/canvas/report"
	"kedge/solver"
)

// The exit statuses.
const (
	statusDone      = 0
	statusDanger    = 1
	statusUse       = 2
	statusRefused   = 3
	statusUnsettled = report.Unsettled
	statusGivenUp   = 130 // as a shell says of what Ctrl+C ends
)

// exitStatus is the status that says a verdict.
func exitStatus(v solver.Verdict) int {
	return [...]int{solver.Settled: statusDone, solver.Unsettled: statusUnsettled, solver.Dangerous: statusDanger}[v]
}

package main

import "kedge/solver"

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

// exitStatus is the status that says a verdict.
func exitStatus(v solver.Verdict) int {
	return [...]int{solver.Settled: statusDone, solver.Unsettled: statusUnsettled, solver.Dangerous: statusDanger}[v]
}

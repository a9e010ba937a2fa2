package walls

import (
	"fmt"
	"slices"
	"strings"
)

// Violations lists every breach of every wall, one sentence each, nil for
// none.
func (g Graph) Violations() []string {
	all := slices.Clone(g.Broken)
	for _, rule := range []func(Graph) []string{
		importOrder, solverKeepsToItself, strangersStayApart, fyneStaysInTheWindow, cgoStaysInTheBoard,
		devTakesNothing, optimizeOnlyInTests, fastJSONOnlyInPlan,
	} {
		all = append(all, rule(g)...)
	}
	return all
}

// importOrder: a package imports only lower levels.
func importOrder(g Graph) (found []string) {
	for _, own := range g.names() {
		level, known := levels[own]
		if own != assetsPackage && !known {
			found = append(found, fmt.Sprintf("%s is not in the table of levels: enter it in internal/walls/levels.go, on the level above everything it has to import", own))
			continue
		}
		for _, path := range g.imports(own, false) {
			other, isOwn := within(path)
			if !isOwn {
				continue
			}
			otherLevel, otherKnown := levels[other]
			switch {
			case own == assetsPackage:
				found = append(found, fmt.Sprintf("assets imports %s: it may import nothing of ours", other))
			case other == assetsPackage:
				if level < assetsFrom {
					found = append(found, fmt.Sprintf("%s imports assets: only packages from level %d on may, it is on level %d", own, assetsFrom, level))
				}
			case !otherKnown: // said once, where it is listed itself
			case otherLevel == level:
				if sameLevel[[2]string{own, other}] == "" {
					found = append(found, fmt.Sprintf("%s imports %s: both are on level %d, and the table of exceptions does not name the pair", own, other, level))
				}
			case otherLevel > level:
				found = append(found, fmt.Sprintf("%s (level %d) imports %s (level %d): imports go to lower levels only", own, level, other, otherLevel))
			}
		}
	}
	return found
}

// solverKeepsToItself: the solver knows no clock, file, network or chance, no
// picture and no command. Its tests may read files, and no more than that.
func solverKeepsToItself(g Graph) (found []string) {
	for _, own := range g.names() {
		if !below(own, "solver") {
			continue
		}
		for _, path := range g.imports(own, false) {
			for _, o := range outside {
				if below(path, o) {
					found = append(found, fmt.Sprintf("%s imports %s: the solver's answer depends on the plan and the facts alone", own, path))
				}
			}
		}
		way := g.reaches(own, true, func(path string) bool {
			other, isOwn := within(path)
			return below(path, fyne) || isOwn && (below(other, "canvas") || below(other, "cmd"))
		})
		if way != nil {
			found = append(found, "the solver reaches what shows it: "+strings.Join(way, " → "))
		}
	}
	return found
}

// strangersStayApart: effort, gear, hold and zone do not know each other.
func strangersStayApart(g Graph) (found []string) {
	for _, own := range strangers {
		for _, path := range append(g.imports(own, false), g.imports(own, true)...) {
			if other, isOwn := within(path); isOwn && other != own && slices.Contains(strangers, other) {
				found = append(found, fmt.Sprintf("%s imports %s: what it needs of it comes as an argument from solver", own, other))
			}
		}
	}
	return found
}

// fyneStaysInTheWindow: two packages reach the window toolkit, tests
// included, and one of them the part of it that needs cgo.
func fyneStaysInTheWindow(g Graph) (found []string) {
	for _, own := range g.names() {
		if own != windowPackage && own != boardProgram {
			if way := g.reaches(own, true, func(path string) bool { return below(path, fyne) }); way != nil {
				found = append(found, fmt.Sprintf("only %s and %s reach Fyne: %s", windowPackage, boardProgram, strings.Join(way, " → ")))
			}
		}
		if own != boardProgram {
			if way := g.reaches(own, true, func(path string) bool { return below(path, fyneApp) }); way != nil {
				found = append(found, fmt.Sprintf("only %s imports %s, which needs cgo: %s", boardProgram, fyneApp, strings.Join(way, " → ")))
			}
		}
	}
	return found
}

// cgoStaysInTheBoard: without cgo the board's program is not there at all, so
// that ./... builds everywhere.
func cgoStaysInTheBoard(g Graph) (found []string) {
	for _, f := range g.Ours[boardProgram] {
		if !f.Test && !f.Cgo {
			found = append(found, fmt.Sprintf("%s/%s has no //go:build cgo", boardProgram, f.Name))
		}
	}
	for _, own := range g.names() {
		if own != boardProgram && slices.Contains(g.imports(own, false), "C") {
			found = append(found, own+" uses cgo: only "+boardProgram+" may")
		}
	}
	return found
}

// devTakesNothing: the set-up helper runs before anything is fetched.
func devTakesNothing(g Graph) (found []string) {
	for _, path := range g.imports(devProgram, false) {
		if !standard(path) {
			found = append(found, fmt.Sprintf("%s imports %s: it has the standard library alone", devProgram, path))
		}
	}
	return found
}

// standard tells a path of the standard library: its first element has no dot.
func standard(path string) bool {
	first, _, _ := strings.Cut(path, "/")
	_, isOwn := within(path)
	return !isOwn && !strings.Contains(first, ".")
}

// optimizeOnlyInTests: gonum's minimisers are the oracle, never the answer.
func optimizeOnlyInTests(g Graph) (found []string) {
	for _, own := range g.names() {
		if way := g.reaches(own, false, func(path string) bool { return below(path, optimize) }); way != nil {
			found = append(found, "gonum/optimize is for tests: "+strings.Join(way, " → "))
		}
	}
	return found
}

// fastJSONOnlyInPlan: one package knows how a plan is written.
func fastJSONOnlyInPlan(g Graph) (found []string) {
	for _, own := range g.names() {
		for _, path := range append(g.imports(own, false), g.imports(own, true)...) {
			if own != planPackage && below(path, fastJSON) {
				found = append(found, fmt.Sprintf("%s imports %s: only %s does", own, path, planPackage))
			}
		}
	}
	return found
}

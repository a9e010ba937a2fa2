package report

import (
	"slices"
	"strings"

	"kedge/solver"
	"kedge/solver/part"
)

// mostBrought is how many findings that a change brings are said, the worst first. (ours)
const mostBrought = 3

// brought are the findings that a change which was asked for brings with it.
type brought struct {
	change   string
	findings []part.Finding // the worst first
}

// assessChanges finds what the changes that were asked for bring which the plan has not: what lowers
// a chance may be no pull at all, a line too short or a tree that there is not.
func (a *Report) assessChanges(had []part.Finding) {
	for _, c := range a.Found.Changes {
		if c.Err != nil || !slices.Contains(a.asked, c.Name) {
			continue
		}
		b := brought{change: c.Name}
		for _, f := range solver.Assess(c.Plan, a.Rig).Findings {
			if f.Level >= part.Caution && len(b.findings) < mostBrought && !slices.ContainsFunc(had, alike(f)) {
				b.findings = append(b.findings, f)
			}
		}
		if len(b.findings) > 0 {
			a.brings = append(a.brings, b)
		}
	}
}

// brought says what changes bring.
func (a *Report) brought() (all []string) {
	for _, b := range a.brings {
		var said []string
		for _, f := range b.findings {
			what, _ := a.w.Finding(f, a.Names)
			said = append(said, a.w.Level(f.Level)+": "+what)
		}
		all = append(all, a.w.Label("recon-change-brings", part.Text("change", b.change), part.Text("list", strings.Join(said, " "))))
	}
	return all
}

// alike tells the findings of one rule about the same things at the same level or higher.
func alike(f part.Finding) func(part.Finding) bool {
	return func(g part.Finding) bool {
		return g.ID == f.ID && g.Level >= f.Level && slices.Equal(g.Things, f.Things)
	}
}

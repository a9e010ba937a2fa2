package report

import (
	"slices"
	"strings"

	"kedge/solver"
	"kedge/solver/part"
)

// mostBrought is how many findings that a change brings are said, the worst first. (ours)
const mostBrought = 3

// brought are the findings that a change which was asked for brings with it: what lowers a
// chance may be no pull at all, a line too short or a tree that there is not.
func (a *Report) brought() (all []string) {
	if len(a.asked) == 0 {
		return nil
	}
	had := solver.Assess(a.Plan, a.Rig).Findings
	for _, c := range a.Found.Changes {
		if c.Err != nil || !slices.Contains(a.asked, c.Name) {
			continue
		}
		var said []string
		for _, f := range solver.Assess(c.Plan, a.Rig).Findings { // the worst first
			if f.Level >= part.Caution && len(said) < mostBrought && !slices.ContainsFunc(had, alike(f)) {
				what, _ := a.w.Finding(f, a.Names)
				said = append(said, a.w.Level(f.Level)+": "+what)
			}
		}
		if len(said) > 0 {
			all = append(all, a.w.Label("recon-change-brings", part.Text("change", c.Name), part.Text("list", strings.Join(said, " "))))
		}
	}
	return all
}

// alike tells the findings of one rule about the same things at the same level or higher.
func alike(f part.Finding) func(part.Finding) bool {
	return func(g part.Finding) bool {
		return g.ID == f.ID && g.Level >= f.Level && slices.Equal(g.Things, f.Things)
	}
}

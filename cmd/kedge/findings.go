package main

import (
	"strings"

	"kedge/solver"
)

// findings is the list of findings, from the rules and texts themselves.
func (m *manual) findings() string {
	page := m.of("findings")
	item := func(name, text string) string { return indent + m.say(page.flags[name]) + ": " + text + "\n" }
	var b strings.Builder
	b.WriteString(m.say(page.long) + "\n")
	for _, pkg := range solver.Rulebook() {
		b.WriteString("\n" + m.say(page.flags[pkg.Package]) + "\n")
		for _, r := range pkg.Rules {
			levels := make([]string, len(r.Levels))
			for i, l := range r.Levels {
				levels[i] = m.w.Level(l)
			}
			what, do := m.w.FindingPattern(r.ID)
			b.WriteString("\n" + r.ID + gap + strings.Join(levels, ", ") + "\n")
			b.WriteString(item("says", what) + item("do", do))
			if why := m.w.RestsOn(&r); why != "" {
				b.WriteString(item("rests", why))
			}
		}
	}
	return b.String()
}

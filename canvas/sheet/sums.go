package sheet

import (
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/travel"
)

// sumsSheet prints how each figure came about, worst part first.
func (m *maker) sumsSheet() error {
	f, err := m.columns(Sums, m.kindName(Sums))
	if err != nil {
		return err
	}
	ids, names := []string{solver.ResistancePart}, []string{m.w.Label("title-resistance")}
	for _, p := range m.a.PartsBy(part.WorstFirst) {
		ids, names = append(ids, p.ID), append(names, m.w.PartName(p, m.names))
	}
	for i, id := range ids {
		lines := m.sumOf(id)
		if len(lines) == 0 {
			continue
		}
		if err := f.title(names[i]); err != nil {
			return err
		}
		if err := f.items("·", lines); err != nil {
			return err
		}
	}
	return nil
}

// sumOf is the sum of a part where it is worst, a line a step; nil if there is none.
func (m *maker) sumOf(part string) []string {
	derivation, err := travel.Explain(m.a, m.p, m.rig, part)
	if err != nil {
		return nil
	}
	lines := m.w.Derivation(derivation, m.names)
	if p, ok := m.a.Part(part); ok {
		lines = append(lines, m.w.FailureBasis(p)...)
	}
	return lines
}

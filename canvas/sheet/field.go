package sheet

import (
	"slices"
	"strings"

	"kedge/canvas/pen"
	"kedge/solver/part"
)

// mostOver is how many parts over their limit a card names. (ours)
const mostOver = 4

// computed reports whether the rig is computed.
func (m *maker) computed() bool { return m.a.Status == part.Within && m.a.Move.Known }

// forbidden says why the rig is not pulled: it is not computed, a part passes its
// limit, or there is a DANGER. Empty is no leave to pull.
func (m *maker) forbidden() string {
	danger := ""
	if g := m.a.Findings; len(g) > 0 && g[0].Level == part.Danger {
		danger, _ = m.w.Finding(g[0], m.names)
	}
	if !m.computed() {
		return strings.TrimSpace(m.label("do-not-not-computed") + " " + danger)
	}
	var over []string
	for _, p := range m.a.PartsBy(part.WorstFirst) {
		if p.Status == part.Over {
			over = append(over, m.label("do-not-part", part.Text("part", m.w.PartName(p, m.names)), part.Text("load", m.w.LoadOf(p.Planned())), part.Text("limit", m.w.LimitOf(p.Limit))))
		}
	}
	if n := len(over) - mostOver; n > 0 {
		over = append(over[:mostOver], strings.TrimRight(m.w.Label("more", part.Count("count", n)), " ▸"))
	}
	if len(over) > 0 {
		return m.label("do-not-over", part.Text("parts", strings.Join(over, "; ")))
	}
	return danger
}

// unknown are the names of what is not known to be within its limit, or to stand
// still.
func (m *maker) unknown() []string {
	names := m.w.Undecided(m.a, m.names)
	for i := range m.a.Parts {
		p := &m.a.Parts[i]
		if p.Known() || p.Status == part.Slack {
			continue
		}
		if s := m.w.PartName(p, m.names); !slices.Contains(names, s) {
			names = append(names, s)
		}
	}
	return names
}

// field sets the head of a sheet that goes to the field: the verdict, and in a box
// why the rig is not pulled, or what has to be known first. It reports whether the
// sheet may say how to pull.
func (f *flow) field() (goes bool, err error) {
	if err := f.verdict(); err != nil {
		return false, err
	}
	why := f.m.forbidden()
	if why != "" {
		return false, f.box(f.m.label("do-not", part.Text("why", why)), true)
	}
	if names := f.m.unknown(); len(names) > 0 {
		return true, f.box(f.m.label("find-out", part.Text("parts", strings.Join(names, ", "))), false)
	}
	return true, nil
}

// box sets a sentence in a box, white on black or black on white.
func (f *flow) box(s string, dark bool) error {
	t := letters(headEm, true)
	style := &pen.Style{Stroke: ink, Width: lineThick}
	if dark {
		style.Fill, t.Colour = ink, paper
	}
	lines := clipped(s, t, f.w()-2*boxPad, mostBoxed)
	h := float64(len(lines))*headLead + boxPad
	if err := f.room(h + 2); err != nil {
		return err
	}
	f.y++
	boxed(&f.g.marks, f.x(), f.y, f.w(), h, style)
	for i, line := range lines {
		write(&f.g.marks, f.x()+boxPad, f.y+boxPad/2+(float64(i)+0.5)*headLead, line, t)
	}
	f.y += h + 1
	return nil
}

// Of a box: room within it, mm, and its lines at most, and a verdict's, however long
// a name. (ours)
const (
	boxPad    = 2.0
	mostBoxed = 5
)

// clipped are the lines of a text, so many at most.
func clipped(s string, t *pen.TextStyle, w float64, most int) []string {
	lines := wrap(s, t, w)
	if len(lines) > most {
		lines = append(lines[:most-1:most-1], fitted(lines[most-1]+" …", t, w))
	}
	return lines
}

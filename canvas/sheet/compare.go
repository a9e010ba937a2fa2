package sheet

import (
	"slices"
	"strings"

	"github.com/golang/geo/r2"

	"kedge/canvas/draw"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/travel"
)

// rigsAPage is how many rigs stand side by side; more go on to another page.
const rigsAPage = 3

// column of the comparison.
type compared struct {
	id    plan.ID
	name  string
	a     *solver.Assessment
	names words.Names
}

// compare sets the rigs of the plan side by side: drawings of one scale, and a
// table.
func (m *maker) compare() error {
	var all []compared
	for i := range m.p.Rigs {
		id := m.p.Rigs[i].ID
		pull, err := travel.Assess(m.ctx, m.p, id, nil)
		if err != nil {
			return err
		}
		a := pull.Assessment
		all = append(all, compared{id, m.w.RigName(m.p, i), a, m.w.Naming(a, m.w.Names(m.p, id))})
	}
	f, err := m.flow(Compare, m.kindName(Compare))
	if err != nil {
		return err
	}
	if len(all) == 0 {
		return f.para(m.w.Label("verdict-nothing"), 0)
	}
	for from := 0; from < len(all); from += rigsAPage {
		if from > 0 {
			if err := f.next(); err != nil {
				return err
			}
		}
		if err := m.comparePage(f, all[from:min(from+rigsAPage, len(all))]); err != nil {
			return err
		}
	}
	return nil
}

func (m *maker) comparePage(f *flow, rigs []compared) error {
	t := m.compareTable(rigs)
	under := t.height(f.w()) + 3
	if h := f.left() - under; h > leastBox {
		m.compareDrawings(f, rigs, min(h, 95))
	}
	return f.table(t)
}

// compareDrawings draws the rigs beside one another at one scale.
func (m *maker) compareDrawings(f *flow, rigs []compared, h float64) {
	whole, wholeRig, names := m.a, m.rig, m.names
	defer func() { m.a, m.rig, m.names = whole, wholeRig, names }()
	const gap = 3.0
	w := (f.w() - gap*float64(len(rigs)-1)) / float64(len(rigs))
	e := extent{r2.EmptyRect()}
	for _, c := range rigs {
		box := draw.Bounds(m.p, c.a)
		if box.IsEmpty() {
			return
		}
		e.Rect = e.AddRect(box)
	}
	n, ok := largestScale(e.w(), e.h(), w-8, h-8)
	if !ok {
		return
	}
	for i, c := range rigs {
		m.a, m.rig, m.names = plain(c.a), c.id, c.names
		m.picture(f.g, f.x()+float64(i)*(w+gap), f.y, w, h, n, e.middle(), draw.Show{HideGrid: true, HideTags: true, HideNames: true, HideZones: everyZone()})
	}
	f.y += h + 3
}

func (m *maker) compareTable(rigs []compared) *table {
	w := m.w
	t := &table{cols: []column{{head: "", flex: 1}}}
	for _, c := range rigs {
		t.cols = append(t.cols, column{head: c.name, flex: 1})
	}
	line := func(head string, say func(c compared) string) {
		cells := []string{head}
		for _, c := range rigs {
			cells = append(cells, say(c))
		}
		t.add(cells...)
	}
	line(m.label("compare-verdict"), func(c compared) string {
		return strings.TrimSuffix(w.VerdictLine(c.a, c.names), " ▸")
	})
	line(m.label("compare-move"), func(c compared) string { return m.pull(c.a.Move) })
	if slices.ContainsFunc(rigs, func(c compared) bool { return c.a.Looser() }) {
		line(m.label("compare-loosen"), func(c compared) string { return m.pull(c.a.Loosen) })
	}
	line(m.label("compare-stall"), func(c compared) string { return m.pull(c.a.Stall) })
	line(m.label("compare-advantage"), func(c compared) string {
		if !(c.a.Advantage > 0) {
			return noFigure
		}
		return w.Value(part.Value{X: c.a.Advantage}, nil)
	})
	m.compareParts(line)
	m.compareSite(line)
	return t
}

// compareParts compares what is loaded most.
func (m *maker) compareParts(line func(head string, say func(c compared) string)) {
	w := m.w
	line(m.label("compare-worst"), func(c compared) string {
		if i := c.a.Worst; i >= 0 && i < len(c.a.Parts) {
			return w.PartName(&c.a.Parts[i], c.names) + ", " + w.UsedOf(&c.a.Parts[i])
		}
		return noFigure
	})
	line(m.label("compare-first"), func(c compared) string {
		if i := c.a.First; i >= 0 && i < len(c.a.Parts) {
			return w.PartName(&c.a.Parts[i], c.names)
		}
		return noFigure
	})
	line(m.label("compare-anchors"), func(c compared) string {
		var all []string
		for i := range c.a.Parts {
			if p := &c.a.Parts[i]; p.Kind == part.KindAnchor {
				all = append(all, w.PartName(p, c.names)+" "+w.LoadOf(p.Planned()))
			}
		}
		if len(all) == 0 {
			return noFigure
		}
		return strings.Join(all, "; ")
	})
}

// compareSite compares the lines it takes, the findings and who stands where.
func (m *maker) compareSite(line func(head string, say func(c compared) string)) {
	w := m.w
	line(m.label("compare-line"), func(c compared) string {
		var all []string
		for _, l := range c.a.Lines {
			all = append(all, w.LengthNeeded(l.Out))
		}
		if len(all) == 0 {
			return noFigure
		}
		return strings.Join(all, " + ")
	})
	line(m.label("compare-findings"), func(c compared) string {
		n := words.CountLevels(c.a.Findings)
		var all []string
		for _, l := range []part.Level{part.Danger, part.Warning, part.Caution} {
			if n[l] > 0 {
				all = append(all, itoa(n[l])+" "+w.Level(l))
			}
		}
		if len(all) == 0 {
			return m.label("compare-no-finding")
		}
		return strings.Join(all, ", ")
	})
	line(m.label("compare-people"), func(c compared) string {
		if len(c.a.Zones) == 0 {
			return m.label("compare-no-zones") // never a zero that nobody counted
		}
		n := 0
		for _, q := range c.a.People {
			if len(q.Inside) > 0 {
				n++
			}
		}
		if c.a.ZonesPartly() {
			return itoa(n) + ", " + w.Label("outside-partly")
		}
		return itoa(n)
	})
}

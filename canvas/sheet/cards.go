package sheet

import (
	"math"
	"slices"
	"strings"

	"kedge/canvas/pen"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// checked sets a list with a box to tick before each line.
func (f *flow) ticked(lines []listLine) error {
	for _, l := range lines {
		n := len(wrap(l.Text, letters(textEm, false), f.w()-8))
		if err := f.room(float64(n)*lead + 1.5); err != nil {
			return err
		}
		boxed(&f.g.marks, f.x()+0.5, f.y+0.7, 3.4, 3.4, &pen.Style{Stroke: ink, Width: lineRule})
		if err := f.para(l.Text, 8); err != nil {
			return err
		}
		f.gap(1.5)
	}
	return nil
}

// card begins a card with the field of the plan's answer; goes: there is one.
func (m *maker) card(k Kind) (f *flow, goes bool, err error) {
	begin := m.flow
	if k == StopLook { // short lines
		begin = m.columns
	}
	if f, err = begin(k, m.kindName(k)); err == nil {
		goes, err = f.field()
	}
	return f, goes, err
}

// briefing is the card that is read out before the pull.
func (m *maker) briefing() error {
	f, goes, err := m.card(Briefing)
	if err != nil {
		return err
	}
	if goes {
		if err := f.title(m.label("briefing-pull")); err != nil {
			return err
		}
		if err := f.items("–", append(m.resistanceLines(), m.lineLines()...)); err != nil {
			return err
		}
	}
	if err := f.title(m.label("briefing-places")); err != nil {
		return err
	}
	if err := f.table(m.peopleTable()); err != nil {
		return err
	}
	if places := m.placeLines(); len(places) > 0 {
		if err := f.title(m.label("briefing-stand")); err != nil {
			return err
		}
		if err := f.items("–", places); err != nil {
			return err
		}
	}
	if zones := m.zoneWords(); zones != "" {
		if err := f.title(m.label("briefing-zones")); err != nil {
			return err
		}
		id := "briefing-zones-drawn"
		if !goes {
			id = "briefing-zones-alone"
		}
		if err := f.para(m.label(id, part.Text("zones", zones))+" "+strings.Join(words.ZoneNotes(m.w)[1:], " "), 0); err != nil {
			return err
		}
	}
	if err := f.title(m.label("briefing-signals")); err != nil {
		return err
	}
	signals, err := m.fieldList("signals", goes)
	if err != nil {
		return err
	}
	for _, l := range signals {
		if err := f.item("–", l.Text, 4); err != nil {
			return err
		}
	}
	return nil
}

// peopleTable is who stands where, in which zones, with room to sign.
func (m *maker) peopleTable() *table {
	t := &table{cols: []column{{head: m.label("column-who"), flex: 1}, {head: m.label("column-role")}, {head: m.label("column-where"), flex: 2}, {head: m.label("column-zones"), flex: 2},
		{head: m.label("column-name"), flex: 2}}}
	for _, q := range m.a.People {
		who, ok := m.p.Person(q.Person)
		if !ok {
			continue
		}
		zones := m.w.Where(q)
		if out := m.w.WayOut(q); out != "" {
			zones += ", " + out
		}
		t.rows = append(t.rows, row{cells: []string{m.thing(q.Person), m.w.Label("role-" + who.Role), m.where(q.At), zones, blankName}, dress: len(q.Inside) > 0, state: part.Near})
	}
	for range 2 {
		t.add("", "", "", "", blankName)
	}
	return t
}

// standsAtM is how near to a place somebody stands at it. (ours: a step)
const standsAtM = 1.0

// placeLines are the places to stand at where nobody stands yet, a role a line; why there
// are none; nothing if somebody stands at each.
func (m *maker) placeLines() []string {
	if m.whole == nil || !m.computed() {
		return []string{m.w.Label("stand-not-computed")}
	}
	found := m.whole.Places(m.p)
	if len(found.Operators) == 0 {
		return []string{m.w.NoPlace(m.a)}
	}
	var lines []string
	for _, of := range [...]struct {
		role string
		at   []plan.Point
	}{{plan.RoleOperator, found.Operators}, {plan.RoleSpotter, found.Spotters}} {
		var places []string
		for _, at := range of.at {
			if !slices.ContainsFunc(m.a.People, func(q solver.PersonAt) bool { return q.At.Dist(at) < standsAtM }) {
				places = append(places, m.where(at))
			}
		}
		if len(places) > 0 {
			lines = append(lines, m.w.Label("role-"+of.role)+": "+strings.Join(places, "; "))
		}
	}
	return lines
}

// where says where a place is, from the vehicle whose winch the rig pulls with, or else
// from the first with a winch, or the first.
func (m *maker) where(at plan.Point) string {
	var from *plan.Vehicle
	for i := range m.r.Lines {
		if path := m.r.Lines[i].Path; from == nil && len(path) > 0 && path[0].Point == plan.PortWinch {
			from, _ = m.p.Vehicle(path[0].Thing)
		}
	}
	for i := range m.p.Site.Vehicles {
		if v := &m.p.Site.Vehicles[i]; from == nil || from.Winch == nil && v.Winch != nil {
			from = v
		}
	}
	if from == nil {
		return noFigure
	}
	dx, dy := at.X-from.At.X, at.Y-from.At.Y
	bearing := quantity.FromRadians(math.Atan2(dx, dy))
	return m.label("stands", part.Length("length", math.Hypot(dx, dy)), part.Text("direction", m.w.Compass(bearing)), part.Text("bearing", m.w.Bearing(bearing)), part.Text("thing", m.thing(from.ID)))
}

// zoneWords are the kinds of zone there are.
func (m *maker) zoneWords() string {
	seen := map[part.ZoneKind]bool{}
	var all []string
	for i := range m.a.Zones {
		if k := m.a.Zones[i].Kind; !seen[k] {
			seen[k] = true
			all = append(all, m.w.Zone(k))
		}
	}
	return m.w.List(all)
}

// order is the order of work, to be signed off.
func (m *maker) order() error {
	f, err := m.flow(Order, m.kindName(Order))
	if err != nil {
		return err
	}
	goes, err := f.field()
	if err != nil {
		return err
	}
	f.gap(1.5)
	lines, err := m.fieldList("order", goes)
	if err != nil {
		return err
	}
	t := &table{cols: []column{{head: m.label("column-number"), right: true}, {head: m.label("column-work"), flex: 3}, {head: m.label("column-name")}, {head: m.label("column-time")}}}
	for i, l := range lines {
		blank := blankName
		if l.Sign != nil && !*l.Sign {
			blank = ""
		}
		t.add(itoa(i+1), l.Text, blank, short(blank))
	}
	return f.table(t)
}

// blankName is room for a name.
const blankName = "________________"

func short(blank string) string {
	if blank == "" {
		return ""
	}
	return "_______"
}

// stopLook is the card with the three numbers to watch.
func (m *maker) stopLook() error {
	f, goes, err := m.card(StopLook)
	if err != nil {
		return err
	}
	if goes {
		if err := f.title(m.label("stop-numbers")); err != nil {
			return err
		}
		for i, s := range m.threeNumbers() {
			if err := f.styledItem(itoa(i+1), s, 8); err != nil {
				return err
			}
			f.gap(1.5)
		}
	}
	if err := f.title(m.label("stop-when")); err != nil {
		return err
	}
	lines, err := m.list("stop")
	if err != nil {
		return err
	}
	return f.ticked(lines)
}

// threeNumbers are the pull on the winch line, the worst part, and how far the
// casualty has to go: what an operator can watch.
func (m *maker) threeNumbers() []string {
	w := m.w
	watch := "watch-pull"
	if m.a.Looser() {
		watch = "watch-pull-loosen"
	}
	out := []string{m.label(watch, part.Text("move", m.pull(m.a.Move)), part.Text("loosen", m.pull(m.a.Loosen)), part.Text("stall", m.pull(m.a.Stall)))}
	if i := m.a.Worst; i >= 0 && i < len(m.a.Parts) {
		p := &m.a.Parts[i]
		out = append(out, m.label("watch-part", part.Text("part", w.PartName(p, m.names)), part.Text("load", w.LoadOf(p.Planned())), part.Text("limit", w.LimitOf(p.Limit)), part.Text("used", w.UsedOf(p))))
	} else {
		out = append(out, m.label("watch-no-part"))
	}
	way := m.label("watch-way-unknown")
	if v := solver.CasualtyOf(m.p, m.rig); v != nil && v.Stuck.WayLength > 0 {
		way = m.label("watch-way", part.Text("thing", m.thing(v.ID)), part.Length("length", v.Stuck.WayLength))
	}
	return append(out, way)
}

func (f *flow) styledItem(mark, s string, in float64) error {
	t := letters(headEm, true)
	lines := wrap(s, t, f.w()-in)
	if err := f.room(float64(len(lines)) * headLead); err != nil {
		return err
	}
	for i, line := range lines {
		if i == 0 {
			write(&f.g.marks, f.x(), f.y+headLead/2, mark, t)
		}
		write(&f.g.marks, f.x()+in, f.y+headLead/2, line, t)
		f.y += headLead
	}
	return nil
}

// Girths of the table that turns a trunk's girth into its diameter, cm.
const (
	girthFrom = 60
	girthTo   = 240
	girthStep = 20
)

// measureSheet says what to measure on the site.
func (m *maker) measureSheet() error {
	f, err := m.flow(Measure, m.kindName(Measure))
	if err != nil {
		return err
	}
	lines, err := m.list("measure")
	if err != nil {
		return err
	}
	if err := f.ticked(lines); err != nil {
		return err
	}
	if err := f.title(m.label("measure-girth")); err != nil {
		return err
	}
	t := &table{cols: []column{{head: m.label("column-girth")}}}
	second := []string{m.label("column-diameter")}
	head := []string{m.label("column-girth")}
	for g := girthFrom; g <= girthTo; g += girthStep {
		t.cols = append(t.cols, column{right: true})
		head = append(head, itoa(g))
		second = append(second, itoa(int(math.Floor(float64(g)/math.Pi)))) // down: a thicker trunk holds more
	}
	for i := range t.cols {
		t.cols[i].head = head[i]
	}
	t.add(second...)
	if err := f.table(t); err != nil {
		return err
	}
	if err := f.title(m.label("measure-notes")); err != nil {
		return err
	}
	for f.left() > 9 {
		f.y += 8
		rule(&f.g.marks, f.x(), f.y, f.x()+f.w(), f.y, lineHair)
	}
	return nil
}

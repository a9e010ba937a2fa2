package draw

import (
	"slices"

	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// tagGroup is parts at one place that carry the same load: one tag says it.
type tagGroup struct {
	tag   caption      // of the part that the tag stands at
	at    []string     // where that part is
	parts []*part.Part // the worst first
}

// gather joins tags of parts with the same load at one place. What would have no
// tag of its own is counted with them. On an exercise nothing is joined: a tag of
// one part would give another's away.
func (d *drawing) gather(tags []caption) []tagGroup {
	groups := make([]tagGroup, 0, len(tags))
	at := d.places()
	join := func(p *part.Part, x *caption) bool {
		if len(d.s.Show.Blank) > 0 || len(d.s.Show.Figures) > 0 || !sharesLoad(p) {
			return false
		}
		of := at.part(p)
		for i := range groups {
			g := &groups[i]
			if q := g.parts[0]; !sharesLoad(q) || !meet(of, g.at) || !d.sameLoad(p, q) || x != nil && x.Hover {
				continue
			}
			if !slices.Contains(g.parts, p) {
				g.parts = append(g.parts, p)
			}
			if x != nil && p.Kind == part.KindBlock {
				g.tag = *x // its arrow is the load's
			}
			return true
		}
		return false
	}
	for i := range tags {
		p := d.part(tags[i].part)
		if !join(p, &tags[i]) {
			groups = append(groups, tagGroup{tags[i], at.part(p), []*part.Part{p}})
		}
	}
	for i := range d.a.Parts {
		if p := &d.a.Parts[i]; d.isShown(p.Thing) {
			join(p, nil)
		}
	}
	for i := range groups {
		g := &groups[i]
		slices.SortStableFunc(g.parts, part.WorstFirst)
		g.tag.part = g.parts[0].ID
		for _, p := range g.parts {
			g.tag.parts = append(g.tag.parts, p.ID)
		}
		if len(g.parts) > 1 {
			d.dressGroup(g)
		}
		g.tag.tail = d.nowText(g.parts[0])
	}
	return groups
}

// nowText is the load of a part at the moment that the picture shows, where it is another
// than the worst that its tag says; "" if there is nothing more to say.
func (d *drawing) nowText(p *part.Part) string {
	if len(d.s.Show.Blank) > 0 || len(d.s.Show.Figures) > 0 {
		return ""
	}
	return words.Now(d.w, d.s.Now, p)
}

// sharesLoad reports whether a part has a load that others at its place may
// have too. What holds a vehicle where it stands has one of its own.
func sharesLoad(p *part.Part) bool {
	return p.Move.Known && p.Status != part.Slack && p.Kind != part.KindSlide && p.Kind != part.KindTip
}

// sameLoad reports whether two parts' loads and where they have them read alike.
func (d *drawing) sameLoad(p, q *part.Part) bool {
	force := func(p *part.Part) string {
		return quantity.FormatForce(p.Told().Force, d.w.System(), quantity.AsLoad).Number
	}
	return force(p) == force(q) && p.ByLoosening() == q.ByLoosening() && d.atTravel(p) == d.atTravel(q)
}

// places tells of parts whether they are at one place: a block, its sling, its
// shackles and the trunk; a point of a vehicle, the end of the line on it and the
// stretch that ends there.
type places struct {
	d     *drawing
	first map[plan.ID]plan.ID // of things that hang together, one
}

func (d *drawing) places() *places {
	at := &places{d, map[plan.ID]plan.ID{}}
	join := func(a, b plan.ID) {
		if a != "" && b != "" && d.ix.Vehicle(a) == nil && d.ix.Vehicle(b) == nil && d.ix.Line(a) == nil && d.ix.Line(b) == nil {
			at.first[at.of(a)] = at.of(b)
		}
	}
	for i := range d.rig.Slings {
		s := &d.rig.Slings[i]
		join(s.ID, s.On.Thing)
		join(s.ID, s.Holds.Thing)
	}
	for i := range d.rig.Shackles {
		s := &d.rig.Shackles[i]
		for _, p := range s.Joins {
			join(s.ID, p.Thing)
		}
	}
	return at
}

func (at *places) of(id plan.ID) plan.ID {
	for {
		next, ok := at.first[id]
		if !ok || next == id {
			return id
		}
		id = next
	}
}

// port is the place of a hook-on point.
func (at *places) port(p plan.Port) string {
	if at.d.ix.Vehicle(p.Thing) != nil {
		return string(p.Thing) + "/" + string(p.Point)
	}
	return string(at.of(p.Thing))
}

// parts are the places that a part is at: a stretch between two vehicles' points
// or a winch and one is at both.
func (at *places) part(p *part.Part) []string {
	l := at.d.ix.Line(p.Thing)
	switch p.Kind {
	case part.KindPoint:
		return []string{p.ID}
	case part.KindEnd:
		if l == nil || len(l.Path) < 2 {
			return nil
		}
		if p.Index > 0 {
			return []string{at.port(l.Path[len(l.Path)-1])}
		}
		return []string{at.port(l.Path[0])}
	case part.KindWinch:
		return []string{string(p.Thing) + "/" + string(plan.PortWinch)}
	case part.KindStretch:
		if l == nil || p.Index < 0 || p.Index+1 >= len(l.Path) {
			return nil
		}
		var out []string
		for _, q := range l.Path[p.Index : p.Index+2] {
			if at.d.ix.Vehicle(q.Thing) != nil {
				out = append(out, at.port(q))
			}
		}
		return out
	case part.KindFairlead, part.KindSlide, part.KindTip:
		return nil
	}
	return []string{string(at.of(p.Thing))}
}

func meet(a, b []string) bool {
	return slices.ContainsFunc(a, func(s string) bool { return slices.Contains(b, s) })
}

// dressGroup writes the tag of several parts: the load, then those over their
// limit, without a rating or not decided by their names, else the worst with its
// share, and how many more. Pointed at, it names all.
//
//	55.6 kN at 6.0 m
//	Shackle 1 OVER LIMIT 119 %
//	Tree 1 OVER LIMIT 117 % · 2 more
func (d *drawing) dressGroup(g *tagGroup) {
	x, worst := &g.tag, g.parts[0]
	d.dress(x, worst, "", "")
	x.hot = slices.Contains(x.parts, d.o.HoverPart)
	first, _ := d.tagText(worst, d.w.Load(worst.Told().Force), "", "")
	if worst.Status == part.Over {
		first = "▲ " + first
	}
	for _, p := range g.parts[1:] { // orange with nothing worse: any DANGER among them makes it dark
		if p.Status == part.Over && d.overFrame(p) == inkBox {
			x.frame = inkBox
		}
	}
	if d.o.Preview {
		first += " · " + d.w.Label("preview")
	}
	x.short = nil
	x.lines = d.groupLines(g.parts, first, false)
	if x.hot {
		x.unfolded = d.groupLines(g.parts, first, true)
	}
}

// groupLines are the lines of a tag of several parts, all of them or folded.
func (d *drawing) groupLines(parts []*part.Part, first string, all bool) []textLine {
	lines, more := d.tagLines(first, ""), 0
	for i, p := range parts {
		if i > 0 && !all && p.Known() && (p.Status == part.Near || p.Status == part.Within) {
			more++
			continue
		}
		lines = append(lines, textLine{d.partLine(p), d.text.mid, p.Status == part.Over, d.c.Ink})
	}
	if more > 0 {
		lines[len(lines)-1].text += " · " + d.w.Label("more-parts", part.Count("count", more))
	}
	return lines
}

// partLine is a part in the tag of several: its name, state and share.
func (d *drawing) partLine(p *part.Part) string {
	name, used := d.w.PartName(p, d.names), d.w.UsedOf(p)
	if p.Looser() && !p.ByLoosening() {
		used = d.w.Label("to-break-loose", part.Text("what", used))
	}
	switch {
	case p.Status == part.Over && p.Known():
		return name + " " + d.w.Label("draw-over") + " " + used
	case p.Status == part.Over:
		return name + " " + d.w.Label("draw-over")
	case p.Status == part.Within && p.Known():
		return name + " " + used
	case p.Status == part.Near && p.Known():
		return name + " " + used + " · " + d.w.Label("draw-near")
	}
	return name + " · " + d.w.Status(p.Status)
}

// overFrame is the look of a part over its limit: dark, but where all that is
// found of it is a WARNING.
func (d *drawing) overFrame(p *part.Part) frameKind {
	frame := inkBox
	for i := range d.a.Findings {
		f := &d.a.Findings[i]
		if !slices.Contains(f.Parts, p.ID) {
			continue
		}
		switch f.Level {
		case part.Danger:
			return inkBox
		case part.Warning:
			frame = overBox
		}
	}
	return frame
}

// atTravel is where along the way a part is as shown, empty as drawn.
func (d *drawing) atTravel(p *part.Part) string {
	if !(p.AtM > 0) {
		return ""
	}
	return d.w.Length(quantity.Length(p.AtM))
}

// folds reports whether a part's load is in the tag of several that names it only
// while it is pointed at.
func (l *captions) folds(part string) bool {
	for i := range l.all {
		if x := &l.all[i]; len(x.parts) > 1 && slices.Contains(x.parts, part) {
			return true
		}
	}
	return false
}

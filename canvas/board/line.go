package board

import (
	"slices"

	"kedge/canvas/draw"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// path are the hook-on points of the line being drawn.
func (b *Board) path() []plan.Port {
	if b.pending == nil {
		return nil
	}
	return b.pending.path
}

// spotOf is where a hook-on point lies.
func (sc *scene) spotOf(port plan.Port) (spot, bool) {
	for _, s := range sc.spots() {
		if s.port == port {
			return s, true
		}
	}
	return spot{}, false
}

// mayLead tells which hook-on points a line being drawn may go to next: any but
// the one it is at, and a winch only at its start or as the end of a line begun
// at the far side.
func mayLead(sc *scene, path []plan.Port) func(spot) bool {
	return func(s spot) bool {
		n := len(path)
		if n > 0 && path[n-1] == s.port {
			return false
		}
		return n == 0 || s.port.Point != plan.PortWinch || path[0].Point != plan.PortWinch
	}
}

// leading is the line to the pointer: its rubber, its length, and where it would
// bear on something.
func (b *Board) leading(p pointer, path []plan.Port) outcome {
	l := b.gear().Line()
	o := outcome{ports: portMarks(b.scene, p, mayLead(b.scene, path), path, func(s spot) string { return whyNotLine(b.scene, s, &l) })}
	if len(path) == 0 {
		o.prompt = b.label("prompt-line")
		return o
	}
	o.prompt = b.label("prompt-line-more")
	var ends []lineEnd
	for _, port := range path {
		if s, ok := b.spotOf(port); ok {
			o.rubber = append(o.rubber, s.at)
			ends = append(ends, endOf(b.scene, s))
		}
	}
	end := p.at
	s, hooked := spotAt(b.scene, p, mayLead(b.scene, path))
	switch {
	case !hooked:
		end, o.guides = snapEdge(b.scene, p, trail{o.rubber, lineClear})
	case b.gesture == nil: // pointing shows where it leads, not yet what it carries
		end = s.at
	default:
		end = s.at
		if next := lineOver(b.scene, append(slices.Clone(path), s.port)); next.plan != nil {
			o.plan, o.name, o.selected, o.then, o.report = next.plan, next.name, next.selected, next.then, next.report
			o.preview = true
		}
	}
	o.rubber = append(o.rubber, end)
	last := o.rubber[len(o.rubber)-2]
	o.texts = append(o.texts, draw.FreeText{At: mid(last, end), Text: wayText(b.scene, last, end, dist(last, end))})
	switch {
	case !hooked: // a hook-on point lies as far as it lies
		o.fixedText(p, last, end)
		refuseContacts(b.scene, &o, append(ends, inAir(end, ends)))
	case o.preview:
		refuseAsSolved(b.scene, &o, o.selected[0])
	default:
		refuseContacts(b.scene, &o, append(ends, endOf(b.scene, s)))
	}
	return o
}

// addToLine takes a click of the line tool at a hook-on point. Two clicks at
// one place end the line.
func (b *Board) addToLine(p pointer) {
	path := b.path()
	s, ok := spotAt(b.scene, p, func(s spot) bool { return true })
	switch {
	case !ok && len(path) > 0:
		b.say(b.label("loose-end"))
		return
	case !ok:
		b.say(b.label("prompt-line"))
		return
	case len(path) > 0 && path[len(path)-1] == s.port:
		b.endLine()
		return
	case !mayLead(b.scene, path)(s):
		b.say(b.label("line-has-winch"))
		return
	}
	l := b.gear().Line()
	if why := whyNotLine(b.scene, s, &l); why != "" {
		b.say(why)
		return
	}
	if b.pending == nil {
		b.pending = &pending{}
	}
	b.pending.path = append(path[:len(path):len(path)], s.port)
	b.show(b.leading(p, b.pending.path))
}

// endLine makes a line of the hook-on points collected.
func (b *Board) endLine() {
	path := b.path()
	if len(path) < 2 {
		b.cancel()
		return
	}
	b.pending = nil
	b.commit(lineOver(b.scene, path))
}

// lineOver is the edit that leads a line over hook-on points. A line begun at the
// far side is turned round, so that it starts at its winch. Where it passes a
// trunk, a block is slung there; where it passes a point of a vehicle or a
// rated point, a block is fixed there; where it ends at a trunk it ends in a
// sling.
func lineOver(sc *scene, path []plan.Port) outcome {
	path = slices.Clone(path)
	if n := len(path); path[n-1].Point == plan.PortWinch && path[0].Point != plan.PortWinch {
		slices.Reverse(path)
	}
	d := sc.draft(true)
	var added []string
	places := sc.places(path)
	for i, port := range path {
		before, after := i > 0, i+1 < len(path)
		switch {
		case before && after:
			toward := mid(places[i-1], places[i+1])
			if next, what := blockFor(sc, d, port, toward, 0); next != port {
				path[i] = next
				added = append(added, what)
			}
		case before:
			path[i] = endAt(sc, d, port, places[i-1])
			if path[i] != port {
				added = append(added, sc.label("added-end", text("length", kitText(sc, d.rig.Slings[len(d.rig.Slings)-1].Length))))
			}
		}
	}
	l := sc.gear().Line()
	l.Path = path
	if path[0].Point != plan.PortWinch {
		l.Length = quantity.Length(stepped(lengthOf(places), 0.1))
	}
	id := d.addLine(l)
	settleNew(sc, d)
	o := outcome{plan: d.Plan, name: sc.label("edit-line"), selected: []plan.ID{id},
		then: func(b *Board) { b.arm(ToolSelect) }}
	if len(added) > 0 {
		o.report = sc.label("added", text("what", joined(sc, added)))
	}
	return o
}

func lengthOf(pts []plan.Point) float64 {
	l := 0.0
	for i := 0; i+1 < len(pts); i++ {
		l += dist(pts[i], pts[i+1])
	}
	return l
}

func (sc *scene) places(path []plan.Port) []plan.Point {
	pts := make([]plan.Point, len(path))
	for i, port := range path {
		if s, ok := sc.spotOf(port); ok {
			pts[i] = s.at
		}
	}
	return pts
}

// blockFor gives a line a block to run over at a port of the site; see
// [layout.Kit.Hang]. It returns the port of the sheave, and what was added.
func blockFor(sc *scene, d draft, port plan.Port, toward plan.Point, length quantity.Length) (plan.Port, string) {
	sheave, hung := sc.gear().Hang(d.laid(), port, toward, length)
	switch {
	case hung.Sling != "":
		return sheave, sc.label("added-slung", text("length", kitText(sc, hung.Long)))
	case hung.Block != "":
		return sheave, sc.label("added-fixed")
	}
	return sheave, ""
}

// endAt is where a line ends that was led to port; see [layout.Kit.EndAt].
func endAt(sc *scene, d draft, port plan.Port, from plan.Point) plan.Port {
	return sc.gear().EndAt(d.laid(), port, from)
}

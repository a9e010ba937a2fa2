package board

import (
	"slices"

	"kedge/canvas/draw"
	"kedge/solver"
	"kedge/solver/gear"
	"kedge/solver/layout"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// hangPx and hangM are how near to an anchor, in pixels and in metres, a line or
// block dragged to it is meant for it: the larger of the two. (ours: two metres
// is the reach of a usual sling)
const (
	hangPx = 44
	hangM  = 2.0
)

// hangSpot is the hook-on point of the site that something dragged to p is
// meant for.
func hangSpot(sc *scene, p pointer, want func(spot) bool) (spot, bool) {
	if !p.port.IsZero() { // Tab says which one is meant
		if s, ok := sc.spotOf(p.port); ok && (want == nil || want(s)) {
			return s, true
		}
	}
	at := p.at
	reach := max(hangM, hangPx/sc.view.PerM)
	best, has, bestM := spot{}, false, reach
	for _, s := range sc.spots() {
		d := spotDist(sc, at, s)
		most := reach
		if !hangable(s) {
			most = hitPx / sc.view.PerM
		}
		if d <= most && d < bestM && (want == nil || want(s)) {
			best, has, bestM = s, true, d
		}
	}
	return best, has
}

// bendGesture is the gesture that drags a stretch on to something: a trunk, a point,
// a block. Anywhere else nothing would change; over open ground the loads are shown
// as if something held it there.
func bendGesture(sc *scene, h hit, from pointer) *gesture {
	return &gesture{from: from, outcome: func(p pointer) outcome { return bentOn(sc, h.id, h.stretch, p) },
		tap: func(b *Board) { pick(b, h.id, from) }}
}

// bentOn is what letting go of a stretch at p does.
func bentOn(sc *scene, line plan.ID, stretch int, p pointer) outcome {
	l := sc.at().Line(line)
	if l == nil || stretch+1 >= len(l.Path) {
		return outcome{}
	}
	ends := endsOf(sc, line, stretch)
	a, c := ends[0].at, ends[1].at
	want := bendWants(l)
	o := outcome{rubber: []plan.Point{a, p.at, c}, prompt: sc.label("prompt-bend"), name: sc.label("edit-bend")}
	o.ports = portMarks(sc, p, want, nil, func(s spot) string { return whyNotLine(sc, s, l) })
	s, ok := hangSpot(sc, p, want)
	if !ok {
		o.texts = []draw.FreeText{{At: a.Mid(p.at), Text: lengthText(sc, a.Dist(p.at))}, {At: p.at.Mid(c), Text: lengthText(sc, p.at.Dist(c))}}
		refuseContacts(sc, &o, []lineEnd{ends[0], {at: p.at, heightM: (ends[0].heightM + ends[1].heightM) / 2}, ends[1]})
		k := sc.gear().Block()
		k.At = p.at
		o.ghost = &draw.Ghost{Block: &k, Label: sc.words.Value(degrees("", between(p.at, a, c)), nil)}
		o.report = sc.label("prompt-bend")
		if o.refused == "" && p.at.Dist(a) > fineM && p.at.Dist(c) > fineM {
			o.held, o.preview = bentInAir(sc, line, stretch, p.at), true
			o.prompt = sc.label("prompt-bend-air")
		}
		for i := range sc.plan.Site.Obstacles {
			if ob := &sc.plan.Site.Obstacles[i]; !ob.Anchor && terrain.Inside(ob.Outline, p.at) {
				o.ask = anchorQuestion(sc, ob)
				o.selected, o.report = []plan.ID{ob.ID}, o.ask.Label
			}
		}
		return o
	}
	if why := whyNotLine(sc, s, l); why != "" {
		o.report, o.prompt = why, why
		return o
	}
	d := sc.draft(true)
	port, what := blockFor(sc, d, s.port, a.Mid(c), 0)
	d.Thread(line, stretch, port)
	settleNew(sc, d)
	o.plan, o.preview, o.rubber = d.Plan, true, nil
	o.selected = []plan.ID{port.Thing}
	if what != "" {
		o.report = sc.label("added", part.Text("what", what))
	}
	o.texts = []draw.FreeText{{At: s.at, Text: hangText(sc, d, s, port.Thing)}}
	o.prompt = o.texts[0].Text
	return o
}

// bentInAir is the plan with a stretch bent at a place where nothing holds it:
// as it would pull if something did. It is only shown; a block is held there by a
// point that is not drawn, of which nothing is known.
func bentInAir(sc *scene, line plan.ID, stretch int, at plan.Point) *plan.Plan {
	d := sc.draft(true)
	hold := plan.Anchor{Head: plan.Head{ID: plan.NewID(d.Plan, plan.PrefixAnchor), Name: sc.label("no-anchor-here"), Hidden: true}, Kind: plan.AnchorRated, At: rounded(at, fineM/10)}
	d.Site.Anchors = append(d.Site.Anchors, hold)
	k := sc.gear().Block()
	k.Fixed, k.At = plan.Port{Thing: hold.ID}, hold.At
	d.Thread(line, stretch, plan.Port{Thing: d.AddBlock(k)})
	return d.Plan
}

// hangText says what is added where a line is bent: "Block + shackle + 3 m
// sling, basket, legs 25°".
func hangText(sc *scene, d plan.Draft, s spot, block plan.ID) string {
	_, radius, round := layout.Trunk(d.Index(), s.port)
	if !round {
		return sc.label("fix-here")
	}
	for i := range d.Laid.Slings {
		if sl := &d.Laid.Slings[i]; sl.Holds.Thing == block {
			r := gear.SlingRound(radius, sl.Length, plan.HitchBasket)
			if !r.Closes {
				return sc.label("hang-block", part.Text("length", kitText(sc, sl.Length)))
			}
			return sc.label("hang-block-legs", part.Text("length", kitText(sc, sl.Length)), degrees("legs", r.Opens))
		}
	}
	return sc.name(s.port.Thing)
}

// stretchEnds are the places of the two ends of a stretch as it lies.
func stretchEnds(sc *scene, line plan.ID, stretch int) (a, c plan.Point) {
	ends := endsOf(sc, line, stretch)
	return ends[0].at, ends[1].at
}

// endsOf are the two ends of a stretch as it lies.
func endsOf(sc *scene, line plan.ID, stretch int) (ends [2]lineEnd) {
	ground, _ := terrain.NewGround(sc.plan.Site.Ground)
	if s := sc.stretch(line, stretch); s != nil {
		ends[0] = lineEnd{part.Flat(s.A), ground.Above(s.A), solver.FastTo(sc.at(), s.PortA)}
		ends[1] = lineEnd{part.Flat(s.B), ground.Above(s.B), solver.FastTo(sc.at(), s.PortB)}
	}
	return ends
}

// endGesture is the gesture that drags the end of a line to another point.
func endGesture(sc *scene, line plan.ID, end int, from pointer) *gesture {
	return &gesture{from: from, fix: fixable{kind: fixSling}, outcome: func(p pointer) outcome { return moveEnd(sc, line, end, p) }}
}

// moveEnd is what letting go of a line's end at p does.
func moveEnd(sc *scene, line plan.ID, end int, p pointer) outcome {
	l := sc.at().Line(line)
	if l == nil || end >= len(l.Path) {
		return outcome{}
	}
	other := 1
	if end > 0 {
		other = end - 1
	}
	want := endWants(l, end)
	o := outcome{name: sc.label("edit-rehang"), report: sc.label("loose-end-stays"), prompt: sc.label("prompt-rehang"), ports: portMarks(sc, p, want, l.Path, nil)}
	ends := endsOf(sc, line, min(end, other))
	stays := ends[1]
	if end > other {
		stays = ends[0]
	}
	fixed := stays.at
	o.rubber = []plan.Point{fixed, p.at}
	refuseContacts(sc, &o, []lineEnd{stays, inAir(p.at, []lineEnd{stays})})
	s, ok := hangSpot(sc, p, want)
	if !ok {
		return o
	}
	o.report = ""
	if s.port == l.Path[end] {
		return o
	}
	d := sc.draft(true)
	path := slices.Clone(l.Path)
	old := path[end]
	path[end] = endAt(sc, d, s.port, fixed)
	said := s.name
	if p.fix != nil && p.fix.hasLen { // of the sling it ends in
		length := quantity.Length(p.fix.lengthM)
		why := sc.label("no-sling-here", part.Text("thing", s.name))
		if path[end] != s.port {
			why = endSlingOf(sc, d, path[end], s.port, fixed, length)
		}
		if why != "" {
			o.report, o.prompt = why, why
			return o
		}
		said = sc.label("sling-fixed", part.Text("length", kitText(sc, length)))
	}
	moved, _ := d.Laid.Line(line)
	moved.Path = path
	dropEnd(d, old.Thing)
	settleNew(sc, d)
	o.plan, o.preview, o.rubber, o.selected = d.Plan, true, nil, []plan.ID{line}
	o.texts = []draw.FreeText{{At: s.at, Text: said}}
	return o
}

// endSlingOf gives the sling that a line ends in the length that was typed; the
// answer says why it cannot have it, empty: it can.
func endSlingOf(sc *scene, d plan.Draft, end, on plan.Port, from plan.Point, length quantity.Length) (why string) {
	for i := range d.Laid.Slings {
		s := &d.Laid.Slings[i]
		if s.Holds != end {
			continue
		}
		if why := tooShort(sc, s, on, length); why != "" {
			return why
		}
		head, held := s.Head, *s
		*s = sc.gear().Sling(length)
		s.ID, s.On, s.Holds, s.Hitch = head.ID, held.On, held.Holds, held.Hitch
		middle, radius, _ := layout.Trunk(d.Index(), on)
		if sh, ok := d.Laid.Shackle(end.Thing); ok {
			if l := middle.Dist(from); l > 0 {
				reach := float64(layout.SlungReach(s, radius))
				sh.At = rounded(middle.Plus((from.X-middle.X)*reach/l, (from.Y-middle.Y)*reach/l), fineM)
			}
		}
	}
	return ""
}

// dropEnd takes out what held only the end of a line which has left it: a sling,
// or a shackle with the sling that holds it.
func dropEnd(d plan.Draft, id plan.ID) {
	is := func(p plan.Port) bool { return p.Thing == id }
	for i := range d.Laid.Lines {
		if slices.ContainsFunc(d.Laid.Lines[i].Path, is) {
			return
		}
	}
	if _, ok := d.Laid.Shackle(id); ok {
		holding := []plan.ID{}
		for i := range d.Laid.Slings {
			if is(d.Laid.Slings[i].Holds) {
				holding = append(holding, d.Laid.Slings[i].ID)
			}
		}
		if len(holding) != 1 {
			return
		}
		d.Laid.Shackles = slices.DeleteFunc(d.Laid.Shackles, func(k plan.Shackle) bool { return k.ID == id })
		s, _ := d.Laid.Sling(holding[0])
		s.Holds = plan.Port{}
		dropEnd(d, holding[0])
		return
	}
	s, _ := d.Laid.Sling(id)
	if s == nil || !s.Holds.IsZero() || slices.ContainsFunc(d.Laid.Slings, func(o plan.Sling) bool { return is(o.On) || is(o.Holds) }) {
		return
	}
	d.Laid.Slings = slices.DeleteFunc(d.Laid.Slings, func(o plan.Sling) bool { return o.ID == id })
	d.Laid.Shackles = slices.DeleteFunc(d.Laid.Shackles, func(k plan.Shackle) bool { return slices.ContainsFunc(k.Joins, is) })
}

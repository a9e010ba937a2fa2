package board

import (
	"math"
	"slices"

	"kedge/canvas/draw"
	"kedge/solver"
	"kedge/solver/gear"
	"kedge/solver/layout"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// arcPx is how near to a length of the kit, in pixels, a dragged block takes it.
const arcPx = 12

// jumpM is how far, in metres, a block may jump between two frames before its
// old place is shown.
const jumpM = 0.5

// slungBy is the sling a block hangs from, nil if it hangs from none or from
// several.
func slungBy(r *plan.Rig, block plan.ID) *plan.Sling {
	var found *plan.Sling
	for i := range r.Slings {
		if r.Slings[i].Holds.Thing == block {
			if found != nil {
				return nil
			}
			found = &r.Slings[i]
		}
	}
	return found
}

// dragBlock is the gesture on a block. One that hangs lies where the forces put
// it and is not moved: its sling gets another length, or it is hung elsewhere.
func dragBlock(sc *scene, block plan.ID, from pointer) *gesture {
	was := plan.Point{}
	if at, ok := sc.settled(block); ok {
		was = at
	}
	fix := fixable{from: was}
	switch r := sc.at().Rig; {
	case slungBy(r, block) != nil:
		fix.kind = fixSling
	case len(movable(sc, []plan.ID{block})) > 0:
		fix.kind = fixLength
	}
	return &gesture{from: from, dragged: []plan.ID{block}, tap: func(b *Board) { pick(b, block, from) }, fix: fix, outcome: func(p pointer) outcome {
		o := moveBlock(sc, block, p)
		if o.plan != nil {
			if at, ok := nodeAt(sc.assess(o.plan), block); ok {
				if at.Dist(was) > jumpM {
					o.moved = &[2]plan.Point{was, at}
				}
				was = at
			}
		}
		return o
	}}
}

func nodeAt(a *solver.Assessment, thing plan.ID) (plan.Point, bool) {
	for i := range a.Nodes {
		if a.Nodes[i].Thing == thing {
			return part.Flat(a.Nodes[i].At), true
		}
	}
	return plan.Point{}, false
}

// moveBlock is what letting go of a block at p does.
func moveBlock(sc *scene, block plan.ID, p pointer) outcome {
	x := sc.at()
	k := x.Block(block)
	if k == nil {
		return outcome{}
	}
	name := part.Text("thing", sc.name(block))
	sling := slungBy(x.Rig, block)
	o := outcome{name: sc.label("edit-hang", name), prompt: sc.label("prompt-block", name), report: sc.label("prompt-block", name), selected: []plan.ID{block}}
	fixed := fixWants(k)
	if p.mods.Ctrl || sling == nil && !k.Fixed.IsZero() {
		o.ports = portMarks(sc, p, fixed, nil, nil)
		if s, ok := hangSpot(sc, p, fixed); ok {
			return fixedTo(sc, o, block, s)
		}
	}
	own := plan.Port{}
	if sling != nil {
		own = sling.On
	}
	other := func(s spot) bool {
		return hangable(s) && s.port != own
	}
	if s, ok := hangSpot(sc, p, other); ok && (sling == nil || s.at.Dist(p.at) < ownDist(sc, own, p.at)) {
		length := quantity.Length(0)
		if sling != nil && p.fix != nil {
			length = quantity.Length(p.fix.lengthM)
			if why := tooShort(sc, sling, s.port, length); why != "" {
				o.report, o.prompt = why, why
				return o
			}
		}
		return hungOn(sc, o, block, s, length)
	}
	switch {
	case sling != nil && p.fix != nil && p.fix.hasLen:
		return slingFixed(sc, o, sling, p)
	case sling != nil:
		return lengthened(sc, o, block, sling, p)
	case len(movable(sc, []plan.ID{block})) > 0: // it is loose
		at, guides := snap(sc, p, []plan.ID{block}, trail{})
		d := sc.draft(true)
		loose, _ := d.Laid.Block(block)
		loose.At = at
		o.name, o.plan, o.guides, o.report = sc.label("edit-move", name), d.Plan, guides, ""
		o.fixedText(p, k.At, at)
	}
	return o
}

func ownDist(sc *scene, own plan.Port, at plan.Point) float64 {
	if spot, ok := sc.at().PortPlace(own); ok {
		return spot.At.Dist(at)
	}
	return math.Inf(1)
}

// lengthened offers the lengths of the kit: the ghost says what the place of the
// pointer would need, near an arc the rig is shown with that length.
func lengthened(sc *scene, o outcome, block plan.ID, sling *plan.Sling, p pointer) outcome {
	x := sc.at()
	middle, radius, round := layout.Trunk(x, sling.On)
	if !round {
		if spot, ok := x.PortPlace(sling.On); ok {
			middle = spot.At
		} else if at, ok := sc.settled(sling.On.Thing); ok {
			middle = at
		}
	}
	k := *x.Block(block)
	head := float64(k.HeadLength)
	k.At = p.at
	o.ghost = &draw.Ghost{Block: &k}
	reach := middle.Dist(p.at)
	need := slingToReach(radius, math.Max(0, reach-head))
	if round && need <= 0 {
		o.ghost.Label = sc.label("on-trunk", part.Text("thing", sc.name(sling.On.Thing)))
	} else {
		o.ghost.Label = sc.label("needs-sling", part.Text("need", sc.words.LengthNeeded(need)), part.Text("now", sc.words.Length(sling.Length)))
	}
	best := math.Inf(1)
	hot := -1
	for _, l := range layout.KitLengths() {
		s := *sling
		s.Length = l
		r := float64(layout.SlungReach(&s, radius))
		if r <= 0 {
			continue
		}
		o.arcs = append(o.arcs, draw.ReachArc{Centre: middle, RadiusM: r + head, Label: kitText(sc, l)})
		if d := math.Abs(r+head-reach) * sc.view.PerM; d <= arcPx && d < best {
			best, hot = d, len(o.arcs)-1
			if l != sling.Length {
				o.plan = withSling(sc, sling.ID, l)
			} else {
				o.plan = nil
			}
		}
	}
	if hot >= 0 {
		o.arcs[hot].Hot = true
	}
	if o.plan != nil {
		o.preview, o.report = true, ""
		o.name = sc.label("edit-sling-length", part.Text("thing", sc.name(sling.ID)))
	}
	return o
}

// slingFixed gives a sling the length that was typed, of the kit or not.
func slingFixed(sc *scene, o outcome, sling *plan.Sling, p pointer) outcome {
	length := quantity.Length(p.fix.lengthM)
	o.name = sc.label("edit-sling-length", part.Text("thing", sc.name(sling.ID)))
	o.texts = []draw.FreeText{{At: p.at, Text: sc.label("sling-fixed", part.Text("length", kitText(sc, length)))}}
	if why := tooShort(sc, sling, sling.On, length); why != "" {
		o.report, o.prompt = why, why
		return o
	}
	o.report = ""
	if length != sling.Length {
		o.plan, o.preview = withSling(sc, sling.ID, length), true
	}
	return o
}

// tooShort says that a sling of a length does not close round what a port
// names; empty if it does, or if that is not round.
func tooShort(sc *scene, s *plan.Sling, on plan.Port, length quantity.Length) string {
	if _, radius, round := layout.Trunk(sc.at(), on); round && radius > 0 {
		if r := gear.SlingRound(radius, length, solver.Hitch(s, true)); !r.Closes {
			return sc.label("sling-short", part.Text("length", kitText(sc, length)), part.Text("thing", sc.name(on.Thing)))
		}
	}
	return ""
}

// withSling is the plan with another length of a sling.
func withSling(sc *scene, id plan.ID, length quantity.Length) *plan.Plan {
	d := sc.draft(true)
	s, _ := d.Laid.Sling(id)
	was := *s
	fresh := sc.gear().Sling(length)
	s.Length = length
	if was.Preset("rating") { // another sling of the kit has its own tag
		s.Rating, s.Width = fresh.Rating, fresh.Width
	}
	return d.Plan
}

// hungOn hangs a block on another anchor: with its sling if it has one, else with
// a new one. length 0 is the shortest kit sling that opens under 60°.
func hungOn(sc *scene, o outcome, block plan.ID, s spot, length quantity.Length) outcome {
	d := sc.draft(true)
	_, radius, round := layout.Trunk(d.Index(), s.port)
	if length == 0 {
		length = presetSlingM
		if round {
			length = layout.SlingFor(radius, layout.KitLengths()[0])
		}
	}
	k, _ := d.Laid.Block(block)
	if sl := slungBy(d.Laid, block); sl != nil {
		fresh := sc.gear().Sling(length)
		mine, _ := d.Laid.Sling(sl.ID)
		if mine.Preset("rating") {
			mine.Rating, mine.Width = fresh.Rating, fresh.Width
		}
		mine.On, mine.Length, mine.Hitch = s.port, length, plan.HitchBasket
		if !round {
			mine.Hitch = plan.HitchStraight
		}
	} else {
		if !k.Fixed.IsZero() {
			dropShackles(d, k.Fixed, plan.Port{Thing: block})
			k.Fixed = plan.Port{}
		}
		fresh := sc.gear().Sling(length)
		fresh.On, fresh.Holds = s.port, plan.Port{Thing: block}
		fresh.Hitch = plan.HitchBasket
		if !round {
			fresh.Hitch = plan.HitchStraight
		}
		id := d.AddSling(fresh)
		sh := sc.gear().Shackle()
		sh.Joins = []plan.Port{{Thing: id}, {Thing: block}}
		d.AddShackle(sh)
	}
	o.plan, o.preview, o.report = d.Plan, true, ""
	label := sc.label("hang-on", part.Text("thing", sc.name(s.port.Thing)), part.Text("length", kitText(sc, length)))
	if round {
		if r := gear.SlingRound(radius, length, plan.HitchBasket); r.Closes {
			label = sc.label("hang-on-legs", part.Text("thing", sc.name(s.port.Thing)), part.Text("length", kitText(sc, length)), degrees("legs", r.Opens))
		}
	}
	o.texts = []draw.FreeText{{At: s.at, Text: label}}
	o.prompt = label
	return o
}

// fixedTo shackles a block to a point: its sling goes, with the shackle between
// them.
func fixedTo(sc *scene, o outcome, block plan.ID, s spot) outcome {
	d := sc.draft(true)
	gone := map[plan.ID]bool{}
	for i := range d.Laid.Slings {
		if sl := &d.Laid.Slings[i]; sl.Holds.Thing == block {
			gone[sl.ID] = true
			dropShackles(d, plan.Port{Thing: sl.ID}, plan.Port{Thing: block})
		}
	}
	k, _ := d.Laid.Block(block)
	if !k.Fixed.IsZero() {
		dropShackles(d, k.Fixed, plan.Port{Thing: block})
	}
	d.Laid.Slings = slices.DeleteFunc(d.Laid.Slings, func(sl plan.Sling) bool { return gone[sl.ID] })
	k.Fixed = s.port
	sh := sc.gear().Shackle()
	sh.Joins = []plan.Port{s.port, {Thing: block}}
	d.AddShackle(sh)
	o.plan, o.preview, o.report = d.Plan, true, ""
	o.name = sc.label("edit-fix", part.Text("thing", sc.name(block)))
	o.texts = []draw.FreeText{{At: s.at, Text: sc.label("fix-here")}}
	o.prompt = sc.label("fix-here")
	return o
}

// dropShackles takes out the shackles that join two ports.
func dropShackles(d plan.Draft, a, c plan.Port) {
	d.Laid.Shackles = slices.DeleteFunc(d.Laid.Shackles, func(k plan.Shackle) bool {
		return slices.Contains(k.Joins, a) && slices.Contains(k.Joins, c)
	})
}

package solver

import (
	"kedge/solver/part"
	"kedge/solver/plan"
)

// undrawn says which loaded parts have no zone. Nobody is said to stand outside
// the zones while there is one: what parts there may reach anybody.
func (a *zoning) undrawn() {
	if a.out.Status == part.Refused {
		return // nothing has a load, and that is said
	}
	drawn := make(map[plan.ID]bool, len(a.out.Zones))
	for i := range a.out.Zones {
		drawn[a.out.Zones[i].Thing] = true
	}
	hung := a.hung(drawn)
	var said map[plan.ID]bool
	for i := range a.out.Parts {
		p := &a.out.Parts[i]
		kind := part.ZoneRecoil
		has := false
		switch p.Kind {
		case part.KindStretch, part.KindEnd:
			has = drawn[partThing(p.ID)]
		case part.KindSling:
			s := a.g.things.Sling(p.Thing)
			has = drawn[p.Thing] || s != nil && a.pointLike(s) && (drawn[s.On.Thing] || drawn[s.Holds.Thing])
		case part.KindBlock, part.KindShackle:
			kind = part.ZoneRelease
			has = drawn[p.Thing] || hung[p.Thing]
		case part.KindAnchor:
			kind = part.ZoneRelease
			has = hung[p.Thing]
		default:
			continue // of a vehicle: what hooks on there is a part of its own
		}
		thing := p.Thing
		if has || said[thing] || p.Status == part.Slack || !mayCarry(p) {
			continue
		}
		if said == nil {
			said = make(map[plan.ID]bool)
		}
		said[thing] = true
		a.out.ZonesMissing = true
		a.find(part.Finding{ID: "zone-not-drawn", Level: part.Danger, Things: a.things(thing), Values: []part.Value{part.Word("zone", string(kind))}})
	}
}

// mayCarry reports whether a part has a load, or that nobody knows that it has none.
func mayCarry(p *part.Part) bool {
	known, some := false, false
	for _, l := range []part.Load{p.Move, p.Loosen, p.Stall} {
		known = known || l.Known
		some = some || l.Known && l.Force > 0
	}
	return some || !known
}

// pointLike reports whether a sling has no length seen from above, so that no recoil
// can be drawn along it: what it joins speaks for it.
func (a *zoning) pointLike(s *plan.Sling) bool {
	return !s.On.IsZero() && !s.Holds.IsZero() && flat(a.portAt(s.On)) == flat(a.portAt(s.Holds))
}

// hung are the things that a line, sling, block or shackle with a zone hangs on,
// directly or by shackles.
func (a *zoning) hung(drawn map[plan.ID]bool) map[plan.ID]bool {
	r := a.g.r
	hung := make(map[plan.ID]bool, len(r.Blocks)+len(r.Slings)+len(r.Shackles))
	note := func(by, on plan.ID) {
		if drawn[by] {
			hung[on] = true
		}
	}
	for i := range r.Lines {
		for _, p := range r.Lines[i].Path {
			note(r.Lines[i].ID, p.Thing)
		}
	}
	for i := range r.Slings {
		note(r.Slings[i].ID, r.Slings[i].On.Thing)
		note(r.Slings[i].ID, r.Slings[i].Holds.Thing)
	}
	for i := range r.Blocks {
		note(r.Blocks[i].ID, r.Blocks[i].Fixed.Thing)
		note(r.Blocks[i].Fixed.Thing, r.Blocks[i].ID)
	}
	for i := range r.Shackles {
		k := &r.Shackles[i]
		for e, j := range k.Joins {
			note(j.Thing, k.ID)
			note(k.ID, j.Thing)
			if other := k.Joins[len(k.Joins)-1-e].Thing; other != j.Thing {
				note(other, j.Thing)
			}
		}
	}
	return hung
}

package layout

import (
	"math"
	"slices"

	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// pull is what a line is to pull on, and from where: the rig stripped of what
// its line runs over.
type pull struct {
	p   *plan.Plan
	kit Kit
	rig plan.Rig // template: all that stays, the line straight from start to end

	line       plan.ID   // that is led anew
	isStraight bool      // the rig is the straight pull already
	end        plan.Port // where the straight line ends; zero: in a sling round far
	far        plan.Port // on the site: the casualty's point, or the anchor its own winch pulls on
	winch      *plan.Vehicle
	casualty   *plan.Vehicle // that the rig moves
	from, to   plan.Point    // the fairlead, and far
	anchors    []anchor
}

// anchor is what a line can be led over.
type anchor struct {
	port plan.Port
	at   plan.Point
}

// deadEnd is where the end of a doubled line is made fast.
type deadEnd struct {
	anchor
	slung bool // to an anchor
}

// pullOf finds the pull of a rig, or why there is none.
func pullOf(p *plan.Plan, rig plan.ID, kit Kit) (q *pull, why string) {
	q = &pull{p: p, kit: kit, anchors: anchorsOf(p)}
	r, ok := p.Rig(rig)
	if !ok {
		r = &plan.Rig{}
	}
	if i := slices.IndexFunc(r.Lines, func(l plan.Line) bool { return hauls(p, &l) }); i >= 0 {
		why = q.rigged(r, i)
	} else {
		why = q.fresh(r)
	}
	if why != "" {
		return nil, why
	}
	x := plan.NewIndex(p, nil)
	a, okA := x.PortPlace(plan.Port{Thing: q.winch.ID, Point: plan.PortWinch})
	b, okB := x.PortPlace(q.far)
	if !okA || !okB {
		return nil, WhyNoCasualty
	}
	q.from, q.to = a.At, b.At
	return q, ""
}

// hauls reports whether a line pulls from the winch of a vehicle.
func hauls(p *plan.Plan, l *plan.Line) bool {
	if l.Use != plan.UsePull || len(l.Path) < 2 || l.Path[0].Point != plan.PortWinch {
		return false
	}
	v, ok := p.Vehicle(l.Path[0].Thing)
	return ok && v.Winch != nil
}

// anchorsOf are the anchors of the site, boulders that may serve as one behind
// them, in file order.
func anchorsOf(p *plan.Plan) []anchor {
	var list []anchor
	for i := range p.Site.Anchors {
		a := &p.Site.Anchors[i]
		list = append(list, anchor{plan.Port{Thing: a.ID}, a.At})
	}
	for i := range p.Site.Obstacles {
		if o := &p.Site.Obstacles[i]; o.Anchor {
			list = append(list, anchor{plan.Port{Thing: o.ID}, plan.Centroid(o.Outline)})
		}
	}
	return list
}

// fresh begins a rig between the casualty and the nearest vehicle with a winch.
func (q *pull) fresh(r *plan.Rig) string {
	casualty := q.p.Casualty()
	q.casualty = casualty
	if casualty == nil || len(casualty.Recovery) == 0 {
		return WhyNoCasualty
	}
	puller, ok := Puller(q.p, casualty)
	switch {
	case !ok && casualty.Winch != nil:
		return WhyNoFarEnd
	case !ok:
		return WhyNoWinch
	}
	q.winch = puller
	fair, _ := puller.PortPlace(plan.PortWinch)
	q.far = PointToward(casualty, fair.At)
	q.end = q.far
	q.rig = plan.Rig{Basis: r.Basis, StandOff: r.StandOff}
	l := q.kit.Line()
	l.ID = plan.NewID(q.p, plan.PrefixLine)
	l.Path = []plan.Port{{Thing: puller.ID, Point: plan.PortWinch}, q.end}
	q.rig.Lines, q.line = []plan.Line{l}, l.ID
	return ""
}

// rigged takes the i-th line of a rig as the one that is led anew.
func (q *pull) rigged(r *plan.Rig, i int) string {
	q.rig = *r
	q.rig.Unshare()
	q.rig.Head = plan.Head{}
	q.rig.Travel = 0
	l := &q.rig.Lines[i]
	q.line = l.ID
	q.winch, _ = q.p.Vehicle(l.Path[0].Thing)
	casualty := solver.CasualtyOf(q.p, r.ID)
	q.casualty = casualty
	if casualty == nil {
		return WhyNoCasualty
	}
	old := l.Path
	kept := old[len(old)-1] // its end, unless the line comes back from it
	if why := q.reach(r, casualty, old, &kept); why != "" {
		return why
	}
	var gone []plan.ID
	for _, p := range old[1:] {
		if p != kept && isLaid(r, p.Thing) {
			gone = append(gone, p.Thing)
		}
	}
	q.isStraight = len(old) == 2 && !q.end.IsZero() && old[1] == q.end
	l.Path = []plan.Port{old[0], q.end}
	if q.end.IsZero() {
		l.Path = l.Path[:1]
	}
	if !q.isStraight {
		q.rig.Dampers = slices.DeleteFunc(q.rig.Dampers, func(k plan.Damper) bool { return k.Line == q.line })
		l.Joins = nil
	}
	return q.strip(gone)
}

// reach finds the far end of a line that runs along path: where the straight
// line ends, and the point of the site it pulls on. kept becomes the part of the
// rig that stays as its end; zero: none.
func (q *pull) reach(r *plan.Rig, casualty *plan.Vehicle, path []plan.Port, kept *plan.Port) string {
	last := path[len(path)-1]
	target := func(p plan.Port) bool { return p.Thing == casualty.ID }
	if casualty.ID == q.winch.ID { // its own winch pulls on an anchor
		target = func(p plan.Port) bool { return isAnchor(q.anchors, p) }
	}
	for k := len(path) - 1; k > 0; k-- {
		p := path[k]
		on := p
		if b, ok := r.Block(p.Thing); ok && !b.Fixed.IsZero() {
			on = b.Fixed
		}
		sling := slungTo(r, p.Thing, target)
		if !target(on) && sling.IsZero() {
			continue
		}
		q.far, q.end = on, plan.Port{}
		if !sling.IsZero() {
			q.far = sling
		}
		_, isBlock := r.Block(p.Thing)
		switch {
		case p == last && !isBlock: // the line ends there, in a sling or bare
			q.end = last
			if !isLaid(r, last.Thing) {
				*kept = plan.Port{}
			}
		case casualty.ID != q.winch.ID:
			q.end, *kept = q.far, plan.Port{}
		default:
			*kept = plan.Port{}
		}
		return ""
	}
	*kept = plan.Port{}
	if casualty.ID == q.winch.ID {
		return WhyNoFarEnd
	}
	if len(casualty.Recovery) == 0 {
		return WhyNoCasualty
	}
	fair, _ := q.winch.PortPlace(plan.PortWinch)
	q.far = PointToward(casualty, fair.At)
	q.end = q.far
	return ""
}

// slungTo is the point of the site, if it is a target, that a sling holds a part
// of the rig to, or that a sling which is the part is on; zero: none.
func slungTo(r *plan.Rig, id plan.ID, target func(plan.Port) bool) plan.Port {
	for i := range r.Slings {
		s := &r.Slings[i]
		if (s.Holds.Thing == id || s.ID == id) && target(s.On) {
			return s.On
		}
	}
	return plan.Port{}
}

func isAnchor(list []anchor, p plan.Port) bool {
	return slices.ContainsFunc(list, func(a anchor) bool { return a.port == p })
}

// isLaid reports whether an id names a part of the rig, not of the site.
func isLaid(r *plan.Rig, id plan.ID) bool {
	_, block := r.Block(id)
	_, sling := r.Sling(id)
	_, shackle := r.Shackle(id)
	return block || sling || shackle
}

// strip takes out of the template what the line has left, and what held it.
func (q *pull) strip(gone []plan.ID) string {
	out := map[plan.ID]bool{}
	for _, id := range gone {
		out[id] = true
	}
	for n := -1; n != len(out); { // until nothing more hangs on what is gone
		n = len(out)
		for i := range q.rig.Slings {
			if s := &q.rig.Slings[i]; out[s.Holds.Thing] || out[s.On.Thing] {
				out[s.ID] = true
			}
		}
		for i := range q.rig.Shackles {
			if k := &q.rig.Shackles[i]; slices.ContainsFunc(k.Joins, func(p plan.Port) bool { return out[p.Thing] }) {
				out[k.ID] = true
			}
		}
	}
	q.rig.Blocks = slices.DeleteFunc(q.rig.Blocks, func(k plan.Block) bool { return out[k.ID] })
	q.rig.Slings = slices.DeleteFunc(q.rig.Slings, func(s plan.Sling) bool { return out[s.ID] })
	q.rig.Shackles = slices.DeleteFunc(q.rig.Shackles, func(k plan.Shackle) bool { return out[k.ID] })
	for i := range q.rig.Lines {
		if slices.ContainsFunc(q.rig.Lines[i].Path, func(p plan.Port) bool { return out[p.Thing] }) {
			return WhyEntangled
		}
	}
	return ""
}

// Puller is the nearest vehicle with a winch other than the casualty, false if
// there is none.
func Puller(p *plan.Plan, casualty *plan.Vehicle) (*plan.Vehicle, bool) {
	var puller *plan.Vehicle
	best := math.Inf(1)
	for i := range p.Site.Vehicles {
		v := &p.Site.Vehicles[i]
		if d := v.At.Dist(casualty.At); v.Winch != nil && v.ID != casualty.ID && d < best {
			best, puller = d, v
		}
	}
	return puller, puller != nil
}

// PointToward is the recovery point of v from which a line to a place leaves
// straightest; of two within half a degree the first. Zero if v has none.
func PointToward(v *plan.Vehicle, to plan.Point) plan.Port {
	best, least := plan.Port{}, quantity.Degrees(360)
	for i := range v.Recovery {
		s, _ := v.PortPlace(v.Recovery[i].ID)
		way := quantity.FromRadians(math.Atan2(to.X-s.At.X, to.Y-s.At.Y)).Normal()
		off := quantity.Degrees(math.Abs(float64(s.Axis.Turn(way))))
		if off < least-0.5 {
			best, least = plan.Port{Thing: v.ID, Point: v.Recovery[i].ID}, off
		}
	}
	return best
}

// BackPoint is the recovery point of the winch vehicle nearest to where a
// doubled line comes back from; false if it has none.
func BackPoint(v *plan.Vehicle, from plan.Point) (plan.Port, bool) {
	best, d := plan.Port{}, math.Inf(1)
	for i := range v.Recovery {
		if q := v.Place(v.Recovery[i].Ahead, v.Recovery[i].Left.Or(0)); q.Dist(from) < d {
			best, d = plan.Port{Thing: v.ID, Point: v.Recovery[i].ID}, q.Dist(from)
		}
	}
	return best, !best.IsZero()
}

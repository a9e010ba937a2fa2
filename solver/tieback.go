package solver

import (
	"math"

	"kedge/solver/effort"
	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// tie is a sling or line that holds a pulled vehicle back. It is reckoned for
// the whole line pull: strap and grip do not add.
type tie struct {
	sling      *plan.Sling // or line
	line       *plan.Line
	own, other plan.Port // on the vehicle; what it is tied to
	dir        part.Vec  // from own to other, unit
	off        quantity.Degrees
	counts     bool // it pulls against the pull
}

func (t *tie) id() plan.ID {
	if t.sling != nil {
		return t.sling.ID
	}
	return t.line.ID
}

// findTies lists the tie-backs of the rig that have both their ends, and
// whether each counts.
func (a *assessor) findTies() {
	if a.refused || a.solved.status != part.Within {
		return
	}
	for i := range a.g.r.Slings {
		if s := &a.g.r.Slings[i]; s.Use == plan.UseTieBack {
			a.findTie(tie{sling: s, own: s.On, other: s.Holds})
		}
	}
	for i := range a.g.r.Lines {
		if l := &a.g.r.Lines[i]; l.Use == plan.UseTieBack && len(l.Path) == 2 {
			a.findTie(tie{line: l, own: l.Path[0], other: l.Path[1]})
		}
	}
}

func (a *assessor) findTie(t tie) {
	if !a.pulled(t.own.Thing) {
		t.own, t.other = t.other, t.own
	}
	if !a.pulled(t.own.Thing) || a.g.node(t.own) < 0 || a.g.node(t.other) < 0 {
		a.find(part.Finding{ID: "tie-back-loose", Level: part.Warning, Things: a.things(t.id())})
		return
	}
	t.dir = a.portAt(t.other).Sub(a.portAt(t.own)).Unit()
	var pull part.Vec
	a.hookedOn(a.solved.unit, t.own.Thing, func(_, f part.Vec) { pull = pull.Add(f) })
	t.off = t.dir.Angle(pull.Scale(-1))
	res := effort.TieBack(effort.TieBackIn{Vehicle: t.own.Thing, TieBack: t.id(), OffDeg: float64(t.off), LimitN: 1}, nil, nil)
	t.counts = res.Known && res.Counts && t.dir != part.Vec{} && a.tieRuns(&t)
	a.ties = append(a.ties, t)
}

// tieRuns tells that a tie-back reaches in a straight run that nothing stands
// in. One that bears on something holds nobody knows what: it is not counted.
func (a *assessor) tieRuns(t *tie) bool {
	from, to := a.portAt(t.own), a.portAt(t.other)
	own, round := t.other.Thing, quantity.Length(0)
	if x := a.g.things.Anchor(own); x != nil && x.Kind == plan.AnchorTree {
		round = x.Trunk / 2
	}
	if o := a.g.things.Obstacle(own); o != nil {
		for _, c := range o.Outline {
			round = max(round, quantity.Length(math.Hypot(c.X-to[0], c.Y-to[1])))
		}
	}
	long := quantity.Length(0)
	if t.sling != nil {
		long = t.sling.Length
	} else {
		long = t.line.Length
	}
	if missing := quantity.Length(to.Sub(from).Len()) - round - long; long > 0 && missing > tieSlackM {
		a.find(part.Finding{ID: "too-short", Level: part.Danger, Things: a.things(t.id()), Values: []part.Value{
			{Name: "missing", Unit: part.UnitLength, X: float64(missing)}}})
		return false
	}
	by := a.bearsOn(from, to, t.own.Thing, own)
	if by != "" {
		a.find(part.Finding{ID: "tie-back-bears", Level: part.Warning, Things: a.things(t.id(), by)})
	}
	return by == ""
}

// tieSlackM, metres, is how far a tie-back may seem too short: drawn places are
// rounded to centimetres, and knots and stretch take as much. (ours)
const tieSlackM = 0.05

// pulled tells that a thing is a vehicle other than the casualty that the pull
// hooks on to.
func (a *assessor) pulled(id plan.ID) bool {
	v := a.g.things.Vehicle(id)
	return v != nil && v != a.g.casualty && a.g.touches(id)
}

// tiedBack tells that a tie-back that counts holds a vehicle.
func (a *assessor) tiedBack(id plan.ID) bool {
	for i := range a.ties {
		if a.ties[i].own.Thing == id && a.ties[i].counts {
			return true
		}
	}
	return false
}

// tieLoad is the load of a tie-back, as the force on what it is tied to.
func (a *assessor) tieLoad(r *solution, t *tie) part.Load {
	if r.isNone() || t.dir == (part.Vec{}) {
		return part.Load{}
	}
	var pull part.Vec
	a.hookedOn(r, t.own.Thing, func(_, f part.Vec) { pull = pull.Add(f) })
	tension := 0.0
	for i := range a.g.lines {
		if rl := &a.g.lines[i]; rl.index >= 0 && rl.winch != nil {
			tension = r.tension(rl.index)
			break
		}
	}
	res := effort.TieBack(effort.TieBackIn{Vehicle: t.own.Thing, TieBack: t.id(), TensionN: tension, PullN: pull.Len(), OffDeg: float64(t.off), LimitN: 1}, nil, nil)
	if !res.Counts {
		return load(t.dir.Scale(-pull.Len())) // it holds nothing back, and may still be torn
	}
	return load(t.dir.Scale(-float64(res.Load)))
}

// tiesOn visits the pull of tie-backs on what they are tied to.
func (a *assessor) tiesOn(r *solution, thing plan.ID, visit func(at, forceN part.Vec)) {
	for i := range a.ties {
		if t := &a.ties[i]; t.other.Thing == thing {
			if l := a.tieLoad(r, t); l.Known {
				visit(a.portAt(t.other), l.Vec)
			}
		}
	}
}

// tiedTo tells that something is tied back to a thing.
func (a *assessor) tiedTo(id plan.ID) bool {
	for i := range a.ties {
		if a.ties[i].other.Thing == id {
			return true
		}
	}
	return false
}

// tieParts makes the parts of what ties a vehicle back: strap or line, and the
// point of the vehicle. What it is tied to is a part by itself.
func (a *assessor) tieParts(v *plan.Vehicle, pull both) {
	for i := range a.ties {
		t := &a.ties[i]
		if t.own.Thing != v.ID {
			continue
		}
		id := string(t.id())
		if t.line != nil {
			id = stretchID(t.line.ID, 0)
		}
		b := a.loads(func(r *solution) part.Load { return a.tieLoad(r, t) })
		c, p := part.Capacity{}, part.Part{ID: id, Thing: t.id(), From: t.own.Thing, To: t.other.Thing}
		if t.sling != nil {
			p.Kind = part.KindSling
			c = gear.Sling(gear.SlingIn{Sling: a.weak.sling(t.sling), Part: id, Hitch: plan.HitchStraight, Load: b.move.Force, Lifting: a.lifting}, a.sumOf(id), a.found()).Capacity
			if a.tree(t.other.Thing) {
				c = a.roundTrunk(t, id, b)
			}
		} else {
			p.Kind = part.KindStretch
			c = gear.Stretch(gear.StretchIn{Line: a.weak.line(t.line), Part: id, End: true, Lifting: a.lifting}, a.sumOf(id), a.found())
		}
		effort.TieBack(effort.TieBackIn{Vehicle: v.ID, TieBack: t.id(), TensionN: float64(pull.move.Force), PullN: float64(b.move.Force) * math.Cos(t.off.Radians()), OffDeg: float64(t.off), LimitN: float64(c.Limit.Force)}, nil, a.found())
		a.say(id, "sling-load", b)
		a.add(p, b, c)
		a.tiePoint(v, t, b)
	}
}

// tree tells that a thing is a tree.
func (a *assessor) tree(id plan.ID) bool {
	t := a.g.things.Anchor(id)
	return t != nil && t.Kind == plan.AnchorTree
}

// roundTrunk is what a tie-back sling may be asked for whose far end goes
// round a trunk: what is left of its length is not known, so it is reckoned as
// choked there, the weaker of its hitches.
func (a *assessor) roundTrunk(t *tie, id string, b both) part.Capacity {
	trunk := a.g.things.Anchor(t.other.Thing).Trunk
	return gear.Sling(gear.SlingIn{Sling: a.weak.sling(t.sling), Part: id, Hitch: plan.HitchChoked, OnTrunk: true, Radius: trunk / 2,
		Round: gear.SlingRound(trunk/2, t.sling.Length, plan.HitchChoked), Load: b.move.Force, Lifting: a.lifting}, a.sumOf(id), nil).Capacity
}

// tiePoint is the point of the tied vehicle under its tie-back.
func (a *assessor) tiePoint(v *plan.Vehicle, t *tie, b both) {
	rp := a.weak.point(v, t.own.Point)
	if rp == nil {
		return
	}
	id := t.own.String()
	spot, _ := v.PortPlace(t.own.Point)
	off := t.dir.Angle(a.g.ground.Along(spot.Axis))
	c := gear.RecoveryPoint(gear.PointIn{Vehicle: v.ID, Part: id, Point: rp, Off: off, Lifting: a.lifting}, a.sumOf(id), a.found())
	a.say(id, "point-load", b, part.Value{Name: "angle", Unit: part.UnitAngle, X: float64(off)})
	a.add(part.Part{ID: id, Kind: part.KindPoint, Thing: v.ID, Angle: off}, b, c)
}

package solver

import (
	"math"
	"slices"

	"github.com/golang/geo/r2"

	"kedge/solver/effort"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// figures judges the figures of vehicles against each other: what cannot be is
// said, and nothing that rests on it counts as within its limit.
func (a *resolving) figures() {
	vs := a.g.p.Site.Vehicles
	for i := range vs {
		v := &vs[i]
		effort.Body(v, a.found())
		place := func(id plan.ID) {
			if port := (plan.Port{Thing: v.ID, Point: id}); a.g.used(port) || a.restrainedAt(atPort(port)) {
				a.placed(v, port)
			}
		}
		place(plan.PortWinch)
		for k := range v.Recovery {
			place(v.Recovery[k].ID)
		}
		a.treesIn(v)
		for j := range vs[:i] {
			a.apart(&vs[j], v)
		}
	}
}

// placed judges where a point or fairlead in use sits on its vehicle.
func (a *resolving) placed(v *plan.Vehicle, port plan.Port) {
	id := string(v.ID) + "/" + string(port.Point)
	if port.Point == plan.PortWinch {
		if w := v.Winch; w != nil {
			left, _ := w.Left.Get()
			effort.Place(v, id, w.Ahead, left, w.Height, a.found())
			effort.Drum(v, id, a.found())
		}
		return
	}
	if q := v.RecoveryPoint(port.Point); q != nil {
		left, _ := q.Left.Get()
		effort.Place(v, id, q.Ahead, left, q.Height, a.found())
	}
}

// touchM, metres, is how far the outlines of two vehicles may lie one in the
// other: nobody draws to less. (ours)
const touchM = 0.2

// apart says that two vehicles are drawn in one place.
func (a *resolving) apart(v, w *plan.Vehicle) {
	if !(v.Length > 0 && v.Width > 0 && w.Length > 0 && w.Width > 0) {
		return
	}
	if in := overlap(v, w); in > touchM {
		a.find(part.Finding{ID: "vehicles-overlap", Level: part.Warning, Things: a.things(v.ID, w.ID), Values: a.given(part.Length("in", in))})
	}
}

// treesIn says which trees are drawn inside a vehicle; what the casualty's body meets is
// asked along its way.
func (a *resolving) treesIn(v *plan.Vehicle) {
	if v == a.g.casualty || !(v.Length > 0 && v.Width > 0) {
		return
	}
	c := v.Corners()
	for i := range a.g.p.Site.Anchors {
		if t := &a.g.p.Site.Anchors[i]; t.Kind == plan.AnchorTree && terrain.Inside(c[:], t.At) {
			a.find(part.Finding{ID: "tree-in-vehicle", Level: part.Warning, Things: a.things(t.ID, v.ID)})
		}
	}
}

// overlap is how far one of two vehicles must be shifted for their outlines to
// come apart, metres; 0 or less: they are. Of two rectangles that is along a side
// of one of them.
func overlap(v, w *plan.Vehicle) float64 {
	least := math.Inf(1)
	p, q := v.Corners(), w.Corners()
	for _, b := range [...]float64{v.Bearing.Radians(), v.Bearing.Radians() + math.Pi/2, w.Bearing.Radians(), w.Bearing.Radians() + math.Pi/2} {
		along := r2.Point{X: math.Sin(b), Y: math.Cos(b)}
		pl, ph := terrain.Span(p[:], along)
		ql, qh := terrain.Span(q[:], along)
		least = min(least, ph-ql, qh-pl)
	}
	return least
}

// oddFigures are the vehicles on whose odd figures their own stand rests. all:
// every load rests on one, the place of a hook-on point or what the casualty
// weighs; or on what wheels that do not turn take, which is not computed.
func (a *resolving) oddFigures() (own []plan.ID, all bool) {
	for i := range a.out.Findings {
		f := &a.out.Findings[i]
		switch f.ID {
		case "figures-odd":
			all = all || len(f.Parts) > 0
		case "sheave-beyond-head": // the bend of its line, and where it hangs
			all = true
			continue
		case "casualty-braked-unknown", "locked-not-computed":
			all = all || !a.res.Measured
			continue
		case "mass-odd", "mass-against-size", "load-odd", "load-heavy":
			all = all || f.Things[0] == a.out.Casualty && !a.res.Measured
		default:
			continue
		}
		own = append(own, f.Things[0])
	}
	return own, all
}

// ownStand reports whether a part is a vehicle's own stand: against sliding, or
// against tipping, of one of these.
func ownStand(p *part.Part, of []plan.ID) bool {
	return (p.Kind == part.KindSlide || p.Kind == part.KindTip) && slices.Contains(of, p.Thing)
}

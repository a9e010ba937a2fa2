package exercise

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"kedge/solver"
	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// keepAngles are the angles between the stretches for which it is printed what
// a block keeps, degrees.
var keepAngles = []float64{30, 60, 90, 120, 150}

// keeps is what a block keeps of the pull at an angle between its stretches, of
// what it keeps at a half turn:
//
//	κ = (1 − k)/(1 + k),  a = 1 + κ² cos θ,  b = 1 − κ²,  keeps = (a − √(a² − b²))/b
//
// Source: friction at the pin by the load on it, as package statics has it.
func keeps(k, angleDeg float64) float64 {
	kappa := (1 - k) / (1 + k)
	a, b := 1+kappa*kappa*math.Cos(angleDeg*math.Pi/180), 1-kappa*kappa
	return (a - math.Sqrt(max(a*a-b*b, 0))) / b
}

// givens are the lines of what is known.
func (m *Model) givens(x *Exercise) {
	w := m.w
	add := func(s string) { x.Known = append(x.Known, s) }
	add(m.label("known-resistance", part.Force("load", m.a.Resistance.Planned)))
	if v := solver.CasualtyOf(m.p, m.rig); v != nil && v.Mass > 0 {
		add(m.label("known-mass", part.Text("thing", m.thing(v.ID)), part.Text("mass", w.Mass(v.Mass+v.Load))))
	}
	for _, rig := range append([]plan.ID{m.rig}, x.Other...) {
		r, ok := m.p.Rig(rig)
		if !ok {
			continue
		}
		names := w.Names(m.p, rig)
		m.knownBlocks(r, names, add)
		for i := range r.Slings {
			s := &r.Slings[i]
			add(m.label("known-sling", part.Text("thing", names(s.ID)), part.Text("length", w.Dimension(s.Length))))
		}
	}
	unit := part.Text("unit", w.System().Force().String())
	if slices.ContainsFunc(x.Asked, func(a Asked) bool { return a.Kind == AskWeakest || a.Kind == AskHappens }) {
		var all []string
		for _, p := range m.compared(false) {
			all = append(all, w.PartName(p, m.names)+": "+m.limitFigure(p.Limit))
		}
		add(m.label("known-limits", unit, part.Text("list", strings.Join(all, "; "))))
	}
	if slices.ContainsFunc(x.Asked, func(a Asked) bool { return a.Kind == AskFirst }) {
		var all []string
		for _, p := range m.compared(true) {
			if p.Ultimate.Known {
				all = append(all, w.PartName(p, m.names)+": "+w.Written(quantity.FormatForce(p.Ultimate.Low, w.System(), quantity.AsLimit)).Number)
			}
		}
		add(m.label("known-ultimates", unit, part.Text("list", strings.Join(all, "; "))))
	}
	add(m.label("known-how"))
}

func (m *Model) knownBlocks(r *plan.Rig, names func(plan.ID) string, add func(string)) {
	for i := range r.Blocks {
		b := &r.Blocks[i]
		if gear.CountsAsRing(b) {
			for k := range r.Lines {
				l := &r.Lines[k]
				if slices.ContainsFunc(l.Path, func(p plan.Port) bool { return p.Thing == b.ID }) {
					add(m.label("known-ring", part.Text("thing", names(b.ID)), part.Number("mu", part.UnitNone, gear.RingFriction(b, l))))
					break
				}
			}
			continue
		}
		k := gear.SheaveEfficiency(b)
		var all []string
		for _, d := range keepAngles {
			all = append(all, strconv.Itoa(int(d))+"° "+m.w.Value(part.Value{X: keeps(k, d)}, nil))
		}
		add(m.label("known-block", part.Text("thing", names(b.ID)), part.Number("k", part.UnitNone, k), part.Text("list", strings.Join(all, ", "))))
	}
}

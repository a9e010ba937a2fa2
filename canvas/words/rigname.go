package words

import (
	"cmp"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// RigName is what the rig at place i of a plan is called on its tab, on sheets
// and on the command line: its own name, or after its shape ("Redirect", the
// second of them to be made "Redirect 2"), or "Rig 2" after its number. Empty if
// there is no such rig.
func (w *Words) RigName(p *plan.Plan, i int) string {
	if p == nil || i < 0 || i >= len(p.Rigs) {
		return ""
	}
	r := &p.Rigs[i]
	if r.Name != "" {
		return quantity.OneLine(r.Name)
	}
	shape := rigShape(r)
	if shape == "" {
		return plan.RigName(p, i)
	}
	name := w.Label("rig-" + shape)
	n := 0
	for k := range p.Rigs { // the second to be made is the second, wherever its tab is put
		if o := &p.Rigs[k]; o.Name == "" && cmp.Or(cmp.Compare(len(o.ID), len(r.ID)), cmp.Compare(o.ID, r.ID)) < 0 && rigShape(o) == shape {
			n++
		}
	}
	if n > 0 {
		return w.Label("rig-again", part.Text("name", name), part.Count("count", n+1))
	}
	return name
}

// Rig is what a rig is called, see [Words.RigName]; its id if the plan has no such rig.
func (w *Words) Rig(p *plan.Plan, id plan.ID) string {
	if i := p.RigIndex(id); i >= 0 {
		return w.RigName(p, i)
	}
	return string(id)
}

// RigNamed is the first rig that is called so, by [Words.RigName] or as
// [plan.Plan.RigByName] finds it; false if there is none.
func (w *Words) RigNamed(p *plan.Plan, name string) (*plan.Rig, bool) {
	for i := range p.Rigs {
		if w.RigName(p, i) == name {
			return &p.Rigs[i], true
		}
	}
	return p.RigByName(name)
}

// rigShape is the id of what a rig is: by the first line that pulls from a
// winch. Empty: none does.
func rigShape(r *plan.Rig) string {
	for i := range r.Lines {
		l := &r.Lines[i]
		n := len(l.Path)
		if l.Use != plan.UsePull || n < 2 || l.Path[0].Point != plan.PortWinch {
			continue
		}
		moving, standing := 0, 0
		for _, p := range l.Path[1 : n-1] {
			if k, ok := r.Block(p.Thing); ok && !k.Fixed.IsZero() && k.Fixed.Point != "" && k.Fixed.Thing != l.Path[0].Thing {
				moving++
			} else {
				standing++
			}
		}
		if l.Path[n-1].Thing == l.Path[0].Thing { // back to the winch vehicle: it doubles on itself or the load
			moving, standing = max(moving, 1), standing-1+min(moving, 1)
		}
		switch {
		case moving == 0 && standing <= 0:
			return "straight"
		case moving == 0 && standing == 1:
			return "redirect"
		case moving == 0:
			return "redirects"
		case standing <= 0 && moving == 1:
			return "doubled"
		case moving == 1:
			return "doubled-redirect"
		}
		return "purchase"
	}
	return ""
}

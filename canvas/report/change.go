package report

import (
	"slices"

	"kedge/canvas/remedy"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/doubt"
	"kedge/solver/facts"
	"kedge/solver/layout"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// How many things done otherwise are tried of each sort. (ours)
const (
	mostRigs     = 3
	mostSlings   = 2
	mostLengths  = 2 // of a sling
	mostStronger = 2
	mostRemedies = 6
)

// try are the plans that are tried without anybody having asked for them.
func (a *Report) try(answer *solver.Assessment) []doubt.Change {
	return slices.Concat(rigsOf(a.w, a.Plan, a.Rig), piecesOf(a.w, a.Plan, a.Rig, a.Names), remedied(a.w, a.Plan, a.Rig, answer))
}

// rigsOf are the other rigs that are drawn, each in place of the one that is asked about.
func rigsOf(w *words.Words, p *plan.Plan, rig plan.ID) (all []doubt.Change) {
	for i, r := range p.Rigs {
		if r.ID != rig && len(r.Lines) > 0 && len(all) < mostRigs {
			all = append(all, doubt.Change{Name: w.RigName(p, i), Plan: riggedAs(p, rig, i)})
		}
	}
	return all
}

// riggedAs is a plan whose rig is as the one at i, which is in it no more.
func riggedAs(p *plan.Plan, rig plan.ID, i int) *plan.Plan {
	q := *p
	as := p.Rigs[i]
	as.ID = rig
	q.Rigs = nil
	for k, r := range p.Rigs {
		switch {
		case r.ID == rig:
			as.Incident = r.Incident
			q.Rigs = append(q.Rigs, as)
		case k != i:
			q.Rigs = append(q.Rigs, r)
		}
	}
	return &q
}

// piecesOf are the slings taken longer, by the next lengths of the kit, and what was found
// failed taken with twice its rating.
func piecesOf(w *words.Words, p *plan.Plan, rig plan.ID, names words.Names) (all []doubt.Change) {
	r, ok := p.Rig(rig)
	if !ok {
		return nil
	}
	try := func(id string, thing plan.ID, member string, x float64) bool {
		q, ok := With(p, rig, thing, member, x)
		if ok {
			all = append(all, doubt.Change{Name: w.Label(id, part.Text("thing", names(thing)), part.Length("length", x)), Plan: q})
		}
		return ok
	}
	for _, s := range r.Slings[:min(len(r.Slings), mostSlings)] {
		n := 0
		for _, l := range layout.KitLengths() {
			if s.Length > 0 && l > s.Length && n < mostLengths && try("piece-longer", s.ID, "length_m", float64(l)) {
				n++
			}
		}
	}
	var stronger []plan.ID
	for _, q := range pinsOf(r) {
		failed := q.Kind == plan.PinBroken || q.Kind == plan.PinOff || q.Kind == plan.PinFirst
		rated := ratingOf(r, q.Thing)
		if failed && rated > 0 && len(stronger) < mostStronger && !slices.Contains(stronger, q.Thing) {
			stronger = append(stronger, q.Thing)
			try("piece-stronger", q.Thing, ratingForce, 2*rated)
		}
	}
	return all
}

// ratingForce is the member of a rating's force.
const ratingForce = "rating.force_n"

// With is [doubt.With], for a plan of which something is reconstructed: a rating is one that
// photographs of the tag show too.
func With(p *plan.Plan, rig, thing plan.ID, member string, x float64) (*plan.Plan, bool) {
	q, ok := doubt.With(p, rig, thing, member, x)
	if ok && member == ratingForce {
		q = tagged(q, rig, thing, x)
	}
	return q, ok
}

// tagged is a plan in which photographs of a thing's tag show that rating, N: what they
// show counts before what is entered.
func tagged(p *plan.Plan, rig, thing plan.ID, forceN float64) *plan.Plan {
	i := p.RigIndex(rig)
	for _, q := range pinsOf(&p.Rigs[i]) {
		if q.Kind == plan.PinTag && q.Thing == thing {
			q.Rating.Force = quantity.Force(forceN)
			p = plan.WithPin(p, i, q)
		}
	}
	return p
}

// pinsOf are the pins of a rig.
func pinsOf(r *plan.Rig) []plan.Pin {
	if r.Incident == nil {
		return nil
	}
	return r.Incident.Pins
}

// ratingOf is the rating of a piece of gear, N; 0: it has none.
func ratingOf(r *plan.Rig, id plan.ID) float64 {
	if s, ok := r.Sling(id); ok {
		return float64(s.Rating.Force)
	}
	if s, ok := r.Shackle(id); ok {
		return float64(s.Rating.Force)
	}
	if b, ok := r.Block(id); ok {
		return float64(b.Rating.Force)
	}
	if l, ok := r.Line(id); ok {
		return float64(l.Rating.Force)
	}
	return 0
}

// remedied are the plans that remedies of the rig's findings make of it.
func remedied(w *words.Words, p *plan.Plan, rig plan.ID, a *solver.Assessment) (all []doubt.Change) {
	kit, err := facts.StarterGear()
	if err != nil {
		return nil
	}
	seen := map[string]bool{}
	in := remedy.Given{Plan: p, Rig: rig, Kit: kit, Words: w, Answer: a}
	for i := range a.Findings {
		for _, r := range a.Findings[i].Remedies {
			done, err := remedy.Do(in, r)
			if err != nil || done.Plan == nil || seen[done.Name] || len(all) == mostRemedies {
				continue
			}
			seen[done.Name] = true
			all = append(all, doubt.Change{Name: done.Name, Plan: done.Plan})
		}
	}
	return all
}

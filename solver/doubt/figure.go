package doubt

import (
	"reflect"
	"slices"

	"kedge/solver/facts"
	"kedge/solver/plan"
)

// Doubtful is a figure of a plan that is in doubt.
type Doubtful struct {
	What   string // word id of what is no member, as of [Assumption]; else empty
	Thing  plan.ID
	Member string   // as in the file, "casualty.breakaway_factor"
	Dist   Dist     // in the member's own unit
	fact   facts.ID // the row its scatter is from; empty: the plan states it
}

// id is what the figure's dimension goes by.
func (d *Doubtful) id() string { return string(d.Thing) + " " + d.Member }

// settable is a member of one plan that can be given figures.
type settable struct {
	Doubtful
	at   float64 // what the plan has
	set  func(x float64)
	head *plan.Head
}

// figures are the doubtful members of what stands on the site and of a rig, and those
// of them that are no figure that can be drawn.
func figures(p *plan.Plan, rig plan.ID) (all []settable, not []Doubtful) {
	see := func(thing reflect.Value) {
		h := headOf(thing)
		for _, d := range h.Doubts {
			f := settable{Doubtful: Doubtful{Thing: h.ID, Member: d.Member}, head: h}
			m := plan.FigureOf(thing, d.Member)
			if o, ok := thing.Addr().Interface().(*plan.Obstacle); ok && d.OfPlace() {
				m = shifted(o, d.Member)
			}
			if m.Set == nil || !m.Known || m.Whole {
				not = append(not, f.Doubtful)
				continue
			}
			f.set, f.at, f.Dist = m.Set, m.At, read(h, d, m.At)
			all = append(all, f)
		}
	}
	each := func(list reflect.Value) {
		for i := range list.Len() {
			see(list.Index(i))
		}
	}
	s := reflect.ValueOf(&p.Site).Elem()
	for _, list := range []string{"Vehicles", "Anchors", "Obstacles"} {
		each(s.FieldByName(list))
	}
	if i := p.RigIndex(rig); i >= 0 {
		r := reflect.ValueOf(&p.Rigs[i]).Elem()
		see(r)
		for _, list := range rigLists {
			each(r.FieldByName(list))
		}
	}
	for i := range p.Site.People { // no load hangs on where somebody stands
		q := &p.Site.People[i]
		for _, d := range q.Doubts {
			if q.Vehicle == "" || !d.OfPlace() {
				not = append(not, Doubtful{Thing: q.ID, Member: d.Member})
			}
		}
	}
	return all, not
}

// shifted is where the middle of an obstacle lies, one way: another place shifts all of it.
func shifted(o *plan.Obstacle, member string) plan.Figure {
	if len(o.Outline) == 0 {
		return plan.Figure{}
	}
	of := func(q *plan.Point) *float64 { return &q.X }
	if (&plan.Doubt{Member: member}).North() {
		of = func(q *plan.Point) *float64 { return &q.Y }
	}
	middle := plan.Centroid(o.Outline)
	at, from, own := *of(&middle), o.Outline, false
	return plan.Figure{At: at, Known: true, Set: func(x float64) {
		if !own { // the plan it is from keeps its own
			o.Outline, own = slices.Clone(o.Outline), true
		}
		for i := range from {
			*of(&o.Outline[i]) = *of(&from[i]) + (x - at)
		}
	}}
}

// InDoubt reports whether a figure of what stands on the site or of a rig is in doubt.
func InDoubt(p *plan.Plan, rig plan.ID) bool {
	all, not := figures(p, rig)
	return len(all)+len(not) > 0
}

// headOf is the head of a thing that can be set.
func headOf(thing reflect.Value) *plan.Head {
	return thing.FieldByName("Head").Addr().Interface().(*plan.Head)
}

// read is how a doubt is read: what was typed with ± as normal, the figure behind it
// as two standard deviations; low, likely and high as triangular; from one figure to
// another as uniform. (ours)
func read(h *plan.Head, d plan.Doubt, at float64) Dist {
	if d.PlusMinus {
		middle := (d.Low + d.High) / 2
		if d.OfPlace() || at != 0 && (at < d.Low || at > d.High) { // moved or turned since: as well known now
			middle = at
		}
		if n, err := Normal(middle, (d.High-d.Low)/4); err == nil {
			return n
		}
	}
	low, high := plan.Range(h, d.Member, at)
	if t, err := Triangular(low, at, high); err == nil && d.Likely {
		return t
	}
	u, err := Uniform(low, high)
	if err != nil {
		return Sure(at)
	}
	return u
}

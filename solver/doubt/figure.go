package doubt

import (
	"reflect"
	"strings"

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
			m := member(thing, d.Member)
			if m.set == nil || !m.known || m.whole {
				not = append(not, f.Doubtful)
				continue
			}
			f.set, f.at, f.Dist = m.set, m.at, read(h, d, m.at)
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
	return all, not
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
		if d.OfPlace() { // as well known where it stands now, see [plan.Doubt.Around]
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

// figure is a member that is a figure.
type figure struct {
	at    float64
	known bool
	whole bool            // it counts
	set   func(x float64) // nil: there is none
}

// inner is the part of a thing by its name in the file, of its recovery points the one
// whose id begins rest, which is cut off; invalid: there is none.
func inner(thing reflect.Value, name string, rest *string) reflect.Value {
	for i := range thing.NumField() {
		tag, _, _ := strings.Cut(thing.Type().Field(i).Tag.Get("json"), ",")
		if tag != name {
			continue
		}
		f := thing.Field(i)
		if points, ok := f.Interface().([]plan.RecoveryPoint); ok {
			for k := range points {
				if left, own := strings.CutPrefix(*rest, string(points[k].ID)+"."); own {
					*rest = left
					return f.Index(k)
				}
			}
			return reflect.Value{}
		}
		if f.Kind() == reflect.Pointer {
			f = f.Elem() // invalid of nil
		}
		return f
	}
	return reflect.Value{}
}

// member finds a figure of a thing by its name in the file.
func member(thing reflect.Value, name string) figure {
	first, rest, deeper := strings.Cut(name, ".")
	f := inner(thing, first, &rest)
	switch {
	case !f.IsValid():
		return figure{}
	case deeper && f.Kind() == reflect.Struct:
		return member(f, rest)
	case deeper:
		return figure{}
	case f.Kind() == reflect.Float64:
		return figure{f.Float(), true, false, f.SetFloat}
	case f.Kind() == reflect.Int:
		return figure{float64(f.Int()), true, true, func(x float64) { f.SetInt(int64(x)) }}
	}
	if m, ok := f.Addr().Interface().(interface {
		Figure() (float64, bool)
		SetFigure(float64)
	}); ok {
		x, known := m.Figure()
		return figure{x, known, false, m.SetFigure}
	}
	return figure{}
}

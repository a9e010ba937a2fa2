package doubt

import (
	"reflect"
	"strings"

	"kedge/solver/facts"
	"kedge/solver/plan"
)

// Doubtful is a figure of a plan that is in doubt.
type Doubtful struct {
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
			at, set := member(thing, d.Member)
			if set == nil {
				not = append(not, f.Doubtful)
				continue
			}
			f.set, f.Dist = set, read(h, d, at)
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
		for _, list := range []string{"Lines", "Blocks", "Slings", "Shackles", "Dampers"} {
			each(r.FieldByName(list))
		}
	}
	return all, not
}

// headOf is the head of a thing that can be set.
func headOf(thing reflect.Value) *plan.Head {
	return thing.FieldByName("Head").Addr().Interface().(*plan.Head)
}

// read is how a doubt is read: what was typed with ± as normal, the figure behind it
// as two standard deviations; from one figure to another as uniform. (ours)
func read(h *plan.Head, d plan.Doubt, at float64) Dist {
	if d.PlusMinus {
		if n, err := Normal((d.Low+d.High)/2, (d.High-d.Low)/4); err == nil {
			return n
		}
	}
	low, high := plan.Range(h, d.Member, at)
	u, err := Uniform(low, high)
	if err != nil {
		return Sure(at)
	}
	return u
}

// member finds a figure of a thing by its name in the file, and how to set it; nil: it
// is none, is not known, or is shared with another plan.
func member(thing reflect.Value, name string) (at float64, set func(x float64)) {
	if rest, ok := strings.CutPrefix(name, "recovery_points."); ok {
		id, rest, _ := strings.Cut(rest, ".")
		points := thing.FieldByName("Recovery")
		for i := 0; points.IsValid() && i < points.Len(); i++ {
			if points.Index(i).FieldByName("ID").String() == id {
				return member(points.Index(i), rest)
			}
		}
		return 0, nil
	}
	first, rest, deeper := strings.Cut(name, ".")
	for i := range thing.NumField() {
		tag, _, _ := strings.Cut(thing.Type().Field(i).Tag.Get("json"), ",")
		if tag != first {
			continue
		}
		f := thing.Field(i)
		if f.Kind() == reflect.Pointer {
			if f.IsNil() {
				return 0, nil
			}
			f = f.Elem()
		}
		switch {
		case deeper && f.Kind() == reflect.Struct:
			return member(f, rest)
		case deeper:
			return 0, nil
		case f.Kind() == reflect.Float64:
			return f.Float(), f.SetFloat
		}
		if m, ok := f.Addr().Interface().(interface {
			Figure() (float64, bool)
			SetFigure(float64)
		}); ok {
			if x, known := m.Figure(); known {
				return x, m.SetFigure
			}
		}
		return 0, nil
	}
	return 0, nil
}

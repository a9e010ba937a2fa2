package doubt

import (
	"math"
	"reflect"
	"slices"
	"strings"

	"kedge/solver/plan"
)

// With is p with a figure of a thing of the site or of a rig, of a rig, or (thing empty)
// of the ground put in place of the one it has, in the member's own unit: typed, and known
// exactly. False: there is no such figure, or the plan cannot be with it.
func With(p *plan.Plan, rig, thing plan.ID, name string, x float64) (*plan.Plan, bool) {
	d := plan.Edit(p, rig)
	for i := range d.Site.Vehicles {
		d.Site.Vehicles[i].Unshare()
	}
	at := find(&d, thing)
	if !at.IsValid() {
		return p, false
	}
	m := plan.FigureOf(at, name)
	if m.Set == nil || m.Whole && x != math.Trunc(x) {
		return p, false
	}
	m.Set(x)
	unpreset(at, name)
	if at.FieldByName("Head").IsValid() {
		settle(headOf(at), name)
	}
	return d.Plan, plan.Validate(d.Plan) == nil
}

// find is a thing of a draft, the ground if it has no id; invalid: there is none.
func find(d *plan.Draft, thing plan.ID) reflect.Value {
	s := reflect.ValueOf(&d.Site).Elem()
	if thing == "" {
		return s.FieldByName("Ground")
	}
	lists := []reflect.Value{reflect.ValueOf(d.Rigs)}
	for _, list := range []string{"Vehicles", "Anchors", "Obstacles", "People", "Notes"} {
		lists = append(lists, s.FieldByName(list))
	}
	if d.Laid != nil {
		r := reflect.ValueOf(d.Laid).Elem()
		for _, list := range rigLists {
			lists = append(lists, r.FieldByName(list))
		}
	}
	for _, list := range lists {
		for i := range list.Len() {
			if at := list.Index(i); headOf(at).ID == thing {
				return at
			}
		}
	}
	return reflect.Value{}
}

// rigLists are the lists of a rig's things.
var rigLists = []string{"Lines", "Blocks", "Slings", "Shackles", "Dampers"}

// unpreset takes a figure, and the rating that it is of, out of the presets of every part
// of a thing on the way to it: it was typed.
func unpreset(at reflect.Value, name string) {
	for {
		if list := presets(at); list != nil {
			*list = slices.DeleteFunc(slices.Clone(*list), func(m string) bool { return m == name || m+".force_n" == name })
		}
		first, rest, deeper := strings.Cut(name, ".")
		if !deeper {
			return
		}
		if at = plan.InnerOf(at, first, &rest); !at.IsValid() || at.Kind() != reflect.Struct {
			return
		}
		name = rest
	}
}

// presets is the list of a part; nil: it has none.
func presets(at reflect.Value) *[]string {
	f := at.FieldByName("Presets")
	if !f.IsValid() {
		return nil
	}
	return f.Addr().Interface().(*[]string)
}

package doubt

import (
	"reflect"
	"slices"

	"kedge/solver/plan"
)

// With is p with a figure of a thing of the site or of a rig put in place of the one it
// has, in the member's own unit: typed, and known exactly. False: there is no such figure,
// or it is not known.
func With(p *plan.Plan, rig, thing plan.ID, name string, x float64) (*plan.Plan, bool) {
	d := plan.Edit(p, rig)
	for i := range d.Site.Vehicles {
		d.Site.Vehicles[i].Unshare()
	}
	lists := []reflect.Value{reflect.ValueOf(d.Site.Vehicles), reflect.ValueOf(d.Site.Anchors), reflect.ValueOf(d.Site.Obstacles)}
	if r := d.Laid; r != nil {
		lists = append(lists, reflect.ValueOf(r.Lines), reflect.ValueOf(r.Blocks), reflect.ValueOf(r.Slings), reflect.ValueOf(r.Shackles))
	}
	for _, list := range lists {
		for i := range list.Len() {
			at := list.Index(i)
			h := headOf(at)
			if h.ID != thing {
				continue
			}
			_, set := member(at, name)
			if set == nil {
				return p, false
			}
			set(x)
			h.Presets = slices.DeleteFunc(slices.Clone(h.Presets), func(m string) bool { return m == name })
			settle(h, name)
			return d.Plan, plan.Validate(d.Plan) == nil
		}
	}
	return p, false
}

package plan

import (
	"reflect"
	"slices"
)

// eachLikely looks at every figure that is known and was typed as low / likely / high, but
// for places, which are moved with their range.
func eachLikely(p *Plan, look func(path string, doubts *[]Doubt, i int, at float64)) {
	see := func(path string, thing reflect.Value) {
		all := thing.FieldByName("Doubts").Addr().Interface().(*[]Doubt)
		for i, d := range *all {
			if f := FigureOf(thing, d.Member); d.Likely && !d.PlusMinus && !d.OfPlace() && f.Known && f.At != 0 {
				look(at(path+"/doubts", i), all, i, f.At)
			}
		}
	}
	each := func(path string, of reflect.Value) {
		for _, f := range things()[of.Type()].fields {
			list := of.FieldByIndex(f.index)
			if list.Kind() != reflect.Slice || f.node.elem == nil || f.node.elem.members["doubts"] == nil {
				continue
			}
			for i := range list.Len() {
				see(at(path+"/"+f.name, i), list.Index(i))
			}
		}
	}
	each("/site", reflect.ValueOf(&p.Site).Elem())
	for i := range p.Rigs {
		r, path := &p.Rigs[i], at("/rigs", i)
		see(path, reflect.ValueOf(r).Elem())
		each(path, reflect.ValueOf(r).Elem())
		if r.Incident != nil {
			each(path+"/incident", reflect.ValueOf(r.Incident).Elem())
		}
	}
}

// likelyFault refuses a likely value that is not between the ends of its range.
func likelyFault(p *Plan) (fault error) {
	eachLikely(p, func(path string, doubts *[]Doubt, i int, x float64) {
		if d := (*doubts)[i]; fault == nil && !(d.Low <= x && x <= d.High) {
			fault = likelyOutside.At(path, number(x), number(d.Low), number(d.High))
		}
	})
	return fault
}

// widenLikely gives p, a copy of its own, ranges that hold what was edited out of them.
func widenLikely(p *Plan) {
	if likelyFault(p) == nil {
		return
	}
	d := Edit(p, "")
	for i := range d.Rigs {
		d.Lay(i)
	}
	*p = *d.Plan
	eachLikely(p, func(_ string, doubts *[]Doubt, i int, x float64) {
		*doubts = slices.Clone(*doubts)
		q := &(*doubts)[i]
		q.Low, q.High = min(q.Low, x), max(q.High, x)
	})
}

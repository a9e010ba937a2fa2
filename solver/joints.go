package solver

import (
	"slices"

	"kedge/solver/part"
	"kedge/solver/plan"
)

// joints says where a block hangs from a sling, or straight from what it is fast
// to, and no shackle of the plan joins the two: an eye does not go through a
// block's. What joins them carries all of it and is no part of the answer.
func (a *resolving) joints() {
	r := a.g.r
	joined := func(p, q plan.ID) bool {
		return slices.ContainsFunc(r.Shackles, func(k plan.Shackle) bool {
			has := func(id plan.ID) bool {
				return slices.ContainsFunc(k.Joins, func(j plan.Port) bool { return j.Thing == id })
			}
			return has(p) && has(q)
		})
	}
	check := func(from plan.ID, to plan.Port) {
		if a.g.things.Block(to.Thing) != nil && !joined(from, to.Thing) {
			a.find(part.Finding{ID: "shackle-missing", Level: part.Caution, Things: a.things(from, to.Thing)})
		}
	}
	for i := range r.Slings {
		check(r.Slings[i].ID, r.Slings[i].On)
		check(r.Slings[i].ID, r.Slings[i].Holds)
	}
	for i := range r.Blocks {
		b := &r.Blocks[i]
		if _, ok := a.g.site(b.Fixed); ok && a.g.things.Shackle(b.Fixed.Thing) == nil && !joined(b.ID, b.Fixed.Thing) {
			a.find(part.Finding{ID: "shackle-missing", Level: part.Caution, Things: a.things(b.ID, b.Fixed.Thing)})
		}
	}
}

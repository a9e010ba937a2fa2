package travel

import (
	"slices"

	"kedge/solver"
	"kedge/solver/plan"
)

const (
	spanM       = 0.01 // how well the ends of a stay in the zones are found (ours)
	mostBorders = 64   // beyond so many, the ends are those of the moments (ours)
)

// stays finds where along the travel each person comes into the zones and out of
// them, between the moments: each end a little outside the stay.
func (f *follower) stays() error {
	o, left := f.out, mostBorders
	for i := range o.People {
		q := &o.People[i]
		for k := range q.Spans {
			for _, end := range [...]struct {
				atM  *float64
				next int
			}{{&q.Spans[k].FromM, -1}, {&q.Spans[k].ToM, 1}} {
				if err := f.ctx.Err(); err != nil {
					return err
				}
				m := slices.IndexFunc(o.Moments, func(m solver.Moment) bool { return m.AtM == *end.atM }) + end.next
				if m < 0 || m >= len(o.Moments) || left == 0 {
					continue
				}
				left--
				*end.atM = f.border(q.Person, *end.atM, o.Moments[m].AtM)
			}
		}
	}
	return nil
}

// border is the place, just outside, where somebody who is in the zones at in and
// not at out comes in or goes out.
func (f *follower) border(person plan.ID, in, out float64) float64 {
	for max(in, out)-min(in, out) > spanM {
		mid := (in + out) / 2
		m := f.look(mid)
		i := slices.IndexFunc(m.People, func(q solver.PersonAt) bool { return q.Person == person })
		if i >= 0 && len(m.People[i].Inside) > 0 {
			in = mid
		} else {
			out = mid
		}
	}
	return out
}

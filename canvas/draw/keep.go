package draw

import (
	"math"

	"github.com/golang/geo/r2"
)

// stays tells that a label has the same place as in the last picture and may
// keep it.
func (l *labeller) stays(x *label) bool {
	old, had := l.mem.kept[x.key]
	if !had || old.age > 0 || old.form < x.from || old.form >= len(x.forms) {
		return false
	}
	v, home := &l.d.s.View, l.home(x)
	at := v.ToPlan(home.X, home.Y)
	if !(math.Hypot(at.X-old.home.X, at.Y-old.home.Y)*v.PerM <= l.d.px(stillPx)) && len(x.spots) == 0 {
		return false
	}
	x.as(old.form)
	w, h := l.size(x, x.lines)
	b := l.oldBox(x, &old, w, h)
	free := l.free(b, old.over)
	if free && !l.still && !l.mem.Hold {
		c := l.away(x, b) + x.covering(l.grid.under(b))
		if x.lead {
			c += l.leaderCost(x, b)
		}
		free = c <= costStay
	}
	if !free {
		x.as(x.from)
		return false
	}
	x.box, x.placed, x.beside = b, true, old.beside
	return true
}

// free tells that a label may lie again where it lay: on nothing that it did not
// lie on before. The cells are too coarse to tell neighbours apart that lay side
// by side.
func (l *labeller) free(b r2.Rect, over uint8) bool {
	if !l.area.Contains(b) || l.grid.under(b)&(bitPlate|bitPerson|bitVehicle)&^over != 0 {
		return false
	}
	for i := range l.all {
		if l.all[i].placed && l.all[i].box.InteriorIntersects(b) {
			return false
		}
	}
	return true
}

// stillPx is how little a thing moves to count as not moved.
const stillPx = 0.5

// oldBox is where a label would lie if it kept its place: for one that lies on
// an edge, on the spot nearest to where it was.
func (l *labeller) oldBox(x *label, old *keptPlace, w, h float64) r2.Rect {
	off := old.off.Mul(l.d.u)
	if len(x.spots) == 0 {
		return l.boxAt(l.home(x).Add(off), w, h)
	}
	was := l.d.at(old.home).Add(off)
	best, least := r2.Rect{}, math.Inf(1)
	take := func(b r2.Rect) {
		if far := b.Center().Sub(was).Norm(); far < least {
			best, least = b, far
		}
	}
	if old.beside {
		l.sweep(x, w, h, take)
		return best
	}
	for _, p := range x.spots {
		take(l.pulledIn(l.boxAt(p, w, h)))
	}
	return best
}

// grow gives a label that is pointed at its whole text round the place where it
// lay: the pointer stays on it. It keeps its short text where that would cover
// something.
func (l *labeller) grow(x *label) bool {
	old, had := l.mem.kept[x.key]
	if !had || old.age > 0 || old.form >= len(x.forms) {
		return false
	}
	x.as(old.form)
	w, h := l.size(x, x.lines)
	small := l.oldBox(x, &old, w, h)
	x.as(x.from)
	w, h = l.size(x, x.lines)
	best, least := r2.Rect{}, float64(costName)
	for _, ky := range [...]float64{0.5, 0, 1} {
		for _, kx := range [...]float64{0.5, 0, 1} {
			p := r2.Point{X: small.X.Lo + kx*(small.X.Hi-small.X.Lo) + (0.5-kx)*w, Y: small.Y.Lo + ky*(small.Y.Hi-small.Y.Lo) + (0.5-ky)*h}
			b := l.boxAt(p, w, h)
			if c := l.cost(x, b, least); c < least {
				best, least = b, c
			}
		}
	}
	if least < costName {
		x.box, x.placed = best, true
		return true
	}
	x.as(old.form)
	if !l.free(small, old.over) {
		x.as(x.from)
		return false
	}
	x.box, x.placed = small, true
	return true
}

// keptFor is how many pictures the place of a label is remembered that is not
// in the picture, as the tag of what the pointer has just left. (ours)
const keptFor = 200

// remember keeps the places for the next picture. What is only said because it
// is pointed at, or was put elsewhere by hand, leaves the place that was kept as
// it is: it goes back there.
func (l *labeller) remember() {
	next := make(map[string]keptPlace, len(l.all)+8)
	for i := range l.all {
		x := &l.all[i]
		if old, had := l.mem.kept[x.key]; had && (x.hover || x.rank == rankHand) {
			next[x.key] = old
		} else if x.placed {
			home := l.home(x)
			next[x.key] = keptPlace{off: x.box.Center().Sub(home).Mul(1 / l.d.u), home: l.d.s.View.ToPlan(home.X, home.Y), form: x.form, over: l.grid.under(x.box), beside: x.beside}
		}
	}
	for key, k := range l.mem.kept {
		if _, now := next[key]; !now && k.age < keptFor {
			k.age++
			next[key] = k
		}
	}
	m := l.mem
	m.kept = next
	m.last.plan, m.last.answer, m.last.rig, m.last.view, m.last.look = l.d.s.Plan, l.d.a, l.d.s.Rig, l.d.s.View, l.d.s.Look
}

package label

import (
	"math"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
	"kedge/solver/plan"
)

// Memory is where labels lay in the pictures before, by their keys. The zero
// value remembers nothing.
type Memory struct{ kept map[string]kept }

// Empty reports whether no picture was laid yet.
func (m *Memory) Empty() bool { return m.kept == nil }

// kept is where a label lay when it was last in the picture.
type kept struct {
	off    r2.Point   // of the box's middle from its home, logical pixels
	home   plan.Point // its home
	form   int        // which of its forms it took
	over   Taken      // what it lay on
	beside bool       // it names an edge and lay beside it
	age    int        // pictures since
}

// stillPx is how little a thing moves to count as not moved.
const stillPx = 0.5

// keptFor is how many pictures the place of a label is remembered that is not
// in the picture, as the tag of what the pointer has just left. (ours)
const keptFor = 200

// stay lays a label where it lay in the last picture, if it has the same place
// and may keep it.
func (l *layer) stay(x *item) bool {
	old, had := l.mem.kept[x.Key]
	if !had || old.age > 0 || old.form < x.From || old.form >= len(x.Forms) {
		return false
	}
	home := x.Home()
	at := l.Ground.ToPlan(home.X, home.Y)
	if !(math.Hypot(at.X-old.home.X, at.Y-old.home.Y)*l.PerM <= stillPx*l.Px) && len(x.Spots) == 0 {
		return false
	}
	x.form = old.form
	b := l.oldBox(x, &old)
	free := l.free(b, old.over)
	if free && !l.Still && !l.Hold {
		c := l.away(x, b) + x.covering(l.Grid.under(b))
		if x.Lead {
			c += l.leaderCost(x, b)
		}
		free = c <= costStay
	}
	if !free {
		x.form = x.From
		return false
	}
	x.box, x.laid, x.beside = b, true, old.beside
	return true
}

// free reports whether a label may lie again where it lay: on nothing that it
// did not lie on before. The cells are too coarse to tell neighbours apart that
// lay side by side.
func (l *layer) free(b r2.Rect, over Taken) bool {
	if !l.Area.Contains(b) || l.Grid.under(b)&(Plate|Person|Vehicle)&^over != 0 {
		return false
	}
	for i := range l.all {
		if l.all[i].laid && l.all[i].box.InteriorIntersects(b) {
			return false
		}
	}
	return true
}

// oldBox is where a label would lie if it kept its place: for one that lies on
// an edge, on the spot nearest to where it was.
func (l *layer) oldBox(x *item, old *kept) r2.Rect {
	off := old.off.Mul(l.Px)
	if len(x.Spots) == 0 {
		return l.boxAt(x, x.Home().Add(off))
	}
	px, py := l.Ground.ToPen(old.home)
	was := r2.Point{X: px, Y: py}.Add(off)
	best, least := r2.Rect{}, math.Inf(1)
	nearer := func(b r2.Rect) {
		if far := b.Center().Sub(was).Norm(); far < least {
			best, least = b, far
		}
	}
	if old.beside {
		l.sweep(x, nearer)
		return best
	}
	for _, p := range x.Spots {
		nearer(l.pulledIn(l.boxAt(x, p)))
	}
	return best
}

// grow gives a label that is pointed at its whole form round the place where it
// lay: the pointer stays on it. It keeps its short form where that would cover
// something.
func (l *layer) grow(x *item) bool {
	old, had := l.mem.kept[x.Key]
	if !had || old.age > 0 || old.form >= len(x.Forms) {
		return false
	}
	x.form = old.form
	small := l.oldBox(x, &old)
	x.form = x.From
	w, h := x.Forms[x.form].W, x.Forms[x.form].H
	best, least := r2.Rect{}, float64(costName)
	for _, ky := range [...]float64{0.5, 0, 1} {
		for _, kx := range [...]float64{0.5, 0, 1} {
			b := l.boxAt(x, r2.Point{X: small.X.Lo + kx*(small.X.Hi-small.X.Lo) + (0.5-kx)*w, Y: small.Y.Lo + ky*(small.Y.Hi-small.Y.Lo) + (0.5-ky)*h})
			if c := l.cost(x, b, least); c < least {
				best, least = b, c
			}
		}
	}
	if least < costName {
		x.box, x.laid = best, true
		return true
	}
	if !l.free(small, old.over) {
		return false
	}
	x.form, x.box, x.laid = old.form, small, true
	return true
}

// remember keeps the places for the next picture. What is only said because it
// is pointed at, or was put elsewhere by hand, leaves the place that was kept as
// it is: it goes back there.
func (l *layer) remember() {
	next := make(map[string]kept, len(l.all)+8)
	for i := range l.all {
		x := &l.all[i]
		if old, had := l.mem.kept[x.Key]; had && (x.Hover || x.rank == ByHand) {
			next[x.Key] = old
		} else if x.laid {
			home := x.Home()
			next[x.Key] = kept{off: x.box.Center().Sub(home).Mul(1 / l.Px), home: l.Ground.ToPlan(home.X, home.Y), form: x.form, over: l.Grid.under(x.box), beside: x.beside}
		}
	}
	for key, k := range l.mem.kept {
		if _, now := next[key]; !now && k.age < keptFor {
			k.age++
			next[key] = k
		}
	}
	l.mem.kept = next
}

// boxAt is the box of a label round its middle, on a lattice of eighths of a
// pixel: a place that is computed another way the next time is the same place.
func (l *layer) boxAt(x *item, c r2.Point) r2.Rect {
	w, h := x.Forms[x.form].W, x.Forms[x.form].H
	k := 8 / l.Px
	const shift = 0.137 // keeps middles that are whole pixels off the lattice's own edges
	left, top := math.Floor((c.X-w/2)*k+shift)/k, math.Floor((c.Y-h/2)*k+shift)/k
	return pen.Box(left, top, left+w, top+h)
}

// pulledIn is the box moved into the picture.
func (l *layer) pulledIn(b r2.Rect) r2.Rect {
	dx := math.Max(0, l.Area.X.Lo-b.X.Lo) - math.Max(0, b.X.Hi-l.Area.X.Hi)
	dy := math.Max(0, l.Area.Y.Lo-b.Y.Lo) - math.Max(0, b.Y.Hi-l.Area.Y.Hi)
	return pen.Box(b.X.Lo+dx, b.Y.Lo+dy, b.X.Hi+dx, b.Y.Hi+dy)
}

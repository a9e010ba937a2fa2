package zone_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/zone"
)

// walk is somebody who looks for the way out step by step, apart from the search
// under test: it asks of places along a ray which zones lie within half a metre.
type walk struct {
	in      zone.PeopleIn
	from    plan.Point
	was     map[part.ZoneKind]bool
	ringToo bool
}

// walls are the segments that nobody walks across.
func (w *walk) walls() (all [][2]plan.Point) {
	for _, s := range w.in.Stretches {
		all = append(all, [2]plan.Point{s.A, s.B})
	}
	ring := func(ps []plan.Point) {
		for i, p := range ps {
			all = append(all, [2]plan.Point{p, ps[(i+1)%len(ps)]})
		}
	}
	for _, o := range w.in.Obstacles {
		ring(o.Outline)
	}
	for _, v := range w.in.Vehicles {
		ring(v.Footprint)
	}
	return all
}

// touches reports whether a place on the way is still in a zone that counts, and
// whether in one that the walker was not in.
func (w *walk) touches(p plan.Point) (in, other bool) {
	for _, z := range w.in.Zones {
		if (z.Kind != part.ZoneStandOff || w.ringToo) && meets(z.Outline, p, 0.5) {
			in, other = true, other || !w.was[z.Kind]
		}
	}
	return in, other
}

// meets is the rule of even and odd, and the distance of a point from a segment.
func meets(ps []plan.Point, p plan.Point, radiusM float64) bool {
	in := false
	for i, a := range ps {
		b := ps[(i+1)%len(ps)]
		dx, dy, x, y := b.X-a.X, b.Y-a.Y, p.X-a.X, p.Y-a.Y
		f := min(1, max(0, (x*dx+y*dy)/(dx*dx+dy*dy)))
		if ox, oy := x-f*dx, y-f*dy; ox*ox+oy*oy <= radiusM*radiusM {
			return true
		}
		if (a.Y > p.Y) != (b.Y > p.Y) && x < dx*y/dy {
			in = !in
		}
	}
	return in
}

// leave is how far along a ray the last zone is left, and 0.1 m; below zero: no way
// under a limit.
func (w *walk) leave(deg, limitM float64) float64 {
	const step = 0.05
	on := func(m float64) plan.Point {
		q := polar(deg, m)
		return at(w.from.X+q.X, w.from.Y+q.Y)
	}
	last := 0.0
	for m := step; m <= last+0.2+step; m += step {
		in, other := w.touches(on(m))
		switch {
		case other || last > limitM:
			return -1
		case in:
			last = m
		}
	}
	lo, hi := last, last+step // left between the two
	for last > 0 && hi-lo > 1e-7 {
		m := (lo + hi) / 2
		if in, _ := w.touches(on(m)); in {
			lo = m
		} else {
			hi = m
		}
	}
	to := on(hi + 0.1)
	for _, s := range w.walls() {
		if between(s[0], s[1], w.from, to) && between(w.from, to, s[0], s[1]) {
			return -1
		}
	}
	if w.behind(to) {
		return -1
	}
	return hi + 0.1
}

// behind: in a ring, and from the end no more than the angle beside the line's way on.
func (w *walk) behind(p plan.Point) bool {
	ring := false
	for _, z := range w.in.Zones {
		ring = ring || z.Kind == part.ZoneStandOff && meets(z.Outline, p, 0)
	}
	for _, e := range w.in.Ends {
		on := math.Atan2(e.At.Y-e.From.Y, e.At.X-e.From.X)
		to := math.Atan2(p.Y-e.At.Y, p.X-e.At.X)
		if ring && math.Abs(math.Remainder(on-to, 2*math.Pi))*180/math.Pi <= facts.BehindHalfAngle.Value() {
			return true
		}
	}
	return false
}

// shortest is the way out as the rule has it: of every third of 72 directions, then
// of those beside the best of them, or of all if there was none.
func (w *walk) shortest() float64 {
	best, ray := math.Inf(1), -1
	try := func(r int) {
		if m := w.leave(5*float64(r), best); m > 0 && m < best-1e-9 {
			best, ray = m, r
		}
	}
	for r := 0; r < 72; r += 3 {
		try(r)
	}
	if coarse := ray; coarse >= 0 {
		for _, d := range []int{-2, -1, 1, 2} {
			try((coarse + d + 72) % 72)
		}
		return best
	}
	for r := range 72 {
		try(r)
	}
	return best
}

// bends is a zone that turns inward twice, round a yard and open to the east, beside
// another, with a wall and a line on the way: who stands in it meets its edges more
// than once.
func bends() zone.PeopleIn {
	return zone.PeopleIn{
		Zones: []part.Zone{
			{Kind: part.ZoneTree, Thing: "oak", Outline: []plan.Point{at(-4, -4), at(5, -4), at(5, -2.4), at(-2, -2.4), at(-2, 1.7), at(4, 1.7), at(4, 4), at(-4, 4)}},
			{Kind: part.ZoneRecoil, Thing: "line", Outline: rect(-6, 5.5, 8, 6)},
			{Kind: part.ZoneTree, Thing: "elm", Outline: rect(-6.5, -1, -4.5, 1)},
			{Kind: part.ZoneStandOff, Thing: "line", Outline: rect(-9, -9, 9, 9)},
		},
		Stretches: []zone.Stretch{{Part: "line/0", A: at(-5, -5.2), B: at(-1, -5.2)}},
		Ends:      []zone.End{{Thing: "casualty", Word: "anchor", At: at(-1, -5.2), From: at(-5, -5.2)}},
		Obstacles: []plan.Obstacle{{Head: plan.Head{ID: "wall"}, Outline: rect(4.8, 2, 5, 4)}},
		Vehicles:  []zone.Vehicle{{ID: "truck", Footprint: rect(1, -7, 3, -5.5)}},
	}
}

// No way out is longer than one that is found step by step, and there is one where
// that finds one: along lines bent and straight, round what stands there, out of
// zones that turn inward, with the ring and without.
func TestTheWayOutIsTheShortest(t *testing.T) {
	grid := func(x0, y0, x1, y1, step float64) (all []plan.Point) {
		for x := x0; x <= x1; x += step {
			for y := y0; y <= y1; y += step {
				all = append(all, at(x, y))
			}
		}
		return all
	}
	crossed := ring()
	crossed.Zones = append(crossed.Zones, part.Zone{Kind: part.ZoneTree, Thing: "pine", Outline: rect(3, 1, 4, 2.2)})
	for _, c := range []struct {
		what   string
		in     zone.PeopleIn
		places []plan.Point
	}{
		{"storyboard A", peopleA(), grid(11.3, 7.1, 31, 22, 4.9)},
		{"a straight line and a tree", crossed, grid(-4.6, -2.7, 13, 3, 2.9)},
		{"bent zones", bends(), grid(-5.7, -5.9, 6, 7, 1.37)},
	} {
		ways := 0
		for _, p := range c.places {
			for _, role := range []string{plan.RoleBystander, plan.RoleSpotter} {
				c.in.People = []plan.Person{person(role, p)}
				s := zone.People(c.in, nil)[0]
				if len(s.Inside) == 0 || s.Pocket {
					assert.False(t, s.OutKnown, "%s, %v: nobody has to leave", c.what, p)
					continue
				}
				w := walk{in: c.in, from: p, was: map[part.ZoneKind]bool{}, ringToo: role == plan.RoleBystander}
				for _, k := range s.Inside {
					w.was[k] = true
				}
				w.ringToo = w.ringToo || s.Inside[0] == part.ZoneStandOff
				want := w.shortest()
				if assert.Equal(t, !math.IsInf(want, 1), s.OutKnown, "%s, %s at %v: %v", c.what, role, p, want) && s.OutKnown {
					assert.InDelta(t, want, float64(s.OutM), 1e-4, "%s, %s at %v to %v", c.what, role, p, s.Out)
					ways++
				}
			}
		}
		assert.Greater(t, ways, 10, c.what)
	}
}

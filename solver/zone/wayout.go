package zone

import (
	"cmp"
	"math"
	"slices"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

const (
	// wayRays is how many directions are tried: every 5 degrees.
	wayRays = 72
	// wayCoarse: every so manieth direction is tried first; the others only
	// beside the best of them. A way out is advice, not a limit, and is asked
	// for on every frame of a drag. (ours)
	wayCoarse = 3
	// wayFarM, metres: no way out is looked for beyond.
	wayFarM = 500
	// wayPastM, metres: how far past the last edge a way out ends. (ours)
	wayPastM = 0.5
)

// wayOut finds the shortest straight walk from inside to outside: for an
// operator or spotter outside all but the ring (OutRing then tells that the
// place needs cover), for anybody else outside everything.
//
// It crosses no stretch, obstacle or vehicle and enters no zone that the
// walker is not already in, save the ring; it never ends behind an anchor or
// line end. ok is false if there is no such way.
func (in *PeopleIn) wayOut(from plan.Point, role string) (to plan.Point, farM quantity.Length, ring, ok bool) {
	n := len(in.Zones)
	state := make([]bool, 3*n)
	w := walk{was: state[:n], from: state[n : 2*n], now: state[2*n:], boxes: make([]box, n), events: make([]event, 0, 64)}
	var kinds [len(order)]bool // the walker already is in a zone of that kind
	inner := false             // in one that is not the ring
	for i := range in.Zones {
		z := &in.Zones[i]
		w.boxes[i] = boxOf(z.Outline)
		w.from[i] = w.boxes[i].meets(from, from) && inside(z.Outline, from)
		if k := slices.Index(order[:], z.Kind); w.from[i] && k >= 0 {
			kinds[k] = true
			inner = inner || z.Kind != part.ZoneStandOff
		}
	}
	for i := range in.Zones {
		k := slices.Index(order[:], in.Zones[i].Kind)
		w.was[i] = w.from[i] || k >= 0 && kinds[k]
	}
	// An operator or spotter leaves all but the ring; inside the ring alone the
	// way leads out of the ring as well.
	ringToo := role != plan.RoleOperator && role != plan.RoleSpotter || !inner
	best := math.Inf(1)
	bestRay := -1
	try := func(r int) {
		a := 2 * math.Pi * float64(r) / wayRays
		dir := plan.Point{X: math.Cos(a), Y: math.Sin(a)}
		limit := min(best, in.blocked(from, dir))
		d, found := in.leave(from, dir, limit, ringToo, &w)
		if !found || d >= best {
			return
		}
		p := add(from, dir, d)
		if in.behind(p) {
			return
		}
		best, to, bestRay = d, p, r
	}
	for r := 0; r < wayRays; r += wayCoarse {
		try(r)
	}
	near := bestRay
	for r := range wayRays {
		// Beside the best coarse way, or everywhere if there was none.
		if r%wayCoarse != 0 && (near < 0 || turns(r, near) < wayCoarse) {
			try(r)
		}
	}
	if math.IsInf(best, 1) {
		return plan.Point{}, 0, false, false
	}
	for i := range in.Zones {
		ring = ring || in.Zones[i].Kind == part.ZoneStandOff && inside(in.Zones[i].Outline, to)
	}
	return to, quantity.Length(best), ring, true
}

// turns is how many directions lie between two, the short way round.
func turns(r, s int) int {
	d := (r - s + wayRays) % wayRays
	return min(d, wayRays-d)
}

// event is a ray going into or out of a zone.
type event struct {
	at   float64
	zone int
}

// walk is what a search for a way out knows of each zone: whether the walker
// is in one of its kind, in it at the start, in it now.
type walk struct {
	was, from, now []bool
	boxes          []box // about each zone
	events         []event
}

// leave is how far along a ray the walker is out of every zone that counts and
// has entered none they were not in. Whether they are in a zone changes only
// where the ray meets its edge, so it is looked at anew only past an edge.
func (in *PeopleIn) leave(from, dir plan.Point, limitM float64, ringToo bool, w *walk) (float64, bool) {
	counts := func(i int) bool { return ringToo || in.Zones[i].Kind != part.ZoneStandOff }
	// What lies beyond the best way so far cannot matter.
	reachM := min(wayFarM, limitM+2*wayPastM)
	w.events = in.edges(w, from, dir, reachM, counts)
	copy(w.now, w.from)
	still := 0 // zones that count and that the walker is in
	for i, is := range w.now {
		if is && counts(i) {
			still++
		}
	}
	last, fresh := 0.0, 0
	for i := 0; i <= len(w.events); i++ {
		next := float64(wayFarM)
		if i < len(w.events) {
			next = w.events[i].at
		}
		stop := next-last > 2*wayPastM || i == len(w.events) // room to stand in
		d := (last + next) / 2
		if stop {
			d = last + wayPastM
			if d >= limitM {
				return 0, false
			}
		}
		if stop || next > last {
			p := add(from, dir, d)
			for _, e := range w.events[fresh:i] {
				is := inside(in.Zones[e.zone].Outline, p)
				if is == w.now[e.zone] {
					continue
				}
				w.now[e.zone] = is
				if !is {
					still--
					continue
				}
				still++
				if !w.was[e.zone] {
					return 0, false // it would lead through another zone
				}
			}
			fresh = i
			if stop && still == 0 {
				return d, true
			}
		}
		last = next
	}
	return 0, false
}

// edges lists where a ray meets the edges of zones that count, nearest first.
func (in *PeopleIn) edges(w *walk, from, dir plan.Point, reachM float64, counts func(i int) bool) []event {
	ev := w.events[:0]
	far := add(from, dir, reachM)
	for i := range in.Zones {
		z := &in.Zones[i]
		if !counts(i) || len(z.Outline) == 0 || !w.boxes[i].meets(from, far) {
			continue
		}
		a := z.Outline[len(z.Outline)-1]
		sa := cross(dir, sub(a, from))
		for _, b := range z.Outline {
			sb := cross(dir, sub(b, from))
			// Only an edge with its ends on both sides of the ray, or on it, can
			// meet it.
			if sa <= edgeM && sb >= -edgeM || sa >= -edgeM && sb <= edgeM {
				if s, hit := cuts(from, far, a, b); hit {
					ev = append(ev, event{s * reachM, i})
				}
			}
			a, sa = b, sb
		}
	}
	slices.SortFunc(ev, func(a, b event) int { return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.zone, b.zone)) })
	return ev
}

// box is the upright box about an outline. The zero value is that of none.
type box struct {
	lo, hi plan.Point
	any    bool
}

func boxOf(ps []plan.Point) box {
	if len(ps) == 0 {
		return box{}
	}
	b := box{ps[0], ps[0], true}
	for _, q := range ps {
		b.lo = plan.Point{X: min(b.lo.X, q.X), Y: min(b.lo.Y, q.Y)}
		b.hi = plan.Point{X: max(b.hi.X, q.X), Y: max(b.hi.Y, q.Y)}
	}
	return b
}

// meets tells that the box about the segment p–q reaches the box. A box that
// does not is crossed by no part of the segment.
func (b *box) meets(p, q plan.Point) bool {
	return b.any && max(p.X, q.X) >= b.lo.X-edgeM && min(p.X, q.X) <= b.hi.X+edgeM &&
		max(p.Y, q.Y) >= b.lo.Y-edgeM && min(p.Y, q.Y) <= b.hi.Y+edgeM
}

// blocked is how far a ray runs before a stretch, an obstacle or a vehicle.
func (in *PeopleIn) blocked(from, dir plan.Point) float64 {
	far := add(from, dir, wayFarM)
	least := float64(wayFarM)
	meet := func(a, b plan.Point) {
		if s, hit := cuts(from, far, a, b); hit {
			least = min(least, s*wayFarM)
		}
	}
	for _, s := range in.Stretches {
		meet(s.A, s.B)
	}
	for i := range in.Obstacles {
		o := in.Obstacles[i].Outline
		for k, a := range o {
			meet(a, o[(k+1)%len(o)])
		}
	}
	for i := range in.Vehicles {
		f := in.Vehicles[i].Footprint
		for k, a := range f {
			meet(a, f[(k+1)%len(f)])
		}
	}
	return least
}

// behind tells that a place lies behind an anchor or a line end, seen along
// the line: what lets go there flies on that way.
func (in *PeopleIn) behind(p plan.Point) bool {
	half := math.Cos(book().behindDeg * math.Pi / 180)
	check := func(at, from plan.Point) bool {
		u, ok := unit(sub(at, from))
		v, ok2 := unit(sub(p, at))
		return ok && ok2 && dot(u, v) >= half && in.inRing(p)
	}
	for _, e := range in.Ends {
		if check(e.At, e.From) {
			return true
		}
	}
	for _, s := range in.Stretches {
		if s.Block == "" && check(s.B, s.A) {
			return true
		}
	}
	return false
}

// inRing: outside every stand-off ring there is no "behind" any more.
func (in *PeopleIn) inRing(p plan.Point) bool {
	for i := range in.Zones {
		if in.Zones[i].Kind == part.ZoneStandOff && inside(in.Zones[i].Outline, p) {
			return true
		}
	}
	return false
}

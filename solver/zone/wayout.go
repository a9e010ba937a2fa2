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
	ringToo := role != plan.RoleOperator && role != plan.RoleSpotter
	if !ringToo {
		// Inside the ring alone the way leads out of the ring as well.
		ringToo = true
		for i := range in.Zones {
			if in.Zones[i].Kind != part.ZoneStandOff && inside(in.Zones[i].Outline, from) {
				ringToo = false
				break
			}
		}
	}
	standsIn := func(kind part.ZoneKind) bool {
		for i := range in.Zones {
			if in.Zones[i].Kind == kind && inside(in.Zones[i].Outline, from) {
				return true
			}
		}
		return false
	}
	was := make([]bool, len(in.Zones)) // the walker already is in a zone of that kind
	for i := range in.Zones {
		was[i] = standsIn(in.Zones[i].Kind)
	}
	best := math.Inf(1)
	events := make([]event, 0, 64)
	for r := range wayRays {
		a := 2 * math.Pi * float64(r) / wayRays
		dir := plan.Point{X: math.Cos(a), Y: math.Sin(a)}
		limit := min(best, in.blocked(from, dir))
		d, found := in.leave(from, dir, limit, ringToo, was, &events)
		if !found || d >= best {
			continue
		}
		p := add(from, dir, d)
		if in.behind(p) {
			continue
		}
		best, to = d, p
	}
	if math.IsInf(best, 1) {
		return plan.Point{}, 0, false, false
	}
	for i := range in.Zones {
		ring = ring || in.Zones[i].Kind == part.ZoneStandOff && inside(in.Zones[i].Outline, to)
	}
	return to, quantity.Length(best), ring, true
}

// event is a ray going into or out of a zone.
type event struct {
	at   float64
	zone int
}

// leave is how far along a ray the walker is out of every zone that counts and
// has entered none they were not in.
func (in *PeopleIn) leave(from, dir plan.Point, limitM float64, ringToo bool, was []bool, events *[]event) (float64, bool) {
	far := add(from, dir, wayFarM)
	ev := (*events)[:0]
	defer func() { *events = ev }()
	counts := func(kind part.ZoneKind) bool { return ringToo || kind != part.ZoneStandOff }
	for i := range in.Zones {
		z := &in.Zones[i]
		if !counts(z.Kind) || len(z.Outline) == 0 {
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
					ev = append(ev, event{s * wayFarM, i})
				}
			}
			a, sa = b, sb
		}
	}
	slices.SortFunc(ev, func(a, b event) int { return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.zone, b.zone)) })
	// Between two events nothing changes: look at the middle of each gap, or
	// just past the last edge.
	last := 0.0
	for i := 0; i <= len(ev); i++ {
		next := float64(wayFarM)
		if i < len(ev) {
			next = ev[i].at
		}
		if next-last > 2*wayPastM || i == len(ev) {
			d := last + wayPastM
			if d >= limitM {
				return 0, false
			}
			free := true
			p := add(from, dir, d)
			for j := range in.Zones {
				z := &in.Zones[j]
				if counts(z.Kind) && inside(z.Outline, p) {
					free = false
					if !was[j] {
						return 0, false // it would lead through another zone
					}
				}
			}
			if free {
				return d, true
			}
		} else if next > last {
			// A sliver: not a place to stop, but still no other zone.
			p := add(from, dir, (last+next)/2)
			for j := range in.Zones {
				z := &in.Zones[j]
				if counts(z.Kind) && !was[j] && inside(z.Outline, p) {
					return 0, false
				}
			}
		}
		last = next
	}
	return 0, false
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

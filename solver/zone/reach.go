package zone

import (
	"math"
	"slices"

	"kedge/solver/part"
	"kedge/solver/plan"
)

// Control is how a winch that pulls is worked, and where it is.
type Control struct {
	Vehicle plan.ID
	At      plan.Point // of the winch
	Kind    string     // plan.ControlWireless …
	CableM  float64    // how far its cable reaches; 0: not known
}

// works reports whether a winch can be worked by somebody who stands at a place, or
// that nobody knows that it cannot.
func (c *crowd) works(at plan.Point) bool {
	for i := range c.Controls {
		switch k := &c.Controls[i]; {
		case k.Kind == plan.ControlCab:
		case k.Kind == plan.ControlCable && k.CableM > 0 && dist(k.At, at) > k.CableM:
		default:
			return true
		}
	}
	return len(c.Controls) == 0
}

// Worked says so if somebody pulls and nobody is said to work a winch, from where
// they stand or from its vehicle: where they are is then not looked at.
func Worked(in *PeopleIn, found *[]part.Finding) {
	if found == nil || len(in.Controls) == 0 {
		return
	}
	for i := range in.People {
		p := &in.People[i]
		sits := slices.ContainsFunc(in.Controls, func(k Control) bool { return k.Vehicle == p.Vehicle })
		if p.Role == plan.RoleOperator || p.Role == plan.RoleDriver && sits {
			return
		}
	}
	raise(found, "nobody-at-winch", part.Caution, []plan.ID{in.Controls[0].Vehicle})
}

// nearestCable is the cable whose winch is nearest.
func (c *crowd) nearestCable(at plan.Point) (k *Control) {
	for i := range c.Controls {
		if x := &c.Controls[i]; x.Kind == plan.ControlCable && x.CableM > 0 && (k == nil || dist(x.At, at) < dist(k.At, at)) {
			k = x
		}
	}
	return k
}

// reach judges where an operator stands by how the winch is worked.
func (c *crowd) reach(p *plan.Person, s *Standing, radiusM float64, found *[]part.Finding) {
	if len(c.Controls) == 0 {
		return
	}
	for i := range c.Controls {
		k := &c.Controls[i]
		switch {
		case k.Vehicle == s.Vehicle:
			return // at the switch, whatever it is
		case k.Kind == plan.ControlUnknown:
			part.NotDecided(found, "operator-out-of-reach", p.ID, part.Lack{Thing: k.Vehicle, Member: "winch.control"})
		case k.Kind == plan.ControlCable && !(k.CableM > 0):
			part.NotDecided(found, "operator-out-of-reach", p.ID, part.Lack{Thing: k.Vehicle, Member: "winch.control_cable_m"})
		}
	}
	k := c.nearestCable(s.At)
	out := !c.works(s.At)
	switch {
	case out && k == nil:
		raise(found, "operator-not-in-cab", part.Warning, []plan.ID{p.ID, c.Controls[0].Vehicle})
		return
	case k == nil, !out && (len(s.Inside) == 0 || s.OutKnown && !s.OutRing):
		return // it reaches, or the way out that is proposed does
	}
	id, none := "operator-bound-to-zone", "operator-bound-to-zone-no-place"
	values := []part.Value{part.Length("reach", k.CableM)}
	if out {
		id, none = "operator-out-of-reach", "operator-out-of-reach-no-place"
		values = append(values, part.Length("from", dist(k.At, s.At)))
	}
	f := raise(found, id, part.Warning, []plan.ID{p.ID, k.Vehicle}, values...)
	if at, ok := c.place(k, s.At, radiusM); ok {
		f.Values = append(f.Values, part.Length("place", dist(k.At, at)), bearing("toward", k.At, at))
		return
	}
	f.ID = none
}

// place is the nearest place to somebody that a cable reaches and that touches
// no zone.
func (c *crowd) place(k *Control, from plan.Point, radiusM float64) (at plan.Point, ok bool) {
	const rings = 10 // of places that are tried, from the end of the cable inward (ours)
	least := math.Inf(1)
	for ring := range rings {
		r := k.CableM * float64(rings-ring) / rings
		for i := range wayRays {
			p := add(k.At, rays()[i], r)
			if d := dist(p, from); d < least && c.free(p, radiusM) {
				at, least, ok = p, d, true
			}
		}
	}
	return at, ok
}

// free reports whether a disc touches no zone, obstacle or vehicle.
func (c *crowd) free(at plan.Point, radiusM float64) bool {
	for i := range c.walls {
		if w := &c.walls[i]; reaches(&w.box, at, at, radiusM) && touched(w.outline, at, radiusM) {
			return false
		}
	}
	for i := range c.Zones {
		if c.touches(i, at, radiusM) {
			return false
		}
	}
	return true
}

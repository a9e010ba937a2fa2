package zone

import (
	"math"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Vehicle is the ground a vehicle covers, for those who sit in it and those
// who walk round it.
type Vehicle struct {
	ID        plan.ID
	Footprint []plan.Point
}

// PeopleIn is who stands where, and what there is around them. Zones are the
// union over the whole travel.
type PeopleIn struct {
	People    []plan.Person
	Zones     []part.Zone
	Stretches []Stretch // nobody walks across one; straps too
	Obstacles []plan.Obstacle
	Vehicles  []Vehicle
	Ends      []End
	// Sees tells whether two places see each other, and what stands between.
	// nil: straight across the outlines of obstacles nobody sees over.
	Sees func(a, b plan.Point) (by plan.ID, ok bool)
}

// Standing is where one person stands with respect to the zones.
type Standing struct {
	Person   plan.ID
	At       plan.Point
	Vehicle  plan.ID         // sits in it
	Inside   []part.ZoneKind // bight first, stand-off last
	Out      plan.Point      // end of the nearest way out, if OutKnown
	OutKnown bool
	OutRing  bool            // the way out ends inside the stand-off ring, at a place still to be covered
	OutM     quantity.Length // how far it is
	End      plan.ID         // thing of the nearest line end
	EndM     quantity.Length // how far that is; meaningful if End is set
}

// inner tells that a person is inside more than the ring.
func (s *Standing) inner() bool { return len(s.Inside) > 0 && s.Inside[0] != part.ZoneStandOff }

// People says of each person which zones they stand in, by role:
//
//	bystander           outside everything
//	operator, spotter   outside all but the ring; in the ring only at a place
//	                    marked with its reason (a notice), unmarked a warning
//	in a vehicle        told what they sit in; marked cover lowers it to a notice
//
// A cover never answers for bight, recoil, release or any other inner zone of
// a person on foot. The nearest way out crosses no stretch, no obstacle, no
// vehicle and no zone the person does not already stand in, and never ends
// behind an anchor. Hidden people count as well.
func People(in PeopleIn, found *[]part.Finding) []Standing {
	out := make([]Standing, 0, len(in.People))
	for i := range in.People {
		out = append(out, in.one(&in.People[i], found))
	}
	if found != nil {
		in.sight(out, found)
	}
	return out
}

func (in *PeopleIn) one(p *plan.Person, found *[]part.Finding) Standing {
	s := Standing{Person: p.ID, At: p.At}
	if p.Vehicle != "" {
		for i := range in.Vehicles {
			if v := &in.Vehicles[i]; v.ID == p.Vehicle && len(v.Footprint) > 0 {
				s.Vehicle, s.At = v.ID, middle(v.Footprint)
			}
		}
	}
	if !finitePoint(s.At) {
		if found != nil {
			raise(found, "person-not-placed", part.Danger, []plan.ID{p.ID})
		}
		return s
	}
	s.Inside = in.kinds(&s)
	endWord := in.nearest(&s)
	if len(s.Inside) > 0 && s.Vehicle == "" {
		s.Out, s.OutM, s.OutRing, s.OutKnown = in.wayOut(s.At, p.Role)
	}
	if found != nil {
		in.judge(p, &s, endWord, found)
	}
	return s
}

// Inside is the kinds of zone that a place lies in, each once, bight first and
// stand-off last; its edge is inside. nil: outside the drawn zones.
func Inside(zones []part.Zone, p plan.Point) []part.ZoneKind {
	in := PeopleIn{Zones: zones}
	return in.kinds(&Standing{At: p})
}

// kinds are the zones that a person stands in, once each. Someone in a vehicle
// is in a zone if any of the vehicle is.
func (in *PeopleIn) kinds(s *Standing) []part.ZoneKind {
	var kinds []part.ZoneKind
	for _, k := range order {
		for i := range in.Zones {
			z := &in.Zones[i]
			if z.Kind != k || z.Thing == s.Vehicle && s.Vehicle != "" && (k == part.ZoneRollAway || k == part.ZoneSlide) {
				continue // a vehicle's own path is where its driver goes
			}
			if inside(z.Outline, s.At) || s.Vehicle != "" && in.touches(s.Vehicle, z.Outline) {
				kinds = append(kinds, k)
				break
			}
		}
	}
	return kinds
}

// touches tells whether a corner of a vehicle lies in a zone, or a corner of
// the zone in the vehicle, or their edges cross.
func (in *PeopleIn) touches(id plan.ID, outline []plan.Point) bool {
	for i := range in.Vehicles {
		v := &in.Vehicles[i]
		if v.ID != id {
			continue
		}
		for j, a := range v.Footprint {
			b := v.Footprint[(j+1)%len(v.Footprint)]
			if inside(outline, a) {
				return true
			}
			for k, c := range outline {
				if _, ok := cuts(a, b, c, outline[(k+1)%len(outline)]); ok {
					return true
				}
			}
		}
		return len(outline) > 0 && inside(v.Footprint, outline[0])
	}
	return false
}

// nearest finds the line end nearest to a person, and its word. Without ends
// it is the nearest end of a stretch, under the name of the ring.
func (in *PeopleIn) nearest(s *Standing) string {
	least, w := math.Inf(1), "line end"
	if len(in.Ends) == 0 {
		for _, z := range in.Zones {
			if z.Kind == part.ZoneStandOff && inside(z.Outline, s.At) {
				s.End = z.Thing
				break
			}
		}
		for _, t := range in.Stretches {
			least = min(least, dist(t.A, s.At), dist(t.B, s.At))
		}
		if !math.IsInf(least, 1) {
			s.EndM = quantity.Length(least)
		}
		return w
	}
	for _, e := range in.Ends {
		if d := dist(e.At, s.At); d < least {
			least, w = d, e.Word
			s.End, s.EndM = e.Thing, quantity.Length(d)
		}
	}
	return w
}

func (in *PeopleIn) judge(p *plan.Person, s *Standing, endWord string, found *[]part.Finding) {
	role := p.Role
	switch role {
	case plan.RoleOperator, plan.RoleSpotter, plan.RoleBystander:
	case plan.RoleDriver:
		if s.Vehicle == "" {
			raise(found, "driver-on-foot", part.Caution, []plan.ID{p.ID})
			role = plan.RoleBystander
		}
	default:
		raise(found, "role-not-known", part.Caution, []plan.ID{p.ID})
		role = plan.RoleBystander
	}
	if p.Vehicle != "" && s.Vehicle == "" {
		raise(found, "vehicle-not-there", part.Caution, []plan.ID{p.ID})
	}
	if len(s.Inside) == 0 {
		return
	}
	covered := p.Cover != ""
	first := word("zone", string(s.Inside[0]))
	switch {
	case s.Vehicle != "":
		level := part.Warning
		if covered || !s.inner() {
			level = part.Notice
		}
		raise(found, "person-in-vehicle", level, []plan.ID{p.ID, s.Vehicle}, first)
	case s.inner():
		f := raise(found, "person-in-zone", part.Danger, []plan.ID{p.ID}, first, count("zones", len(s.Inside)))
		addWay(f, s)
	case role == plan.RoleBystander:
		addWay(in.ring(found, "bystander-in-stand-off", part.Danger, p, s, endWord), s)
	case covered:
		in.ring(found, "stand-off-covered", part.Notice, p, s, endWord)
	default:
		addWay(in.ring(found, "person-in-stand-off", part.Warning, p, s, endWord), s)
	}
}

// ring says how far from which end of a line a person stands.
func (in *PeopleIn) ring(found *[]part.Finding, id string, level part.Level, p *plan.Person, s *Standing, endWord string) *part.Finding {
	f := raise(found, id, level, []plan.ID{p.ID, s.End})
	f.Values = append(f.Values, length("from", float64(s.EndM)), word("end", endWord))
	return f
}

// addWay adds the way out, or says that none was found.
func addWay(f *part.Finding, s *Standing) {
	if !s.OutKnown {
		f.ID += "-no-way"
		return
	}
	d := sub(s.Out, s.At)
	b := quantity.FromRadians(math.Atan2(d.X, d.Y)).Normal()
	f.Values = append(f.Values, length("way", float64(s.OutM)), part.Value{Name: "toward", Unit: part.UnitBearing, X: float64(b)})
}

// sight checks that each operator and each spotter see each other.
func (in *PeopleIn) sight(at []Standing, found *[]part.Finding) {
	sees := in.Sees
	if sees == nil {
		sees = in.across
	}
	for i := range in.People {
		if in.People[i].Role != plan.RoleOperator {
			continue
		}
		for j := range in.People {
			if in.People[j].Role != plan.RoleSpotter {
				continue
			}
			if by, ok := sees(at[i].At, at[j].At); !ok {
				things := []plan.ID{in.People[i].ID, in.People[j].ID}
				if by == "" {
					raise(found, "no-sight", part.Warning, things)
					continue
				}
				raise(found, "sight-blocked", part.Warning, things, part.Value{Name: "by", Unit: part.UnitThing, Text: string(by)})
			}
		}
	}
}

// across is the plain check of sight: no outline of an obstacle that people
// cannot see over stands between.
func (in *PeopleIn) across(a, b plan.Point) (by plan.ID, ok bool) {
	for i := range in.Obstacles {
		o := &in.Obstacles[i]
		if o.SeeOver {
			continue
		}
		if inside(o.Outline, a) || inside(o.Outline, b) {
			return o.ID, false
		}
		for k, c := range o.Outline {
			if _, hit := cuts(a, b, c, o.Outline[(k+1)%len(o.Outline)]); hit {
				return o.ID, false
			}
		}
	}
	return "", true
}

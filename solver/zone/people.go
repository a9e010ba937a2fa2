package zone

import (
	"math"
	"slices"

	"github.com/golang/geo/r2"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
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
	Stretches []Stretch // all that is loaded, straps too: nobody walks across one
	Obstacles []plan.Obstacle
	Vehicles  []Vehicle
	Ends      []End
	Covers    []Cover   // what places inside the ring may be covered by
	Controls  []Control // of the winches that pull
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
	Pocket   bool            // all kinds inside but the ring are those that shut the place in
	Out      plan.Point      // end of the nearest way out, if OutKnown
	OutKnown bool
	OutRing  bool            // the way out ends inside the stand-off ring, at a place still to be covered
	OutM     quantity.Length // how far it is
	End      plan.ID         // thing of the nearest line end
	EndM     quantity.Length // how far that is; meaningful if End is set
}

// inner reports whether a person is inside more than the ring.
func (s *Standing) inner() bool { return len(s.Inside) > 0 && s.Inside[0] != part.ZoneStandOff }

// crowd is one call's work: what is the same for all people.
type crowd struct {
	*PeopleIn
	of    []extent // of each zone
	walls []wall
}

// extent is how a zone lies: what is asked of it for each person and way.
type extent struct {
	box    r2.Rect
	kind   int  // its place in order; -1: not known
	known  bool // convex is
	convex bool
}

// wall is what nobody walks through.
type wall struct {
	outline []plan.Point
	box     r2.Rect
}

func newCrowd(in *PeopleIn) *crowd {
	c := &crowd{PeopleIn: in, of: make([]extent, len(in.Zones)), walls: make([]wall, 0, len(in.Obstacles)+len(in.Vehicles))}
	for i := range in.Zones {
		c.of[i] = extent{box: terrain.Bounds(in.Zones[i].Outline), kind: slices.Index(order[:], in.Zones[i].Kind)}
	}
	for i := range in.Obstacles {
		c.walls = append(c.walls, wall{in.Obstacles[i].Outline, terrain.Bounds(in.Obstacles[i].Outline)})
	}
	for i := range in.Vehicles {
		c.walls = append(c.walls, wall{in.Vehicles[i].Footprint, terrain.Bounds(in.Vehicles[i].Footprint)})
	}
	return c
}

// spans adds the parts of a ray from which a disc touches a zone.
func (c *crowd) spans(out []span, i int, from, dir plan.Point, radiusM float64) []span {
	l := &c.of[i]
	if !l.known {
		l.known, l.convex = true, terrain.Convex(c.Zones[i].Outline)
	}
	return spans(out, c.Zones[i].Outline, l.convex, i, from, dir, radiusM)
}

// touches reports whether a disc reaches into a zone.
func (c *crowd) touches(zone int, at plan.Point, radiusM float64) bool {
	return reaches(&c.of[zone].box, at, at, radiusM) && touched(c.Zones[zone].Outline, at, radiusM)
}

// People says of each person which zones they stand in, by role:
//
//	bystander           outside everything, in a vehicle as on foot
//	operator, spotter   outside all but the ring; in the ring only behind a
//	                    cover that is there (a notice), else a warning
//	driver              in the ring where the vehicle has to be steered (a
//	                    notice), a warning in any other zone
//
// A cab covers nobody, and no cover answers for bight, recoil, release or any
// other zone but the ring. A person is a disc and the doubt of the place; who
// can walk out only through a zone is inside it. The nearest way out crosses no
// stretch, no obstacle, no vehicle and no zone the person does not already
// stand in, never ends behind an anchor, and keeps an operator within reach of
// the winch. Hidden people count as well.
func People(in PeopleIn, found *[]part.Finding) []Standing {
	if len(in.People) == 0 {
		return nil
	}
	c := newCrowd(&in)
	out := make([]Standing, 0, len(in.People))
	for i := range in.People {
		out = append(out, c.one(&in.People[i], found))
	}
	if found != nil {
		in.sight(out, found)
	}
	return out
}

func (c *crowd) one(p *plan.Person, found *[]part.Finding) Standing {
	s := Standing{Person: p.ID, At: p.At}
	radius := PersonReach(p)
	var seat []plan.Point // of the vehicle they sit in
	if p.Vehicle != "" {
		for i := range c.Vehicles {
			if v := &c.Vehicles[i]; v.ID == p.Vehicle && len(v.Footprint) > 0 {
				s.Vehicle, s.At, seat = v.ID, middle(v.Footprint), v.Footprint
			}
		}
	}
	if !finitePoint(s.At) || !finite(radius) {
		if found != nil {
			raise(found, "person-not-placed", part.Danger, []plan.ID{p.ID})
		}
		return s
	}
	s.Inside = c.kinds(&s, seat, radius)
	role := p.Role
	if role == plan.RoleDriver && s.Vehicle == "" || !slices.Contains(roles, role) {
		role = plan.RoleBystander
	}
	ringToo := role != plan.RoleOperator && role != plan.RoleSpotter
	if s.Vehicle == "" && !s.inner() && (len(s.Inside) == 0 || !ringToo) {
		if ring := c.pocket(s.At, radius, ringToo); ring != nil {
			s.Pocket = true
			for _, k := range s.Inside {
				if !slices.Contains(ring, k) {
					ring = append(ring, k)
				}
			}
			s.Inside = ring
		}
	}
	endWord := c.nearest(&s)
	if len(s.Inside) > 0 && s.Vehicle == "" && !s.Pocket {
		s.Out, s.OutM, s.OutRing, s.OutKnown = c.wayOut(s.At, radius, role)
	}
	if found != nil {
		c.judge(p, role, &s, endWord, radius, found)
	}
	return s
}

// roles are those that this version knows.
var roles = []string{plan.RoleOperator, plan.RoleSpotter, plan.RoleBystander, plan.RoleDriver}

// kinds are the zones that a person stands in, once each. Someone in a vehicle
// is in a zone if any of the vehicle is.
func (c *crowd) kinds(s *Standing, seat []plan.Point, radiusM float64) []part.ZoneKind {
	var in [len(order)]bool
	about := terrain.Bounds(seat)
	for i := range c.Zones {
		k := c.of[i].kind
		if k < 0 || in[k] {
			continue
		}
		z := &c.Zones[i]
		switch {
		case s.Vehicle == "":
			in[k] = c.touches(i, s.At, radiusM)
		case z.Thing == s.Vehicle && (z.Kind == part.ZoneRollAway || z.Kind == part.ZoneSlide || z.Kind == part.ZoneCasualty):
			// a vehicle's own path is where its driver goes
		default:
			in[k] = reaches(&c.of[i].box, plan.Point(about.Lo()), plan.Point(about.Hi()), 0) && terrain.Overlap(seat, z.Outline)
		}
	}
	var kinds []part.ZoneKind
	for k, is := range in {
		if is {
			kinds = append(kinds, order[k])
		}
	}
	return kinds
}

// nearest finds the line end nearest to a person, and its word. Without ends
// it is the nearest end of a stretch, under the name of the ring.
func (in *PeopleIn) nearest(s *Standing) string {
	least, w := math.Inf(1), "line end"
	if len(in.Ends) == 0 {
		for _, z := range in.Zones {
			if z.Kind == part.ZoneStandOff && touched(z.Outline, s.At, 0) {
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

func (c *crowd) judge(p *plan.Person, role string, s *Standing, endWord string, radiusM float64, found *[]part.Finding) {
	switch {
	case !slices.Contains(roles, p.Role):
		raise(found, "role-not-known", part.Caution, []plan.ID{p.ID})
	case p.Role == plan.RoleDriver && s.Vehicle == "":
		raise(found, "driver-on-foot", part.Caution, []plan.ID{p.ID})
	}
	if p.Vehicle != "" && s.Vehicle == "" {
		raise(found, "vehicle-not-there", part.Caution, []plan.ID{p.ID})
	}
	if p.Cover != plan.CoverNone && p.Cover != plan.CoverGround && p.Cover != plan.CoverTimber {
		raise(found, "cover-free-text", part.Caution, []plan.ID{p.ID}, part.Text("text", p.Cover))
	}
	if role == plan.RoleOperator {
		c.reach(p, s, radiusM, found)
	}
	if len(s.Inside) == 0 {
		return
	}
	first := part.Word("zone", string(s.Inside[0]))
	switch {
	case s.Vehicle != "":
		level := part.Warning
		switch {
		case role == plan.RoleBystander:
			level = part.Danger
		case role == plan.RoleDriver && !s.inner():
			level = part.Notice
		}
		raise(found, "person-in-vehicle", level, []plan.ID{p.ID, s.Vehicle}, first)
	case s.Pocket:
		raise(found, "person-in-pocket", part.Danger, []plan.ID{p.ID}, first)
	case s.inner():
		addWay(raise(found, inZone.of(s), part.Danger, []plan.ID{p.ID}, first, part.Count("zones", len(s.Inside))), s)
	case role == plan.RoleBystander:
		addWay(c.ring(found, bystanderInRing.of(s), part.Danger, p, s, endWord), s)
	case c.covered(p, s.At, found):
		c.ring(found, "stand-off-covered", part.Notice, p, s, endWord)
	default:
		addWay(c.ring(found, inRing.of(s), part.Warning, p, s, endWord), s)
	}
}

// ring says how far from which end of a line a person stands.
func (in *PeopleIn) ring(found *[]part.Finding, id string, level part.Level, p *plan.Person, s *Standing, endWord string) *part.Finding {
	f := raise(found, id, level, []plan.ID{p.ID, s.End})
	f.Values = append(f.Values, part.Length("from", s.EndM), part.Word("end", endWord))
	return f
}

// leave are the findings that somebody should go: with the way out, and where none
// was found.
type leave struct{ way, none string }

var (
	inZone          = leave{"person-in-zone", "person-in-zone-no-way"}
	inRing          = leave{"person-in-stand-off", "person-in-stand-off-no-way"}
	bystanderInRing = leave{"bystander-in-stand-off", "bystander-in-stand-off-no-way"}
)

// Leaving is the rule of a finding that somebody should go, by its id, the same
// whether a way out was found or not, and whether it is out of more than the ring;
// empty: it is no such finding.
func Leaving(id string) (rule string, inner bool) {
	for _, l := range [...]leave{inZone, inRing, bystanderInRing} {
		if id == l.way || id == l.none {
			return l.way, l == inZone
		}
	}
	return "", false
}

func (l leave) of(s *Standing) string {
	if s.OutKnown {
		return l.way
	}
	return l.none
}

// addWay adds the way out, if one was found.
func addWay(f *part.Finding, s *Standing) {
	if s.OutKnown {
		f.Values = append(f.Values, part.Length("way", s.OutM), bearing("toward", s.At, s.Out))
	}
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
		if touched(o.Outline, a, 0) || touched(o.Outline, b, 0) {
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

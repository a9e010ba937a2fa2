package zone

import (
	"cmp"
	"math"
	"slices"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// Places are where an operator and a spotter may be placed, the nearest to what they look
// after first: each outside all zones, each operator's in sight of each spotter's, all in
// sight of every winch and of the casualty.
type Places struct {
	Operators, Spotters []plan.Point
}

const (
	placesMost  = 3   // of each
	placesCells = 44  // of the grid that is looked through, along the longer side (ours)
	placesApart = 0.1 // of two places, of the longer side, and 4 m at least (ours)
	placesSpare = 2.0 // metres from any zone and from what stands there (ours: a step or two)
	placesTried = 400 // of each role, nearest first (ours: so many always hold a pair that is not far behind)
)

// FindPlaces looks for places on a grid round the zones. see is where the casualty is
// on its way; the winches are those of Controls. Without zones there are none: nobody is placed
// outside of what was not drawn.
func FindPlaces(in PeopleIn, see []plan.Point) Places {
	if len(in.Zones) == 0 {
		return Places{}
	}
	f := finder{crowd: newCrowd(&in)}
	var winches []plan.Point
	for i := range in.Controls {
		winches = append(winches, in.Controls[i].At)
	}
	at, side := f.grid()
	f.apartM = max(4, placesApart*side)
	all := slices.Concat(see, winches)
	at = slices.DeleteFunc(at, func(p plan.Point) bool { return !f.free(p) || !f.sees(p, all) })
	if len(winches) == 0 {
		winches = see
	}
	operators := f.able(at, plan.RoleOperator, winches)
	spotters := f.able(at, plan.RoleSpotter, see)
	return f.pick(operators, spotters)
}

// finder is one search for places.
type finder struct {
	*crowd
	apartM float64
}

// grid is the places that are looked at, and the longer side of what they cover.
func (f *finder) grid() (at []plan.Point, side float64) {
	box := terrain.Bounds(f.Zones[0].Outline)
	for i := range f.Zones {
		box = box.Union(terrain.Bounds(f.Zones[i].Outline))
	}
	side = max(box.X.Length(), box.Y.Length())
	step := side / placesCells
	box = box.ExpandedByMargin(2*step + 2*placesSpare) // outside of it too
	for y := box.Y.Lo; y <= box.Y.Hi; y += step {
		for x := box.X.Lo; x <= box.X.Hi; x += step {
			at = append(at, plan.Point{X: x, Y: y})
		}
	}
	return at, side
}

// able are the places of those that are free and in sight where somebody may stand and
// do their work, the nearest to what they look after first.
func (f *finder) able(at []plan.Point, role string, near []plan.Point) []plan.Point {
	far := func(p plan.Point) float64 {
		d := math.Inf(1)
		for _, q := range near {
			d = min(d, dist(p, q))
		}
		return d
	}
	out := slices.Clone(at)
	slices.SortStableFunc(out, func(p, q plan.Point) int { return cmp.Compare(far(p), far(q)) })
	kept := out[:0]
	for _, p := range out {
		var found []part.Finding
		who := plan.Person{Role: role, At: p}
		if s := f.one(&who, &found); len(s.Inside) == 0 && len(found) == 0 && (role != plan.RoleOperator || f.works(p)) {
			kept = append(kept, p)
		}
		if len(kept) == placesTried {
			break
		}
	}
	return kept
}

// free reports whether a place is away from zones and things, with some to spare.
func (f *finder) free(p plan.Point) bool {
	radius := PersonReach(&plan.Person{At: p}) + placesSpare
	for i := range f.walls {
		if w := &f.walls[i]; reaches(&w.box, p, p, radius) && touched(w.outline, p, radius) {
			return false
		}
	}
	for i := range f.Zones {
		if f.touches(i, p, radius) {
			return false
		}
	}
	return true
}

// sees reports whether a place is in sight of all of others.
func (f *finder) sees(p plan.Point, all []plan.Point) bool {
	for _, q := range all {
		if _, ok := f.across(p, q); !ok {
			return false
		}
	}
	return true
}

// pick takes the nearest pair that see each other, and then others of each role that see all
// of the other, apart from those taken.
func (f *finder) pick(operators, spotters []plan.Point) (out Places) {
	apart := func(p plan.Point, from ...plan.Point) bool {
		return !slices.ContainsFunc(from, func(q plan.Point) bool { return dist(p, q) < f.apartM })
	}
	for _, o := range operators {
		i := slices.IndexFunc(spotters, func(s plan.Point) bool { return apart(s, o) && f.sees(s, []plan.Point{o}) })
		if i >= 0 {
			out = Places{[]plan.Point{o}, []plan.Point{spotters[i]}}
			break
		}
	}
	if len(out.Operators) == 0 {
		return out
	}
	more := func(all []plan.Point, to *[]plan.Point, other []plan.Point) {
		for _, p := range all {
			if len(*to) == placesMost {
				return
			}
			if apart(p, slices.Concat(*to, other)...) && f.sees(p, other) {
				*to = append(*to, p)
			}
		}
	}
	more(operators, &out.Operators, out.Spotters)
	more(spotters, &out.Spotters, out.Operators)
	return out
}

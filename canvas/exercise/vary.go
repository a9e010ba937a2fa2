package exercise

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"

	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/refusal"
)

// Vary says what differs from variant to variant, and how far. The zero value
// is [UsualVary].
type Vary struct {
	MassShare float64           // of the casualty's mass either way, 0 to 0.5
	PlaceM    float64           // of vehicles and anchors in each direction, metres, 0 to 5
	Lengths   []quantity.Length // of slings round trunks, one is taken; none: they stay
	Trunks    float64           // share of the trunks' diameters either way, 0 to 0.5
	TurnDeg   float64           // of the casualty's direction, and with it its way out, either way, degrees, 0 to 45
}

// UsualVary is what differs if nobody says: a fifth of the mass, a metre and a
// half of place, slings of the usual lengths, a tenth of the trunks, five degrees.
// (ours)
func UsualVary() Vary {
	return Vary{MassShare: 0.2, PlaceM: 1.5, Lengths: []quantity.Length{2, 3, 4, 5, 6}, Trunks: 0.1, TurnDeg: 5}
}

// IsZero reports whether nothing varies.
func (v Vary) IsZero() bool {
	return v.MassShare == 0 && v.PlaceM == 0 && v.Trunks == 0 && v.TurnDeg == 0 && len(v.Lengths) == 0
}

// Check says what is out of bounds.
func (v Vary) Check() error {
	for _, x := range []struct {
		what  string
		x, to float64
	}{{"mass", v.MassShare, 0.5}, {"place", v.PlaceM, 5}, {"trunks", v.Trunks, 0.5}, {"turn", v.TurnDeg, 45}} {
		if !(x.x >= 0 && x.x <= x.to) {
			return varyBeyond.At("", x.what, written(x.to), written(x.x))
		}
	}
	for _, l := range v.Lengths {
		if !(l >= 0.001 && l < 100) { // a plan holds none shorter
			return varySling.At("", written(float64(l)))
		}
	}
	return nil
}

// ParseVary reads what differs as the command line writes it, "mass=20%,
// place=1.5, trunks=10%, turn=5, slings=2/3/4": places and lengths in metres,
// turns in degrees. What is not named stays as it is.
func ParseVary(s string) (Vary, error) {
	var v Vary
	seen := map[string]bool{}
	for _, item := range strings.Split(s, ",") {
		name, value, _ := strings.Cut(strings.TrimSpace(item), "=")
		share := func(to *float64) error {
			x, err := strconv.ParseFloat(strings.TrimSuffix(value, "%"), 64)
			if strings.HasSuffix(value, "%") {
				x /= 100
			}
			*to = x
			return err
		}
		var err error
		switch name {
		case "mass":
			err = share(&v.MassShare)
		case "trunks":
			err = share(&v.Trunks)
		case "place":
			v.PlaceM, err = strconv.ParseFloat(value, 64)
		case "turn":
			v.TurnDeg, err = strconv.ParseFloat(strings.TrimSuffix(value, "°"), 64)
		case "slings":
			for _, l := range strings.Split(value, "/") {
				var x float64
				if x, err = strconv.ParseFloat(l, 64); err != nil {
					break
				}
				v.Lengths = append(v.Lengths, quantity.Length(x))
			}
		default:
			return v, varyNothing.At("", refusal.Clip(name, mostShown))
		}
		if err != nil {
			return v, varyFigure.At("", refusal.Clip(item, mostShown))
		}
		if seen[name] {
			return v, varyTwice.At("", name)
		}
		seen[name] = true
	}
	if v.IsZero() {
		return v, variesNot.At("", refusal.Clip(s, mostShown))
	}
	return v, v.Check()
}

// Steps to which varied figures are rounded, so that they can be given. (ours)
const (
	massStepKG = 10.0
	placeStepM = 0.1
	trunkStepM = 0.01

	turnStepDeg = 0.5
)

// Varied is the plan with figures drawn anew, of vehicles and of what its rigs
// hang on.
func Varied(p *plan.Plan, rig plan.ID, v Vary, random *rand.Rand) *plan.Plan {
	either := func(by float64) float64 { return (2*random.Float64() - 1) * by }
	vary := func(x, by, step float64) float64 { // by zero it stays as it is, unrounded
		if by == 0 {
			return x
		}
		return math.Round((x+either(by))/step) * step
	}
	for i := range p.Site.Vehicles {
		w := p.Site.Vehicles[i]
		if w.Stuck != nil && w.Mass > 0 && v.MassShare > 0 {
			w.Mass = quantity.Mass(max(vary(float64(w.Mass), float64(w.Mass)*v.MassShare, massStepKG), massStepKG))
		}
		if w.Stuck != nil && v.TurnDeg > 0 {
			w.Bearing = quantity.Degrees(vary(float64(w.Bearing), v.TurnDeg, turnStepDeg)).Normal()
			if way, known := w.Stuck.WayBearing.Get(); known && w.Stuck.Way == plan.WayFree {
				stuck := *w.Stuck
				stuck.WayBearing = plan.Known(quantity.Degrees(vary(float64(way), v.TurnDeg, turnStepDeg)).Normal())
				w.Stuck = &stuck
			}
		}
		w.At.X, w.At.Y = vary(w.At.X, v.PlaceM, placeStepM), vary(w.At.Y, v.PlaceM, placeStepM)
		p = plan.WithVehicle(p, i, w)
	}
	on := map[plan.ID]bool{}
	for i := range p.Rigs {
		for id := range hangsOn(&p.Rigs[i]) {
			on[id] = true
		}
	}
	for i := range p.Site.Anchors {
		a := p.Site.Anchors[i]
		if !on[a.ID] {
			continue // it would make drawings smaller and nothing else
		}
		a.At.X, a.At.Y = vary(a.At.X, v.PlaceM, placeStepM), vary(a.At.Y, v.PlaceM, placeStepM)
		if v.Trunks > 0 { // girth and trunk of one stem grow together
			thicker := func(x quantity.Length) quantity.Length {
				return quantity.Length(max(vary(float64(x), float64(x)*v.Trunks, trunkStepM), trunkStepM))
			}
			switch was := a.Trunk; {
			case was > 0:
				a.Trunk = thicker(was)
				a.Girth = quantity.Length(math.Round(float64(a.Girth*a.Trunk/was)/trunkStepM) * trunkStepM)
			case a.Girth > 0:
				a.Girth = thicker(a.Girth)
			}
		}
		p = plan.WithAnchor(p, i, a)
	}
	return variedSlings(p, rig, v.Lengths, random)
}

// variedSlings is the plan with other lengths of the slings on anchors.
func variedSlings(p *plan.Plan, rig plan.ID, lengths []quantity.Length, random *rand.Rand) *plan.Plan {
	i := p.RigIndex(rig)
	if i < 0 || len(lengths) == 0 {
		return p
	}
	r := p.Rigs[i]
	r.Slings = slices.Clone(r.Slings)
	for k := range r.Slings {
		if _, ok := anchorOf(p, r.Slings[k].On.Thing); ok {
			r.Slings[k].Length = lengths[random.IntN(len(lengths))]
		}
	}
	return plan.WithRig(p, i, r)
}

func anchorOf(p *plan.Plan, id plan.ID) (*plan.Anchor, bool) {
	for i := range p.Site.Anchors {
		if p.Site.Anchors[i].ID == id {
			return &p.Site.Anchors[i], true
		}
	}
	return nil, false
}

package effort

import (
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// offBodyM, metres, is how far outside a vehicle's outline, or above its roof, a
// point or fairlead may sit before its place counts as a slip: drawbars, winch
// bumpers and frames on a roof reach less. (ours)
const offBodyM = 0.5

// Body judges the figures of a vehicle's body against each other: axles and
// wheels within its outline, its centre of gravity between its axles and under
// its roof. A figure that nobody entered goes with any. It says the first pair
// that cannot both be, a centre of gravity under what is
// possible, and a brake that holds more than the vehicle weighs: no grip is more
// than that. (ours)
func Body(v *plan.Vehicle, found *[]part.Finding) {
	if found == nil {
		return
	}
	reach := quantity.Length(0)
	if v.FrontOverhang > 0 && v.Wheelbase > 0 {
		reach = v.FrontOverhang + v.Wheelbase
	}
	for _, x := range [...]struct {
		inner, outer string
		x, y         quantity.Length
	}{
		{"field-wheelbase_m", "field-length_m", v.Wheelbase, v.Length},
		{"nose-to-rear-axle", "field-length_m", reach, v.Length},
		{"field-track_m", "field-width_m", v.Track, v.Width},
		{"field-cg_height_m", "field-height_m", v.CGHeight, v.Height},
		{"field-cg_behind_front_axle_m", "field-wheelbase_m", v.CGBehindFront, v.Wheelbase},
	} {
		if x.x > 0 && x.y > 0 && x.x > x.y {
			odd(found, v.ID, x.inner, x.outer, x.x, x.y)
			return
		}
	}
	if m := v.Mass + v.Load; v.Mass > 0 && float64(v.BrakeForce) > float64(m)*quantity.Gravity {
		raise(found, "figures-odd", part.Warning, v.ID, part.Word("first", "field-brake_force_n"), part.Force("figure", v.BrakeForce),
			part.Word("second", "field-mass_kg"), mass("limit", float64(m)))
	}
	if v.CGHeight > 0 && v.CGHeight < leastCGShare*v.Height {
		odd(found, v.ID, "field-cg_height_m", "field-height_m", v.CGHeight, v.Height)
	}
}

// leastCGShare is the share of its height under which no vehicle's centre of
// gravity lies: that of an empty flat bed of its full height lies higher. (ours)
const leastCGShare = 0.2

// Drum judges the drum of a vehicle's winch against the vehicle: it is no wider
// than that, and no higher; id is its part.
func Drum(v *plan.Vehicle, id string, found *[]part.Finding) {
	w := v.Winch
	if found == nil || w == nil {
		return
	}
	switch {
	case v.Width > 0 && w.DrumWidth > v.Width:
		odd(found, v.ID, "field-drum_width_m", "vehicle-width", w.DrumWidth, v.Width).Parts = []string{id}
	case v.Height > 0 && w.FlangeDiameter > v.Height:
		odd(found, v.ID, "field-flange_diameter_m", "vehicle-height", w.FlangeDiameter, v.Height).Parts = []string{id}
	}
}

// Place judges whether a hook-on point or the fairlead of a vehicle sits on its
// body; id is its part.
func Place(v *plan.Vehicle, id string, ahead, left, height quantity.Length, found *[]part.Finding) {
	if found == nil {
		return
	}
	for _, x := range [...]struct {
		of, body string
		x, y, to quantity.Length
	}{
		{"field-ahead_m", "vehicle-length", max(ahead, -ahead), v.Length, v.Length / 2},
		{"field-left_m", "vehicle-width", max(left, -left), v.Width, v.Width / 2},
		{"field-height_m", "vehicle-height", height, v.Height, v.Height},
	} {
		if x.y > 0 && x.x > x.to+offBodyM {
			odd(found, v.ID, x.of, x.body, x.x, x.y).Parts = []string{id}
			return
		}
	}
}

// odd says that two figures of a vehicle cannot both be.
func odd(found *[]part.Finding, id plan.ID, a, b string, x, y quantity.Length) *part.Finding {
	return raise(found, "figures-odd", part.Warning, id, part.Word("first", a), part.Length("figure", x), part.Word("second", b), part.Length("limit", y))
}

// Between these a vehicle that is pulled, or pulls, may weigh what it will, in
// all and for each square metre of its outline; a figure beyond them is a slip
// of the unit more often than a vehicle. (ours: below a quad bike and above the
// heaviest truck on soft ground; below a light trailer and above what runs on
// tracks)
const (
	mostMassKg       = 100e3
	leastMassKgPerM2 = 40
	mostMassKgPerM2  = 3000
	mostLoadTimes    = 2 // its own mass: a lorry carries under twice, a trailer not much over
)

// LeastMass is what a vehicle weighs at least, and LeastLoad what one would enter as
// cargo; less is a slip of the unit, t taken for kg. (ours)
const (
	LeastMass quantity.Mass = 100
	LeastLoad quantity.Mass = 20
)

// oddMass says so if a vehicle's mass is one that no vehicle has, or none of its
// size, and if its load is one that nobody would enter. It reports whether the
// mass is known and that of no vehicle at all.
func oddMass(found *[]part.Finding, v *plan.Vehicle) bool {
	kg, area := float64(v.Mass+v.Load), float64(v.Length)*float64(v.Width)
	odd := weighed(v) && (kg < float64(LeastMass) || kg > mostMassKg)
	if found == nil {
		return odd
	}
	if v.Load > 0 && v.Load < LeastLoad {
		raise(found, "load-odd", part.Warning, v.ID, mass("mass", float64(v.Load)))
	}
	if v.Mass > 0 && v.Load > mostLoadTimes*v.Mass {
		raise(found, "load-heavy", part.Warning, v.ID, mass("mass", float64(v.Load)), mass("own", float64(v.Mass)))
	}
	switch {
	case odd:
		raise(found, "mass-odd", part.Warning, v.ID, mass("mass", kg))
	case area > 0 && (kg < leastMassKgPerM2*area || kg > mostMassKgPerM2*area):
		raise(found, "mass-against-size", part.Warning, v.ID, mass("mass", kg), part.Length("length", v.Length), part.Length("width", v.Width))
	}
	return odd
}

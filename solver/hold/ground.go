package hold

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// GroundIn is an anchor in or on the ground, as pulled.
type GroundIn struct {
	Anchor  *plan.Anchor
	Soil    string           // as resolved: the anchor's own, else the ground's
	Rise    quantity.Degrees // of the line above the ground, at the anchor; negative: below
	Run     float64          // of a deadman: run per rise of the line in its trench, 1 to 4; 0: not known
	Lacks   string           // member of the ground without which the rise is not known; empty: none
	Lifting bool
}

// Pickets is what a picket holdfast holds: the table by layout (US Navy
// NAVEDTRA 14251, FM 5-125 Table 4-1) times the soil's factor. Rows do not add:
// a layout the table lacks has no hold. Loose dry sand has none, so in soil that
// nobody named there is none that is known; soil that the table lacks, but that
// is no dry sand, counts as the lowest factor.
func Pickets(in GroundIn, derivation *part.Derivation, found *[]part.Finding) part.Capacity {
	a, b := in.Anchor, book()
	var l *layout
	for i := range b.layouts {
		if b.layouts[i].name == a.Layout {
			l = &b.layouts[i]
		}
	}
	if l == nil {
		raise(found, "pickets-layout-unknown", part.Warning, a.ID, "type-layout")
		if a.Layout == "" {
			lacks(found, "layout")
		}
		return part.Capacity{}
	}
	groundLacks(found, "pickets-lifted", a.ID, in.Lacks)
	rise := float64(in.Rise)
	lifted := !(rise <= facts.PicketLean.Conservative().X)
	if lifted {
		raise(found, "pickets-lifted", part.Warning, a.ID, "lower-line", part.Number("rise", part.UnitAngle, rise),
			part.Number("most", part.UnitAngle, facts.PicketLean.Conservative().X))
	}
	f, known, ok := picketSoil(b, in.Soil)
	switch {
	case in.Soil == "":
		part.NotDecided(found, "pickets-in-sand", a.ID, part.Lack{Thing: a.ID, Member: "soil"})
		return part.Capacity{}
	case !ok:
		raise(found, "pickets-in-sand", part.Danger, a.ID, "other-anchor")
		return part.Capacity{}
	case lifted:
		return part.Capacity{}
	}
	if !known {
		raise(found, "soil-unknown", part.Notice, a.ID, "type-soil")
	}
	low := l.X * f.X
	if derivation.On() {
		derivation.Add("picket-hold", part.Number("hold", part.UnitLimit, low), cited("layout", part.UnitLimit, l.Figure), cited("soil", part.UnitFactor, f))
	}
	return divided(ultimate(low, low, low), l.Confidence.Weaker(f.Confidence), "picket table", isPreset(a), in.Lifting, derivation)
}

// Deadman is what a buried log holds:
//
//	HP(mean depth, slope of the line) · diameter · (length − trench) · soil
//
// by US Army TM 5-5420-278-10, Table 9 and FM 5-125, Table 4-2. Between printed
// depths the shallower counts, between slopes the steeper; outside the table
// nothing. The steeper of the trench's slope and that of the line as drawn
// counts; a trench's that is not known counts as 1:1, a line steeper than that
// as a vertical pull. The low end takes 2 ft off for the trench, the high end 1 ft.
func Deadman(in GroundIn, derivation *part.Derivation, found *[]part.Finding) part.Capacity {
	a := in.Anchor
	depth, length, dia := float64(a.Depth), float64(a.LogLength), float64(a.LogDiameter)
	if !deadmanSized(a, found) {
		return part.Capacity{}
	}
	groundLacks(found, "deadman-line-steep", a.ID, in.Lacks)
	run := in.slopeRun(found)
	hp, ok := HoldingPower(a.Depth, run)
	if !ok {
		raise(found, "deadman-outside-table", part.Danger, a.ID, "", part.Length("depth", depth), part.Number("run", part.UnitNone, in.Run))
		return part.Capacity{}
	}
	f, known := deadmanSoil(in.Soil)
	if !known {
		raise(found, "soil-unknown", part.Notice, a.ID, "type-soil")
		if in.Soil == "" {
			lacks(found, "soil")
		}
	}
	if ratio := length / dia; !(ratio <= facts.DeadmanSlenderLog.Conservative().X) {
		raise(found, "deadman-slender", part.Warning, a.ID, "", part.Number("ratio", part.UnitNone, ratio),
			part.Number("most", part.UnitNone, facts.DeadmanSlenderLog.Conservative().X), part.Length("length", dia*facts.DeadmanSlenderLog.Conservative().X))
	}
	if back, ok := SetBack(a.Depth, a.LogDiameter, run); ok {
		raise(found, "deadman-set-back", part.Notice, a.ID, "", part.Length("back", back))
	}
	hold := func(trench facts.Figure) float64 { return hp * f.X * dia * math.Max(0, length-trench.X) }
	low, high := hold(facts.DeadmanTrenchFM.Conservative()), hold(facts.DeadmanTrenchTM.Conservative())
	if !(low > 0) {
		raise(found, "deadman-too-short", part.Danger, a.ID, "", part.Length("length", length), part.Length("trench", facts.DeadmanTrenchFM.Conservative().X))
		return part.Capacity{}
	}
	face := facts.DeadmanLoam.Table()
	if run == 0 {
		face = facts.DeadmanLoamVertical.Table()
	}
	if derivation.On() {
		formula := "deadman-power"
		if run == 0 {
			formula = "deadman-power-vertical"
		}
		size := facts.Must(facts.DeadmanLoam).ToSI()
		if run == 0 {
			size = facts.Must(facts.DeadmanLoamVertical).ToSI()
		}
		face.X = hp / kN
		derivation.Add(formula, part.Number("power", part.UnitNone, face.X), typed("depth", part.UnitLength, depth), computed("run", part.UnitNone, run),
			cited("pounds", part.UnitNone, facts.Figure{X: hp / size, ID: face.ID, Confidence: face.Confidence}), computed("size", part.UnitNone, size/kN))
		derivation.Add("deadman-hold", part.Number("hold", part.UnitLimit, low), computed("power", part.UnitNone, face.X),
			typed("diameter", part.UnitNone, dia), typed("length", part.UnitNone, length),
			cited("trench", part.UnitNone, facts.DeadmanTrenchFM.Conservative()), cited("soil", part.UnitFactor, f))
	}
	return divided(ultimate(low, low, high), face.Confidence.Weaker(f.Confidence).Weaker(facts.DeadmanTrenchFM.Conservative().Confidence), "deadman table", isPreset(a), in.Lifting, derivation)
}

// deadmanSized reports whether a log's depth and size can be computed with, and
// tells what of them is not known or cannot be.
func deadmanSized(a *plan.Anchor, found *[]part.Finding) bool {
	sizes := [...]struct {
		name string
		x    float64
	}{{"depth_m", float64(a.Depth)}, {"log_length_m", float64(a.LogLength)}, {"log_diameter_m", float64(a.LogDiameter)}}
	known, possible := true, true
	for _, s := range sizes {
		known, possible = known && s.x != 0, possible && positive(s.x)
	}
	switch {
	case !known:
		raise(found, "deadman-size-unknown", part.Warning, a.ID, "type-size")
		for _, s := range sizes {
			if s.x == 0 {
				lacks(found, s.name)
			}
		}
	case !possible:
		raise(found, "anchor-impossible", part.Danger, a.ID, "type-size")
	}
	return known && possible
}

// slopeRun is the run per rise to read the table with, the steeper of the
// trench's and the drawn line's: 0 for a vertical pull, not a number if the line
// has no direction. A line that leaves its trench upward is told: it lifts the
// log; one that leaves it downward bears on the trench's lip.
func (in GroundIn) slopeRun(found *[]part.Finding) float64 {
	rise := float64(in.Rise)
	drawn := math.Inf(1) // level, or falling
	switch {
	case math.IsNaN(rise):
		return rise
	case rise > 45: // 1:1, the steepest slope of the table
		drawn = 0
	case rise > 0:
		drawn = 1 / math.Tan(in.Rise.Radians())
	}
	if in.Run == 0 {
		if drawn == 0 {
			return 0
		}
		raise(found, "deadman-slope-unknown", part.Notice, in.Anchor.ID, "type-slope")
		part.NotDecided(found, "deadman-line-steep", in.Anchor.ID, part.Lack{Thing: in.Anchor.ID, Member: "line_run"})
		return 1
	}
	trench := float64(quantity.FromRadians(math.Atan(1 / in.Run)))
	both := [...]part.Value{part.Number("rise", part.UnitAngle, rise), part.Number("trench", part.UnitAngle, trench), part.Number("run", part.UnitNone, in.Run)}
	switch run := math.Min(in.Run, drawn); {
	case rise > trench+slopeSlack && math.Floor(run) < math.Floor(in.Run):
		raise(found, "deadman-line-steep", part.Warning, in.Anchor.ID, "lower-line", both[:]...)
	case rise > trench+slopeSlack:
		raise(found, "deadman-line-steep", part.Caution, in.Anchor.ID, "lower-line", both[:]...)
	case rise < trench-slopeSlack:
		raise(found, "deadman-line-flat", part.Notice, in.Anchor.ID, "", both[:]...)
	}
	return math.Min(in.Run, drawn)
}

// slopeSlack, degrees: closer than this a line lies in its trench [ours].
const slopeSlack = 1

// HoldingPower is what a deadman's face holds in loam, newtons per square metre,
// at a mean depth and for a line that rises 1 in run; run 0 is a vertical pull.
// ok is false outside the table: 3 to 7 ft deep, 1:1 to 1:4.
func HoldingPower(depth quantity.Length, run float64) (pascals float64, ok bool) {
	b := book()
	key := math.Round(float64(depth)*depthDigits) / depthDigits // 7 ft typed in feet is the table's 2.1336 m
	if run == 0 {
		x, ok := facts.Must(facts.DeadmanLoamVertical).Step(key)
		return x * facts.Must(facts.DeadmanLoamVertical).ToSI(), ok
	}
	if !(run >= 1) || !(run <= b.slopes[len(b.slopes)-1][0]) {
		return 0, false
	}
	column := slopeColumns[int(run)-1] // between slopes the steeper
	x, ok := facts.Must(facts.DeadmanLoam).StepOf(column, key)
	return x * facts.Must(facts.DeadmanLoam).ToSI(), ok
}

// depthDigits, steps per metre: a depth is read to the micrometre, far finer
// than any spade, far coarser than the rounding of a feet-to-metres product.
const depthDigits = 1e6

// slopeColumns are the table's columns, steepest first. A fixed list.
var slopeColumns = [...]string{"slope_1_1", "slope_1_2", "slope_1_3", "slope_1_4"}

// SetBack is how far behind the place where the line leaves the ground a
// deadman lies:
//
//	(mean depth + face/2) · run
//
// Source: FM 5-125 ch. 4. ok is false for a vertical pull.
func SetBack(depth, face quantity.Length, run float64) (quantity.Length, bool) {
	if !positive(float64(depth)) || !positive(float64(face)) || !positive(run) {
		return 0, false
	}
	return (depth + face/2) * quantity.Length(run), true
}

// BoulderIn is a boulder as pulled.
type BoulderIn struct {
	Thing   plan.ID
	Mass    quantity.Mass
	Volume  float64          // above the ground as drawn, m³; 0: not known
	Rise    quantity.Degrees // of the line above the ground, at the boulder
	Slope   quantity.Degrees // of the ground toward the pull, falling positive
	Lacks   string           // member of the ground without which the slope is not known; empty: none
	Preset  bool
	Lifting bool
}

// Boulder is what a loose boulder holds before it slides:
//
//	F = W·(μ·cos θ − sin θ) / (cos β + μ·sin β), at most μ·W
//
// θ the fall of the ground toward the pull, β the rise of the line; μ 0.2,
// likely 0.35, high 0.5 [ours]. A line that presses the boulder down, or
// ground that rises toward the pull, earns nothing. On ground of unknown slope
// there is no hold.
func Boulder(in BoulderIn, derivation *part.Derivation, found *[]part.Finding) part.Capacity {
	w := float64(in.Mass.Weight())
	switch {
	case in.Mass == 0:
		raise(found, "boulder-mass-unknown", part.Warning, in.Thing, "type-mass")
		lacks(found, "mass_kg")
		return part.Capacity{}
	case !positive(w):
		raise(found, "anchor-impossible", part.Danger, in.Thing, "type-mass")
		return part.Capacity{}
	}
	if most := buried * in.Volume * facts.BoulderDensity.High().X; in.Volume > 0 && float64(in.Mass) > most {
		raise(found, "boulder-mass-odd", part.Warning, in.Thing, "type-mass", part.Number("mass", part.UnitMass, in.Mass), part.Number("most", part.UnitMass, most))
		return part.Capacity{}
	}
	if groundLacks(found, "boulder-slides", in.Thing, in.Lacks) {
		return part.Capacity{}
	}
	rise := float64(in.Rise)
	if !(rise < 90) || math.IsNaN(float64(in.Slope)) {
		raise(found, "boulder-lifted", part.Danger, in.Thing, "lower-line", part.Number("rise", part.UnitAngle, rise))
		return part.Capacity{}
	}
	if rise > boulderRise {
		raise(found, "boulder-lifted", part.Caution, in.Thing, "lower-line", part.Number("rise", part.UnitAngle, rise))
	}
	low, likely, high := in.slides(w, facts.BoulderFriction.Low().X), in.slides(w, facts.BoulderFriction.Likely().X), in.slides(w, facts.BoulderFriction.High().X)
	if !(low > 0) {
		raise(found, "boulder-slides", part.Danger, in.Thing, "other-anchor", part.Number("slope", part.UnitAngle, in.Slope))
		return part.Capacity{}
	}
	if derivation.On() {
		derivation.Add("boulder-weight", part.Force("weight", w), typed("mass", part.UnitMass, float64(in.Mass)), computed("gravity", part.UnitNone, quantity.Gravity/kN))
		derivation.Add("boulder-hold", part.Number("hold", part.UnitLimit, low), computed("weight", part.UnitForce, w), cited("friction", part.UnitNone, facts.BoulderFriction.Low()),
			computed("rise", part.UnitAngle, math.Max(0, rise)), computed("slope", part.UnitAngle, math.Max(0, float64(in.Slope))))
	}
	return divided(ultimate(low, likely, high), facts.BoulderFriction.Low().Confidence, "slides at μ·W", in.Preset, in.Lifting, derivation)
}

// buried is how many times as much as is seen of a boulder there may be of it [ours].
const buried = 2

// boulderRise, degrees: from here the lift is worth saying; at friction 0.35 it
// takes 8 % off the grip [ours].
const boulderRise = 15

// slides is the pull that makes a boulder of weight w slide with friction mu.
func (in BoulderIn) slides(w, mu float64) float64 {
	slope := math.Max(0, in.Slope.Radians())
	rise := math.Max(0, in.Rise.Radians())
	f := w * (mu*math.Cos(slope) - math.Sin(slope)) / (math.Cos(rise) + mu*math.Sin(rise))
	return math.Min(f, mu*w)
}

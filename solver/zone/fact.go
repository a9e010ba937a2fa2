package zone

import (
	"math"
	"slices"
	"sync"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// numbers are the handbook's figures in SI, resolved once.
type numbers struct {
	wire, stretch, other, least float64 // stand-off factors
	recoilDeg, pastEnd          float64
	releaseDeg                  float64
	treeReach, treeDeg          float64
	treeShare, treeHeight       float64
	rollMargin, rollRun         float64
	uprightMargin, uprightTall  float64
	behindDeg                   float64
	damperPlace, joinNear       float64
	hazard, lineShare           float64
	person, halfWidth           float64
	coverTrunk, coverHead       float64
	casualtyMargin              float64
	casualtyRun, casualtyLurch  float64 // where nobody knows them
}

// book reads the handbook; a test of this package asks for it.
var book = sync.OnceValue(func() *numbers {
	return &numbers{
		wire: facts.StandoffWire.Value(), stretch: facts.StandoffStretch.Value(), other: facts.StandoffOther.Value(), least: facts.StandoffLeast.Value(),
		recoilDeg: facts.RecoilHalfAngle.Value(), pastEnd: facts.RecoilPastEnd.Value(),
		releaseDeg: facts.ReleaseHalfAngle.Value(),
		treeReach:  facts.TreeFallReach.Value(), treeDeg: facts.TreeFallHalfAngle.Value(),
		treeShare: facts.TreeFallFromShare.Value(), treeHeight: facts.TreeFallHeightUnknown.Value(),
		rollMargin: facts.RollAwayMargin.Value(), rollRun: facts.RollAwayRunUnknown.Value(),
		uprightMargin: facts.UprightMargin.Value(), uprightTall: facts.UprightHeightUnknown.Value(),
		behindDeg:   facts.BehindHalfAngle.Value(),
		damperPlace: facts.DamperPlace.Value(), joinNear: facts.DamperJoinNear.Value(),
		hazard: facts.EnergyHazardous.Value(), lineShare: facts.RecoilLineShareHardware.Value(),
		person: facts.PersonRadius.Value(), halfWidth: facts.PersonHalfWidth.Value(),
		coverTrunk: facts.CoverTrunk.Value(), coverHead: facts.CoverHead.Value(),
		casualtyMargin: facts.CasualtyMargin.Value(), casualtyRun: facts.CasualtyTravelUnknown.Value(), casualtyLurch: facts.CasualtyLurchUnknown.Value(),
	}
})

// Factor is the stand-off factor of a material, with the row it comes from: 2
// for wire, 1.5 for what stretches, 1 for any other, and the greatest of them
// for a material nobody names.
func Factor(material string) (k float64, row facts.ID) {
	n := book()
	switch material {
	case plan.MaterialWire, "":
		return n.wire, facts.StandoffWire
	case plan.MaterialKinetic, plan.MaterialNylon, plan.MaterialFibre:
		return n.stretch, facts.StandoffStretch
	}
	return n.other, facts.StandoffOther
}

func length(name string, m float64) part.Value {
	return part.Value{Name: name, Unit: part.UnitLength, X: m}
}

func factor(name string, x float64) part.Value {
	return part.Value{Name: name, Unit: part.UnitFactor, X: x}
}

func word(name, id string) part.Value {
	return part.Value{Name: name, Unit: part.UnitText, Text: id}
}

// bearing is the direction from one place to another.
func bearing(name string, from, to plan.Point) part.Value {
	d := sub(to, from)
	return part.Value{Name: name, Unit: part.UnitBearing, X: float64(quantity.FromRadians(math.Atan2(d.X, d.Y)).Normal())}
}

func count(name string, n int) part.Value {
	return part.Value{Name: name, Unit: part.UnitCount, X: float64(n)}
}

func energy(name string, j float64) part.Value {
	return part.Value{Name: name, Unit: part.UnitEnergy, X: j}
}

func speed(name string, ms float64) part.Value {
	return part.Value{Name: name, Unit: part.UnitSpeed, X: ms}
}

// raise adds a finding. Call it only with found not nil.
func raise(found *[]part.Finding, id string, level part.Level, things []plan.ID, values ...part.Value) *part.Finding {
	f := part.Finding{ID: id, Level: level}
	if len(things) == 1 {
		f.About(things[0], "", values)
	} else {
		f.Things, f.Values = slices.Clone(things), slices.Clone(values)
	}
	*found = append(*found, f)
	return &(*found)[len(*found)-1]
}

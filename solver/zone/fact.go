package zone

import (
	"math"
	"slices"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Factor is the stand-off factor of a material, with the row it comes from: 2
// for wire, 1.5 for what stretches, 1 for any other, and the greatest of them
// for a material nobody names.
func Factor(material string) (k float64, row facts.ID) {
	switch material {
	case plan.MaterialWire, "":
		return facts.StandoffWire.Value(), facts.StandoffWire
	case plan.MaterialKinetic, plan.MaterialNylon, plan.MaterialFibre:
		return facts.StandoffStretch.Value(), facts.StandoffStretch
	}
	return facts.StandoffOther.Value(), facts.StandoffOther
}

// bearing is the direction from one place to another.
func bearing(name string, from, to plan.Point) part.Value {
	d := sub(to, from)
	return part.Number(name, part.UnitBearing, quantity.FromRadians(math.Atan2(d.X, d.Y)).Normal())
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

package words

import (
	"kedge/solver/part"
	"kedge/solver/travel"
)

// Happening is what happens on the way of a pull, in a few words with its place.
func (w *Words) Happening(e *travel.Happening, n Names) string {
	what := string(e.Kind)
	if e.Kind == travel.OffWayBeyond {
		what = "off-way"
	}
	name := func(id string) string {
		if id == "" {
			return ""
		}
		return w.nameOf(id, n)
	}
	thing := name(string(e.Thing))
	if thing == "" {
		thing = name(e.Part)
	}
	return w.Label("happens-"+what, part.Text("thing", thing), part.Text("other", name(string(e.Other))),
		part.Value{Name: "at", Unit: part.UnitLength, X: e.AtM}, part.Value{Name: "angle", Unit: part.UnitAngle, X: e.LimitDeg},
		part.Value{Name: "from", Unit: part.UnitCount, X: float64(e.From)}, part.Value{Name: "to", Unit: part.UnitCount, X: float64(e.To)},
		part.Value{Name: "used", Unit: part.UnitShare, X: e.After})
}

// Rerig is where to stop and rig anew, with what would come beyond it.
func (w *Words) Rerig(r *travel.Rerig, n Names) string {
	id, unit := "rerig-"+string(r.Kind), part.UnitShare
	switch {
	case r.Kind == travel.OffWayBeyond:
		id, unit = "rerig-off-way", part.UnitAngle
	case r.WorstIsOpen:
		id += "-open"
	}
	name := func(id string) string {
		if id == "" {
			return ""
		}
		return w.nameOf(id, n)
	}
	return w.Label(id, part.Text("thing", name(string(r.Thing))), part.Text("other", name(string(r.Other))), part.Text("part", name(r.Part)),
		part.Value{Name: "at", Unit: part.UnitLength, X: r.AtM}, part.Value{Name: "angle", Unit: part.UnitAngle, X: r.LimitDeg},
		part.Value{Name: "drawn", Unit: unit, X: r.Drawn}, part.Value{Name: "worst", Unit: unit, X: r.Worst}, part.Value{Name: "far", Unit: part.UnitLength, X: r.WorstM})
}

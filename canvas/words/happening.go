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
		part.Length("at", e.AtM), part.Number("angle", part.UnitAngle, e.LimitDeg),
		part.Count("from", e.From), part.Count("to", e.To),
		part.Number("used", part.UnitShare, e.After))
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
		part.Length("at", r.AtM), part.Number("angle", part.UnitAngle, r.LimitDeg),
		part.Number("drawn", unit, r.Drawn), part.Number("worst", unit, r.Worst), part.Length("far", r.WorstM))
}

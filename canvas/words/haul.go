package words

import (
	"strings"

	"kedge/solver/part"
	"kedge/solver/travel"
)

// Hauls are how long the winches of a pull take, one after another; empty: none
// pulls.
func (w *Words) Hauls(hauls []travel.Haul, n Names) string {
	var out []string
	for _, h := range hauls {
		name := part.Text("thing", w.nameOf(string(h.Vehicle), n))
		if !h.Known {
			out = append(out, w.Label("haul-unknown", name))
			continue
		}
		s := w.Label("haul", name, part.Value{Name: "time", Unit: part.UnitTime, X: float64(h.Time)}, part.Value{Name: "line", Unit: part.UnitLength, X: float64(h.Line)})
		if h.Rests > 0 {
			s += ", " + w.Label("haul-rests", part.Value{Name: "count", Unit: part.UnitCount, X: float64(h.Rests)})
		}
		out = append(out, s)
	}
	return strings.Join(out, " · ")
}

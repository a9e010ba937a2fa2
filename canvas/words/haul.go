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
		s := w.Label("haul", name, part.Number("time", part.UnitTime, h.Time), part.Length("line", h.Line))
		if h.Rests > 0 {
			s += ", " + w.Label("haul-rests", part.Count("count", h.Rests))
		}
		out = append(out, s)
	}
	return strings.Join(out, " · ")
}

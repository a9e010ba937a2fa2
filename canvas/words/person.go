package words

import (
	"math"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/quantity"
)

// Where says where a person stands: "inside bight and recoil", "outside the
// zones", that zones are missing, or that no zone was computed.
func (w *Words) Where(p solver.PersonAt) string {
	inside := p.Inside
	if !p.Zoned && len(inside) == 0 {
		return w.Label("no-zone-computed")
	}
	if len(inside) == 0 {
		if p.Partly {
			return w.Label("outside-partly")
		}
		return w.Label("outside")
	}
	zones := make([]string, len(inside))
	for i, k := range inside {
		zones[i] = w.Zone(k)
	}
	return w.Label("inside", part.Text("zones", w.List(zones)))
}

// Person is a person's line: "Spotter 1 · inside bight".
func (w *Words) Person(p solver.PersonAt, n Names) string {
	return w.nameOf(string(p.Person), n) + " · " + w.Where(p)
}

// WayOut says how far and which way the nearest place outside the drawn zones
// is, empty if none is known or none is needed.
func (w *Words) WayOut(p solver.PersonAt) string {
	east, north := p.Out.X-p.At.X, p.Out.Y-p.At.Y
	far := math.Hypot(east, north)
	if len(p.Inside) == 0 || !p.OutKnown || !(far > 0) || math.IsInf(far, 0) {
		return ""
	}
	return w.Label("way-out-of-zones",
		part.Length("length", far),
		part.Text("direction", w.Compass(quantity.FromRadians(math.Atan2(east, north)))))
}

// NoPlace says why nobody is offered a place to stand.
func (w *Words) NoPlace(a *solver.Assessment) string {
	if len(a.Zones) == 0 || a.ZonesPartly() {
		return w.Label("stand-not-computed")
	}
	return w.Label("stand-none")
}

// octant is the angle from one of the eight winds to the next, degrees.
const octant = 45

// Compass is the word of the nearest of eight winds to a bearing.
func (w *Words) Compass(bearing quantity.Degrees) string {
	b := float64(bearing.Normal())
	if math.IsNaN(b) {
		return w.Label("not-computed")
	}
	return w.Label("compass-" + plainNumber(math.Mod(math.Round(b/octant)*octant, 360)))
}

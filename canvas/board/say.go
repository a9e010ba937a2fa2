package board

import (
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// label is a fixed text of the screen.
func (sc *scene) label(id string, values ...part.Value) string { return sc.words.Label(id, values...) }

// say reports what was done or refused; it stands in the status line until the
// next event.
func (b *Board) say(what string) {
	b.report = what
	b.changed()
}

func degrees(name string, d quantity.Degrees) part.Value {
	return part.Number(name, part.UnitAngle, d)
}

// joined joins words with commas and an "and".
func joined(sc *scene, words []string) string {
	out := ""
	for i, w := range words {
		switch {
		case i == 0:
			out = w
		case i == len(words)-1:
			out += " " + sc.label("and") + " " + w
		default:
			out += ", " + w
		}
	}
	return out
}

// wayText is a length as shown live with the bearing of its last part: "24.4 m ·
// 275°".
func wayText(sc *scene, a, c plan.Point, lengthM float64) string {
	return sc.label("live-way", part.Text("length", lengthText(sc, lengthM)), part.Text("bearing", sc.words.Bearing(bearing(a, c))))
}

func lengthText(sc *scene, lengthM float64) string {
	return sc.words.Value(part.Length("", lengthM), nil)
}

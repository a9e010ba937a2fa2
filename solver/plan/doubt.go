package plan

import (
	"slices"

	"kedge/solver/quantity"
)

// Range is the range of one member of a thing: what its doubt says, widened to
// hold the value itself, or the value twice if it is not in doubt. The member
// is named as in the file, "mass_kg"; value is its value in the member's unit.
func Range(h *Head, member string, value float64) (low, high float64) {
	if d, ok := h.Doubt(member); ok {
		return min(d.Low, value), max(d.High, value)
	}
	return value, value
}

// Doubt is the doubt of one member, false if it has none.
func (h *Head) Doubt(member string) (Doubt, bool) { return DoubtOf(h.Doubts, member) }

// DoubtOf is the doubt of one member among those of a thing, false if it has none.
func DoubtOf(all []Doubt, member string) (Doubt, bool) {
	for _, d := range all {
		if d.Member == member {
			return d, true
		}
	}
	return Doubt{}, false
}

// OfPlace reports whether the member says where a thing stands.
func (d *Doubt) OfPlace() bool { return d.Member == memberEast || d.Member == memberNorth }

// North reports whether the member says how far north a thing stands.
func (d *Doubt) North() bool { return d.Member == memberNorth }

// Around is the range that a doubt says of a member of so much, widened to hold it. A
// thing may have been moved since its place was said to be known to ±: it is as well
// known there.
func (d *Doubt) Around(value float64) (low, high float64) {
	if half := (d.High - d.Low) / 2; d.PlusMinus && d.OfPlace() {
		return value - half, value + half
	}
	return min(d.Low, value), max(d.High, value)
}

// Preset reports whether the member still has the value the program proposed.
func (h *Head) Preset(member string) bool { return slices.Contains(h.Presets, member) }

// Preset reports whether the member still has the value the program proposed.
func (q *RecoveryPoint) Preset(member string) bool { return slices.Contains(q.Presets, member) }

// Preset reports whether the member still has the value the program proposed.
func (w *Winch) Preset(member string) bool { return slices.Contains(w.Presets, member) }

// Members of a thing that say where it stands.
const (
	memberEast  = "at.x_m"
	memberNorth = "at.y_m"
)

// PlaceDoubt is by how much a place is not known, to the east or west and to the north
// or south: half the width of what its doubts say. 0: it is known.
func (h *Head) PlaceDoubt() (east, north quantity.Length) {
	half := func(member string) quantity.Length {
		d, _ := h.Doubt(member)
		return quantity.Length((d.High - d.Low) / 2)
	}
	return half(memberEast), half(memberNorth)
}

// WithPlaceDoubt are the doubts of a thing at a place that is not known by ± r to any
// side; 0 or less: it is known. Those of other members stay.
func (h *Head) WithPlaceDoubt(at Point, r quantity.Length) []Doubt {
	all := slices.DeleteFunc(slices.Clone(h.Doubts), func(d Doubt) bool { return d.OfPlace() })
	if r > 0 {
		all = append(all, Doubt{Member: memberEast, Low: at.X - float64(r), High: at.X + float64(r), PlusMinus: true},
			Doubt{Member: memberNorth, Low: at.Y - float64(r), High: at.Y + float64(r), PlusMinus: true})
	}
	if len(all) == 0 {
		return nil
	}
	return all
}

// MovePlaceDoubt carries what is said of a place with a thing that is moved: it is as
// well known there.
func (h *Head) MovePlaceDoubt(dx, dy float64) {
	for i, d := range h.Doubts {
		by := dx
		if d.Member == memberNorth {
			by = dy
		}
		if d.OfPlace() {
			d.Low, d.High = d.Low+by, d.High+by
			h.Doubts = with(h.Doubts, i, d)
		}
	}
}

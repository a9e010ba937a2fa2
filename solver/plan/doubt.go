package plan

import "slices"

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
func (h *Head) Doubt(member string) (Doubt, bool) {
	for _, d := range h.Doubts {
		if d.Member == member {
			return d, true
		}
	}
	return Doubt{}, false
}

// Preset reports whether the member still has the value the program proposed.
func (h *Head) Preset(member string) bool { return slices.Contains(h.Presets, member) }

// Preset reports whether the member still has the value the program proposed.
func (q *RecoveryPoint) Preset(member string) bool { return slices.Contains(q.Presets, member) }

// Preset reports whether the member still has the value the program proposed.
func (w *Winch) Preset(member string) bool { return slices.Contains(w.Presets, member) }

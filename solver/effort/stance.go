package effort

import "kedge/solver/plan"

func abs(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}

// stance is a vehicle's contacts: x ahead of the middle of its footprint.
type stance struct {
	frontM, rearM float64
	cgM, cgHeight float64
	halfTrackM    float64
	cgPreset      bool // where its centre of gravity lies is a handbook's figure
}

// stand reads a vehicle's geometry. cgShare and cgHeightM stand in for a centre
// of gravity that is not known. ok is false without a wheelbase.
func stand(v *plan.Vehicle, cgShare, cgHeightM float64) (s stance, ok bool) {
	wb := float64(v.Wheelbase)
	if !(wb > 0) || !finite(wb, float64(v.Length), float64(v.FrontOverhang), float64(v.Track), float64(v.CGHeight), float64(v.CGBehindFront)) {
		return s, false
	}
	s.frontM = wb / 2
	if v.Length > 0 && v.FrontOverhang > 0 {
		s.frontM = float64(v.Length)/2 - float64(v.FrontOverhang)
	}
	s.rearM = s.frontM - wb
	behind := float64(v.CGBehindFront)
	if !(behind > 0) {
		behind, s.cgPreset = cgShare*wb, true
	}
	s.cgM = s.frontM - behind
	s.cgHeight = float64(v.CGHeight)
	if !(s.cgHeight > 0) {
		s.cgHeight, s.cgPreset = cgHeightM, true
	}
	s.halfTrackM = max(0, float64(v.Track)/2)
	return s, true
}

// cgHeight stands in for the height of a centre of gravity that nobody
// measured, metres: the handbook's own or its share of the track, whichever is
// further out at that end.
func cgHeight(v *plan.Vehicle, end int) float64 {
	n := book()
	h, share := n.cgHeight[end], n.cgHeightShare[end]*float64(v.Track)
	if !(share > 0) {
		return h
	}
	if end == low {
		return min(h, share)
	}
	return max(h, share)
}

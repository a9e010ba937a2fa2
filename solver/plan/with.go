package plan

import "slices"

// The edits below leave p as it is: they copy the list that changes and share
// everything else with the new plan. An index out of range gives p itself.

func with[T any](list []T, i int, x T) []T {
	list = slices.Clone(list)
	list[i] = x
	return list
}

// WithRig is p with r in place of the rig at i; with i = len(p.Rigs), r is
// added at the end.
func WithRig(p *Plan, i int, r Rig) *Plan {
	if i < 0 || i > len(p.Rigs) {
		return p
	}
	q := *p
	if i == len(p.Rigs) {
		q.Rigs = append(slices.Clone(p.Rigs), r)
	} else {
		q.Rigs = with(p.Rigs, i, r)
	}
	return &q
}

// WithVehicle is p with v in place of the vehicle at i.
func WithVehicle(p *Plan, i int, v Vehicle) *Plan {
	if i < 0 || i >= len(p.Site.Vehicles) {
		return p
	}
	q := *p
	q.Site.Vehicles = with(p.Site.Vehicles, i, v)
	return &q
}

// WithAnchor is p with a in place of the anchor at i.
func WithAnchor(p *Plan, i int, a Anchor) *Plan {
	if i < 0 || i >= len(p.Site.Anchors) {
		return p
	}
	q := *p
	q.Site.Anchors = with(p.Site.Anchors, i, a)
	return &q
}

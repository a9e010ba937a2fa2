package board

import (
	"math"
	"slices"

	"kedge/solver/plan"
)

// framing is the gesture that selects with a frame: what lies wholly inside.
func (b *Board) framing(from pointer) *gesture {
	return &gesture{from: from, frame: true,
		tap: func(b *Board) {
			if !from.mods.Shift {
				b.Select()
			}
		},
		outcome: func(p pointer) outcome {
			ids := inFrame(b.scene, from.at, p.at)
			if from.mods.Shift {
				ids = append(b.Selection(), ids...)
			}
			if ids == nil {
				ids = []plan.ID{}
			}
			return outcome{selected: ids}
		}}
}

// inFrame are the things that lie wholly in a frame.
func inFrame(sc *scene, a, c plan.Point) []plan.ID {
	lowX, highX, lowY, highY := math.Min(a.X, c.X), math.Max(a.X, c.X), math.Min(a.Y, c.Y), math.Max(a.Y, c.Y)
	var ids []plan.ID
	sc.everything(func(id plan.ID, _ plan.ThingKind, pts []plan.Point) {
		for _, p := range pts {
			if p.X < lowX || p.X > highX || p.Y < lowY || p.Y > highY {
				return
			}
		}
		if len(pts) > 0 {
			ids = append(ids, id)
		}
	})
	return ids
}

// everything visits all things that are shown, with the points that span them,
// in file order.
func (sc *scene) everything(visit func(id plan.ID, kind plan.ThingKind, pts []plan.Point)) {
	s := &sc.plan.Site
	shown := func(h *plan.Head, kind plan.ThingKind, pts ...plan.Point) {
		if !h.Hidden {
			visit(h.ID, kind, pts)
		}
	}
	for i := range s.Vehicles {
		c := s.Vehicles[i].Corners()
		shown(&s.Vehicles[i].Head, plan.ThingVehicle, c[:]...)
	}
	for i := range s.Anchors {
		shown(&s.Anchors[i].Head, plan.ThingAnchor, s.Anchors[i].At)
	}
	for i := range s.Obstacles {
		shown(&s.Obstacles[i].Head, plan.ThingObstacle, s.Obstacles[i].Outline...)
	}
	for i := range s.People {
		shown(&s.People[i].Head, plan.ThingPerson, s.People[i].At)
	}
	for i := range s.Notes {
		shown(&s.Notes[i].Head, plan.ThingNote, s.Notes[i].At)
	}
	for i := range s.Measures {
		shown(&s.Measures[i].Head, plan.ThingMeasure, s.Measures[i].Points...)
	}
	r := sc.at().Rig
	if r == nil {
		return
	}
	a := sc.planAnswer()
	for i := range r.Lines {
		var pts []plan.Point
		for j := range a.Stretches {
			if t := &a.Stretches[j]; t.Line == r.Lines[i].ID {
				pts = append(pts, flat(t.A), flat(t.B))
			}
		}
		shown(&r.Lines[i].Head, plan.ThingLine, pts...)
	}
	for i := range r.Blocks {
		at, _ := sc.settled(r.Blocks[i].ID)
		shown(&r.Blocks[i].Head, plan.ThingBlock, at)
	}
	for i := range r.Slings {
		for j := range a.Slings {
			if t := &a.Slings[j]; t.Sling == r.Slings[i].ID {
				shown(&r.Slings[i].Head, plan.ThingSling, flat(t.Centre), flat(t.Apex))
			}
		}
	}
	for i := range r.Shackles {
		if at, ok := nodeAt(a, r.Shackles[i].ID); ok {
			shown(&r.Shackles[i].Head, plan.ThingShackle, at)
		}
	}
	for i := range r.Dampers {
		if at, ok := damperPlace(sc, &r.Dampers[i]); ok {
			shown(&r.Dampers[i].Head, plan.ThingDamper, at)
		}
	}
}

// selectAll selects everything shown; selectKind all of the kinds selected.
func (b *Board) selectAll(kinds map[plan.ThingKind]bool) {
	var ids []plan.ID
	b.everything(func(id plan.ID, k plan.ThingKind, _ []plan.Point) {
		if kinds == nil || kinds[k] {
			ids = append(ids, id)
		}
	})
	b.Select(ids...)
}

func (b *Board) selectKind() {
	kinds := map[plan.ThingKind]bool{}
	for _, id := range b.selection {
		kinds[b.at().Kind(id)] = true
	}
	if len(kinds) > 0 {
		b.selectAll(kinds)
	}
}

// walk selects the next thing, west to east, south before north where two
// stand in line; back goes the other way.
func (b *Board) walk(back bool) {
	type place struct {
		id plan.ID
		at plan.Point
	}
	var list []place
	b.everything(func(id plan.ID, _ plan.ThingKind, pts []plan.Point) {
		if len(pts) > 0 {
			list = append(list, place{id, plan.Centroid(pts)})
		}
	})
	if len(list) == 0 {
		return
	}
	slices.SortStableFunc(list, func(p, q place) int {
		switch {
		case p.at.X < q.at.X, p.at.X == q.at.X && p.at.Y < q.at.Y:
			return -1
		case p.at == q.at:
			return 0
		}
		return 1
	})
	i := -1
	if len(b.selection) > 0 {
		i = slices.IndexFunc(list, func(p place) bool { return p.id == b.selection[len(b.selection)-1] })
	}
	switch {
	case back && i <= 0:
		i = len(list) - 1
	case back:
		i--
	default:
		i = (i + 1) % len(list)
	}
	b.Select(list[i].id)
}

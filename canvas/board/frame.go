package board

import (
	"slices"

	"github.com/golang/geo/r2"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// framing is the gesture that selects with a frame: what lies wholly inside.
func framing(b *Board, from pointer) *gesture {
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
	frame := r2.RectFromPoints(r2.Point(a), r2.Point(c))
	var ids []plan.ID
	sc.everything(func(id plan.ID, _ plan.ThingKind, pts []plan.Point) {
		if len(pts) > 0 && frame.Contains(terrain.Bounds(pts)) {
			ids = append(ids, id)
		}
	})
	return ids
}

// everything visits all things that are shown, with the points that span them,
// in file order.
func (sc *scene) everything(visit func(id plan.ID, kind plan.ThingKind, pts []plan.Point)) {
	x := sc.at()
	plan.EachHead(sc.plan, x.Rig, func(h *plan.Head) {
		if pts, placed := spanOf(sc, x.Find(h.ID), h.ID); placed && !h.Hidden {
			visit(h.ID, x.Kind(h.ID), pts)
		}
	})
	for _, m := range sc.marks() {
		visit(m.Pin.Ref(), plan.ThingPin, []plan.Point{m.Tip})
	}
}

// spanOf are the points that span a thing, a part of the rig where it settled;
// false: it has no place.
func spanOf(sc *scene, at plan.Slot, id plan.ID) (pts []plan.Point, placed bool) {
	s, r, a := &sc.plan.Site, sc.at().Rig, (*solver.Assessment)(nil)
	if at.InRig {
		a = sc.planAnswer()
	}
	switch at.Kind {
	case plan.ThingVehicle:
		c := s.Vehicles[at.Pos].Corners()
		return c[:], true
	case plan.ThingObstacle:
		return s.Obstacles[at.Pos].Outline, true
	case plan.ThingMeasure:
		return s.Measures[at.Pos].Points, true
	case plan.ThingLine:
		for i := range a.Stretches {
			if t := &a.Stretches[i]; t.Line == id {
				pts = append(pts, part.Flat(t.A), part.Flat(t.B))
			}
		}
		return pts, true
	case plan.ThingBlock:
		p, _ := sc.settled(id)
		return []plan.Point{p}, true
	case plan.ThingSling:
		for i := range a.Slings {
			if t := &a.Slings[i]; t.Sling == id {
				return []plan.Point{part.Flat(t.Centre), part.Flat(t.Apex)}, true
			}
		}
		return nil, false
	case plan.ThingShackle:
		p, ok := nodeAt(a, id)
		return []plan.Point{p}, ok
	case plan.ThingDamper:
		p, ok := damperPlace(sc, &r.Dampers[at.Pos])
		return []plan.Point{p}, ok
	}
	p, ok := placeOf(sc.at(), id)
	return []plan.Point{p}, ok
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

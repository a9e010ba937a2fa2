package board

import (
	"math"
	"slices"

	"kedge/canvas/draw"
	"kedge/solver/facts"
	"kedge/solver/layout"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Kinds of vehicle the tool places.
const (
	vehicleStuck = "casualty"
	vehicleWinch = "winch-vehicle"
	vehiclePlain = "vehicle"
)

var vehicleKinds = [...]string{vehicleStuck, vehicleWinch, vehiclePlain}

// vehicleTool places a vehicle: first the casualty, then vehicles with a winch.
type vehicleTool struct {
	common
	kind string // that its letter chose; empty: as the plan asks for
}

func (t *vehicleTool) prompt(sc *scene) string { return sc.label("prompt-vehicle") }

func (t *vehicleTool) again(sc *scene) {
	i := slices.Index(vehicleKinds[:], t.next(sc))
	t.kind = vehicleKinds[(i+1)%len(vehicleKinds)]
}

// next is the kind of vehicle it places.
func (t *vehicleTool) next(sc *scene) string {
	switch {
	case t.kind != "":
		return t.kind
	case sc.plan.Casualty() == nil:
		return vehicleStuck
	}
	return vehicleWinch
}

func (t *vehicleTool) aim(sc *scene, p pointer) outcome {
	at, guides := snap(sc, p, nil, trail{})
	kind := t.next(sc)
	v := newVehicle(sc, kind)
	v.ID, v.At, v.Bearing = plan.NewID(sc.plan, plan.PrefixVehicle), at, 90
	o := outcome{name: sc.label("edit-place", part.Text("what", sc.label("edit-vehicle"))), guides: guides}
	o.texts = traced(sc, &v.Head, at)
	if c := sc.plan.Casualty(); c != nil && kind != vehicleStuck {
		to := nearestPoint(c, at)
		if to != at {
			v.Bearing = roundedBearing(bearing(at, to))
		}
		o.guides = append(o.guides, draw.Guide{A: at, B: to, Why: lengthText(sc, at.Dist(to))})
	}
	o.ghost = &draw.Ghost{Vehicle: &v, Label: sc.label("kind-" + kind)}
	d := sc.draft(false)
	d.Site.Vehicles = append(d.Site.Vehicles, v)
	o.plan, o.selected = d.Plan, []plan.ID{v.ID}
	o.then = func(b *Board) {
		t.kind = ""
		b.ask(v.ID)
	}
	return o
}

// nearestPoint is the recovery point of v nearest to a place, or its middle.
func nearestPoint(v *plan.Vehicle, at plan.Point) plan.Point {
	best, d := v.At, math.Inf(1)
	for i := range v.Recovery {
		if q := v.Place(v.Recovery[i].Ahead, v.Recovery[i].Left.Or(0)); q.Dist(at) < d {
			best, d = q, q.Dist(at)
		}
	}
	return best
}

// newVehicle is a vehicle from the gear list. The first one is the casualty,
// the others have a winch.
func newVehicle(sc *scene, kind string) plan.Vehicle {
	item := itemPuller
	if kind == vehicleStuck {
		item = itemCasualty
	}
	v := layout.Copied(sc.gear().Item(facts.GearVehicle, item).Vehicle)
	v.Presets = layout.PresetMembers(&v)
	half := v.Length / 2
	aside := quantity.Length(0)
	switch kind {
	case vehicleStuck:
		v.Stuck = &plan.Stuck{Way: plan.WayForward, WayLength: presetWayM}
		v.Presets = append(v.Presets, "casualty.way_length_m")
	case vehicleWinch:
		w := layout.Copied(sc.gear().Item(facts.GearWinch, itemWinch).Winch)
		w.Ahead, w.Left, w.Axis = half, plan.Known(quantity.Length(0)), plan.Known(quantity.Degrees(0))
		w.Presets = layout.PresetMembers(&w)
		v.Winch = &w
		aside = presetPointAside
	}
	point := func(id plan.ID, ahead, left quantity.Length, axis quantity.Degrees) plan.RecoveryPoint {
		return plan.RecoveryPoint{ID: id, Kind: plan.PointRated, Ahead: ahead, Left: plan.Known(left), Height: presetPointHeight, Axis: plan.Known(axis),
			Rating: plan.Rating{Force: presetPointN, Basis: plan.BasisWorking}, Presets: []string{"kind", "height_m", "rating"}}
	}
	v.Recovery = []plan.RecoveryPoint{point("front", half, aside, 0), point("rear", -half, 0, 180)}
	return v
}

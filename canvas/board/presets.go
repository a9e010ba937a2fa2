package board

import (
	"slices"

	"kedge/solver/facts"
	"kedge/solver/layout"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Items of the gear list that new vehicles are copied from; what rigs are laid
// of is in package layout.
const (
	itemCasualty facts.ID = "casualty-pickup"
	itemPuller   facts.ID = "winch-truck"
	itemWinch    facts.ID = "winch-40kn"
)

// Presets that are no gear. They are marked as presets in the plan, so that
// whoever reads a figure is told that nobody has measured them.
const (
	presetPointN       = 40 * quantity.Kilonewton // of a recovery point, working (ours: a round figure to be overruled by the tag)
	presetPointHeight  = 0.6                      // metres above ground (common practice)
	presetPointAside   = 0.45                     // metres from the middle line to the point beside a fairlead (ours)
	presetWayM         = 6                        // metres of way out (ours: a little more than the vehicle's length)
	presetRatedN       = 40 * quantity.Kilonewton // of a rated point on the ground, working (ours)
	presetDeadmanM     = 1.0                      // mean depth of a deadman, metres (common practice)
	presetLogM         = 1.5                      // its log
	presetLogDiameterM = 0.2
	presetLayout       = "1-1"
)

// gear is the kit that rigs are laid from.
func (sc *scene) gear() layout.Kit { return layout.Kit(sc.kit) }

// copied is the thing of a list entry, or a thing of which nothing is known.
func copied[T any](p *T) T {
	if p == nil {
		var none T
		return none
	}
	return *p
}

// newVehicle is a vehicle from the gear list. The first one is the casualty,
// the others have a winch.
func newVehicle(sc *scene, kind string) plan.Vehicle {
	item := itemPuller
	if kind == vehicleStuck {
		item = itemCasualty
	}
	v := copied(sc.gear().Item(facts.GearVehicle, item).Vehicle)
	v.Presets = layout.PresetMembers(&v)
	half := v.Length / 2
	aside := quantity.Length(0)
	switch kind {
	case vehicleStuck:
		v.Stuck = &plan.Stuck{Way: plan.WayForward, WayLength: presetWayM}
		v.Presets = append(v.Presets, "casualty.way_length_m")
	case vehicleWinch:
		w := copied(sc.gear().Item(facts.GearWinch, itemWinch).Winch)
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

// newAnchor is an anchor of a kind. A tree's trunk and health are nobody's to
// propose: until they are entered its hold is not known.
func newAnchor(kind string) plan.Anchor {
	a := plan.Anchor{Kind: kind}
	switch kind {
	case plan.AnchorPickets:
		a.Layout = presetLayout
	case plan.AnchorDeadman:
		a.Depth, a.LogLength, a.LogDiameter = presetDeadmanM, presetLogM, presetLogDiameterM
	case plan.AnchorRated:
		a.Rating = plan.Rating{Force: presetRatedN, Basis: plan.BasisWorking}
	}
	a.Presets = layout.PresetMembers(&a)
	return a
}

// Kinds of vehicle the tool places.
const (
	vehicleStuck = "casualty"
	vehicleWinch = "winch-vehicle"
	vehiclePlain = "vehicle"
)

// kinds are what the tools place next.
type kinds struct {
	vehicle string // empty: as the plan asks for
	anchor  int    // into anchorKinds
	role    int    // into roles
}

var (
	anchorKinds  = [...]string{plan.AnchorTree, plan.AnchorPickets, plan.AnchorDeadman, plan.AnchorRated}
	roles        = [...]string{plan.RoleOperator, plan.RoleSpotter, plan.RoleBystander, plan.RoleDriver}
	vehicleKinds = [...]string{vehicleStuck, vehicleWinch, vehiclePlain}
)

// nextVehicle is the kind of vehicle the tool places: first the casualty, then
// vehicles with a winch.
func (b *Board) nextVehicle() string {
	switch {
	case b.kinds.vehicle != "":
		return b.kinds.vehicle
	case b.plan.Casualty() == nil:
		return vehicleStuck
	}
	return vehicleWinch
}

// nextKind makes the tool place its next kind.
func (b *Board) nextKind() {
	switch b.tool {
	case ToolVehicle:
		i := slices.Index(vehicleKinds[:], b.nextVehicle())
		b.kinds.vehicle = vehicleKinds[(i+1)%len(vehicleKinds)]
	case ToolAnchor:
		b.kinds.anchor = (b.kinds.anchor + 1) % len(anchorKinds)
	case ToolPerson:
		b.kinds.role = (b.kinds.role + 1) % len(roles)
	}
}

// ratingText is a rating as hook-on points show it.
func ratingText(sc *scene, r plan.Rating) string {
	if !r.Known() {
		return sc.label("no-rating")
	}
	return sc.words.Value(part.Value{Unit: part.UnitLimit, X: float64(r.Force)}, nil)
}

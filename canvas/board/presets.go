package board

import (
	"reflect"
	"slices"
	"strings"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Items of the gear list that new things are copied from; where a list lacks
// one, its first item of the kind is taken.
const (
	itemCasualty facts.ID = "casualty-pickup"
	itemPuller   facts.ID = "winch-truck"
	itemWinch    facts.ID = "winch-40kn"
	itemLine     facts.ID = "line-hmpe-10-40m"
	itemSling    facts.ID = "sling-web-3m"
	itemBlock    facts.ID = "block-roller"
	itemShackle  facts.ID = "shackle-bow-19"
	itemDamper   facts.ID = "damper-bag"
)

// Presets that are no gear. They are marked as presets in the plan, so that
// whoever reads a figure is told that nobody has measured them.
const (
	presetPointN       = 40 * quantity.Kilonewton // of a recovery point, working (ours: a round figure to be overruled by the tag)
	presetPointHeight  = 0.6                      // metres above ground (common practice)
	presetPointAside   = 0.45                     // metres from the middle line to the point beside a fairlead (ours)
	presetWayM         = 6                        // metres of way out (ours: a little more than the vehicle's length)
	presetEnd          = "end.hmpe-splice"
	presetRatedN       = 40 * quantity.Kilonewton // of a rated point on the ground, working (ours)
	presetDeadmanM     = 1.0                      // mean depth of a deadman, metres (common practice)
	presetLogM         = 1.5                      // its log
	presetLogDiameterM = 0.2
	presetLayout       = "1-1"
)

// kitLengths are the sling lengths, in metres, that a dragged block is offered.
// (common practice: the lengths slings are sold in)
var kitLengths = [...]quantity.Length{1.5, 2, 3, 4, 5, 6}

// opensMost, in degrees: a longer sling is taken before the legs open this far.
// (ours: at 60° a leg carries 58 % of the pull and the bark starts to slip)
const opensMost quantity.Degrees = 60

// item is a piece of the gear list.
func (b *Board) item(kind facts.GearKind, id facts.ID) *facts.GearItem {
	first := -1
	for i := range b.kit {
		if b.kit[i].Kind != kind {
			continue
		}
		if b.kit[i].ID == id {
			return &b.kit[i]
		}
		if first < 0 {
			first = i
		}
	}
	if first < 0 {
		return &facts.GearItem{}
	}
	return &b.kit[first]
}

// copied is the thing of a list entry, or a thing of which nothing is known.
func copied[T any](p *T) T {
	if p == nil {
		var none T
		return none
	}
	return *p
}

// notPresets are members that no preset fills: what a thing is and where it
// stands are the person's own choice.
var notPresets = map[string]bool{
	"id": true, "name": true, "presets": true, "doubts": true, "at": true, "bearing_deg": true, "kind": true, "path": true,
	"on": true, "holds": true, "fixed": true, "joins": true, "line": true, "stretch": true, "share": true,
	"recovery_points": true, "winch": true, "casualty": true, "ahead_m": true, "left_m": true, "role": true,
}

// presetMembers are the JSON members of a thing that have a value.
func presetMembers(thing any) []string {
	var names []string
	v := reflect.Indirect(reflect.ValueOf(thing))
	for i := range v.NumField() {
		f := v.Type().Field(i)
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name != "" && !f.Anonymous && !notPresets[name] && !v.Field(i).IsZero() {
			names = append(names, name)
		}
	}
	return names
}

// newVehicle is a vehicle from the gear list. The first one is the casualty,
// the others have a winch.
func (b *Board) newVehicle(kind string) plan.Vehicle {
	item := itemPuller
	if kind == vehicleStuck {
		item = itemCasualty
	}
	v := copied(b.item(facts.GearVehicle, item).Vehicle)
	v.Presets = presetMembers(&v)
	half := v.Length / 2
	aside := quantity.Length(0)
	switch kind {
	case vehicleStuck:
		v.Stuck = &plan.Stuck{Way: plan.WayForward, WayLength: presetWayM}
		v.Presets = append(v.Presets, "casualty.way_length_m")
	case vehicleWinch:
		w := copied(b.item(facts.GearWinch, itemWinch).Winch)
		w.Ahead = half
		w.Presets = presetMembers(&w)
		v.Winch = &w
		aside = presetPointAside
	}
	point := func(id plan.ID, ahead, left quantity.Length, axis quantity.Degrees) plan.RecoveryPoint {
		return plan.RecoveryPoint{ID: id, Kind: plan.PointRated, Ahead: ahead, Left: left, Height: presetPointHeight, Axis: axis,
			Rating: plan.Rating{Force: presetPointN, Basis: plan.BasisWorking}, Presets: []string{"kind", "height_m", "rating"}}
	}
	v.Recovery = []plan.RecoveryPoint{point("front", half, aside, 0), point("rear", -half, 0, 180)}
	return v
}

func (b *Board) newLine() plan.Line {
	l := copied(b.item(facts.GearLine, itemLine).Line)
	if l.End == "" && l.Material == plan.MaterialHMPE {
		l.End = presetEnd
	}
	if l.Condition == "" {
		l.Condition = plan.ConditionUsed
	}
	l.Presets = presetMembers(&l)
	return l
}

func (b *Board) newBlock() plan.Block {
	k := copied(b.item(facts.GearBlock, itemBlock).Block)
	k.Presets = presetMembers(&k)
	return k
}

// newSling is a sling of a length: the kit's own of that length if it has one
// of the preset's material, else the preset cut to it.
func (b *Board) newSling(length quantity.Length) plan.Sling {
	s := copied(b.item(facts.GearSling, itemSling).Sling)
	for i := range b.kit {
		if k := b.kit[i].Sling; k != nil && k.Length == length && k.Material == s.Material {
			s = *k
			break
		}
	}
	s.Length = length
	if s.Condition == "" {
		s.Condition = plan.ConditionUsed
	}
	s.Presets = presetMembers(&s)
	return s
}

func (b *Board) newShackle() plan.Shackle {
	k := copied(b.item(facts.GearShackle, itemShackle).Shackle)
	k.Presets = append(presetMembers(&k), "kind")
	slices.Sort(k.Presets)
	return k
}

func (b *Board) newDamper() plan.Damper {
	d := copied(b.item(facts.GearDamper, itemDamper).Damper)
	d.Presets = presetMembers(&d)
	return d
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
	a.Presets = presetMembers(&a)
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
func (b *Board) ratingText(r plan.Rating) string {
	if !r.Known() {
		return b.label("no-rating")
	}
	return b.words.Value(part.Value{Unit: part.UnitLimit, X: float64(r.Force)}, nil)
}

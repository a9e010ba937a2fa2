package facts

import (
	"slices"
	"strings"

	"kedge/assets"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// GearKind says what an item of a gear list is.
type GearKind string

// The kinds of a gear list.
const (
	GearLine    GearKind = "line"
	GearSling   GearKind = "sling"
	GearBlock   GearKind = "block"
	GearShackle GearKind = "shackle"
	GearWinch   GearKind = "winch"
	GearVehicle GearKind = "vehicle"
	GearDamper  GearKind = "damper"
)

// GearItem is one entry of a gear list: a tag to copy into a plan. Exactly
// the member of its kind is set, without ids, places or paths; a member of it
// that the list does not give is zero, which in a plan means not known.
type GearItem struct {
	ID    ID
	Kind  GearKind
	Title string
	Note  string
	List  string // name of the list it came from

	Line    *plan.Line
	Sling   *plan.Sling
	Block   *plan.Block
	Shackle *plan.Shackle
	Winch   *plan.Winch
	Vehicle *plan.Vehicle
	Damper  *plan.Damper
}

// maxItems bounds a gear list.
const maxItems = 5000

// ParseGear decodes a gear list: TOML, one [[item]] a piece, every quantity
// a text with its unit as it stands on the tag.
//
//	[[item]]
//	id = "sling-3m"
//	kind = "sling"
//	title = "web sling 3 m, 90 mm"
//	length = "3 m"
//	rating = "3 t"
//	basis = "working"    # working, breaking, or left out: not said, counts as breaking
//
// The order of the list is kept. A key that its kind does not have, a
// quantity without a unit, a value that is not positive and an id used twice
// are errors, which give list, item and key.
func ParseGear(name string, data []byte) ([]GearItem, error) {
	var file struct {
		Item []map[string]any `toml:"item"`
	}
	if err := Shape(name, data); err != nil {
		return nil, err
	}
	if err := decodeStrict(name, data, &file); err != nil {
		return nil, err
	}
	if len(file.Item) > maxItems {
		return nil, manyItems.At(name, len(file.Item), maxItems)
	}
	var items []GearItem
	for i, keys := range file.Item {
		f := fields{keys: keys}
		item := f.item()
		item.List = name
		if err := f.done(item.Kind); err != nil {
			return nil, badItem.At(name, place(string(item.ID), i)).Because(err)
		}
		if slices.ContainsFunc(items, func(o GearItem) bool { return o.ID == item.ID }) {
			return nil, idTwice.At(name, string(item.ID))
		}
		items = append(items, item)
	}
	return items, nil
}

// AddGear puts own items behind a list. It never replaces: an id that the
// list has already is an error that names both lists.
func AddGear(list, own []GearItem) ([]GearItem, error) {
	out := slices.Clone(list)
	for _, item := range own {
		if at := slices.IndexFunc(out, func(o GearItem) bool { return o.ID == item.ID }); at >= 0 {
			return nil, idTaken.At(item.List, string(item.ID), out[at].List)
		}
		out = append(out, item)
	}
	return out, nil
}

// StarterList is the name of the built-in gear list.
const StarterList = "starter list"

// StarterGear decodes the built-in gear list: generic items, all of them
// presets to be overruled by the tag in hand.
func StarterGear() ([]GearItem, error) { return ParseGear(StarterList, assets.Gear()) }

// item reads what every item has, then what its kind has.
func (f *fields) item() GearItem {
	item := GearItem{
		ID:    ID(f.text("id")),
		Kind:  GearKind(f.text("kind")),
		Title: f.text("title"),
		Note:  f.text("note"),
	}
	switch {
	case !goodID(string(item.ID)):
		f.fail(badID.At("", "id"))
	case strings.TrimSpace(item.Title) == "":
		f.fail(keyEmpty.At("", "title"))
	}
	switch item.Kind {
	case GearLine:
		item.Line = f.line()
	case GearSling:
		item.Sling = f.sling()
	case GearBlock:
		item.Block = f.block()
	case GearShackle:
		item.Shackle = &plan.Shackle{
			Kind:     f.word("type", plan.ShackleBow, plan.ShackleDee, plan.ShackleSoft),
			Rating:   f.rating(),
			Body:     f.length("body"),
			RoundPin: f.yes("round_pin"),
		}
	case GearWinch:
		item.Winch = f.winch()
	case GearVehicle:
		item.Vehicle = f.vehicle()
	case GearDamper:
		item.Damper = &plan.Damper{Mass: f.mass("mass")}
	default:
		f.fail(unknownKind.At("", "kind", shown(string(item.Kind))))
	}
	return item
}

func lineMaterials() []string {
	return []string{plan.MaterialWire, plan.MaterialHMPE, plan.MaterialNylon, plan.MaterialPolyester,
		plan.MaterialChain, plan.MaterialFibre, plan.MaterialKinetic, plan.MaterialWeb, plan.MaterialRound}
}

func (f *fields) line() *plan.Line {
	return &plan.Line{
		Material:  f.word("material", lineMaterials()...),
		Diameter:  f.length("diameter"),
		Length:    f.length("length"),
		Rating:    f.rating(),
		Stiffness: f.force("stiffness_ae"),
		MassPerM:  f.linearDensity("mass_per_metre"),
		End:       f.row("end_fitting", "end."),
		Condition: f.word("condition", plan.ConditionNew, plan.ConditionUsed, plan.ConditionDoubtful, plan.ConditionKinked),
	}
}

func (f *fields) sling() *plan.Sling {
	return &plan.Sling{
		Material:  f.word("material", lineMaterials()...),
		Standard:  f.word("standard", "EN", "ASME"),
		Length:    f.length("length"),
		Width:     f.length("width"),
		Rating:    f.rating(),
		Condition: f.word("condition", plan.ConditionNew, plan.ConditionUsed, plan.ConditionDoubtful, plan.ConditionKinked),
	}
}

func (f *fields) block() *plan.Block {
	b := &plan.Block{
		Kind:       f.word("type", plan.BlockRoller, plan.BlockPlain, plan.BlockRing),
		Rating:     f.rating(),
		RatingOn:   f.word("rating_on", plan.RatedHanger, plan.RatedLine),
		Sheave:     f.length("sheave"),
		LineMin:    f.length("line_min"),
		LineMax:    f.length("line_max"),
		Efficiency: f.number("efficiency"),
		Friction:   f.number("friction"),
		HeadLength: f.length("head"),
		Mass:       f.mass("mass"),
	}
	switch {
	case b.Efficiency > 1:
		f.fail(aboveOne.At("", "efficiency", figure(b.Efficiency)))
	case b.LineMax > 0 && b.LineMin > b.LineMax:
		f.fail(above.At("", "line_min", "line_max"))
	case b.Kind == plan.BlockRing && b.Efficiency > 0:
		f.fail(ringFriction.At("", "efficiency"))
	case b.Kind != plan.BlockRing && b.Friction > 0:
		f.fail(sheaveEfficiency.At("", "friction"))
	}
	return b
}

func (f *fields) winch() *plan.Winch {
	w := &plan.Winch{
		LinePull:       f.force("line_pull"),
		StallFactor:    f.number("stall_factor"),
		Limiter:        f.force("limiter"),
		DrumDiameter:   f.length("drum_diameter"),
		DrumWidth:      f.length("drum_width"),
		FlangeDiameter: f.length("flange_diameter"),
		NoLoadSpeed:    f.speed("no_load_speed"),
		LoadSpeed:      f.speed("load_speed"),
		NoLoadCurrent:  f.current("no_load_current"),
		LoadCurrent:    f.current("load_current"),
		MinWraps:       f.count("min_wraps"),
		Drive:          f.word("drive", "electric", "hydraulic", "mechanical"),
		Height:         f.length("height"),
	}
	switch {
	case w.StallFactor > 0 && w.StallFactor < 1:
		f.fail(belowOne.At("", "stall_factor", figure(w.StallFactor)))
	case w.FlangeDiameter > 0 && w.FlangeDiameter <= w.DrumDiameter:
		f.fail(notAbove.At("", "flange_diameter", "drum_diameter"))
	case w.LoadSpeed > w.NoLoadSpeed && w.NoLoadSpeed > 0:
		f.fail(above.At("", "load_speed", "no_load_speed"))
	}
	return w
}

func (f *fields) vehicle() *plan.Vehicle {
	v := &plan.Vehicle{
		Length:        f.length("length"),
		Width:         f.length("width"),
		Height:        f.length("height"),
		Mass:          f.mass("mass"),
		Wheelbase:     f.length("wheelbase"),
		FrontOverhang: f.length("front_overhang"),
		Track:         f.length("track"),
		CGHeight:      f.length("cg_height"),
		CGBehindFront: f.length("cg_behind_front_axle"),
		Brake:         f.word("brake", plan.BrakeNone, plan.BrakeRear, plan.BrakeFront, plan.BrakeAll),
	}
	for _, c := range []struct {
		key        string
		part, all  quantity.Length
		mustNotTop string
	}{
		{"wheelbase", v.Wheelbase, v.Length, "length"},
		{"track", v.Track, v.Width, "width"},
		{"cg_behind_front_axle", v.CGBehindFront, v.Wheelbase, "wheelbase"},
		{"front_overhang", v.FrontOverhang + v.Wheelbase, v.Length, "length - wheelbase"},
	} {
		if c.all > 0 && c.part > c.all {
			f.fail(above.At("", c.key, c.mustNotTop))
		}
	}
	return v
}

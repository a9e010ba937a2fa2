package form

import (
	"reflect"
	"slices"
	"strings"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// member describes one member that can be entered.
type member struct {
	path     string // JSON names from the thing, a recovery point by its id
	unit     unit
	group    string // word id of the heading
	choice   string // set of choices it is taken from
	free     bool   // another word than the choices is taken too
	zero     bool   // 0 is a value; else it means "not known" and is not entered
	signed   bool   // may be below zero
	exact    bool   // no ± and no ranges
	measures bool   // a figure entered here overrules what would be computed
	until    string // member that takes the upper end of a range, where this takes the lower
	presence string // "winch", "casualty", "point": tells whether that part is there; "add-point": makes one; presencePlace
}

// name is the JSON name of the member itself.
func (m member) name() string { return m.path[strings.LastIndexByte(m.path, '/')+1:] }

// kind is how it is entered.
func (m member) kind() Kind {
	switch m.unit {
	case unitText:
		return KindText
	case unitLines, unitOutline, unitPairs, unitJoins, unitStages, unitPorts, unitWords:
		return KindLines
	case unitChoice, unitPort, unitID, unitIndex:
		return KindChoice
	case unitBool:
		return KindBool
	case unitRating:
		return KindRating
	}
	return KindNumber
}

// doubts reports whether ± and ranges are taken: the thing must have a place to
// keep them.
func (m member) doubts(t Thing) bool {
	return m.until != "" || !m.exact && m.unit.doubtful() && t.kind != kindRig && t.doubts() != nil
}

func (m member) inGroup(group string) member { m.group = group; return m }
func (m member) orZero() member              { m.zero = true; return m }
func (m member) orLess() member              { m.zero, m.signed = true, true; return m }
func (m member) exactly() member             { m.exact = true; return m }
func (m member) orOther() member             { m.free = true; return m }
func (m member) overrules() member           { m.measures = true; return m }
func (m member) upTo(path string) member     { m.until, m.exact = path, true; return m }
func (m member) ofPresence(p string) member  { m.presence = p; return m }
func (m member) under(prefix string) member  { m.path = prefix + "/" + m.path; return m }
func aField(path string, u unit) member      { return member{path: path, unit: u} }
func aChoice(path, choice string) member {
	return member{path: path, unit: unitChoice, choice: choice}
}
func aPick(path, choice string, u unit) member {
	return member{path: path, unit: u, choice: choice}
}

// inGroup puts members under a heading.
func inGroup(group string, list ...member) []member {
	for i := range list {
		if list[i].group == "" {
			list[i].group = group
		}
	}
	return list
}

// placeFields are the two coordinates of a point.
func placeFields(path string) []member {
	return inGroup("place", aField(path+"/x_m", unitLength).orLess(), aField(path+"/y_m", unitLength).orLess())
}

// placeKnown is the field of how well a place is known, the same to any side.
func placeKnown() member {
	return aField("at/doubt", unitLength).exactly().ofPresence(presencePlace).inGroup("place")
}

// membersOf are the members of a thing that can be entered, in the order a
// panel shows them.
func membersOf(t Thing) []member {
	var list []member
	switch x := t.At.(type) {
	case *plan.Vehicle:
		list = vehicleMembers(x)
	case *plan.Anchor:
		list = anchorMembers(x)
	case *plan.Obstacle:
		list = inGroup("thing", aChoice("kind", "obstacle").orOther(), aField("height_m", unitLength),
			aField("may_serve_as_anchor", unitBool), aField("mass_kg", unitMass), aField("see_over", unitBool), aField("outline", unitOutline))
		list = append(list, placeKnown())
	case *plan.Person:
		list = slices.Concat(inGroup("thing", aChoice("role", "role"), aPick("in_vehicle", "vehicles", unitID), aChoice("cover", "cover")), placeFields("at"))
		if x.Vehicle == "" {
			list = append(list, placeKnown())
		}
	case *plan.Note:
		list = slices.Concat(inGroup("thing", aField("text", unitLines)), placeFields("at"))
	case *plan.Measure:
		list = inGroup("thing", aField("points", unitOutline))
	case *plan.Line:
		list = lineMembers()
	case *plan.Block:
		list = blockMembers()
	case *plan.Sling:
		list = slingMembers()
	case *plan.Shackle:
		list = slices.Concat(inGroup("thing", aChoice("kind", "shackle"), aField("rating", unitRating), aField("body_m", unitThick),
			aField("pin_on_running_line", unitBool), aField("round_pin", unitBool)), inGroup("rigged", aPick("joins", "ports", unitPorts)))
		if len(x.Joins) == 0 || x.At != (plan.Point{}) { // else it lies where what it joins does, and none was drawn
			list = append(list, placeFields("at")...)
		}
	case *plan.Damper:
		list = inGroup("thing", aField("mass_kg", unitMass), aPick("line", "lines", unitID), aPick("stretch", "stretches", unitIndex), aField("share", unitPercent).orZero())
	case *plan.Rig:
		list = inGroup("thing", aChoice("basis", "basis-rig"), aField("stand_off_factor", unitFactor).exactly(), aField("travel_shown_m", unitLength).orZero().exactly())
		if x.Incident != nil {
			list = append(list, inGroup("told", aField("incident/account", unitLines), aField("incident/custody", unitLines), aField("incident/opinion", unitLines), aField("incident/truth", unitLines))...)
		}
	case *plan.Ground:
		return inGroup("thing", aField("slope_deg", unitSlope).orZero(), aField("downhill_bearing_deg", unitAngle).orLess(), aChoice("surface", "surface"),
			aChoice("grip", "grip"), aChoice("soil", "soil"), aField("north_deg", unitAngle).orLess())
	case *plan.Underlay:
		return pictureMembers(x)
	case *plan.Survey:
		return inGroup("thing", aField("source", unitText), aField("origin_lat_deg", unitAngle).orLess(), aField("origin_lon_deg", unitAngle).orLess())
	case *plan.Pin:
		return pinMembers(x)
	case *plan.Plan:
		return inGroup("thing", aField("title", unitText), aField("title_block/school", unitText), aField("title_block/author", unitText),
			aField("title_block/approver", unitText), aField("title_block/date", unitText), aField("title_block/number", unitText))
	}
	return slices.Concat(inGroup("thing", aField("name", unitText)), list,
		inGroup("more", aField("locked", unitBool), aField("hidden", unitBool), aField("step", unitCount).orZero(), aField("caption", unitText)))
}

func vehicleMembers(v *plan.Vehicle) []member {
	list := inGroup("thing", aField("mass_kg", unitMass), aField("load_kg", unitMass).orZero())
	list = append(list, member{path: "casualty", unit: unitBool, group: "casualty", presence: "casualty"})
	if v.Stuck != nil {
		for _, m := range inGroup("casualty", aChoice("depth", "depth"), aChoice("way", "way"), aField("way_bearing_deg", unitAngle).orLess(),
			aField("way_length_m", unitLength), aField("way_bends", unitOutline), aField("turn_radius_m", unitLength), aField("way_stages", unitStages), aChoice("surface", "surface"), aField("sinkage_m", unitGirth),
			aField("locked_wheels", unitCount).orZero(), aField("measured_resistance_n", unitForce).overrules(), aChoice("plan_on", "plan-on"), aChoice("rule", "rule"),
			aField("breakaway_factor", unitFactor).overrules(), aField("suction_n", unitForce), aField("back_the_way_it_came", unitBool), aField("own_drive", unitBool),
			aField("overturned", unitBool), aField("in_water", unitBool), aField("water_speed_m_per_s", unitSpeed).orZero(), aField("water_depth_on_body_m", unitLength),
			aField("trapped_water_kg", unitMass)) {
			list = append(list, m.under("casualty"))
		}
	}
	list = append(list, inGroup("brake", aChoice("brake", "brake"), aField("brake_force_n", unitForce).overrules(), aField("in_gear", unitBool),
		aField("foot_brake", unitBool), aChoice("chocks", "chocks"), aChoice("grip", "grip"))...)
	list = append(list, member{path: "winch", unit: unitBool, group: "winch", presence: "winch"})
	if v.Winch != nil {
		for _, m := range inGroup("winch", aField("line_pull_n", unitForce), aField("limiter_n", unitForce), aField("stall_factor", unitFactor),
			aField("drum_diameter_m", unitThick), aField("drum_width_m", unitThick), aField("flange_diameter_m", unitThick),
			aField("no_load_speed_m_per_s", unitLineSpeed), aField("load_speed_m_per_s", unitLineSpeed), aField("no_load_current_a", unitCurrent), aField("load_current_a", unitCurrent),
			aField("min_wraps", unitCount), aChoice("drive", "drive"), aField("engine_off", unitBool), aField("no_fairlead", unitBool),
			aChoice("control", "control"), aField("control_cable_m", unitLength),
			aField("ahead_m", unitLength).orLess(), aField("left_m", unitLength).orLess(), aField("height_m", unitLength), aField("axis_deg", unitAngle).orLess()) {
			list = append(list, m.under("winch"))
		}
	}
	for i := range v.Recovery {
		at := "recovery_points/" + string(v.Recovery[i].ID)
		for _, m := range inGroup("point", aField("name", unitText), aChoice("kind", "point"), aField("rating", unitRating), aField("max_angle_deg", unitAngle),
			aField("axis_deg", unitAngle).orLess(), aField("ahead_m", unitLength).orLess(), aField("left_m", unitLength).orLess(), aField("height_m", unitLength)) {
			list = append(list, m.under(at))
		}
		list = append(list, member{path: at, unit: unitBool, group: "point", presence: "point"})
	}
	list = append(list, member{path: "recovery_points/+", unit: unitText, group: "points", presence: "add-point"})
	list = append(list, inGroup("size", aField("length_m", unitLength), aField("width_m", unitLength), aField("height_m", unitLength), aField("wheelbase_m", unitLength),
		aField("front_overhang_m", unitLength), aField("track_m", unitLength), aField("cg_height_m", unitLength), aField("cg_behind_front_axle_m", unitLength))...)
	list = append(append(list, placeFields("at")...), placeKnown())
	return append(list, inGroup("place", aField("bearing_deg", unitAngle).orLess(), aField("rise_m", unitLength).orLess())...)
}

// anchorField is the field of a member that not every anchor has: a word is one of
// the choices of that name, a figure has the unit of its type.
func anchorField(name string) member {
	i, _ := memberIndex(reflect.TypeFor[plan.Anchor](), name)
	switch t := reflect.TypeFor[plan.Anchor]().FieldByIndex(i).Type; {
	case slices.Contains(plan.AnchorThick, name):
		return aField(name, unitGirth)
	case t == reflect.TypeFor[quantity.Length]():
		return aField(name, unitLength)
	case t == reflect.TypeFor[quantity.Mass]():
		return aField(name, unitMass)
	case name == "set_bearing_deg":
		return aField(name, unitAngle).orLess()
	case t == reflect.TypeFor[quantity.Degrees]():
		return aField(name, unitAngle)
	case t == reflect.TypeFor[plan.Rating]():
		return aField(name, unitRating)
	case t.Kind() == reflect.Bool:
		return aField(name, unitBool)
	case t.Kind() == reflect.String:
		return aChoice(name, name)
	}
	return aField(name, unitFactor)
}

func anchorMembers(a *plan.Anchor) []member {
	list := []member{aChoice("kind", "anchor")}
	var names []string
	own := plan.AnchorKindOf(a.Kind)
	if own != nil {
		names = slices.Clone(own.Members)
	}
	// What its kind does not use is shown only where it is entered, to be taken
	// out; of a kind that is not known, all.
	var rest []string
	for i := range plan.AnchorKinds {
		for _, name := range plan.AnchorKinds[i].Members {
			if slices.Contains(names, name) || slices.Contains(rest, name) {
				continue
			}
			if own == nil {
				names = append(names, name)
			} else if v, ok := walkPath(valueOf(a), pathSteps(name)); ok && !v.IsZero() {
				rest = append(rest, name)
			}
		}
	}
	for _, name := range names {
		list = append(list, anchorField(name))
	}
	list = append(list, aChoice("soil", "soil"))
	for _, name := range rest {
		list = append(list, anchorField(name))
	}
	list = append(inGroup("thing", list...), inGroup("hold", aField("hold_low_n", unitForce).orZero().overrules(), aField("hold_likely_n", unitForce).overrules(),
		aField("hold_high_n", unitForce).overrules(), aField("hold_source", unitText))...)
	return append(append(list, placeFields("at")...), placeKnown(), aField("rise_m", unitLength).orLess().inGroup("place"))
}

func lineMembers() []member {
	return slices.Concat(
		inGroup("thing", aChoice("material", "material"), aField("diameter_m", unitThick), aField("length_m", unitLength), aField("rating", unitRating),
			aChoice("end_fitting", "end"), aChoice("connector/kind", "connector"), aField("connector/rating", unitRating), aChoice("condition", "condition"), aField("wet", unitBool), aPick("knots", "knot", unitWords), aField("joins", unitJoins)),
		inGroup("rigged", aPick("path", "ports", unitPorts), aChoice("use", "use"), aChoice("paid_out", "paid-out"), aField("winch_share", unitPercent), aField("tension_n", unitForce).overrules()),
		inGroup("stretch", aField("elastic", unitBool), aField("stiffness_ae_n", unitForce).overrules(), aField("mass_kg_per_m", unitPerM).overrules()))
}

func blockMembers() []member {
	return slices.Concat(
		inGroup("thing", aChoice("kind", "block"), aField("rating", unitRating), aChoice("rating_on", "rating-on"), aField("sheave_diameter_m", unitThick),
			aField("line_min_m", unitThick), aField("line_max_m", unitThick), aField("efficiency", unitFactor).overrules(), aField("ring_friction", unitFactor).overrules(),
			aField("head_m", unitThick), aField("mass_kg", unitMass)),
		inGroup("rigged", aPick("fixed", "ports", unitPort)), placeFields("at"))
}

func slingMembers() []member {
	return slices.Concat(
		inGroup("thing", aField("length_m", unitLength), aChoice("hitch", "hitch"), aChoice("material", "material"), aChoice("standard", "standard"),
			aField("width_m", unitThick), aField("rating", unitRating), aField("height_m", unitLength).overrules(), aChoice("condition", "condition")),
		inGroup("rigged", aPick("on", "ports", unitPort), aPick("holds", "ports", unitPort), aChoice("use", "use")),
		inGroup("stretch", aField("stiffness_n_per_m", unitForcePerM)))
}

// pinFigures are the members that kinds of pin use, each with those kinds.
var pinFigures = []struct {
	member
	kinds []string
}{
	{aField("low_n", unitForce).upTo("high_n"), []string{plan.PinTension, plan.PinStalled}},
	{aField("high_n", unitForce).exactly(), []string{plan.PinTension, plan.PinStalled}},
	{aField("layer_seen", unitCount), []string{plan.PinLayer}},
	{aField("trace_m", unitLength).orZero(), []string{plan.PinLanding, plan.PinResting, plan.PinMoved, plan.PinSkid, plan.PinRut}},
	{aField("drop_m", unitLength).orLess().exactly(), []string{plan.PinLanding}},
	{aField("mass_kg", unitMass).exactly(), []string{plan.PinLanding}},
	{aChoice("break_look", "look"), []string{plan.PinLook, plan.PinSeenBefore}},
	{aField("rating", unitRating).exactly(), []string{plan.PinTag}},
	{aField("on_recording", unitBool), []string{plan.PinFirst}},
	{aField("earlier_pull", unitBool), []string{plan.PinTension, plan.PinStalled}},
}

// pinMembers are those of a pin. A figure that its kind does not use is shown only where
// it is entered, to be taken out.
func pinMembers(q *plan.Pin) []member {
	list := inGroup("thing", aChoice("kind", "pin"), aPick("about", "about", unitID))
	for _, f := range pinFigures {
		v, _ := walkPath(valueOf(q), pathSteps(f.path))
		if q.Kind == "" || slices.Contains(f.kinds, q.Kind) || v.IsValid() && !v.IsZero() {
			list = append(list, f.member.inGroup("says"))
		}
	}
	list = append(list, inGroup("known", aChoice("known", "known"), aField("trust", unitFactor).exactly(), aField("source", unitText), aPick("picture", "photos", unitID), aField("note", unitLines))...)
	if q.At != nil {
		for _, m := range placeFields("shown_at") {
			list = append(list, m.exactly())
		}
	}
	return list
}

// memberOf finds a member by its path; of a rating also its "…/basis".
func memberOf(t Thing, path string) (m member, basis, ok bool) {
	for _, m := range membersOf(t) {
		switch {
		case m.path == path:
			return m, false, true
		case m.unit == unitRating && m.path+"/basis" == path:
			return m, true, true
		}
	}
	return member{}, false, false
}

package form

import (
	"slices"

	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// mattering are the members that matter most of a kind of thing, in the order in which
// they are shown. A kind that is not here has so few that all do. (ours)
var mattering = map[thingKind][]string{
	thingKind(plan.ThingObstacle): {"name", "kind", "height_m", "mass_kg", "may_serve_as_anchor", "see_over"},
	thingKind(plan.ThingPerson):   {"name", "role", "in_vehicle", "cover", "at/x_m", "at/y_m"},
	thingKind(plan.ThingLine):     {"name", "material", "rating", "diameter_m", "length_m", "condition", "use", "path"},
	thingKind(plan.ThingBlock):    {"name", "kind", "rating", "rating_on", "sheave_diameter_m", "head_m", "fixed"},
	thingKind(plan.ThingSling):    {"name", "material", "rating", "length_m", "hitch", "condition", "on", "holds"},
	thingKind(plan.ThingShackle):  {"name", "kind", "rating", "body_m", "pin_on_running_line", "joins"},
	kindUnderlay:                  {shownOff, shownLies, "scaled_by/looks_straight_down", "measured_points", "metres_per_pixel", "turn_deg", "fade", "at/x_m", "at/y_m"},
	thingKind(plan.ThingDamper):   {"name", "mass_kg", "line", "stretch", "share"},
}

// mostMatter is the number of members up to which all of a thing matter. (ours)
const mostMatter = 8

// Mattering are the kind of a thing, and the members of it that matter most, in the order
// in which they are shown: what it weighs, how it stands, what it holds, what it is rated
// for. What else there is of it is looked up when it is wanted.
func Mattering(p *plan.Plan, rig, thing plan.ID) (kind string, members []string) {
	t, ok := Find(p, rig, thing)
	if !ok {
		return "", nil
	}
	switch x := t.At.(type) {
	case *plan.Vehicle:
		return t.kind.String(), vehicleMatters(x)
	case *plan.Anchor:
		return t.kind.String(), anchorMatters(x)
	}
	if list, ok := mattering[t.kind]; ok {
		return t.kind.String(), list
	}
	for _, m := range membersOf(t) {
		if m.group != "more" {
			members = append(members, m.path)
		}
	}
	return t.kind.String(), members[:min(len(members), mostMatter)]
}

func vehicleMatters(v *plan.Vehicle) []string {
	list := []string{"name", "mass_kg"}
	switch {
	case v.Stuck != nil:
		list = append(list, "casualty/depth", "casualty/surface", "casualty/way", "casualty/way_length_m", "grip", "brake")
	case v.Winch == nil:
		list = append(list, "casualty", "winch", "grip", "brake", "chocks")
	default:
		list = append(list, "grip", "brake", "chocks")
	}
	if v.Winch != nil {
		list = append(list, "winch/line_pull_n")
	}
	return list
}

func anchorMatters(a *plan.Anchor) []string {
	list := []string{"name", "kind"}
	if a.Kind == plan.AnchorTree {
		return append(list, "girth_m", "trunk_m", "height_m", "health", "rooting", "soil")
	}
	if own := plan.AnchorKindOf(a.Kind); own != nil {
		list = append(list, own.Members...)
		return append(list[:min(len(list), mostMatter-1)], "soil")
	}
	return append(list, "hold_low_n", "hold_likely_n", "hold_high_n", "hold_source")
}

// Shared are the fields that things of one kind share, those of the first of them; where
// their values are not the same the field has none and Differs. Nil of things of several
// kinds. What one thing has for itself, its name, its place and what it is joined to, is
// not shared.
func Shared(p *plan.Plan, rig plan.ID, things []plan.ID, a *solver.Assessment, w *words.Words) []Field {
	var shared []Field
	kind := thingKind(-1)
	for i, id := range things {
		t, ok := Find(p, rig, id)
		if !ok || i > 0 && t.kind != kind {
			return nil
		}
		kind = t.kind
		fields := Fields(p, rig, id, a, w)
		if i == 0 {
			shared = slices.DeleteFunc(fields, func(f Field) bool { return ownOf(t, &f) })
			continue
		}
		shared = slices.DeleteFunc(shared, func(f Field) bool { return !shares(&f, fields) })
		for k := range shared {
			shared[k].join(fields)
		}
	}
	return shared
}

// ownOf reports whether a field is the thing's own.
func ownOf(t Thing, f *Field) bool {
	m, _, ok := memberOf(t, f.Member)
	if !ok || m.path == "name" || m.group == "rigged" || m.presence == "point" || m.presence == "add-point" {
		return true
	}
	switch m.unit {
	case unitOutline, unitPairs, unitJoins, unitStages, unitPorts, unitPort, unitID, unitIndex, unitLines:
		return true
	}
	return m.path == "at/x_m" || m.path == "at/y_m"
}

func shares(f *Field, with []Field) bool {
	return slices.ContainsFunc(with, func(g Field) bool { return g.Member == f.Member && g.Kind == f.Kind })
}

// join makes a field one of another thing too.
func (f *Field) join(fields []Field) {
	g := &fields[slices.IndexFunc(fields, func(g Field) bool { return g.Member == f.Member })]
	if f.Differs || f.Value != g.Value || f.Basis != g.Basis {
		f.Differs, f.Value, f.Basis, f.Computed, f.Origin = true, "", "", "", OriginUnknown
		return
	}
	if f.Computed != g.Computed { // each has its own
		f.Computed = ""
	}
	if f.Origin != g.Origin || f.Computed == "" && f.Origin == OriginComputed {
		f.Origin = OriginUnknown
		if f.Value != "" {
			f.Origin = OriginTyped
		}
	}
}

// SetAll is [Set] of a member of several things at once. What one of them refuses is
// refused for all: then the plan is p itself.
func SetAll(p *plan.Plan, rig plan.ID, things []plan.ID, member, given string, w *words.Words) (*plan.Plan, string, error) {
	q, name := p, ""
	for _, id := range things {
		next, said, err := Set(q, rig, id, member, given, w)
		if err != nil {
			return p, "", err
		}
		q, name = next, said
	}
	if len(things) > 1 {
		if t, ok := Find(p, rig, things[0]); ok {
			if m, _, ok := memberOf(t, member); ok {
				name = w.Label("field-of-several", part.Text("field", memberLabel(w, t, m)), part.Count("count", len(things)))
			}
		}
	}
	return q, name, nil
}

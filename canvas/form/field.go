package form

import (
	"slices"
	"strings"

	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Things of the Details panel that are no things of the plan: their members are
// edited like those of any other. No id of a plan holds a slash.
const (
	ThingGround   plan.ID = "/ground"
	ThingSheet    plan.ID = "/sheet" // title and title block
	ThingUnderlay plan.ID = "/underlay"
	ThingSurvey   plan.ID = "/survey"
)

// Kind is how a field is entered.
type Kind string

// The kinds of field.
const (
	KindNumber Kind = "number" // a figure with a unit; ± and ranges where Doubts
	KindText   Kind = "text"
	KindLines  Kind = "multi-line" // one entry a line
	KindChoice Kind = "choice"     // one of Choices; Free: or another word
	KindBool   Kind = "bool"       // Value is "yes" or "no"
	KindRating Kind = "rating"     // a figure, and of Choices what it means
	KindShown  Kind = "shown"      // computed, not to be entered
)

// Origin says where the value of a field comes from. The zero value is a value
// that nobody entered and nothing computes: not known.
type Origin string

// The origins.
const (
	OriginUnknown  Origin = ""
	OriginTyped    Origin = "typed"
	OriginPreset   Origin = "preset"   // the program's proposal; nobody read it from a tag
	OriginComputed Origin = "computed" // nothing entered: Computed is what counts
	OriginMeasured Origin = "measured" // entered over what would be computed
)

// Field is one member of a thing as the Details panel shows it.
type Field struct {
	Member   string   // JSON path in the thing: "mass_kg", "winch/line_pull_n", "recovery_points/front/rating"
	Label    string   // what it is called
	Group    string   // heading it stands under
	Kind     Kind     //
	Value    string   // as it would be typed, without its unit; empty: not entered
	Unit     string   // of a bare number; empty: none
	Origin   Origin   //
	Computed string   // what counts where nothing is entered, or would, with its unit; empty: nothing does
	Basis    string   // of a rating: the Value of the choice it stands on
	Choices  []Choice //
	Free     bool     // a choice may be another word too
	Doubts   bool     // ± and ranges are accepted
	Help     string   // one sentence; may be empty
	Differs  bool     // of several things: their values are not the same
}

// Choice is one value of a field.
type Choice struct {
	Value      string // as stored, and as [Set] takes it
	Text       string // as shown
	Source     string // of a handbook row
	Confidence string // of a handbook row, in the words of the handbook
}

// Focus names a field that is to be typed into.
type Focus struct {
	Thing  plan.ID
	Member string
}

// Fields are all members of a thing that can be entered, and what is computed
// of it, in the order a panel shows them; nil if there is no such thing. The
// thing is one of the site or of the rig, the rig itself, or [ThingGround] and
// its like. Of a, which may be nil, come the computed figures.
func Fields(p *plan.Plan, rig, thing plan.ID, a *solver.Assessment, w *words.Words) []Field {
	t, ok := Find(p, rig, thing)
	if !ok {
		return nil
	}
	var out []Field
	c := teller{p: p, rig: rig, thing: t, w: w, a: a, names: w.Names(p, rig)}
	for _, m := range membersOf(t) {
		out = append(out, c.field(m))
	}
	return append(out, c.shown()...)
}

// FieldOf is the field of a member by its path, as [Fields] has it; false if the thing
// has no such field that can be entered.
func FieldOf(p *plan.Plan, rig, thing plan.ID, path string, a *solver.Assessment, w *words.Words) (Field, bool) {
	t, ok := Find(p, rig, thing)
	if !ok {
		return Field{}, false
	}
	m, basis, ok := memberOf(t, path)
	if !ok || basis {
		return Field{}, false
	}
	c := teller{p: p, rig: rig, thing: t, w: w, a: a, names: w.Names(p, rig)}
	return c.field(m), true
}

// teller makes fields of members.
type teller struct {
	p     *plan.Plan
	rig   plan.ID
	thing Thing
	w     *words.Words
	a     *solver.Assessment
	names words.Names
	bare  *solver.Assessment // without the hold that was entered; nil: not asked yet
}

func (c *teller) field(m member) Field {
	f := Field{
		Member: m.path, Label: c.label(m), Group: c.group(m), Kind: m.kind(),
		Unit: m.unit.symbol(c.w.System()), Doubts: m.doubts(c.thing), Free: m.free, Help: c.help(m),
	}
	v, there := walkPath(c.thing.value, pathSteps(m.path))
	if there {
		f.Value = m.show(v, c.thing, c.w.System())
	}
	if m.presence == presencePlace {
		f.Value = c.thing.placeKnownBy(c.w.System())
	}
	if m.unit == unitRating && there {
		f.Basis = basisOf(v)
	}
	f.Choices = c.choices(m)
	switch {
	case m.preset(c.thing):
		f.Origin = OriginPreset
	case f.Value != "" && !(m.unit == unitBool && f.Value == No):
		f.Origin = OriginTyped
	}
	f.Computed = c.computed(m)
	switch {
	case f.Computed != "" && f.Value == "":
		f.Origin = OriginComputed
	case f.Origin == OriginTyped && m.measures:
		f.Origin = OriginMeasured
	}
	return f
}

// label is what a member is called: by its thing's kind if the words have it,
// else by its name.
func (c *teller) label(m member) string { return memberLabel(c.w, c.thing, m) }

func memberLabel(w *words.Words, t Thing, m member) string {
	if m.presence == "point" {
		return w.Label("field-there")
	}
	ids := []string{"field-" + strings.ReplaceAll(m.path, "/", "-"), "field-" + t.kind.String() + "-" + m.name()}
	if m.path == m.name() { // what a member of a kind of thing is called goes before what its like is called
		slices.Reverse(ids)
	}
	for _, id := range ids {
		if w.HasLabel(id) {
			return w.Label(id)
		}
	}
	return w.Label("field-" + m.name())
}

func (c *teller) help(m member) string {
	for _, id := range []string{"help-" + strings.ReplaceAll(m.path, "/", "-"), "help-" + c.thing.kind.String() + "-" + m.name(), "help-" + m.name()} {
		if c.w.HasLabel(id) {
			return c.w.Label(id)
		}
	}
	return ""
}

// group is the heading; each recovery point has its own.
func (c *teller) group(m member) string {
	if s := pathSteps(m.path); len(s) > 1 && s[0] == "recovery_points" {
		if v, ok := c.thing.At.(*plan.Vehicle); ok && v.RecoveryPoint(plan.ID(s[1])) != nil {
			return capitalised(c.w.PointName(v, plan.ID(s[1])))
		}
	}
	return c.w.Label("group-" + m.group)
}

// memberName is what an edit of a member is called in the undo list: "Mass of
// Casualty".
func memberName(p *plan.Plan, rig plan.ID, t Thing, m member, w *words.Words) string {
	return w.Label("field-of", part.Text("field", memberLabel(w, t, m)), part.Text("thing", ownerName(p, rig, t, m, w)))
}

// ownerName is what the thing, or the part of it that has the member, is
// called.
func ownerName(p *plan.Plan, rig plan.ID, t Thing, m member, w *words.Words) string {
	names := w.Names(p, rig)
	if s := pathSteps(m.path); len(s) > 1 {
		switch s[0] {
		case "winch":
			if n := names(plan.ID(plan.Port{Thing: t.id, Point: plan.PortWinch}.String())); n != "" {
				return n
			}
		case "recovery_points":
			if n := names(plan.ID(plan.Port{Thing: t.id, Point: plan.ID(s[1])}.String())); n != "" {
				return n
			}
		}
	}
	switch t.kind {
	case kindGround, kindSheet, kindUnderlay, kindSurvey:
		return w.Label("thing-" + t.kind.String())
	case kindRig:
		return w.RigName(p, p.RigIndex(t.id))
	}
	if n := names(t.id); n != "" {
		return n
	}
	return string(t.id)
}

// capitalised is s with its first letter, if an ASCII one, in upper case.
func capitalised(s string) string {
	if s != "" && 'a' <= s[0] && s[0] <= 'z' {
		return string(s[0]-'a'+'A') + s[1:]
	}
	return s
}

package window

import (
	"cmp"
	"image/color"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"kedge/canvas/form"
	"kedge/canvas/panel"
	"kedge/canvas/pen"
	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
)

func itoa(n int) string { return strconv.Itoa(n) }

// detailsPanel shows the members of what is selected.
type detailsPanel struct {
	w       *Window
	pane    *panel.Pane
	entry   *fieldEntry // nil: nothing is typed
	waiting *form.Focus // field to be typed into once it is drawn
	thumb   thumb
	last    plan.ID  // shown last
	wanted  []string // its members that were asked for while it was shown: what is answered keeps its place
}

// snap draws the members of what is selected.
func (dp *detailsPanel) snap() func(*panel.Drawing) {
	if dp.w.reading.now != nil {
		return dp.w.reading.snap()
	}
	selected := dp.w.board.Selection()
	if len(selected) == 0 {
		return func(d *panel.Drawing) {
			d.Title(dp.w.label("title-details"), "")
			d.Note(dp.w.label("details-none"), d.Small(), 0)
		}
	}
	names := dp.w.names()
	shown := dp.show(selected)
	head := dp.called(shown.thing, names)
	if len(selected) > 1 {
		head = dp.w.label("n-selected", part.Count("count", len(selected)))
	}
	part := dp.w.board.PartOf(shown.thing)
	entering, actions, photo := dp.entry.at(), dp.traceActions(), dp.photo()
	return func(d *panel.Drawing) {
		if part != "" {
			word := dp.w.label("do-why")
			wide := d.ButtonWide(word)
			d.Button(d.W-d.Px(14)-wide, d.Y+d.Px(3), "why", word, false, func() { dp.w.whys.explainFar(part) }, "")
			d.Right(d.W-d.Px(22)-wide, d.Y+d.Px(14), head, d.Small())
			d.Title(dp.w.label("title-details"), "")
		} else {
			d.Title(dp.w.label("title-details"), head)
		}
		dp.drawTraceActions(d, &actions)
		if len(selected) > 1 && shown.open == nil && shown.folds == nil {
			d.Note(dp.w.label("several-kinds"), d.Small(), 0)
		}
		for i := range shown.open {
			dp.drawField(d, shown.thing, &shown.open[i], head, entering)
		}
		if photo != nil {
			dp.thumb.show(d, photo)
		}
		for _, f := range shown.folds {
			dp.drawFold(d, &f)
			if f.unfolded {
				for i := range f.fields {
					dp.drawField(d, shown.thing, &f.fields[i], head, entering)
				}
			}
		}
	}
}

// called is what a thing is called, the sheet and its like too.
func (dp *detailsPanel) called(id plan.ID, names words.Names) string {
	switch id {
	case form.ThingGround:
		return dp.w.label("thing-ground")
	case form.ThingSheet:
		return dp.w.label("thing-sheet")
	case form.ThingUnderlay:
		return dp.w.label("thing-underlay")
	case form.ThingSurvey:
		return dp.w.label("thing-survey")
	}
	p := dp.w.board.Plan()
	if i := p.RigIndex(id); i >= 0 {
		return dp.w.board.Words().RigName(p, i)
	}
	return names(id)
}

// drawField draws one member: typed in a box, preset with the word beside it,
// computed with = and no box, measured over computed.
// called is the name the thing goes by.
func (dp *detailsPanel) drawField(d *panel.Drawing, thing plan.ID, f *form.Field, called string, entering fieldAt) {
	t, s := d.Mid(), d.Small()
	left, high := d.W*0.44, d.Px(24)
	d.Text(d.Px(14), d.Y+high/2, f.Label, t, left-d.Px(20))
	member := *f
	box := panel.Hit{ID: "field " + f.Member, X0: left, Y0: d.Y, X1: d.W - d.Px(14), Y1: d.Y + high, Press: func() { dp.edit(thing, member) }, Over: dp.help(member)}
	edge := d.Shades.Edge
	if d.Hover == box.ID {
		edge = d.Shades.Ink
	}
	switch {
	case f.Kind == form.KindShown || f.Origin == form.OriginComputed && f.Value == "":
		drawComputed(d, f, box)
		return
	case f.Kind == form.KindBool: // a box to tick, not one to type into
		d.Tick(left+d.Px(14), d.Y+high/2, f.Value == "yes")
		if d.Hover == box.ID || d.Focus == box.ID {
			d.Box(left, d.Y+1, box.X1-left, high-2, 3, color.NRGBA{}, edge, 1)
		}
		value, style := dp.fieldText(d, f, called)
		if value == f.Value { // no word of the language: the tick says it
			value = ""
		}
		d.Text(left+d.Px(28), d.Y+high/2, value, style, box.X1-left-d.Px(34))
		d.Hit(box)
		d.Y += high
		return
	}
	dp.drawTyped(d, f, called, box, edge)
	if f.Kind == form.KindRating {
		dp.drawBasis(d, thing, member, left, box.X1-left)
	}
	if f.Origin == form.OriginMeasured {
		d.Text(left+d.Px(8), d.Y+panel.LineHigh(s)/2, dp.w.label("measured", part.Text("computed", f.Computed)), s, box.X1-left-d.Px(8))
		d.Y += panel.LineHigh(s)
	}
	if entering.member == f.Member && entering.thing == thing && entering.fault != "" {
		d.Y = d.Para(d.Px(14), d.Y+2, d.W-d.Px(28), entering.fault, panel.Bold(panel.Coloured(s, d.Shades.ZoneRedText))) + d.Px(4)
	}
}

// drawComputed is a value that was not typed, on as many lines as it needs.
func drawComputed(d *panel.Drawing, f *form.Field, box panel.Hit) {
	t := d.Mid()
	shown := cmp.Or(f.Computed, f.Value)
	if !strings.HasPrefix(shown, "=") {
		shown = "= " + shown
	}
	wide, mid := box.X1-box.X0, (box.Y0+box.Y1)/2
	lines := panel.Wrap(shown, t, wide-d.Px(12))
	for i, l := range lines {
		d.Text(box.X0+d.Px(8), mid+float64(i)*panel.LineHigh(t), l, t, 0)
	}
	box.Y1 += float64(len(lines)-1) * panel.LineHigh(t)
	d.Y = box.Y1
	if f.Kind == form.KindShown {
		return
	}
	if d.Hover == box.ID || d.Focus == box.ID {
		d.Box(box.X0, box.Y0+1, wide, box.Y1-box.Y0-2, 3, color.NRGBA{}, d.Shades.Edge, 1)
	}
	d.Hit(box)
}

// fieldText is what stands in a field, and how it is written.
func (dp *detailsPanel) fieldText(d *panel.Drawing, f *form.Field, called string) (string, pen.TextStyle) {
	if f.Origin != form.OriginUnknown || f.Value != "" {
		return shownValue(f), d.Mid()
	}
	value := "?"
	switch {
	case f.Differs:
		value = dp.w.label("differs")
	case f.Kind == form.KindBool:
		value = dp.w.label("not-known")
	case f.Member == memberName: // what it is called as long as nobody names it
		value = called
	case f.Kind == form.KindText || f.Kind == form.KindLines:
		value = ""
	}
	return value, panel.Coloured(d.Mid(), d.Shades.Quiet)
}

// drawTyped is a box to type into, preset with the word in it.
func (dp *detailsPanel) drawTyped(d *panel.Drawing, f *form.Field, called string, box panel.Hit, edge color.NRGBA) {
	wide, mid, s := box.X1-box.X0, (box.Y0+box.Y1)/2, d.Small()
	d.Box(box.X0, box.Y0+1, wide, box.Y1-box.Y0-2, 3, d.Shades.Card, edge, 1)
	taken := 0.0
	if f.Origin == form.OriginPreset {
		remark := dp.w.label("preset")
		taken = panel.Width(remark, s) + d.Px(6)
		d.Right(box.X1-d.Px(6), mid, remark, s)
	}
	if f.Kind == form.KindChoice {
		d.Right(box.X1-d.Px(6)-taken, mid, "▾", s)
		taken += d.Px(14)
	}
	value, style := dp.fieldText(d, f, called)
	d.Text(box.X0+d.Px(8), mid, value, style, wide-d.Px(14)-taken)
	d.Hit(box)
	d.Y = box.Y1
}

// drawBasis is the basis of a rating, to be chosen below it.
func (dp *detailsPanel) drawBasis(d *panel.Drawing, thing plan.ID, f form.Field, x, wide float64) {
	basis := cmp.Or(f.Basis, "?")
	for _, c := range f.Choices {
		if c.Value == f.Basis {
			basis = cmp.Or(c.Text, "?")
		}
	}
	id, high := "field "+f.Member+"/basis", d.Px(20)
	if d.Hover == id {
		d.Box(x, d.Y, wide, high-2, 3, d.Shades.Hover, color.NRGBA{}, 0)
	}
	d.Text(x+d.Px(8), d.Y+high/2, basis+" ▾", panel.Coloured(d.Small(), d.Shades.Ink), wide-d.Px(12))
	d.Hit(panel.Hit{ID: id, X0: x, Y0: d.Y, X1: x + wide, Y1: d.Y + high, Press: func() { dp.choose(over{dp.pane, id}, thing, f.Member+"/basis", f.Choices) }})
	d.Y += high
}

// shownValue is a field's value with its unit.
func shownValue(f *form.Field) string {
	v := f.Value
	if f.Kind == form.KindChoice || f.Kind == form.KindBool {
		for _, c := range f.Choices {
			if c.Value == f.Value {
				return c.Text
			}
		}
		return v
	}
	if v != "" && f.Unit != "" {
		v += " " + f.Unit
	}
	if f.Kind == form.KindLines && len(f.Choices) > 0 { // ports: by what they are called
		lines := strings.Split(v, "\n")
		for i, l := range lines {
			for _, c := range f.Choices {
				if c.Value == strings.TrimSpace(l) {
					lines[i] = c.Text
				}
			}
		}
		return strings.Join(lines, "; ")
	}
	return strings.ReplaceAll(v, "\n", "; ")
}

// Members that Details shows in a way of their own.
const (
	memberName   = "name"
	memberPlanOn = "casualty/plan_on"
)

// settled are fields with what counts where nothing was entered.
func (dp *detailsPanel) settled(fields []form.Field) []form.Field {
	for i := range fields {
		f := &fields[i]
		if f.Member == memberPlanOn && f.Value == "" && f.Computed == "" {
			f.Origin, f.Computed = form.OriginComputed, dp.w.label("plan-"+plan.PlanHigh)
		}
	}
	return fields
}

// help says in the status line what a field is about.
func (dp *detailsPanel) help(f form.Field) func(bool) {
	if f.Help == "" {
		return nil
	}
	return dp.w.hint(f.Help)
}

// edit opens a field of Details: an entry over it, or a menu of its choices.
func (dp *detailsPanel) edit(thing plan.ID, f form.Field) {
	dp.editAt(over{dp.pane, "field " + f.Member}, thing, f)
}

// editAt opens a field where it is drawn.
func (dp *detailsPanel) editAt(at over, thing plan.ID, f form.Field) {
	switch {
	case f.Kind == form.KindBool:
		v := "yes"
		if f.Value == "yes" {
			v = "no"
		}
		dp.set(thing, f.Member, v)
	case f.Kind == form.KindChoice && len(f.Choices) > 0:
		var more []*fyne.MenuItem
		if f.Free {
			more = append(more, dp.w.menus.choice(dp.w.label("other-word"), false, func() { dp.openEntry(at, thing, f) }))
		}
		dp.choose(at, thing, f.Member, f.Choices, more...)
	default:
		dp.openEntry(at, thing, f)
	}
}

// set edits a member; a refused text is said and stays where it was typed.
func (dp *detailsPanel) set(thing plan.ID, member, given string) bool {
	if thing == "" { // of all that is selected
		return dp.w.board.SetAll(dp.w.board.Selection(), member, given) == nil
	}
	return dp.w.board.Set(thing, member, given) == nil // the board says why not
}

// choose shows the choices of a member as a menu under its hit.
func (dp *detailsPanel) choose(at over, thing plan.ID, member string, choices []form.Choice, more ...*fyne.MenuItem) {
	var items []*fyne.MenuItem
	for _, c := range choices {
		name := c.Text
		if c.Confidence != "" {
			name += "   (" + c.Confidence + ")"
		}
		items = append(items, dp.w.menus.choice(name, false, func() { dp.set(thing, member, c.Value) }))
	}
	items = append(items, dp.w.menus.choice(dp.w.label("not-known"), false, func() { dp.set(thing, member, "") }))
	items = append(items, more...)
	dp.w.menus.show("choice", items, at.pane.Below(at.id))
}

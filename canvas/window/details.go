package window

import (
	"image/color"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"kedge/canvas/form"
	"kedge/canvas/panel"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

func itoa(n int) string { return strconv.Itoa(n) }

// detailsPanel shows the members of what is selected, and the sum that is
// pinned.
type detailsPanel struct {
	w         *Window
	pane      *panel.Pane
	pinned    string      // part whose sum is shown; empty: none
	entry     *fieldEntry // nil: nothing is typed
	waiting   *form.Focus // field to be typed into once it is drawn
	explained struct {    // the sum that is pinned
		plan *plan.Plan
		rig  plan.ID
		part string
		sum  *part.Sum
		err  error
	}
}

// any reports whether there is something to show in Details.
func (dp *detailsPanel) any() bool {
	return len(dp.w.board.Selection()) > 0 || dp.pinned != "" || dp.w.reading.now != nil
}

// sum is the pinned sum, kept while plan and rig are the same.
func (dp *detailsPanel) sum() (*part.Sum, error) {
	e := &dp.explained
	if p, rig := dp.w.board.Shown(), dp.w.board.Rig(); e.plan != p || e.rig != rig || e.part != dp.pinned {
		e.plan, e.rig, e.part = p, rig, dp.pinned
		e.sum, e.err = solver.Explain(p, rig, dp.pinned)
	}
	return e.sum, e.err
}

// snap draws the members of what is selected, and the sum that is
// pinned.
func (dp *detailsPanel) snap() func(*panel.Drawing) {
	if dp.w.reading.now != nil {
		return dp.w.reading.snap()
	}
	if !dp.any() {
		return func(d *panel.Drawing) {
			d.Title(dp.w.label("title-details"), "")
			d.Y = d.Para(d.Px(14), d.Y, d.W-d.Px(28), dp.w.label("details-none"), d.Small())
		}
	}
	a, ws, names := dp.w.answer(), dp.w.words(), dp.w.names()
	var lines []string
	title := ""
	if dp.pinned != "" {
		sum, err := dp.sum()
		if err != nil {
			dp.pinned = ""
		} else {
			lines = ws.Sum(sum, ws.Naming(a, names))
			title = dp.w.label("title-resistance")
			if p, ok := a.Part(dp.pinned); ok {
				title = ws.PartName(p, names)
			}
		}
	}
	var thing plan.ID
	var fields []form.Field
	selected := dp.w.board.Selection()
	if len(selected) == 1 {
		thing = selected[0]
		fields = dp.settled(form.Fields(dp.w.board.Shown(), dp.w.board.Rig(), thing, a, ws))
	}
	head := dp.called(thing, names)
	if len(selected) > 1 {
		head = dp.w.label("n-selected", count(len(selected)))
	}
	part := dp.w.board.PartOf(thing)
	entering, actions := dp.entry.at(), dp.traceActions()
	return func(d *panel.Drawing) {
		if lines != nil {
			d.Title(dp.w.label("why", text("part", title)), "")
			d.Button(d.W-d.Px(14)-panel.Width(dp.w.label("do-close"), panel.Bold(d.Small()))-d.Px(18), d.Y-d.Px(26), "unpin", dp.w.label("do-close"), false, func() { dp.pinned = "" }, "")
			for _, l := range lines {
				indent := len(l) - len(strings.TrimLeft(l, " "))
				d.Y = d.Para(d.Px(14)+float64(indent)*d.Px(4), d.Y, d.W-d.Px(28)-float64(indent)*d.Px(4), l, panel.Coloured(d.Small(), d.Shades.Ink)) + 2
			}
			d.Y += d.Px(6)
			d.Stroke(d.Px(10), d.Y, d.W-d.Px(10), d.Y, 1, d.Shades.GridBold)
		}
		if len(selected) == 0 {
			return
		}
		d.Title(dp.w.label("title-details"), head)
		if part != "" && lines == nil {
			d.Button(d.W-d.Px(14)-panel.Width(dp.w.label("do-why"), panel.Bold(d.Small()))-d.Px(18), d.Y, "why", dp.w.label("do-why"), false, func() { dp.explain(part) }, "")
		}
		dp.drawTraceActions(d, &actions)
		group := ""
		for i := range fields {
			f := &fields[i]
			if f.Group != group {
				group = f.Group
				d.Text(d.Px(14), d.Y+d.Px(12), group, panel.Bold(d.Small()), d.W-d.Px(100))
				d.Y += d.Px(24)
			}
			dp.drawField(d, thing, f, head, entering)
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
	high := d.Px(24)
	x0 := d.Px(14)
	bx := d.W * 0.44
	bw := d.W - d.Px(14) - bx
	y := d.Y
	mid := y + high/2
	d.Text(x0, mid, f.Label, t, bx-x0-d.Px(6))
	id := "field " + f.Member
	member := *f
	if f.Kind == form.KindShown || f.Origin == form.OriginComputed && f.Value == "" {
		value := f.Computed
		if value == "" {
			value = f.Value
		}
		shown := value
		if !strings.HasPrefix(value, "=") {
			shown = "= " + value
		}
		lines := panel.Wrap(shown, t, bw-d.Px(12))
		for i, l := range lines {
			d.Text(bx+d.Px(8), mid+float64(i)*panel.LineHigh(t), l, t, 0)
		}
		high += float64(len(lines)-1) * panel.LineHigh(t)
		if f.Kind != form.KindShown && (d.Hover == id || d.Focus == id) {
			d.Box(bx, y+1, bw, high-2, 3, color.NRGBA{}, d.Shades.Edge, 1)
		}
		if f.Kind == form.KindShown {
			d.Y += high
			return
		}
		d.Hit(panel.Hit{ID: id, X0: bx, Y0: y, X1: bx + bw, Y1: y + high, Press: func() { dp.edit(thing, member) }, Over: dp.help(member)})
		d.Y += high
		return
	}
	edge := d.Shades.Edge
	if d.Hover == id {
		edge = d.Shades.Ink
	}
	remark := ""
	switch f.Origin {
	case form.OriginPreset:
		remark = dp.w.label("preset")
	case form.OriginMeasured:
		remark = dp.w.label("measured", text("computed", f.Computed))
	}
	value := shownValue(f)
	style := t
	if f.Origin == form.OriginUnknown && f.Value == "" {
		value, style = "?", panel.Coloured(t, d.Shades.Quiet)
		switch {
		case f.Kind == form.KindBool:
			value = dp.w.label("not-known")
		case f.Member == memberName: // what it is called as long as nobody names it
			value = called
		case f.Kind == form.KindText || f.Kind == form.KindLines:
			value = ""
		}
	}
	if f.Kind == form.KindBool { // a box to tick, not one to type into
		d.Tick(bx+d.Px(14), mid, f.Value == "yes")
		if d.Hover == id || d.Focus == id {
			d.Box(bx, y+1, bw, high-2, 3, color.NRGBA{}, edge, 1)
		}
		if value == f.Value { // no word of the language: the tick says it
			value = ""
		}
		d.Text(bx+d.Px(28), mid, value, style, bw-d.Px(34))
		d.Hit(panel.Hit{ID: id, X0: bx, Y0: y, X1: bx + bw, Y1: y + high, Press: func() { dp.edit(thing, member) }, Over: dp.help(member)})
		d.Y += high
		return
	}
	d.Box(bx, y+1, bw, high-2, 3, d.Shades.Card, edge, 1)
	rw := 0.0
	if remark != "" && f.Origin == form.OriginPreset {
		rw = panel.Width(remark, s) + d.Px(6)
		d.Right(bx+bw-d.Px(6), mid, remark, s)
	}
	if f.Kind == form.KindChoice {
		rw += d.Px(14)
		d.Right(bx+bw-d.Px(6)-max(rw-d.Px(14), 0), mid, "▾", s)
	}
	d.Text(bx+d.Px(8), mid, value, style, bw-d.Px(14)-rw)
	d.Hit(panel.Hit{ID: id, X0: bx, Y0: y, X1: bx + bw, Y1: y + high, Press: func() { dp.edit(thing, member) }, Over: dp.help(member)})
	d.Y += high
	if f.Kind == form.KindRating {
		basis := f.Basis
		for _, c := range f.Choices {
			if c.Value == f.Basis {
				basis = c.Text
			}
		}
		if basis == "" {
			basis = "?"
		}
		bid := id + "/basis"
		h := d.Px(20)
		if d.Hover == bid {
			d.Box(bx, d.Y, bw, h-2, 3, d.Shades.Hover, color.NRGBA{}, 0)
		}
		d.Text(bx+d.Px(8), d.Y+h/2, basis+" ▾", panel.Coloured(s, d.Shades.Ink), bw-d.Px(12))
		d.Hit(panel.Hit{ID: bid, X0: bx, Y0: d.Y, X1: bx + bw, Y1: d.Y + h, Press: func() {
			dp.choose(thing, member.Member+"/basis", member.Choices, bid)
		}})
		d.Y += h
	}
	if f.Origin == form.OriginMeasured {
		d.Text(bx+d.Px(8), d.Y+panel.LineHigh(s)/2, remark, s, bw-d.Px(8))
		d.Y += panel.LineHigh(s)
	}
	if entering.member == f.Member && entering.thing == thing && entering.fault != "" {
		d.Y = d.Para(x0, d.Y+2, d.W-d.Px(28), entering.fault, panel.Bold(panel.Coloured(s, d.Shades.ZoneRedText))) + d.Px(4)
	}
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

// edit opens a field: an entry over it, or a menu of its choices.
func (dp *detailsPanel) edit(thing plan.ID, f form.Field) {
	id := "field " + f.Member
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
			more = append(more, dp.w.menus.choice(dp.w.label("other-word"), false, func() { dp.openEntry(thing, f) }))
		}
		dp.choose(thing, f.Member, f.Choices, id, more...)
	default:
		dp.openEntry(thing, f)
	}
}

// set edits a member; a refused text is said and stays where it was typed.
func (dp *detailsPanel) set(thing plan.ID, member, given string) bool {
	return dp.w.board.Set(thing, member, given) == nil // the board says why not
}

// choose shows the choices of a member as a menu under its hit.
func (dp *detailsPanel) choose(thing plan.ID, member string, choices []form.Choice, id string, more ...*fyne.MenuItem) {
	var items []*fyne.MenuItem
	for _, c := range choices {
		name := c.Text
		if c.Surety != "" {
			name += "   (" + c.Surety + ")"
		}
		items = append(items, dp.w.menus.choice(name, false, func() { dp.set(thing, member, c.Value) }))
	}
	items = append(items, dp.w.menus.choice(dp.w.label("not-known"), false, func() { dp.set(thing, member, "") }))
	items = append(items, more...)
	dp.w.menus.show("choice", items, dp.pane.Below(id))
}

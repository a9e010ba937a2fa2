package window

import (
	"image/color"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"kedge/canvas/form"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

func itoa(n int) string { return strconv.Itoa(n) }

// hasDetails tells that there is something to show in Details.
func (w *Window) hasDetails() bool {
	return len(w.board.Selection()) > 0 || w.pinned != "" || w.reading != nil
}

// sum is the pinned sum, kept while plan and rig are the same.
func (w *Window) sum() (*part.Sum, error) {
	e := &w.explained
	if p, rig := w.board.Shown(), w.board.Rig(); e.plan != p || e.rig != rig || e.part != w.pinned {
		e.plan, e.rig, e.part = p, rig, w.pinned
		e.sum, e.err = solver.Explain(p, rig, w.pinned)
	}
	return e.sum, e.err
}

// snapDetails draws the members of what is selected, and the sum that is
// pinned.
func (w *Window) snapDetails() func(*ink) {
	if w.reading != nil {
		return w.snapReading()
	}
	if !w.hasDetails() {
		return func(k *ink) {
			k.title(w.label("title-details"), "")
			k.y = k.para(k.px(14), k.y, k.w-k.px(28), w.label("details-none"), k.small())
		}
	}
	a, ws, names := w.answer(), w.words(), w.names()
	var lines []string
	title := ""
	if w.pinned != "" {
		sum, err := w.sum()
		if err != nil {
			w.pinned = ""
		} else {
			lines = ws.Sum(sum, ws.Naming(a, names))
			title = w.label("title-resistance")
			if p, ok := a.Part(w.pinned); ok {
				title = ws.PartName(p, names)
			}
		}
	}
	var thing plan.ID
	var fields []form.Field
	selected := w.board.Selection()
	if len(selected) == 1 {
		thing = selected[0]
		fields = w.settled(form.Fields(w.board.Shown(), w.board.Rig(), thing, a, ws))
	}
	head := w.called(thing, names)
	if len(selected) > 1 {
		head = w.label("n-selected", count(len(selected)))
	}
	part := w.board.PartOf(thing)
	entering, actions := w.entry.at(), w.traceActions()
	return func(k *ink) {
		if lines != nil {
			k.title(w.label("why", text("part", title)), "")
			k.button(k.w-k.px(14)-width(w.label("do-close"), bold(k.small()))-k.px(18), k.y-k.px(26), "unpin", w.label("do-close"), false, func() { w.pinned = "" }, "")
			for _, l := range lines {
				indent := len(l) - len(strings.TrimLeft(l, " "))
				k.y = k.para(k.px(14)+float64(indent)*k.px(4), k.y, k.w-k.px(28)-float64(indent)*k.px(4), l, in(k.small(), k.c.Ink)) + 2
			}
			k.y += k.px(6)
			k.stroke(k.px(10), k.y, k.w-k.px(10), k.y, 1, k.c.GridBold)
		}
		if len(selected) == 0 {
			return
		}
		k.title(w.label("title-details"), head)
		if part != "" && lines == nil {
			k.button(k.w-k.px(14)-width(w.label("do-why"), bold(k.small()))-k.px(18), k.y, "why", w.label("do-why"), false, func() { w.explain(part) }, "")
		}
		k.traceButtons(w, &actions)
		group := ""
		for i := range fields {
			f := &fields[i]
			if f.Group != group {
				group = f.Group
				k.text(k.px(14), k.y+k.px(12), group, bold(k.small()), k.w-k.px(100))
				k.y += k.px(24)
			}
			k.field(w, thing, f, head, entering)
		}
	}
}

// called is what a thing is called, the sheet and its like too.
func (w *Window) called(id plan.ID, names words.Names) string {
	switch id {
	case form.ThingGround:
		return w.label("thing-ground")
	case form.ThingSheet:
		return w.label("thing-sheet")
	case form.ThingUnderlay:
		return w.label("thing-underlay")
	case form.ThingSurvey:
		return w.label("thing-survey")
	}
	p := w.board.Plan()
	if i := p.RigIndex(id); i >= 0 {
		return w.board.Words().RigName(p, i)
	}
	return names(id)
}

// field draws one member: typed in a box, preset with the word beside it,
// computed with = and no box, measured over computed.
// called is the name the thing goes by.
func (k *ink) field(w *Window, thing plan.ID, f *form.Field, called string, entering fieldAt) {
	t, s := k.mid(), k.small()
	high := k.px(24)
	x0 := k.px(14)
	bx := k.w * 0.44
	bw := k.w - k.px(14) - bx
	y := k.y
	mid := y + high/2
	k.text(x0, mid, f.Label, t, bx-x0-k.px(6))
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
		lines := wrap(shown, t, bw-k.px(12))
		for i, l := range lines {
			k.text(bx+k.px(8), mid+float64(i)*line(t), l, t, 0)
		}
		high += float64(len(lines)-1) * line(t)
		if f.Kind != form.KindShown && (k.hover == id || k.focus == id) {
			k.box(bx, y+1, bw, high-2, 3, color.NRGBA{}, k.c.Edge, 1)
		}
		if f.Kind == form.KindShown {
			k.y += high
			return
		}
		k.hit(hit{id: id, x0: bx, y0: y, x1: bx + bw, y1: y + high, press: func() { w.edit(thing, member) }, over: w.help(member)})
		k.y += high
		return
	}
	edge := k.c.Edge
	if k.hover == id {
		edge = k.c.Ink
	}
	remark := ""
	switch f.Origin {
	case form.OriginPreset:
		remark = w.label("preset")
	case form.OriginMeasured:
		remark = w.label("measured", text("computed", f.Computed))
	}
	value := shownValue(f)
	style := t
	if f.Origin == form.OriginUnknown && f.Value == "" {
		value, style = "?", in(t, k.c.Quiet)
		switch {
		case f.Kind == form.KindBool:
			value = w.label("not-known")
		case f.Member == memberName: // what it is called as long as nobody names it
			value = called
		case f.Kind == form.KindText || f.Kind == form.KindLines:
			value = ""
		}
	}
	if f.Kind == form.KindBool { // a box to tick, not one to type into
		k.tick(bx+k.px(14), mid, f.Value == "yes")
		if k.hover == id || k.focus == id {
			k.box(bx, y+1, bw, high-2, 3, color.NRGBA{}, edge, 1)
		}
		if value == f.Value { // no word of the language: the tick says it
			value = ""
		}
		k.text(bx+k.px(28), mid, value, style, bw-k.px(34))
		k.hit(hit{id: id, x0: bx, y0: y, x1: bx + bw, y1: y + high, press: func() { w.edit(thing, member) }, over: w.help(member)})
		k.y += high
		return
	}
	k.box(bx, y+1, bw, high-2, 3, k.c.Card, edge, 1)
	rw := 0.0
	if remark != "" && f.Origin == form.OriginPreset {
		rw = width(remark, s) + k.px(6)
		k.right(bx+bw-k.px(6), mid, remark, s)
	}
	if f.Kind == form.KindChoice {
		rw += k.px(14)
		k.right(bx+bw-k.px(6)-max(rw-k.px(14), 0), mid, "▾", s)
	}
	k.text(bx+k.px(8), mid, value, style, bw-k.px(14)-rw)
	k.hit(hit{id: id, x0: bx, y0: y, x1: bx + bw, y1: y + high, press: func() { w.edit(thing, member) }, over: w.help(member)})
	k.y += high
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
		h := k.px(20)
		if k.hover == bid {
			k.box(bx, k.y, bw, h-2, 3, k.c.Hover, color.NRGBA{}, 0)
		}
		k.text(bx+k.px(8), k.y+h/2, basis+" ▾", in(s, k.c.Ink), bw-k.px(12))
		k.hit(hit{id: bid, x0: bx, y0: k.y, x1: bx + bw, y1: k.y + h, press: func() {
			w.choose(thing, member.Member+"/basis", member.Choices, bid)
		}})
		k.y += h
	}
	if f.Origin == form.OriginMeasured {
		k.text(bx+k.px(8), k.y+line(s)/2, remark, s, bw-k.px(8))
		k.y += line(s)
	}
	if entering.member == f.Member && entering.thing == thing && entering.fault != "" {
		k.y = k.para(x0, k.y+2, k.w-k.px(28), entering.fault, bold(in(s, k.c.ZoneRedText))) + k.px(4)
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
func (w *Window) settled(fields []form.Field) []form.Field {
	for i := range fields {
		f := &fields[i]
		if f.Member == memberPlanOn && f.Value == "" && f.Computed == "" {
			f.Origin, f.Computed = form.OriginComputed, w.label("plan-"+plan.PlanHigh)
		}
	}
	return fields
}

// help says in the status line what a field is about.
func (w *Window) help(f form.Field) func(bool) {
	if f.Help == "" {
		return nil
	}
	return w.hint(f.Help)
}

// edit opens a field: an entry over it, or a menu of its choices.
func (w *Window) edit(thing plan.ID, f form.Field) {
	id := "field " + f.Member
	switch {
	case f.Kind == form.KindBool:
		v := "yes"
		if f.Value == "yes" {
			v = "no"
		}
		w.set(thing, f.Member, v)
	case f.Kind == form.KindChoice && len(f.Choices) > 0:
		w.chooseOrType(thing, f, id)
	default:
		w.openEntry(thing, f)
	}
}

// set edits a member; a refused text is said and stays where it was typed.
func (w *Window) set(thing plan.ID, member, given string) bool {
	return w.board.Set(thing, member, given) == nil // the board says why not
}

// choose shows the choices of a member as a menu under its hit.
func (w *Window) choose(thing plan.ID, member string, choices []form.Choice, id string) {
	w.chooser(thing, member, choices, id, nil)
}

func (w *Window) chooseOrType(thing plan.ID, f form.Field, id string) {
	var more *fyne.MenuItem
	if f.Free {
		more = fyne.NewMenuItem(w.label("other-word"), func() { w.openEntry(thing, f); w.refresh() })
	}
	w.chooser(thing, f.Member, f.Choices, id, more)
}

func (w *Window) chooser(thing plan.ID, member string, choices []form.Choice, id string, more *fyne.MenuItem) {
	var items []*fyne.MenuItem
	for _, c := range choices {
		name := c.Text
		if c.Surety != "" {
			name += "   (" + c.Surety + ")"
		}
		items = append(items, fyne.NewMenuItem(name, func() { w.set(thing, member, c.Value); w.refresh() }))
	}
	items = append(items, fyne.NewMenuItem(w.label("not-known"), func() { w.set(thing, member, ""); w.refresh() }))
	if more != nil {
		items = append(items, more)
	}
	x, y := float32(0), float32(0)
	if i := w.details.find(id); i >= 0 {
		x, y = float32(w.details.hits[i].x0), float32(w.details.hits[i].y1)
	}
	at := w.app.Driver().AbsolutePositionForObject(w.details)
	w.showMenu("choice", fyne.NewMenu("", items...), fyne.NewPos(at.X+x, at.Y+y), w.details)
}

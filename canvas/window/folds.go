package window

import (
	"slices"

	"kedge/canvas/form"
	"kedge/canvas/panel"
	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// fold is a heading of Details of a kind of thing: unfolded once it stays so for the kind,
// with the other preferences.
type fold struct{ kind, group string }

// key is what the preferences call it: the heading is that of the language.
func (f fold) key() string { return f.kind + "/" + f.group }

// folded are the fields below a heading.
type folded struct {
	fold
	fields   []form.Field
	unfolded bool
}

// shownThing is what Details shows of a thing, or of several of one kind.
type shownThing struct {
	thing plan.ID // empty: of all that are selected
	open  []form.Field
	folds []folded
}

// show is what Details shows of what is selected: first what matters most, and what is
// missing and asked for, then the rest by subject.
func (dp *detailsPanel) show(selected []plan.ID) (s shownThing) {
	p, rig, a, ws := dp.w.board.Shown(), dp.w.board.Rig(), dp.w.answer(), dp.w.words()
	var fields []form.Field
	if len(selected) == 1 {
		s.thing = selected[0]
		fields = form.Fields(p, rig, s.thing, a, ws)
	} else {
		fields = form.Shared(p, rig, selected, a, ws)
	}
	fields = dp.settled(fields)
	if s.thing != dp.last {
		dp.last, dp.wanted = s.thing, nil
		dp.pane.Scroll.ScrollToTop()
	}
	kind, matter := form.Mattering(p, rig, selected[0])
	for _, id := range selected {
		for _, m := range dp.asked(id) {
			if !slices.Contains(dp.wanted, m) {
				dp.wanted = append(dp.wanted, m)
			}
		}
	}
	for _, m := range slices.Concat(matter, dp.wanted) {
		if i := slices.IndexFunc(fields, func(f form.Field) bool { return f.Member == m }); i >= 0 {
			s.open = append(s.open, fields[i])
			fields = slices.Delete(fields, i, i+1)
		}
	}
	for i := range fields {
		f := &fields[i]
		at := fold{kind, f.Group}
		if n := len(s.folds); n == 0 || s.folds[n-1].fold != at {
			s.folds = append(s.folds, folded{fold: at, unfolded: slices.Contains(dp.w.prefs.Unfolded, at.key())})
		}
		last := &s.folds[len(s.folds)-1]
		last.fields = append(last.fields, *f)
	}
	return s
}

// asked are the members of a thing that the findings ask for.
func (dp *detailsPanel) asked(thing plan.ID) (members []string) {
	add := func(of plan.ID, r part.Remedy) {
		if of == thing || of == "" && thing == form.ThingGround {
			if f := dp.w.board.Field(r); f != nil && f.Thing == thing {
				members = append(members, f.Member)
			}
		}
	}
	for i := range dp.w.answer().Findings {
		f := &dp.w.answer().Findings[i]
		for _, l := range f.Lacks {
			add(l.Thing, part.TypeMissing(l))
		}
		if words.Asks(f) {
			for _, r := range f.Remedies {
				add(r.Thing, r)
			}
		}
	}
	return members
}

// unfold opens the heading that a member of a thing stands below.
func (dp *detailsPanel) unfold(thing plan.ID, member string) {
	p, rig := dp.w.board.Plan(), dp.w.board.Rig()
	kind, _ := form.Mattering(p, rig, thing)
	if f, ok := form.FieldOf(p, rig, thing, member, dp.w.answer(), dp.w.words()); ok {
		dp.setOpen(fold{kind, f.Group}, true)
	}
}

func (dp *detailsPanel) setOpen(f fold, open bool) {
	list := slices.DeleteFunc(slices.Clone(dp.w.prefs.Unfolded), func(k string) bool { return k == f.key() })
	if open {
		list = append(list, f.key())
	}
	dp.w.prefs.Unfolded = list
}

// foldRow is what the id of a heading begins with.
const foldRow = "subject "

// drawFold draws a heading that is pressed, with how much is entered below it.
func (dp *detailsPanel) drawFold(d *panel.Drawing, f *folded) {
	high, id, sign := d.Px(26), foldRow+f.group, "▸"
	if f.unfolded {
		sign = "▾"
	}
	if d.Hover == id {
		d.Fill(d.Px(4), d.Y, d.W-d.Px(8), high, d.Shades.Hover)
	}
	entered := 0
	for i := range f.fields {
		if o := f.fields[i].Origin; o == form.OriginTyped || o == form.OriginMeasured || o == form.OriginPreset {
			entered++
		}
	}
	s, remark := d.Small(), 0.0
	if entered > 0 {
		said := dp.w.label("fold-entered", part.Count("count", entered))
		remark = panel.Width(said, s) + d.Px(8)
		d.Right(d.W-d.Px(14), d.Y+high/2, said, s)
	}
	d.Text(d.Px(14), d.Y+high/2, sign+" "+f.group, panel.Bold(panel.Coloured(s, d.Shades.Ink)), d.W-d.Px(28)-remark)
	at, open := f.fold, !f.unfolded
	d.Hit(panel.Hit{ID: id, X0: d.Px(4), Y0: d.Y, X1: d.W - d.Px(4), Y1: d.Y + high, Press: func() { dp.setOpen(at, open) }})
	d.Y += high
}

package window

import (
	"cmp"
	"image/color"
	"slices"
	"strings"

	"kedge/canvas/pen"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// loadColumns are the columns of the table of loads: the pull that breaks loose
// has one where it asks more than that to move.
func loadColumns(a *solver.Assessment) []string {
	if a.Looser() {
		return []string{"part", "move", "loosen", "stall", "limit", "used"}
	}
	return []string{"part", "move", "stall", "limit", "used"}
}

// brokenAt is the share at which a bar is cut off and drawn as broken.
// (board.md)
const brokenAt = 1.5

// sortedParts is the order in which an answer's parts are listed.
func sortedParts(a *solver.Assessment, by string, names func(*part.Part) string) []int {
	order := make([]int, len(a.Parts))
	for i := range order {
		order[i] = i
	}
	key := func(i int) float64 {
		p := &a.Parts[i]
		switch by {
		case "move":
			if p.Move.Known {
				return float64(p.Move.Force)
			}
		case "loosen":
			if p.Loosen.Known {
				return float64(p.Loosen.Force)
			}
		case "stall":
			if p.Stall.Known {
				return float64(p.Stall.Force)
			}
		case "limit":
			if p.Limit.Known {
				return -float64(p.Limit.Force)
			}
			return 0
		case "used":
			switch {
			case p.Status == part.Refused || p.Status == part.NotComputed || p.Status == part.NotUnderstood:
				return 1e9 // what is not known comes first: it is not the least
			case p.Status == part.Undecided:
				return 0.99 + p.Most()/1000 // after what is over, before what is near or within
			case p.Known():
				return p.Most()
			case p.Status == part.NoLimit:
				return 0.99
			}
		}
		return -1
	}
	if by == "" {
		return order
	}
	slices.SortStableFunc(order, func(i, j int) int {
		if by == "part" {
			return strings.Compare(names(&a.Parts[i]), names(&a.Parts[j]))
		}
		return cmp.Compare(key(j), key(i))
	})
	return order
}

// loadRow is a row of the table as text.
type loadRow struct {
	part                             *part.Part
	name, move, loosen, stall, limit string
	used, basis, failure, reason     string
	number                           int // of the finding that flags it
	level                            part.Level
}

// rowOf is a part as its row shows it: loads rounded up, limits down, no
// figure where there is none.
func rowOf(ws *words.Words, a *solver.Assessment, p *part.Part, names words.Names) loadRow {
	r := loadRow{part: p, name: ws.PartName(p, names), move: bare(ws.LoadOf(p.Move), p.Move.Known),
		loosen: bare(ws.LoadOf(p.Loosen), p.Loosen.Known), stall: bare(ws.LoadOf(p.Stall), p.Stall.Known),
		used: ws.UsedOf(p), basis: ws.Basis(p.Limit.Basis)}
	r.limit = "?"
	if p.Limit.Known {
		r.limit = bare(ws.LimitOf(p.Limit), true)
		r.basis += ws.LimitMark(p.Limit)
	} else {
		r.basis = ws.Label("no-rating")
	}
	if share, ok := p.ToFailure(p.Planned()); ok {
		r.failure = ws.Label("to-failure", text("used", ws.Share(share)))
	}
	if p.Status == part.Refused || p.Status == part.NotComputed || p.Status == part.NotUnderstood {
		r.reason = ws.Reason(a, p, names)
		r.used = ws.Status(p.Status)
	}
	for i := range a.Findings {
		if a.Findings[i].Level >= part.Warning && slices.Contains(a.Findings[i].Parts, p.ID) {
			r.number, r.level = i+1, a.Findings[i].Level
			break
		}
	}
	return r
}

// bare is a figure without its unit, a dash where there is none.
func bare(s string, known bool) string {
	if !known {
		return "–"
	}
	if i := strings.LastIndexAny(s, "0123456789"); i >= 0 {
		return s[:i+1]
	}
	return s
}

// figure is what stands in a column of the row.
func (r *loadRow) figure(column string) string {
	switch column {
	case "move":
		return r.move
	case "loosen":
		return r.loosen
	case "stall":
		return r.stall
	case "limit":
		return r.limit
	}
	return r.used
}

// snapLoads draws the resistance control, the table of loads, people and lines.
func (w *Window) snapLoads() func(*ink) {
	a, ws, names, sortBy := w.answer(), w.words(), w.names(), w.sortBy
	pointed, pinned := w.overlay().HoverPart, w.pinned
	remark := ws.System().Force().String()
	if w.board.Shown() != w.board.Plan() {
		remark = w.label("preview") + " · " + remark
	}
	return func(k *ink) {
		naming := ws.Naming(a, names)
		k.title(w.label("title-loads"), remark)
		k.resistance(w, a, ws)
		if len(a.Parts) > 0 {
			k.table(w, a, ws, naming, sortBy, pointed, pinned)
		} else {
			k.y = k.para(k.px(14), k.y, k.w-k.px(28), w.label("loads-none"), k.small())
		}
		k.gauge(w, a, ws, naming)
	}
}

// resistance is the first control: what the pull is planned on.
func (k *ink) resistance(w *Window, a *solver.Assessment, ws *words.Words) {
	r := &a.Resistance
	if a.Casualty == "" {
		return
	}
	t := k.mid()
	y := k.y + k.buttonHigh()/2
	name := w.label("title-resistance")
	k.text(k.px(14), y, name, t, 0)
	x := k.px(14) + width(name, t) + k.px(10)
	if !r.Known {
		k.text(x, y, w.label("not-known"), bold(t), 0)
		k.y += k.buttonHigh() + k.px(6)
		return
	}
	on := r.PlanOn
	if on == "" {
		on = plan.PlanHigh
	}
	for _, c := range [...]struct {
		on string
		f  part.Value
	}{
		{plan.PlanLow, part.Value{X: float64(r.Low)}}, {plan.PlanLikely, part.Value{X: float64(r.Likely)}}, {plan.PlanHigh, part.Value{X: float64(r.High)}},
	} {
		f := c.f
		f.Unit = part.UnitForce
		word := w.label("plan-"+c.on) + " " + bare(ws.Value(f, nil), true)
		if c.on == on {
			word = w.label("PLAN-"+c.on) + " " + bare(ws.Value(f, nil), true)
		}
		x += k.button(x, k.y, "plan-on "+c.on, word, c.on == on, func() { w.planOn(a.Casualty, c.on) }, "")
	}
	k.text(x+k.px(6), y, ws.System().Force().String(), k.small(), 0)
	k.y += k.buttonHigh() + k.px(3)
	if on != plan.PlanHigh {
		k.chip(k.w-k.px(14), k.y+k.px(10), ws.Chip(a))
		k.y += k.px(22)
	}
	note := w.label("resistance-by", text("low", ws.Word(r.LowRule)), text("high", ws.Word(r.HighRule)), text("depth", w.label("depth-"+r.Depth)))
	s := k.small()
	k.text(k.px(14), k.y+line(s)/2, note, s, k.w-k.px(70))
	k.right(k.w-k.px(14), k.y+line(s)/2, w.label("do-why"), in(s, k.c.Ink))
	k.hit(hit{id: "why resistance", x0: k.px(10), y0: k.y - 2, x1: k.w - k.px(8), y1: k.y + line(s) + 2,
		press: func() { w.explain(solver.ResistancePart) }, second: func() { w.explain(solver.ResistancePart) }})
	k.y += line(s) + k.px(8)
}

// table lists the parts with bars that share one 100 % line.
func (k *ink) table(w *Window, a *solver.Assessment, ws *words.Words, names words.Names, sortBy, pointed, pinned string) {
	head := k.small()
	order := sortedParts(a, sortBy, func(p *part.Part) string { return ws.PartName(p, names) })
	rows := make([]loadRow, len(order))
	columns := loadColumns(a)
	wide := make([]float64, len(columns))
	for i, c := range columns {
		wide[i] = width(columnName(w, c), bold(head)) + k.px(10)
		if c == sortBy {
			wide[i] += width(" ▾", bold(head))
		}
	}
	for i, n := range order {
		rows[i] = rowOf(ws, a, &a.Parts[n], names)
		for j, c := range columns[1:] {
			t := bold(k.mid())
			if c == "used" && !rows[i].part.Known() {
				t = bold(k.small())
			}
			wide[j+1] = max(wide[j+1], width(rows[i].figure(c), t)+k.px(10))
		}
	}
	left := k.px(10)
	ends := make([]float64, len(columns))
	for i, end := len(columns)-1, k.w-k.px(14); i >= 0; i-- {
		ends[i] = end
		end -= wide[i]
	}
	hundred := ends[0] + k.px(2)
	full := (hundred - left) * brokenAt // of a bar at brokenAt
	y := k.y + k.px(10)
	for i, c := range columns {
		t := head
		s := columnName(w, c)
		if c == sortBy {
			t = bold(in(t, k.c.Ink))
			s += " ▾"
		}
		x0, x1 := left, ends[0]
		if i > 0 {
			x1 = ends[i]
			x0 = x1 - width(s, t)
			k.right(x1, y, s, t)
		} else {
			k.text(k.px(26), y, s, t, 0)
		}
		k.hit(hit{id: "sort " + c, x0: x0 - 4, y0: y - k.px(10), x1: x1 + 4, y1: y + k.px(10), press: func() { w.sortBy = c }})
	}
	k.y += k.px(22)
	for i := range rows {
		k.loadRow(w, &rows[i], columns, ends, left, hundred, full, pointed, pinned)
	}
	k.middle(hundred, k.y+k.px(8), "100 %", k.small())
	k.y += k.px(20)
}

func columnName(w *Window, c string) string {
	if c == "stall" || c == "move" || c == "loosen" {
		return w.label("short-" + c)
	}
	return w.label("column-" + c)
}

// loadRow draws one part: state by pattern and word, not by colour alone.
func (k *ink) loadRow(w *Window, r *loadRow, columns []string, ends []float64, left, hundred, full float64, pointed, pinned string) {
	p := r.part
	t, s := k.mid(), k.small()
	high := line(t) + line(s) + k.px(8)
	var reason []string
	if r.reason != "" {
		reason = wrap(r.reason, s, k.w-left-k.px(34))
		high += float64(len(reason)-1) * line(s)
	}
	y := k.y
	id := "part " + p.ID
	over := p.Status == part.Over
	name := t
	if over {
		name = bold(name)
	}
	x := left + k.px(16)
	if r.number > 0 {
		x += k.px(23)
	}
	// A name too long for its column is broken: cut, two parts could look alike.
	called := wrap(r.name, name, hundred-x-k.px(4))
	high += float64(len(called)-1) * line(t)
	if pointed == p.ID || k.hover == id || pinned == p.ID {
		k.fill(left, y, k.w-2*left+k.px(4), high, k.c.Hover)
	}
	barHigh := high - 3
	if p.Known() {
		share := min(p.Most(), brokenAt)
		wide := max(full/brokenAt*share, 2)
		strip := k.px(5) // where the pattern is: under the text, not behind it
		ground, core := k.c.Meter, mix(k.c.Meter, k.c.Ink, 0.35)
		hatch := pen.Hatch{}
		switch p.Status {
		case part.Over:
			ground, core = mix(k.c.Panel, k.c.OverCore, 0.25), k.c.OverCore
			hatch = pen.Hatch{Colour: k.c.OverMark, AngleDeg: 60, Spacing: 8, Width: 2}
		case part.Near:
			ground, core = mix(k.c.Panel, k.c.NearCore, 0.30), k.c.NearCore
			hatch = pen.Hatch{Colour: k.c.Ink, AngleDeg: 90, Spacing: 9, Width: 1.2}
			if k.c.Ink.R > 128 { // on dark ground the bright colour takes dark ticks
				hatch.Colour = k.c.Paper
			}
		}
		k.fill(left, y+1.5, wide, barHigh-strip, ground)
		k.path.Reset()
		k.path.Rect(left, y+1.5+barHigh-strip, wide, strip)
		k.Pen.Path(&k.path, &pen.Style{Fill: core, Hatch: hatch})
		if p.Most() > brokenAt { // broken: a gap with two slashes
			for _, dx := range [...]float64{k.px(18), k.px(11)} {
				x, foot := left+wide-dx, y+1.5+barHigh
				k.stroke(x, foot+1, x+k.px(4), foot-strip-1, 4, k.c.Panel)
				k.stroke(x, foot+1, x+k.px(4), foot-strip-1, 1.2, k.c.Ink)
			}
		}
	}
	if p.Known() { // beside the bar, not through what is written above it
		k.stroke(hundred, y+barHigh-k.px(6), hundred, y+high, 1.4, k.c.Ink)
	}
	mid := y + k.px(2) + line(t)/2
	switch p.Status {
	case part.Over:
		k.triangle(left+k.px(8), mid, k.px(10), k.c.Ink, color.NRGBA{})
	case part.Near:
		k.fill(left+k.px(5), mid-k.px(6), k.px(4), k.px(12), k.c.Ink)
	case part.NoLimit, part.Undecided:
		k.middle(left+k.px(8), mid, "?", bold(t))
	case part.Refused, part.NotComputed, part.NotUnderstood:
		k.middle(left+k.px(8), mid, "×", bold(t))
	case part.Slack:
		k.middle(left+k.px(8), mid, "~", in(t, k.c.Quiet))
	}
	if r.number > 0 {
		k.number(x-k.px(13), mid, r.number, r.level)
	}
	for i, l := range called {
		k.text(x, mid+float64(i)*line(t), l, name, hundred-x-k.px(4))
	}
	last := len(columns) - 1
	for i := 1; i < last; i++ {
		style := t
		if columns[i] == "stall" {
			style = in(t, k.c.Quiet)
		}
		k.right(ends[i], mid, r.figure(columns[i]), style)
	}
	below := y + k.px(2) + float64(len(called))*line(t) + line(s)/2
	state := ""
	switch p.Status {
	case part.Over, part.Near, part.Slack, part.NoLimit, part.Undecided:
		state = w.words().StatusOf(p)
	}
	if r.reason != "" || !p.Known() && p.Status != part.NoLimit && p.Status != part.Slack {
		k.right(ends[last], mid, r.used, bold(s))
		for i, l := range reason {
			k.text(left+k.px(16), below+float64(i)*line(s), l, in(s, k.c.Ink), 0)
		}
	} else {
		if p.Known() {
			k.right(ends[last], mid, r.used, bold(t))
		} else {
			k.right(ends[last], mid, "–", t)
		}
		note := r.basis
		if state != "" && state != note {
			note = state + " · " + note
		}
		fw := width(r.failure, s)
		k.right(ends[last], below, r.failure, s)
		k.text(left+k.px(16), below, note, s, k.w-left-k.px(40)-fw)
	}
	k.hit(hit{id: id, x0: left, y0: y, x1: k.w - k.px(6), y1: y + high,
		press:  func() { w.explain(p.ID) },
		second: func() { w.explain(p.ID) },
		over:   func(in bool) { w.pointPart(p.ID, in) }})
	k.y += high
	k.stroke(left, k.y-0.5, k.w-k.px(14), k.y-0.5, 0.6, k.c.GridBold)
}

// number is the numbered triangle that flag, card and row share.
func (k *ink) number(x, y float64, n int, l part.Level) {
	fill, on := k.c.Level(l)
	k.triangle(x, y, k.px(18), fill, k.c.Ink)
	t := bold(k.small())
	t.Size, t.Colour = k.px(9.5), on
	k.middle(x, y+k.px(3), itoa(n), t)
}

// gauge is what stands below the table: what it rests on, people, lines.
func (k *ink) gauge(w *Window, a *solver.Assessment, ws *words.Words, names words.Names) {
	s := k.small()
	x, room := k.px(14), k.w-k.px(28)
	if len(a.Parts) > 0 {
		k.y = k.para(x, k.y, room, w.label("basis-line", text("basis", w.label("basis-"+a.Basis()))), s)
		k.y = k.para(x, k.y, room, w.label("marks"), s) + k.px(6)
	}
	if len(a.People) > 0 {
		k.text(x, k.y+line(k.mid())/2, w.label("title-people"), bold(k.mid()), 0)
		k.y += line(k.mid())
		for _, p := range a.People {
			t := k.mid()
			if len(p.Inside) > 0 {
				t = bold(t)
				k.triangle(x+k.px(5), k.y+line(t)/2, k.px(10), k.c.Ink, color.NRGBA{})
			}
			y := k.y
			k.y = k.para(x+k.px(16), k.y, room-k.px(16), ws.Person(p, names), t)
			if out := ws.WayOut(p); out != "" {
				k.y = k.para(x+k.px(16), k.y, room-k.px(16), out, s)
			}
			id := p.Person
			k.hit(hit{id: "person " + string(id), x0: x, y0: y, x1: k.w - x, y1: k.y, press: func() { w.board.Select(id); w.reveal(id) }})
		}
		k.y += k.px(4)
	}
	if lines := lineUses(ws, a, names, w); lines != "" {
		k.y = k.para(x, k.y, room, lines, s)
	}
	if a.Advantage > 0 {
		k.y = k.para(x, k.y, room, w.label("advantage", part.Value{Name: "advantage", X: a.Advantage}), s)
	}
}

// lineUses says how much of each line is out.
func lineUses(ws *words.Words, a *solver.Assessment, names words.Names, w *Window) string {
	var all []string
	length := func(name string, x float64) part.Value { return part.Value{Name: name, Unit: part.UnitLength, X: x} }
	for _, u := range a.Lines {
		id := "line-use"
		if u.Has == 0 {
			id = "line-use-unknown"
		}
		s := w.label(id, text("line", names(u.Line)), length("out", float64(u.Out)), length("has", float64(u.Has)))
		if u.Layer > 0 {
			s += ", " + w.label("line-layer", part.Value{Name: "layer", Unit: part.UnitCount, X: float64(u.Layer)})
		}
		if u.Missing > 0 {
			s += ", " + w.label("line-missing", length("missing", float64(u.Missing)))
		}
		all = append(all, s)
	}
	return strings.Join(all, "  ·  ")
}

// pointPart shows a part in the picture while it is pointed at.
func (w *Window) pointPart(id string, in bool) {
	if in {
		w.pointed.part = id
	} else if w.pointed.part == id {
		w.pointed.part = ""
	}
}

// planOn chooses the resistance the pull is planned on.
func (w *Window) planOn(casualty plan.ID, on string) {
	if on == plan.PlanHigh {
		on = ""
	}
	w.set(casualty, "casualty/plan_on", on)
}

// explain pins the sum of a part; again, or of nothing, unpins it.
func (w *Window) explain(id string) {
	if w.pinned == id {
		id = ""
	}
	w.pinned = id
	if id == "" {
		return
	}
	if p, ok := w.answer().Part(id); ok {
		w.board.Select(p.Thing)
	}
	if tabbed, _ := w.narrow(); tabbed {
		w.choice, w.open = "details", true
	}
	w.detailsScroll.ScrollToTop()
}

// explainHere pins the sum of what is under the pointer or selected; false if
// there is nothing to explain.
func (w *Window) explainHere() bool {
	id := w.board.HoverPart()
	if s := w.board.Selection(); id == "" && len(s) > 0 {
		id = w.board.PartOf(s[0])
	}
	if id == "" {
		return false
	}
	w.explain(id)
	w.refresh()
	return true
}

package window

import (
	"image/color"
	"slices"
	"strings"

	"kedge/canvas/panel"
	"kedge/canvas/pen"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// loadsPanel is the table of loads, with people and lines below it.
type loadsPanel struct {
	w      *Window
	pane   *panel.Pane
	sortBy words.LoadColumn // that the loads are sorted by
	reveal string           // row to be brought into sight once it is drawn
}

// brokenAt is the share at which a bar is cut off and drawn as broken.
// (ours)
const brokenAt = 1.5

// shownColumns are the columns that the panel has room for; the others stand below
// the name.
func shownColumns(t words.LoadTable) []words.LoadColumn {
	return slices.DeleteFunc(slices.Clone(t.Columns), func(c words.LoadColumn) bool {
		return c == words.ColumnBasis || c == words.ColumnFailure || c == words.ColumnStatus || c == words.ColumnAt
	})
}

// figureOf is what stands in a column of the narrow table: signs for "no rating"
// and for states, which are written out below.
func figureOf(r *words.LoadRow, c words.LoadColumn) string {
	switch {
	case c == words.ColumnLimit && !r.Part.Limit.Known && !r.Uncomputed():
		return "?"
	case c == words.ColumnUsed && r.Uncomputed():
		return r.Cells[words.ColumnStatus]
	}
	return r.Cells[c]
}

// bare is a figure without its unit.
func bare(s string) string {
	if i := strings.LastIndexAny(s, "0123456789"); i >= 0 {
		return s[:i+1]
	}
	return s
}

// snap draws the resistance control, the table of loads, people and lines.
func (lp *loadsPanel) snap() func(*panel.Drawing) {
	a, ws, names, sortBy := lp.w.answer(), lp.w.words(), lp.w.names(), lp.sortBy
	with := loadsWith{pointed: lp.w.overlay().HoverPart, why: lp.w.whys.loads(), now: lp.w.travel.now(lp.w.board.Shown(), lp.w.board.Rig())}
	remark := ws.System().Force().String()
	if lp.w.board.Shown() != lp.w.board.Plan() {
		remark = lp.w.label("preview") + " · " + remark
	}
	return func(d *panel.Drawing) {
		naming := ws.Naming(a, names)
		d.Title(lp.w.label("title-loads"), remark)
		lp.drawResistance(d, a, ws, with.why[solver.ResistancePart])
		if len(a.Parts) > 0 {
			lp.drawTable(d, a, ws, naming, sortBy, &with)
		} else {
			d.Note(lp.w.label("loads-none"), d.Small(), 0)
		}
		lp.drawBelowTable(d, a, ws, naming)
	}
}

// loadsWith is what the rows show beside the answer.
type loadsWith struct {
	pointed string              // part that is pointed at
	why     map[string][]string // sums that are unfolded, by their parts
	now     *solver.Assessment  // of the moment that the picture shows; nil: of no pull
}

// drawResistance is the first control: what the pull is planned on, and why.
func (lp *loadsPanel) drawResistance(d *panel.Drawing, a *solver.Assessment, ws *words.Words, why []string) {
	r := &a.Resistance
	if a.Casualty == "" {
		return
	}
	t := d.Mid()
	y := d.Y + d.ButtonHigh()/2
	name := lp.w.label("title-resistance")
	d.Text(d.Px(14), y, name, t, 0)
	x := d.Px(14) + panel.Width(name, t) + d.Px(10)
	if !r.Known {
		d.Text(x, y, lp.w.label("not-known"), panel.Bold(t), 0)
		d.Y += d.ButtonHigh() + d.Px(6)
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
		word := lp.w.label("plan-"+c.on) + " " + bare(ws.Value(f, nil))
		if c.on == on {
			word = lp.w.label("PLAN-"+c.on) + " " + bare(ws.Value(f, nil))
		}
		x += d.Button(x, d.Y, "plan-on "+c.on, word, c.on == on, func() { lp.planOn(a.Casualty, c.on) }, "")
	}
	d.Text(x+d.Px(6), y, ws.System().Force().String(), d.Small(), 0)
	d.Y += d.ButtonHigh() + d.Px(3)
	if on != plan.PlanHigh {
		d.Chip(d.W-d.Px(14), d.Y+d.Px(10), ws.Chip(a))
		d.Y += d.Px(22)
	}
	note := lp.w.label("resistance-by", part.Text("low", ws.Word(r.LowRule)), part.Text("high", ws.Word(r.HighRule)), part.Text("depth", lp.w.label("depth-"+r.Depth)))
	s := d.Small()
	lines := panel.Wrap(note, s, d.W-d.Px(38)-panel.Width(lp.w.label("do-why"), s))
	for i, l := range lines {
		d.Text(d.Px(14), d.Y+(float64(i)+0.5)*panel.LineHigh(s), l, s, 0)
	}
	high := float64(len(lines)) * panel.LineHigh(s)
	d.Right(d.W-d.Px(14), d.Y+panel.LineHigh(s)/2, lp.w.label("do-why"), panel.Coloured(s, d.Shades.Ink))
	row, unfold := partRow(solver.ResistancePart), func() { lp.w.whys.explain(solver.ResistancePart) }
	d.Hit(panel.Hit{ID: row, X0: d.Px(10), Y0: d.Y - 2, X1: d.W - d.Px(8), Y1: d.Y + high + 2, Press: unfold, Second: unfold})
	d.Y += high + d.Px(8)
	if why != nil {
		lp.w.whys.drawSum(d, row, why, d.Px(14), d.W-d.Px(14))
	}
}

// drawTable lists the parts with bars that share one 100 % line.
func (lp *loadsPanel) drawTable(d *panel.Drawing, a *solver.Assessment, ws *words.Words, names words.Names, sortBy words.LoadColumn, with *loadsWith) {
	head := d.Small()
	table := ws.Loads(a, names, sortBy)
	columns := shownColumns(table)
	wide := make([]float64, len(columns))
	for i, c := range columns {
		wide[i] = panel.Width(lp.columnName(c), panel.Bold(head)) + d.Px(10)
		if c == sortBy {
			wide[i] += panel.Width(" ▾", panel.Bold(head))
		}
	}
	for i := range table.Rows {
		r := &table.Rows[i]
		for j, c := range columns[1:] {
			t := panel.Bold(d.Mid())
			if c == words.ColumnUsed && !r.Part.Known() {
				t = panel.Bold(d.Small())
			}
			wide[j+1] = max(wide[j+1], panel.Width(figureOf(r, c), t)+d.Px(10))
		}
	}
	at := loadColumns{columns: columns, ends: make([]float64, len(columns)), left: d.Px(10)}
	for i, end := len(columns)-1, d.W-d.Px(14); i >= 0; i-- {
		at.ends[i] = end
		end -= wide[i]
	}
	at.hundred = at.ends[0] + d.Px(2)
	if at.stacked = at.ends[0]-at.left < d.Px(nameLeast); at.stacked {
		at.hundred = at.left + (d.W-2*at.left)/brokenAt
	}
	y := d.Y + d.Px(10)
	for i, c := range columns {
		t := head
		s := lp.columnName(c)
		if c == sortBy {
			t = panel.Bold(panel.Coloured(t, d.Shades.Ink))
			s += " ▾"
		}
		x0, x1 := at.left, max(at.ends[0], d.Px(26)+panel.Width(s, t))
		if i > 0 {
			if at.stacked && i == 1 {
				y, d.Y = y+d.Px(20), d.Y+d.Px(20)
			}
			x1 = at.ends[i]
			x0 = x1 - panel.Width(s, t)
			d.Right(x1, y, s, t)
		} else {
			d.Text(d.Px(26), y, s, t, 0)
		}
		d.Hit(panel.Hit{ID: "sort " + string(c), X0: x0 - 4, Y0: y - d.Px(10), X1: x1 + 4, Y1: y + d.Px(10), Press: func() { lp.sortBy = c }})
	}
	d.Y += d.Px(22)
	for i := range table.Rows {
		lp.drawLoad(d, &table.Rows[i], ws, &at, with)
	}
	d.Middle(at.hundred, d.Y+d.Px(8), "100 %", d.Small())
	d.Y += d.Px(20)
}

// nameLeast is the room for names under which they stand above their figures. (ours)
const nameLeast = 100

// loadColumns are where the columns of the table lie.
type loadColumns struct {
	columns []words.LoadColumn
	ends    []float64 // right ends, that of the names first
	left    float64
	hundred float64 // where a bar of 100 % ends
	stacked bool    // names have lines of their own: beside the figures there is no room
}

// names is the room for a name that begins at x.
func (c *loadColumns) names(d *panel.Drawing, x float64) float64 {
	if c.stacked {
		return d.W - d.Px(14) - x
	}
	return c.hundred - x - d.Px(4)
}

func (lp *loadsPanel) columnName(c words.LoadColumn) string {
	if c == words.ColumnStall || c == words.ColumnMove || c == words.ColumnLoosen {
		return lp.w.label("short-" + string(c))
	}
	return lp.w.label("column-" + string(c))
}

// drawLoad draws one part: state by pattern and word, not by colour alone. What stands
// below its name, and a name too long for its column, goes on in the next line: cut, two
// parts could look alike, and a limit would lose what it rests on.
func (lp *loadsPanel) drawLoad(d *panel.Drawing, r *words.LoadRow, ws *words.Words, at *loadColumns, with *loadsWith) {
	p, t, s := r.Part, d.Mid(), d.Small()
	y, id, name := d.Y, partRow(r.Part.ID), t
	if p.Status == part.Over {
		name = panel.Bold(name)
	}
	left, x := at.left, at.left+d.Px(16)
	if r.Number > 0 {
		x += d.Px(23)
	}
	room := at.names(d, x)
	called := panel.Wrap(r.Cells[words.ColumnPart], name, room)
	failure, notes := lp.below(d, r, ws, left, with.now)
	figures := 0.0 // how far below the name
	if at.stacked {
		figures = float64(len(called)) * panel.LineHigh(t)
	}
	below := max(float64(len(called))*panel.LineHigh(t), figures+panel.LineHigh(t))
	high := below + float64(len(notes))*panel.LineHigh(s) + d.Px(10)
	if with.pointed == p.ID || d.Hover == id || with.why[p.ID] != nil {
		d.Fill(left, y, d.W-2*left+d.Px(4), high, d.Shades.Hover)
	}
	drawBar(d, p, left, y, high-3, at.hundred)
	mid := y + d.Px(2) + panel.LineHigh(t)/2
	drawState(d, p, left, mid)
	if r.Number > 0 {
		drawNumber(d, x-d.Px(13), mid, r.Number, r.Level)
	}
	for i, l := range called {
		d.Text(x, mid+float64(i)*panel.LineHigh(t), l, name, room)
	}
	lp.drawFigures(d, r, at, mid+figures)
	below += y + d.Px(2) + panel.LineHigh(s)/2
	d.Right(d.W-d.Px(14), below, failure, s)
	for i, l := range notes {
		style := s
		if r.Uncomputed() {
			style = panel.Coloured(s, d.Shades.Ink)
		}
		d.Text(left+d.Px(16), below+float64(i)*panel.LineHigh(s), l, style, 0)
	}
	unfold := func() { lp.w.whys.explain(p.ID) }
	d.Hit(panel.Hit{ID: id, X0: left, Y0: y, X1: d.W - d.Px(6), Y1: y + high, Press: unfold, Second: unfold, Over: func(in bool) { lp.point(p.ID, in) }})
	d.Y += high
	if lines := with.why[p.ID]; lines != nil {
		lp.w.whys.drawSum(d, id, lines, left+d.Px(16), d.W-d.Px(14))
	}
	d.Stroke(left, d.Y-0.5, d.W-d.Px(14), d.Y-0.5, 0.6, d.Shades.GridBold)
}

// below is what stands below the name of a part, on as many lines as it needs: where it is
// worst, the load now, the state and what the limit rests on, or why there is none; and
// at their right its share of the load it fails at.
func (lp *loadsPanel) below(d *panel.Drawing, r *words.LoadRow, ws *words.Words, left float64, now *solver.Assessment) (failure string, lines []string) {
	p, s := r.Part, d.Small()
	if r.Uncomputed() {
		return "", panel.Wrap(r.Reason, s, d.W-left-d.Px(34))
	}
	if c := r.Cells[words.ColumnFailure]; c != words.NoFigure {
		failure = lp.w.label("to-failure", part.Text("used", c))
	}
	var notes []string
	if p.AtM > 0 {
		notes = append(notes, lp.w.label("column-at")+" "+r.Cells[words.ColumnAt])
	}
	if load := words.Now(ws, now, p); load != "" {
		notes = append(notes, load)
	}
	if p.Status != part.Within {
		notes = append(notes, r.Cells[words.ColumnStatus])
	}
	if basis := r.Cells[words.ColumnBasis]; basis != "" {
		notes = append(notes, basis)
	}
	return failure, panel.Wrap(strings.Join(notes, " · "), s, d.W-left-d.Px(40)-panel.Width(failure, s))
}

// drawBar is the bar of a share: cut off and broken where it is far beyond the
// line of 100 %, which stands beside it.
func drawBar(d *panel.Drawing, p *part.Part, left, y, barHigh, hundred float64) {
	if !p.Known() {
		return
	}
	share := min(p.Most(), brokenAt)
	wide := max((hundred-left)*share, 2)
	strip := d.Px(5) // where the pattern is: under the text, not behind it
	ground, core := d.Shades.Meter, panel.Mix(d.Shades.Meter, d.Shades.Ink, 0.35)
	hatch := pen.Hatch{}
	switch p.Status {
	case part.Over:
		ground, core = panel.Mix(d.Shades.Panel, d.Shades.OverCore, 0.25), d.Shades.OverCore
		hatch = pen.Hatch{Colour: d.Shades.OverMark, AngleDeg: 60, Spacing: 8, Width: 2}
	case part.Near:
		ground, core = panel.Mix(d.Shades.Panel, d.Shades.NearCore, 0.30), d.Shades.NearCore
		hatch = pen.Hatch{Colour: d.Shades.Ink, AngleDeg: 90, Spacing: 9, Width: 1.2}
		if d.Shades.Ink.R > 128 { // on dark ground the bright colour takes dark ticks
			hatch.Colour = d.Shades.Paper
		}
	}
	d.Fill(left, y+1.5, wide, barHigh-strip, ground)
	d.Path.Reset()
	d.Path.Rect(left, y+1.5+barHigh-strip, wide, strip)
	d.Pen.Path(&d.Path, &pen.Style{Fill: core, Hatch: hatch})
	if p.Most() > brokenAt { // broken: a gap with two slashes
		for _, dx := range [...]float64{d.Px(18), d.Px(11)} {
			x, foot := left+wide-dx, y+1.5+barHigh
			d.Stroke(x, foot+1, x+d.Px(4), foot-strip-1, 4, d.Shades.Panel)
			d.Stroke(x, foot+1, x+d.Px(4), foot-strip-1, 1.2, d.Shades.Ink)
		}
	}
	d.Stroke(hundred, y+barHigh-d.Px(6), hundred, y+barHigh+3, 1.4, d.Shades.Ink) // not through what is written above it
}

// drawState is the sign of a state before the name.
func drawState(d *panel.Drawing, p *part.Part, left, mid float64) {
	t := d.Mid()
	switch p.Status {
	case part.Over:
		d.Triangle(left+d.Px(8), mid, d.Px(10), d.Shades.Ink, color.NRGBA{})
	case part.Near:
		d.Fill(left+d.Px(5), mid-d.Px(6), d.Px(4), d.Px(12), d.Shades.Ink)
	case part.NoLimit, part.Undecided:
		d.Middle(left+d.Px(8), mid, "?", panel.Bold(t))
	case part.Refused, part.NotComputed, part.NotUnderstood:
		d.Middle(left+d.Px(8), mid, "×", panel.Bold(t))
	case part.Slack:
		d.Middle(left+d.Px(8), mid, "~", panel.Coloured(t, d.Shades.Quiet))
	}
}

// drawFigures are the figures of a row.
func (lp *loadsPanel) drawFigures(d *panel.Drawing, r *words.LoadRow, at *loadColumns, mid float64) {
	t, columns, ends, last := d.Mid(), at.columns, at.ends, len(at.columns)-1
	for i := 1; i < last; i++ {
		style := t
		if columns[i] == words.ColumnStall {
			style = panel.Coloured(t, d.Shades.Quiet)
		}
		d.Right(ends[i], mid, figureOf(r, columns[i]), style)
	}
	used, style := figureOf(r, words.ColumnUsed), panel.Bold(d.Small())
	switch {
	case used == words.NoFigure:
		style = t
	case r.Part.Known() && !r.Uncomputed():
		style = panel.Bold(t)
	}
	d.Right(ends[last], mid, used, style)
}

// drawNumber is the numbered triangle that flag, card and row share.
func drawNumber(d *panel.Drawing, x, y float64, n int, l part.Level) {
	fill, on := d.Shades.Level(l)
	d.Triangle(x, y, d.Px(18), fill, d.Shades.Ink)
	t := panel.Bold(d.Small())
	t.Size, t.Colour = d.Px(9.5), on
	d.Middle(x, y+d.Px(3), itoa(n), t)
}

// drawBelowTable is what stands below the table: what it rests on, people, lines.
func (lp *loadsPanel) drawBelowTable(d *panel.Drawing, a *solver.Assessment, ws *words.Words, names words.Names) {
	s := d.Small()
	x, room := d.Px(14), d.W-d.Px(28)
	if len(a.Parts) > 0 {
		d.Y = d.Para(x, d.Y, room, lp.w.label("basis-line", part.Text("basis", lp.w.label("basis-"+a.Basis()))), s)
		d.Y = d.Para(x, d.Y, room, lp.w.label("marks"), s) + d.Px(6)
	}
	if len(a.People) > 0 {
		d.Text(x, d.Y+panel.LineHigh(d.Mid())/2, lp.w.label("title-people"), panel.Bold(d.Mid()), 0)
		d.Y += panel.LineHigh(d.Mid())
		for _, p := range a.People {
			t := d.Mid()
			if len(p.Inside) > 0 {
				t = panel.Bold(t)
				d.Triangle(x+d.Px(5), d.Y+panel.LineHigh(t)/2, d.Px(10), d.Shades.Ink, color.NRGBA{})
			}
			y := d.Y
			d.Y = d.Para(x+d.Px(16), d.Y, room-d.Px(16), ws.Person(p, names), t)
			if out := ws.WayOut(p); out != "" {
				d.Y = d.Para(x+d.Px(16), d.Y, room-d.Px(16), out, s)
			}
			id := p.Person
			d.Hit(panel.Hit{ID: "person " + string(id), X0: x, Y0: y, X1: d.W - x, Y1: d.Y, Press: func() { lp.w.board.Select(id); lp.w.reveal(id) }})
		}
		d.Y += d.Px(4)
	}
	if lines := lp.w.frame.lineUses(ws, a, names); lines != "" {
		d.Y = d.Para(x, d.Y, room, lines, s)
	}
	if a.Advantage > 0 {
		d.Y = d.Para(x, d.Y, room, lp.w.label("advantage", part.Value{Name: "advantage", X: a.Advantage}), s)
	}
}

// lineUses says how much of each line is out.
func (fr *frame) lineUses(ws *words.Words, a *solver.Assessment, names words.Names) string {
	var all []string
	for _, u := range a.Lines {
		id := "line-use"
		if u.Has == 0 {
			id = "line-use-unknown"
		}
		s := fr.w.label(id, part.Text("line", names(u.Line)), part.Length("out", u.Out), part.Length("has", u.Has))
		if u.Layer > 0 {
			s += ", " + fr.w.label("line-layer", part.Count("layer", u.Layer))
		}
		if u.Missing > 0 {
			s += ", " + fr.w.label("line-missing", part.Length("missing", u.Missing))
		}
		all = append(all, s)
	}
	return strings.Join(all, "  ·  ")
}

// point shows a part in the picture while it is pointed at.
func (lp *loadsPanel) point(id string, in bool) {
	if in {
		lp.w.pointed.part = id
	} else if lp.w.pointed.part == id {
		lp.w.pointed.part = ""
	}
}

// planOn chooses the resistance the pull is planned on.
func (lp *loadsPanel) planOn(casualty plan.ID, on string) {
	if on == plan.PlanHigh {
		on = ""
	}
	lp.w.details.set(casualty, "casualty/plan_on", on)
}

// showRow brings the row into sight that was asked for from elsewhere, its sum below it.
func (lp *loadsPanel) showRow() {
	i := lp.pane.Find(lp.reveal)
	if lp.reveal == "" || i < 0 || !lp.pane.Shown() {
		return
	}
	lp.reveal = ""
	lp.pane.Top(i)
}

package window

import (
	"path/filepath"
	"slices"

	"fyne.io/fyne/v2"
	"github.com/golang/geo/r2"

	"kedge/canvas/board"
	"kedge/canvas/draw"
	"kedge/canvas/panel"
	"kedge/canvas/pen"
	"kedge/canvas/store"
	"kedge/canvas/survey"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// reading is a file of measured places that is looked at before it is taken.
type reading struct {
	name  string
	data  []byte
	opt   survey.Options
	res   survey.Result
	err   error // why it cannot be read, perhaps only not as it was understood
	use   board.MeasuredUse
	rises bool
	view  draw.View // before it was read

	taking board.Taking // what it would become
	of     takingOf     // what that was made from
}

// readingPanel shows in the place of Details the file that is looked at.
type readingPanel struct {
	w   *Window
	now *reading // nil: none
}

type takingOf struct {
	plan  *plan.Plan
	use   board.MeasuredUse
	rises bool
}

// read reads a file on the worker and shows what was understood.
func (rp *readingPanel) read(path string) {
	name, doc, opt := filepath.Base(path), rp.w.file.session, rp.options()
	rp.w.compare.close()
	rp.close()
	rp.w.say(rp.w.label("survey-reading", part.Text("name", name)))
	rp.w.worker.Do("take", func() func() {
		data, res, err := readMeasured(rp.w.store, path, opt)
		return func() {
			if rp.w.file.session != doc { // another plan is on the board by now
				return
			}
			if err != nil && res.Preview == nil {
				rp.w.say(rp.w.words().Refusal(err))
				rp.w.refresh()
				return
			}
			r := &reading{name: name, data: data, opt: opt, res: res, err: err, use: board.MeasuredPoints,
				rises: res.Format != survey.FormatGPX, view: rp.w.board.View()}
			if len(res.Points) > 0 && slices.ContainsFunc(res.Outlines, func(o survey.Outline) bool { return o.Closed }) {
				r.use = board.MeasuredEach // it has both
			}
			rp.begin(r)
		}
	})
}

// options lays a file about the origin of the survey there is.
func (rp *readingPanel) options() survey.Options {
	var o survey.Options
	if s := rp.w.board.Plan().Site.Survey; s != nil && (s.LatDeg != 0 || s.LonDeg != 0) {
		o.Origin = &survey.LatLon{Lat: s.LatDeg, Lon: s.LonDeg}
	}
	return o
}

func readMeasured(s *store.Store, path string, opt survey.Options) ([]byte, survey.Result, error) {
	data, err := s.Read(path, survey.MaxBytes)
	if err != nil {
		return nil, survey.Result{}, err
	}
	res, err := survey.Read(filepath.Base(path), data, opt)
	return data, res, err
}

// begin shows a file in the place of the side's panels, and on the board
// as it would lie.
func (rp *readingPanel) begin(r *reading) {
	rp.w.details.closeEntry()
	rp.now = r
	rp.w.said = ""
	rp.w.shell.choice, rp.w.shell.open = "details", true
	rp.w.details.pane.Escape = rp.close
	rp.show()
	rp.w.refresh()
	rp.w.details.pane.Focus = "take"
	rp.w.win.Canvas().Focus(rp.w.details.pane)
	rp.w.refresh()
	rp.w.say(rp.w.label("measured-hint"))
}

// close drops the file that is looked at; the view is as it was before.
func (rp *readingPanel) close() {
	r := rp.now
	if r == nil {
		return
	}
	rp.drop()
	rp.w.board.SetView(r.view)
	rp.w.refresh()
}

func (rp *readingPanel) drop() {
	rp.now, rp.w.details.pane.Escape, rp.w.shell.open = nil, nil, false
	rp.w.focusBoard()
}

// take puts what was read into the plan.
func (rp *readingPanel) take() {
	r := rp.now
	if r == nil || r.err != nil {
		return
	}
	if rp.w.board.TakeMeasured(rp.measuredOf(r), r.use, r.rises) != nil {
		return // the board says why
	}
	rp.drop()
	rp.w.refresh()
}

func (rp *readingPanel) measuredOf(r *reading) board.Measured {
	m := board.Measured{Name: r.name, Survey: r.res.Survey(rp.w.words().Refusal), OnGlobe: r.res.OnGlobe}
	for _, o := range r.res.Outlines {
		m.Outlines = append(m.Outlines, board.MeasuredWay{Name: o.Name, Corners: o.Corners, Closed: o.Closed, Doubt: o.Doubt})
	}
	return m
}

// result is what the file would become, made anew where plan or choice have
// changed.
func (rp *readingPanel) result() *board.Taking {
	r := rp.now
	if now := (takingOf{rp.w.board.Plan(), r.use, r.rises}); r.of != now {
		r.of, r.taking = now, board.Taking{}
		if r.err == nil {
			r.taking = rp.w.board.Take(rp.measuredOf(r), r.use, r.rises)
		}
	}
	return &r.taking
}

// show moves the picture so that all places that were read are seen.
func (rp *readingPanel) show() {
	box := rp.now.bounds()
	if box.IsEmpty() {
		return
	}
	v := rp.w.board.View()
	covered := rp.sideOver()
	x0, y1 := v.ToPen(plan.Point(box.Lo()))
	x1, y0 := v.ToPen(plan.Point(box.Hi()))
	if x0 >= 0 && y0 >= 0 && x1 <= v.W-covered && y1 <= v.H {
		return
	}
	free := draw.Fit(box.AddRect(draw.Bounds(rp.w.board.Plan(), rp.w.answer())), v.W-covered, v.H, 40)
	free.W = v.W
	free.Middle.X += covered / 2 / free.PerM
	rp.w.board.SetView(free)
}

// sideOver is how much of the board the side covers in a narrow window, pixels.
func (rp *readingPanel) sideOver() float64 {
	if _, edge := rp.w.shell.narrow(); !edge || !rp.w.shell.open {
		return 0
	}
	return min(sideNarrow*rp.w.textScale(), rp.w.board.View().W*0.7)
}

// bounds is what the places span; false if there are none.
func (r *reading) bounds() r2.Rect {
	box := r2.EmptyRect()
	for i := range r.res.Points {
		box = box.AddPoint(r2.Point{X: r.res.Points[i].X, Y: r.res.Points[i].Y})
	}
	for _, o := range r.res.Outlines {
		box = box.AddRect(terrain.Bounds(o.Corners))
	}
	return box
}

// preview shows the places that were read in the picture of the board.
func (rp *readingPanel) preview(s *draw.Scene) {
	if rp.now == nil {
		return
	}
	if t := rp.result(); t.Plan != nil {
		s.Plan = t.Plan
	}
}

// again reads a list with other columns.
func (rp *readingPanel) again(c survey.Columns) {
	r := rp.now
	if r == nil {
		return
	}
	opt, name, data := r.opt, r.name, r.data
	opt.Columns = &c
	rp.w.worker.Do("take", func() func() {
		res, err := survey.Read(name, data, opt)
		return func() {
			if rp.now != r {
				return
			}
			had := r.res.Preview
			r.opt, r.res, r.err, r.of = opt, res, err, takingOf{}
			if r.res.Preview == nil {
				r.res.Preview = had
				if had != nil {
					p := *had
					p.Columns = c
					r.res.Preview = &p
				}
			}
			rp.show()
			rp.w.refresh()
		}
	})
}

// snap draws what was understood of a file, and the choice of what it
// becomes.
func (rp *readingPanel) snap() func(*panel.Drawing) {
	r := rp.now
	t, ws := *rp.result(), rp.w.words()
	box := r.bounds()
	shown := *r
	heights := slices.ContainsFunc(r.res.Points, func(q plan.SurveyPoint) bool { return q.Z != 0 })
	return func(d *panel.Drawing) {
		x, room := d.Px(14), d.W-d.Px(28)
		d.Title(rp.w.label("measured-title"), "")
		d.Y = d.Para(x, d.Y-d.Px(4), room, shown.name+" · "+shown.form(), panel.Bold(d.Mid())) + d.Px(2)
		if shown.err != nil {
			rp.drawRefused(d, &shown)
			return
		}
		d.Y = d.Para(x, d.Y, room, rp.w.label("measured-count", part.Count("points", len(shown.res.Points)), part.Count("ways", len(shown.res.Outlines))), d.Mid())
		if !box.IsEmpty() {
			d.Y = d.Para(x, d.Y, room, rp.w.label("measured-extent", part.Text("east", ws.Length(quantity.Length(box.X.Length()))), part.Text("north", ws.Length(quantity.Length(box.Y.Length())))), d.Mid())
		}
		if shown.res.OnGlobe {
			d.Y = d.Para(x, d.Y, room, rp.w.label("measured-origin", part.Text("lat", ws.Decimal(shown.res.OriginLat, 5)), part.Text("lon", ws.Decimal(shown.res.OriginLon, 5))), d.Mid())
		}
		d.Y += d.Px(8)
		d.Text(x, d.Y+d.Px(9), rp.w.label("measured-what"), panel.Bold(d.Mid()), room)
		d.Y += d.Px(22)
		d.Choices(func(put func(id, word string, on bool, press func())) {
			for _, u := range board.MeasuredUses() {
				put("use "+string(u), rp.w.label("measured-use-"+string(u)), shown.use == u, func() { r.use = u })
			}
		})
		if (shown.use == board.MeasuredAnchors || shown.use == board.MeasuredEach) && heights {
			d.Choices(func(put func(id, word string, on bool, press func())) {
				put("rises yes", rp.w.label("measured-rises-yes"), shown.rises, func() { r.rises = true })
				put("rises no", rp.w.label("measured-rises-no"), !shown.rises, func() { r.rises = false })
			})
		}
		if t.Why != "" {
			d.Y = d.Para(x, d.Y, room, t.Why, panel.Bold(panel.Coloured(d.Mid(), d.Shades.ZoneRedText))) + d.Px(4)
		}
		for _, n := range t.Notes {
			d.Y = d.Para(x, d.Y, room, n, panel.Coloured(d.Small(), d.Shades.Ink)) + 1
		}
		if shown.use == board.MeasuredAnchors && heights && shown.rises && shown.res.Format == survey.FormatGPX {
			d.Y = d.Para(x, d.Y, room, rp.w.label("measured-satellite"), panel.Bold(panel.Coloured(d.Small(), d.Shades.Ink)))
		}
		d.Y += d.Px(6)
		bx := x + d.Button(x, d.Y, "take", rp.w.label("do-take-it"), t.Plan != nil, rp.take, t.Why) + d.Px(8)
		d.Button(bx, d.Y, "cancel", rp.w.label("do-cancel"), false, rp.close, "")
		d.Y += d.ButtonHigh() + d.Px(10)
		rp.drawColumns(d, &shown)
		if shown.res.Preview == nil {
			rp.drawFirstPoints(d, shown.res.Points)
		}
		if len(shown.res.Notes) > 0 {
			d.Heading(rp.w.label("measured-notes"))
			for _, n := range shown.res.Notes {
				d.Y = d.Para(x, d.Y, room, rp.w.words().Refusal(n), panel.Coloured(d.Small(), d.Shades.Ink)) + 2
			}
		}
	}
}

// drawRefused is why a file was not understood, and what helps.
func (rp *readingPanel) drawRefused(d *panel.Drawing, shown *reading) {
	d.Y += d.Px(2)
	d.Note(rp.w.words().Refusal(shown.err), panel.Bold(panel.Coloured(d.Mid(), d.Shades.ZoneRedText)), 6)
	d.Button(d.Px(14), d.Y, "cancel", rp.w.label("do-cancel"), false, rp.close, "")
	d.Y += d.ButtonHigh() + d.Px(10)
	rp.drawColumns(d, shown)
}

// form is the form of the file: a list that was not understood has none yet.
func (r *reading) form() string {
	if r.res.Format == "" {
		return string(survey.FormatCSV)
	}
	return string(r.res.Format)
}

// drawFirstPoints lists the first places of a file that has no columns.
func (rp *readingPanel) drawFirstPoints(d *panel.Drawing, points []plan.SurveyPoint) {
	const most = 5
	if len(points) == 0 {
		return
	}
	x, room := d.Px(14), d.W-d.Px(28)
	d.Heading(rp.w.label("measured-first"))
	t := panel.Coloured(d.Small(), d.Shades.Ink)
	for j, role := range [...]string{"x", "y", "z"} {
		d.Right(x+room*(0.56+0.22*float64(j)), d.Y+panel.LineHigh(t)/2, rp.w.label("measured-role-"+role), d.Small())
	}
	d.Y += panel.LineHigh(t) + 1
	for i := range min(len(points), most) {
		q := &points[i]
		d.Text(x, d.Y+panel.LineHigh(t)/2, q.Name, t, room*0.34)
		for j, v := range [...]float64{q.X, q.Y, float64(q.Z)} {
			d.Right(x+room*(0.56+0.22*float64(j)), d.Y+panel.LineHigh(t)/2, rp.w.words().Decimal(v, 2), t)
		}
		d.Y += panel.LineHigh(t) + 1
	}
	d.Y += d.Px(8)
}

// drawColumns draws how a list was understood: its first rows under what each
// column is read as. A column that is pressed is read as another.
func (rp *readingPanel) drawColumns(d *panel.Drawing, r *reading) {
	p := r.res.Preview
	if p == nil {
		return
	}
	x, room := d.Px(14), d.W-d.Px(28)
	d.Heading(rp.w.label("measured-columns"))
	d.Choices(func(put func(id, word string, on bool, press func())) {
		c := p.Columns
		put("separator", rp.w.label("measured-separator")+": "+rp.w.label("measured-separator-"+separatorName(c.Separator))+" ▾", false, func() { rp.chooseSeparator(c) })
		put("decimal", rp.w.label("measured-decimal")+": "+string(rune(c.Decimal)), false, func() { rp.again(flippedDecimal(c)) })
		word := "measured-head-no"
		if c.Header {
			word = "measured-head-yes"
		}
		put("head", rp.w.label("measured-head")+" "+rp.w.label(word), false, func() { c.Header = !c.Header; rp.again(c) })
	})
	n := len(p.Heads)
	for _, row := range p.Rows {
		n = max(n, len(row))
	}
	if n == 0 {
		return
	}
	const mostColumns = 8
	rp.drawRows(d, p, min(n, mostColumns))
	d.Y += d.Px(2)
	said := rp.w.label("measured-rows", part.Count("count", p.Total))
	if p.Left > 0 {
		said += " · " + rp.w.label("measured-left", part.Count("count", p.Left))
	}
	if p.Total > 0 {
		d.Y = d.Para(x, d.Y, room, said, d.Small())
	}
	d.Y = d.Para(x, d.Y, room, rp.w.label("measured-columns-hint"), d.Small()) + d.Px(6)
}

// drawRows are the first rows of a list under what n of its columns are read as.
func (rp *readingPanel) drawRows(d *panel.Drawing, p *survey.Preview, n int) {
	x, wide := d.Px(14), (d.W-d.Px(28))/float64(n)
	h := d.Px(22)
	t := panel.Coloured(d.Small(), d.Shades.Ink)
	for i := range n {
		id, cx := "column "+itoa(i), x+wide*float64(i)
		fill := d.Shades.Card
		if d.Hover == id {
			fill = d.Shades.Hover
		}
		d.Box(cx, d.Y, wide-2, h, 2, fill, d.Shades.Edge, 1)
		d.Text(cx+d.Px(4), d.Y+h/2, rp.w.label("measured-role-"+roleName(roleAt(p.Columns, i))), panel.Bold(t), wide-d.Px(8))
		d.Hit(panel.Hit{ID: id, X0: cx, Y0: d.Y, X1: cx + wide - 2, Y1: d.Y + h, Press: func() { rp.chooseRole(p.Columns, i) }})
	}
	d.Y += h + 2
	cells := func(row []string, t pen.TextStyle) {
		for i := range min(n, len(row)) {
			d.Text(x+wide*float64(i)+d.Px(4), d.Y+panel.LineHigh(t)/2, row[i], t, wide-d.Px(6))
		}
		d.Y += panel.LineHigh(t) + 1
	}
	if p.Heads != nil {
		cells(p.Heads, panel.Coloured(panel.Bold(t), d.Shades.Quiet))
	}
	for _, row := range p.Rows {
		cells(row, t)
	}
}

func roleAt(c survey.Columns, i int) survey.Role {
	if i < len(c.Roles) {
		return c.Roles[i]
	}
	return survey.RoleNone
}

func roleName(r survey.Role) string {
	if r == survey.RoleNone {
		return "none"
	}
	return string(r)
}

// withRole is c with column i read as r; no other column is read as the same.
func withRole(c survey.Columns, i int, r survey.Role) survey.Columns {
	roles := slices.Clone(c.Roles)
	for len(roles) <= i {
		roles = append(roles, survey.RoleNone)
	}
	for j := range roles {
		if roles[j] == r {
			roles[j] = survey.RoleNone
		}
	}
	roles[i] = r
	c.Roles = roles
	return c
}

func flippedDecimal(c survey.Columns) survey.Columns {
	if c.Decimal == ',' {
		c.Decimal = '.'
		return c
	}
	c.Decimal = ','
	if c.Separator == ',' { // the two do not go together
		c.Separator = ';'
	}
	return c
}

var separators = [...]struct {
	sign rune
	name string
}{{',', "comma"}, {';', "semicolon"}, {'\t', "tab"}, {'|', "bar"}, {' ', "blank"}}

func separatorName(r rune) string {
	for _, s := range separators {
		if s.sign == r {
			return s.name
		}
	}
	return separators[0].name
}

// chooseRole shows what a column may be read as.
func (rp *readingPanel) chooseRole(c survey.Columns, i int) {
	var items []*fyne.MenuItem
	for _, r := range [...]survey.Role{survey.RoleName, survey.RoleX, survey.RoleY, survey.RoleZ, survey.RoleDoubt, survey.RoleLat, survey.RoleLon, survey.RoleNone} {
		items = append(items, rp.w.menus.choice(rp.w.label("measured-role-"+roleName(r)), roleAt(c, i) == r, func() { rp.again(withRole(c, i, r)) }))
	}
	rp.w.menus.show("choice", items, rp.w.details.pane.Below("column "+itoa(i)))
}

func (rp *readingPanel) chooseSeparator(c survey.Columns) {
	var items []*fyne.MenuItem
	for _, s := range separators {
		items = append(items, rp.w.menus.choice(rp.w.label("measured-separator-"+s.name), c.Separator == s.sign, func() {
			c.Separator = s.sign
			if s.sign == ',' {
				c.Decimal = '.'
			}
			if c.Decimal == 0 {
				c.Decimal = '.'
			}
			rp.again(c)
		}))
	}
	rp.w.menus.show("choice", items, rp.w.details.pane.Below("separator"))
}

package window

import (
	"image"
	"image/color"
	"slices"
	"strings"
	"time"

	"github.com/golang/geo/r2"

	"kedge/canvas/board"
	"kedge/canvas/draw"
	"kedge/canvas/panel"
	"kedge/canvas/pen"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// comparePanel shows the rigs side by side in the board's place.
type comparePanel struct {
	w    *Window
	pane *panel.Pane
	now  *comparison // nil: not shown
}

// changed is one thing done otherwise: two plans and their answers.
type changed struct {
	of   [2]*plan.Plan
	a    [2]*solver.Assessment
	name [2]string
	rows [2][]comparedRow // that the change alone has
	rig  plan.ID
}

// comparison is all rigs of the plan side by side, or a rig as it was and with a change.
type comparison struct {
	change *changed // nil: all rigs of the plan
	// of the worker alone:
	pictures map[string]*smallPicture // by the columns' keys
	serial   float64
	raster   *pen.Raster
}

// smallPicture is a drawn rig, and what it was drawn from.
type smallPicture struct {
	key    smallKey
	img    *image.RGBA
	serial float64 // another picture has another number
}

type smallKey struct {
	plan  *plan.Plan
	w, h  int
	look  draw.Look
	words *words.Words
	box   r2.Rect
}

// Sizes of the comparison at desk, logical pixels. (ours)
const (
	compareLeast = 176 // of a column
	compareMost  = 420
	compareHead  = 118 // of the names of the rows
	compareRatio = 0.68
	smallScale   = 0.62 // of strokes and symbols in the pictures
)

// toggle shows the rigs side by side, or the board again.
func (cp *comparePanel) toggle() {
	if cp.now != nil {
		cp.close()
		return
	}
	cp.show(nil)
}

// show shows the rigs side by side, or the two of a change.
func (cp *comparePanel) show(c *changed) {
	cp.w.details.closeEntry()
	cp.w.reading.close()
	cp.now, cp.w.shell.open = &comparison{change: c, pictures: map[string]*smallPicture{}}, false
	cp.w.refresh()
	cp.pane.Focus = "compare " + string(cp.w.board.Rig())
	cp.w.win.Canvas().Focus(cp.pane)
	cp.w.say(cp.w.label("compare-hint"))
}

// close goes back to the board.
func (cp *comparePanel) close() {
	if cp.now == nil {
		return
	}
	cp.now = nil
	cp.w.focusBoard()
	cp.w.refresh()
}

// arrange puts the comparison over the board.
func (cp *comparePanel) arrange(x, y, wide, high float32) {
	if cp.now == nil {
		cp.pane.Scroll.Hide()
		return
	}
	put(cp.pane.Scroll, x, y, wide, high)
}

// compared is one rig as the comparison shows it.
type compared struct {
	key   string
	plan  *plan.Plan
	id    plan.ID
	name  string
	a     *solver.Assessment
	shown bool
	rows  []comparedRow
}

// comparedRow is one figure of a rig.
type comparedRow struct {
	label, text string
	strong      bool       // it is in bold: beyond a limit, or a person in a zone
	level       part.Level // of its badge
	word        string     // on the badge; empty: none is drawn
}

// rigs are all rigs with their figures.
func (cp *comparePanel) rigs() []compared {
	if c := cp.now; c != nil && c.change != nil {
		return cp.changedRigs(c.change)
	}
	var list []compared
	p, tabs := cp.w.board.Plan(), cp.w.board.Tabs()
	looser := slices.ContainsFunc(tabs, func(t board.Tab) bool { return t.Answer.Looser() })
	for _, t := range tabs {
		r, ok := p.Rig(t.Rig)
		if !ok {
			continue
		}
		list = append(list, compared{key: string(t.Rig), plan: p, id: t.Rig, name: t.Name, a: t.Answer, shown: t.Shown, rows: cp.rows(p, r, t.Answer, looser)})
	}
	return list
}

// rows are the figures of a rig of a plan; looser: of some rig compared breaking
// loose asks more than moving.
func (cp *comparePanel) rows(of *plan.Plan, r *plan.Rig, a *solver.Assessment, looser bool) []comparedRow {
	ws := cp.w.words()
	names := ws.Naming(a, ws.Names(of, r.ID))
	pull := func(p solver.Pull) string {
		if !p.Known {
			return ws.Label("not-computed")
		}
		return ws.Load(p.Tension)
	}
	level, has, verdict, _ := ws.Verdict(a, ws.Names(of, r.ID))
	word := ""
	if has {
		word = ws.Level(level)
	}
	rows := []comparedRow{
		{label: "compare-verdict", text: verdict, level: level, word: word},
		{label: "compare-move", text: pull(a.Move)},
	}
	if looser {
		rows = append(rows, comparedRow{label: "compare-loosen", text: pull(a.Loosen)})
	}
	return append(rows,
		comparedRow{label: "compare-stall", text: pull(a.Stall)},
		cp.line(a),
		cp.worst(a, names),
		cp.findings(a),
		cp.people(of, a, names),
		comparedRow{label: "compare-kit", text: cp.kit(r)})
}

// line is the line each path takes, of what there is.
func (cp *comparePanel) line(a *solver.Assessment) comparedRow {
	row := comparedRow{label: "compare-line", text: cp.w.label("compare-no-line")}
	var all []string
	for _, l := range a.Lines {
		s := cp.w.words().LengthNeeded(l.Out)
		if l.Has > 0 {
			s = cp.w.label("compare-of", part.Text("out", s), part.Text("has", cp.w.words().Dimension(l.Has)))
		}
		if l.Missing > 0 {
			s += ", " + cp.w.label("compare-lacks", part.Text("length", cp.w.words().LengthNeeded(l.Missing)))
			row.strong = true
		}
		all = append(all, s)
	}
	if len(all) > 0 {
		row.text = strings.Join(all, "; ")
	}
	return row
}

// worst is the part with the highest used share, and how many parts
// have none: a part that was not computed may be the worst.
func (cp *comparePanel) worst(a *solver.Assessment, names words.Names) comparedRow {
	row := comparedRow{label: "compare-worst"}
	var all []string
	if i := a.Worst; i >= 0 && i < len(a.Parts) {
		p := &a.Parts[i]
		all = append(all, cp.w.words().PartName(p, names)+", "+cp.w.words().UsedOf(p))
		row.strong = p.Most() >= 1
	}
	unrated, undecided, unsolved := 0, 0, 0
	for i := range a.Parts {
		switch a.Parts[i].Status {
		case part.NoLimit:
			unrated++
		case part.Undecided:
			undecided++
		case part.NotComputed, part.Refused, part.NotUnderstood:
			unsolved++
		}
	}
	if unrated > 0 {
		all = append(all, cp.w.label("compare-unrated", part.Count("count", unrated)))
	}
	if undecided > 0 {
		all = append(all, cp.w.label("compare-undecided", part.Count("count", undecided)))
	}
	if unsolved > 0 {
		all = append(all, cp.w.label("compare-unsolved", part.Count("count", unsolved)))
	}
	if len(all) == 0 {
		all = []string{cp.w.label("not-computed")}
	}
	row.text = strings.Join(all, "; ")
	return row
}

func (cp *comparePanel) findings(a *solver.Assessment) comparedRow {
	row := comparedRow{label: "compare-findings", text: cp.w.label("compare-no-finding")}
	if len(a.Parts) == 0 && len(a.Findings) == 0 {
		row.text = cp.w.label("not-computed")
	}
	n := words.CountLevels(a.Findings)
	var all []string
	for _, l := range [...]part.Level{part.Danger, part.Warning, part.Caution, part.Notice} {
		if n[l] > 0 {
			all = append(all, itoa(n[l])+" "+cp.w.words().Level(l))
		}
	}
	if len(all) > 0 {
		row.text = strings.Join(all, ", ")
		row.strong = n[part.Danger] > 0
	}
	return row
}

// people says who stands in a zone. Where no zones were computed nobody
// is counted as outside of them.
func (cp *comparePanel) people(of *plan.Plan, a *solver.Assessment, names words.Names) comparedRow {
	row := comparedRow{label: "compare-people"}
	var inside []string
	for _, q := range a.People {
		if len(q.Inside) > 0 {
			inside = append(inside, names(q.Person))
		}
	}
	switch {
	case len(of.Site.People) == 0:
		row.text = cp.w.label("compare-no-people")
	case len(a.Zones) == 0:
		row.text = cp.w.label("compare-no-zones")
	default:
		row.text = cp.w.label("compare-people-of", part.Count("inside", len(inside)), part.Count("count", len(a.People)))
		if len(inside) > 0 {
			row.text += ": " + cp.w.words().List(inside)
			row.strong = true
		}
		if a.ZonesPartly() {
			row.text += ", " + cp.w.label("outside-partly")
		}
	}
	return row
}

// kit counts the pieces of a rig.
func (cp *comparePanel) kit(r *plan.Rig) string {
	total := 0
	var all []string
	for _, k := range [...]struct {
		label string
		n     int
	}{{"lines", len(r.Lines)}, {"blocks", len(r.Blocks)}, {"slings", len(r.Slings)}, {"shackles", len(r.Shackles)}, {"dampers", len(r.Dampers)}} {
		if total += k.n; k.n > 0 {
			all = append(all, cp.w.label("compare-kit-"+k.label, part.Count("count", k.n)))
		}
	}
	if total == 0 {
		return itoa(0)
	}
	return cp.w.label("compare-kit-pieces", part.Count("count", total), part.Text("what", strings.Join(all, ", ")))
}

// snap draws the rigs side by side: a picture and a column of figures
// each, all pictures to one scale.
func (cp *comparePanel) snap() func(*panel.Drawing) {
	c := cp.now
	if c == nil {
		return func(*panel.Drawing) {}
	}
	rigs, ws, look, scale := cp.rigs(), cp.w.words(), cp.w.look(), cp.w.scale()
	labels := map[string]string{}
	for _, r := range rigs {
		for _, row := range r.rows {
			labels[row.label] = cp.w.label(row.label)
		}
	}
	box := boxOf(rigs)
	title, hint, none := cp.w.label("compare-title"), cp.w.label("compare-hint"), cp.w.label("compare-no-rigs")
	back, least := cp.w.label("do-close"), float64(cp.pane.Scroll.Size().Height)
	return func(d *panel.Drawing) {
		defer func() { d.Y = max(d.Y, least-d.Px(8)) }() // nothing of the board is seen below
		d.Title(title, "")
		bw := d.ButtonWide(back)
		d.Button(d.W-d.Px(14)-bw, d.Px(4), "back", back, false, cp.close, "")
		d.Right(d.W-d.Px(24)-bw, d.Px(14), panel.Cut(hint, d.Small(), d.W-bw-d.Px(40)-panel.Width(title, panel.Bold(d.Big()))), d.Small())
		if len(rigs) == 0 {
			d.Note(none, d.Mid(), 0)
			return
		}
		head := d.Px(compareHead)
		n := max(1, min(len(rigs), int((d.W-head-d.Px(20))/d.Px(compareLeast))))
		wide := min((d.W-head-d.Px(20))/float64(n), d.Px(compareMost))
		for from := 0; from < len(rigs); from += n {
			cp.drawBand(d, c, rigs[from:min(from+n, len(rigs))], labels, head, wide, func(r *compared, pw, ph float64) *smallPicture {
				if box.IsEmpty() {
					return nil
				}
				return c.picture(r, pw, ph, scale, look, ws, box)
			})
		}
	}
}

// drawBand draws some of the rigs beside one another.
func (cp *comparePanel) drawBand(d *panel.Drawing, c *comparison, rigs []compared, labels map[string]string, head, wide float64, picture func(r *compared, pw, ph float64) *smallPicture) {
	top := d.Y
	left := d.Px(14) + head
	pw := wide - d.Px(12)
	ph := pw * compareRatio
	y := top + d.Px(26)
	for i := range rigs {
		r := &rigs[i]
		x := left + float64(i)*wide
		t := d.Mid()
		if r.shown {
			t = panel.Bold(t)
		}
		d.Text(x, top+d.Px(14), r.name, t, pw)
		d.Box(x, y, pw, ph, 2, d.Shades.Paper, color.NRGBA{}, 0)
		edge, thick, serial := d.Shades.Edge, 1.0, 0.0
		if d.Hover == "compare "+r.key {
			edge, thick = d.Shades.Pick, 2
		}
		if s := picture(r, pw, ph); s != nil {
			pen.ImageBox(d.Pen, s.img, x, y, pw, ph, 0, 1)
			serial = s.serial
		}
		d.Path.Reset()
		d.Path.Rect(x, y, pw, ph)
		d.Pen.Path(&d.Path, &pen.Style{Stroke: edge, Width: thick, DashOffset: serial}) // a solid line: the offset only tells pictures apart
	}
	y += ph + d.Px(8)
	for row := range rigs[0].rows {
		y = drawComparedRow(d, rigs, row, labels, left, wide, pw, y)
	}
	d.Y = y + d.Px(14)
	for i := range rigs {
		id, x := rigs[i].id, left+float64(i)*wide
		press := func() { cp.w.showRig(id) }
		if c.change != nil {
			press = cp.close
		}
		d.Hit(panel.Hit{ID: "compare " + rigs[i].key, X0: x - d.Px(4), Y0: top, X1: x + pw + d.Px(4), Y1: y, Press: press})
	}
}

// drawComparedRow draws one figure of each rig, and returns where it ends.
func drawComparedRow(d *panel.Drawing, rigs []compared, row int, labels map[string]string, left, wide, pw, y float64) float64 {
	const mostLines = 5
	t, s := d.Mid(), d.Small()
	d.Stroke(d.Px(14), y, left+wide*float64(len(rigs))-d.Px(12), y, 1, d.Shades.GridBold)
	y += d.Px(4)
	end := d.Para(d.Px(14), y, left-d.Px(22), labels[rigs[0].rows[row].label], s)
	for i := range rigs {
		c := &rigs[i].rows[row]
		x, at := left+float64(i)*wide, y
		style := t
		if c.strong {
			style = panel.Bold(t)
		}
		if row == 0 {
			style = panel.Coloured(s, d.Shades.Ink)
		}
		if c.word != "" {
			d.Badge(x, at+d.Px(9), c.level, c.word, 0)
			at += d.Px(20)
		}
		lines := panel.Wrap(c.text, style, pw)
		if len(lines) > mostLines {
			lines = append(lines[:mostLines-1:mostLines-1], panel.Cut(strings.Join(lines[mostLines-1:], " "), style, pw))
		}
		for _, l := range lines {
			d.Text(x, at+panel.LineHigh(style)/2, l, style, 0)
			at += panel.LineHigh(style)
		}
		end = max(end, at)
	}
	return end + d.Px(4)
}

// boxOf is what all rigs span together, so that their pictures have one scale.
func boxOf(rigs []compared) r2.Rect {
	box := r2.EmptyRect()
	for i := range rigs {
		box = box.AddRect(draw.Bounds(rigs[i].plan, rigs[i].a))
	}
	return box
}

// picture is the small picture of a rig, drawn on the worker where it has
// changed.
func (c *comparison) picture(r *compared, wide, high, scale float64, look draw.Look, ws *words.Words, box r2.Rect) *smallPicture {
	key := smallKey{r.plan, int(wide*scale + 0.5), int(high*scale + 0.5), look, ws, box}
	if had := c.pictures[r.key]; had != nil && had.key == key {
		return had
	}
	if key.w < 8 || key.h < 8 {
		return nil
	}
	img := image.NewRGBA(image.Rect(0, 0, key.w, key.h))
	if c.raster == nil {
		c.raster = pen.NewRaster(img, scale)
	}
	c.raster.Target(img, scale*smallScale, 0, 0)
	bare := *r.a
	bare.Findings = nil // their flags would hide so small a rig; the figures count them
	hide := map[string]bool{}
	for _, z := range part.ZoneKinds {
		hide[string(z)] = true
	}
	draw.Draw(c.raster, &draw.Scene{
		Plan: r.plan, Rig: r.id, Answer: &bare, Words: ws, View: draw.Fit(box, wide/smallScale, high/smallScale, 14), Look: look,
		Show: draw.Show{HideZones: hide, HideGrid: true, HideTags: true, HideNames: true, HideUnderlay: true, HideSurvey: true},
	})
	_ = c.raster.Flush() // what is not finite is left out; draw's tests look for it
	c.serial++
	s := &smallPicture{key: key, img: img, serial: c.serial}
	c.pictures[r.key] = s
	return s
}

// tabPress is the last press on a rig's tab.
type tabPress struct {
	rig plan.ID
	at  time.Time
}

// pressTab shows a rig; pressed twice its name is typed.
func (fr *frame) pressTab(id plan.ID) {
	now, last := fr.w.opt.now(), fr.lastTab
	fr.lastTab = tabPress{id, now}
	fr.w.showRig(id)
	if last.rig == id && now.Sub(last.at) < doubleWithin {
		fr.w.renameRig()
	}
}

package window

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"image/color"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"kedge/canvas/exercise"
	"kedge/canvas/panel"
	"kedge/canvas/pen"
	"kedge/canvas/sheet"
	"kedge/canvas/store"
	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// printing is the sheets of the plan being put together: while it goes on the
// board gives way to the page.
type printing struct {
	path     string // of the plan's file
	kinds    map[sheet.Kind]bool
	opt      sheet.Options
	page     int
	booklet  *sheet.Booklet
	fault    string
	question int      // number of the question that is the fault's cause, 0: none
	made     printKey // what was asked for last
	of       printKey // what the booklet was made of
	variants int
	logo     string // name of the file the logo came from
	taken    int    // how often names or a logo were taken in

	kept    *plan.Exercise // what the plan keeps of the exercise shown
	rig     plan.ID        // whose it is
	settled bool           // it was shown
	foreign bool           // it holds what this version does not know
}

// printer puts sheets together in the board's place.
type printer struct {
	w                 *Window
	now               *printing // nil: the board is shown
	left              *printing // as it was left; nil: not yet
	list, paper, page *panel.Pane
}

// printKey tells whether a booklet is still that of the plan and options.
type printKey struct {
	plan *plan.Plan
	rig  plan.ID
	text string // of the options
}

// variantSteps are how many variants a button asks for.
var variantSteps = [...]int{1, 10, 30}

// toggle shows the page in the board's place; again, or Escape, brings the
// board back.
func (pr *printer) toggle() {
	if pr.now != nil {
		pr.close()
		return
	}
	pr.w.details.closeEntry()
	if p := pr.left; p != nil && p.path == pr.w.file.path { // as it was left
		p.made, pr.now = printKey{}, p
		pr.w.refresh()
		pr.w.win.Canvas().Focus(pr.list)
		return
	}
	pr.now = &printing{path: pr.w.file.path, kinds: map[sheet.Kind]bool{sheet.Overview: true}, opt: sheet.Options{Paper: sheet.A4, Vary: exercise.UsualVary()}, variants: 1}
	if len(sheet.Papers()) > 0 && pr.w.words().System().Length() != 0 { // feet: the paper of those who use them
		pr.now.opt.Paper = sheet.Letter
	}
	pr.now.opt.Landscape = sheet.LongSide(pr.w.board.Plan(), pr.now.options(pr.w)) // a first guess, for the drawing's sake
	pr.w.refresh()
	pr.w.win.Canvas().Focus(pr.list)
}

// open shows the page with one sheet ticked.
func (pr *printer) open(k sheet.Kind) {
	pr.toggle()
	pr.now.kinds = map[sheet.Kind]bool{k: true}
	pr.w.refresh()
}

func (pr *printer) close() {
	pr.now, pr.left = nil, pr.now
	pr.w.refresh()
	pr.w.focusBoard()
}

// options are those of the booklet as ticked.
func (p *printing) options(w *Window) sheet.Options {
	o := p.opt
	o.Words, o.Rig, o.Variants = w.words(), w.board.Rig(), p.variants
	for _, k := range sheet.Kinds() {
		if p.kinds[k] {
			o.Sheets = append(o.Sheets, k)
		}
	}
	return o
}

// make has the booklet drawn, if it is not that of the plan any more.
func (pr *printer) make() {
	p := pr.now
	if p == nil {
		return
	}
	pr.settle()
	o, at := p.options(pr.w), pr.w.board.Plan()
	key := printKey{at, o.Rig, fmt.Sprint(o.Sheets, o.Paper, o.Landscape, o.Scale, o.Blanks, o.Questions, o.Variants, o.Vary, o.DPI, o.SVGOutlines, o.ZonesApart, o.Colour, o.Words.System(), o.Words.Lang(), p.taken)}
	if key == p.made {
		return
	}
	p.made = key
	if len(o.Sheets) == 0 {
		p.booklet, p.fault, p.question = nil, pr.w.label("print-none"), 0
		return
	}
	took := func(b *sheet.Booklet, err error) {
		if pr.now == p && p.made == key {
			p.booklet, p.fault, p.question, p.of = b, "", 0, key
			if q := (*exercise.QuestionProblem)(nil); errors.As(err, &q) {
				p.question = q.N
			}
			if err != nil {
				p.fault = pr.w.words().Refusal(err)
			}
			pr.w.refresh()
		}
	}
	pr.w.long.do("booklet", pr.w.label("print-making"), func(ctx context.Context, progress func(int, int)) (func(), error) {
		o.Progress = progress
		b, err := sheet.MakeContext(ctx, at, o)
		return func() { took(b, nil) }, err
	}, func(err error) { took(nil, err) })
}

// stale reports whether the booklet is of an older plan or of other choices: it is
// neither written nor copied.
func (p *printing) stale() bool { return p.of != p.made }

// shownPage is the page of the booklet that is looked at, nil if there is
// none.
func (p *printing) shownPage() *sheet.Page {
	if p == nil || p.booklet == nil || len(p.booklet.Pages) == 0 {
		return nil
	}
	p.page = min(max(p.page, 0), len(p.booklet.Pages)-1)
	return p.booklet.Pages[p.page]
}

// turn goes through the booklet by keys; false if the key is none of these.
func (pr *printer) turn(k fyne.KeyName) bool {
	p := pr.now
	if p == nil || p.booklet == nil {
		return false
	}
	switch k {
	case fyne.KeyPageDown:
		p.page++
	case fyne.KeyPageUp:
		p.page--
	case fyne.KeyHome:
		p.page = 0
	case fyne.KeyEnd:
		p.page = len(p.booklet.Pages) - 1
	default:
		return false
	}
	p.shownPage() // within the booklet
	pr.w.refresh()
	return true
}

// snapList lists the sheets, ticked or not, and what the exercise asks.
func (pr *printer) snapList() func(*panel.Drawing) {
	p := pr.now
	if p == nil {
		return func(*panel.Drawing) {}
	}
	ticked := map[sheet.Kind]bool{}
	for k, on := range p.kinds {
		ticked[k] = on
	}
	now := *p // what is changed below is changed in copies
	a, names := pr.w.answer(), pr.w.names()
	return func(d *panel.Drawing) {
		d.Title(pr.w.label("title-sheets"), "")
		for _, s := range sheet.Kinds() {
			id, h := "sheet "+string(s), d.Px(25)
			if d.Hover == id {
				d.Fill(0, d.Y, d.W, h, d.Shades.Hover)
			}
			d.Tick(d.Px(22), d.Y+h/2, ticked[s])
			d.Text(d.Px(38), d.Y+h/2, pr.w.label("sheet-kind-"+string(s)), d.Mid(), d.W-d.Px(48))
			d.Hit(panel.Hit{ID: id, X0: d.Px(4), Y0: d.Y, X1: d.W - d.Px(4), Y1: d.Y + h, Press: func() { pr.tick(s) }})
			d.Y += h
			if s == sheet.Zones && ticked[s] {
				d.Button(d.Px(38), d.Y, "zones-apart", pr.w.label("show-zones-apart"), now.opt.ZonesApart, func() { p.opt.ZonesApart = !p.opt.ZonesApart }, "")
				d.Y += d.ButtonHigh() + d.Px(4)
			}
		}
		d.Y += d.Px(8)
		d.Button(d.Px(14), d.Y, "title-block", pr.w.label("do-sheet-details")+"…", false, func() { pr.close(); pr.w.commands.run("sheet-details") }, "")
		d.Y += d.ButtonHigh() + d.Px(4)
		if now.logo == "" {
			d.Button(d.Px(14), d.Y, "logo", pr.w.label("print-logo"), false, pr.askLogo, "")
			d.Y += d.ButtonHigh() + d.Px(4)
		} else {
			d.Removable(pr.w.label("print-logo-is", part.Text("name", now.logo)), "no-logo", func() { p.opt.Logo, p.logo = nil, ""; p.taken++ })
		}
		if ticked[sheet.Exercise] {
			pr.drawExercise(d, p, &now, pr.w.words().Naming(a, names))
		}
	}
}

// drawExercise is what the exercise asks and leaves blank, and its variants: as it
// was when the panel was drawn, and where presses change it.
func (pr *printer) drawExercise(d *panel.Drawing, p, was *printing, naming words.Names) {
	d.Y += d.Px(8)
	d.Title(pr.w.label("sheet-kind-exercise"), "")
	d.Note(pr.w.label("print-blank-hint"), d.Small(), 6)
	for i, q := range was.opt.Questions {
		d.Removable(pr.w.label("sheet-ask-"+string(q.Kind))+partOf(naming, q.Part), "question "+itoa(i), func() {
			p.opt.Questions = slices.Delete(slices.Clone(p.opt.Questions), i, i+1)
		})
	}
	for i, b := range was.opt.Blanks {
		d.Removable(pr.w.label("print-blank", part.Text("part", naming(plan.ID(b)))), "blank "+itoa(i), func() {
			p.opt.Blanks = slices.Delete(slices.Clone(p.opt.Blanks), i, i+1)
		})
	}
	pr.drawGiveaways(d, was.booklet, naming)
	d.Button(d.Px(14), d.Y, "ask", pr.w.label("print-add-question"), false, pr.openQuestions, "")
	d.Y += d.ButtonHigh() + d.Px(10)
	d.Text(d.Px(14), d.Y+d.ButtonHigh()/2, pr.w.label("print-variants"), d.Mid(), 0)
	x := d.Px(14) + panel.Width(pr.w.label("print-variants"), d.Mid()) + d.Px(10)
	ask := func(id, word string, n int, on bool) {
		x += d.Button(x, d.Y, id, word, on, func() { p.variants, p.page = n, 0 }, "")
	}
	for _, n := range variantSteps {
		ask("variants "+itoa(n), itoa(n), n, n == was.variants)
	}
	d.Y += d.ButtonHigh() + d.Px(4)
	x = d.Px(14)
	ask("variants fewer", "−", max(1, was.variants-1), false)
	d.Text(x+d.Px(6), d.Y+d.ButtonHigh()/2, itoa(was.variants), d.Mid(), 0)
	x += panel.Width(itoa(was.variants), d.Mid()) + d.Px(12)
	ask("variants more", "+", min(was.variants+1, sheet.MaxVariants), false)
	d.Y += d.ButtonHigh() + d.Px(10)
	if was.variants > 1 {
		pr.drawVary(d, was.opt.Vary)
		pr.drawVariants(d, was.booklet)
	}
	pr.drawClass(d, len(was.opt.Class))
}

func partOf(names func(plan.ID) string, id string) string {
	if id == "" {
		return ""
	}
	return " · " + names(plan.ID(id))
}

// tick takes a sheet in or out; the exercise brings its key.
func (pr *printer) tick(s sheet.Kind) {
	p := pr.now
	p.kinds[s] = !p.kinds[s]
	if s == sheet.Exercise && p.kinds[s] {
		p.kinds[sheet.Key] = true
	}
	p.page = 0
}

// openQuestions shows what the exercise may ask.
func (pr *printer) openQuestions() {
	p, a := pr.now, pr.w.answer()
	naming := pr.w.words().Naming(a, pr.w.names())
	var items []*fyne.MenuItem
	add := func(name string, q exercise.Question) *fyne.MenuItem {
		return fyne.NewMenuItem(name, func() {
			p.opt.Questions = append(slices.Clone(p.opt.Questions), q)
			pr.w.refresh()
			pr.w.win.Canvas().Focus(pr.list)
		})
	}
	for _, kind := range exercise.QuestionKinds() {
		name := pr.w.label("sheet-ask-" + string(kind))
		switch kind {
		case exercise.AskWeakest, exercise.AskFirst, exercise.AskHappens:
			items = append(items, add(name, exercise.Question{Kind: kind}))
			continue
		}
		var of []*fyne.MenuItem
		for i := range a.Parts {
			q := &a.Parts[i]
			called := pr.w.words().PartName(q, naming)
			switch kind {
			case exercise.AskAngle:
				if q.Kind == part.KindBlock {
					of = append(of, add(called, exercise.Question{Kind: kind, Part: q.ID}))
				}
			case exercise.AskLoad, exercise.AskWorstAt:
				of = append(of, add(called, exercise.Question{Kind: kind, Part: q.ID}))
			case exercise.AskWhatIf:
				for _, t := range pr.w.board.Tabs() {
					if _, both := t.Answer.Part(q.ID); both && t.Rig != pr.w.board.Rig() {
						of = append(of, add(t.Name+": "+called, exercise.Question{Kind: kind, Part: q.ID, Rig: t.Rig}))
					}
				}
			}
		}
		items = append(items, submenu(name, of, pr.w.label("print-nothing-to-ask")))
	}
	pr.w.menus.show("ask", items, pr.list.Below("ask"))
}

// snapPaper draws the choices of paper, scale and page over the page.
func (pr *printer) snapPaper() func(*panel.Drawing) {
	p := pr.now
	if p == nil {
		return func(*panel.Drawing) {}
	}
	o, page, n := p.opt, p.page, 0
	if p.booklet != nil {
		n = len(p.booklet.Pages)
	}
	why := ""
	switch {
	case n == 0:
		why = pr.w.label("print-no-page")
	case p.stale():
		why = pr.w.label("print-making")
	}
	return func(d *panel.Drawing) {
		d.Fill(0, 0, d.W, 4000, d.Shades.Ground)
		row := d.ButtonHigh() + d.Px(12)
		x, y := d.Px(8), d.Px(6)
		button := func(id, word string, on bool, press func(), why string, gap float64) {
			if wide := d.ButtonWide(word); x+wide > d.W-d.Px(4) && x > d.Px(8) { // on to the next row
				x, y = d.Px(8), y+row
			}
			x += d.Button(x, y, id, word, on, press, why) + gap
		}
		for i, b := range sheet.Papers() {
			gap := 0.0
			if i == len(sheet.Papers())-1 {
				gap = d.Px(8)
			}
			button("paper "+b.Name, b.Name, b == o.Paper, func() { p.opt.Paper = b }, "", gap)
		}
		button("turn", pr.w.label("print-landscape"), o.Landscape, func() { p.opt.Landscape = !p.opt.Landscape }, "", d.Px(8))
		button("grey", pr.w.label("print-grey"), !o.Colour, func() { p.opt.Colour = false }, "", 0)
		button("colour", pr.w.label("print-colour"), o.Colour, func() { p.opt.Colour = true }, "", d.Px(8))
		scale := pr.w.label("print-fits")
		if o.Scale > 0 {
			scale = fmt.Sprintf("1 : %g", o.Scale)
		}
		button("scale", scale+" ▾", false, pr.openScales, "", d.Px(8))
		button("fine", pr.w.label("print-fine", part.Count("dpi", dpiOf(o)))+" ▾", false, pr.openFine, "", d.Px(8))
		button("before", "◂", false, func() { p.page-- }, "", 0)
		shown := pr.w.label("print-page", part.Count("n", min(page+1, n)), part.Count("of", n))
		if x+panel.Width(shown, d.Mid())+d.Px(50) > d.W {
			x, y = d.Px(8), y+row
		}
		d.Text(x+d.Px(6), y+d.ButtonHigh()/2, shown, d.Mid(), 0)
		x += panel.Width(shown, d.Mid()) + d.Px(12)
		button("after", "▸", false, func() { p.page++ }, "", d.Px(10))
		button("export", pr.w.label("print-export"), true, pr.export, why, d.Px(8))
		button("copy-page", pr.w.label("print-copy"), false, func() { pr.copyPage(".png") }, cmp.Or(why, pr.w.pictures.noClipboard()), 0)
		button("copy-svg", pr.w.label("print-copy-svg"), false, func() { pr.copyPage(".svg") }, why, d.Px(8))
		button("back", pr.w.label("print-back"), false, pr.close, "", 0)
		d.Y = y + d.ButtonHigh() - d.Px(2) // the panel adds the same below as above
	}
}

// copyPage gives the page that is looked at to the clipboard.
func (pr *printer) copyPage(ending string) {
	b, page := pr.now.booklet, pr.now.page
	if b == nil || pr.now.stale() {
		return
	}
	pr.w.pictures.put(ending, func() ([]byte, error) {
		if ending == ".svg" {
			return b.SVG(page)
		}
		return b.PNG(page, 0)
	})
}

// finenesses are the resolutions of PNG that a menu offers, dots an inch: of a
// screen, of an office printer, fine, and of a printing works.
var finenesses = [...]float64{96, sheet.DefaultDPI, 300, 600}

// dpiOf is the resolution that PNG pages will have.
func dpiOf(o sheet.Options) float64 { return cmp.Or(o.DPI, sheet.DefaultDPI) }

// openFine shows how fine pages are written as pictures: dots of PNG, letters of
// SVG.
func (pr *printer) openFine() {
	p := pr.now
	var items []*fyne.MenuItem
	add := func(word string, on bool, take func()) {
		items = append(items, pr.w.menus.choice(word, on, take))
	}
	for _, dpi := range finenesses {
		add(pr.w.label("print-dpi", part.Count("dpi", dpi)), dpiOf(p.opt) == dpi, func() { p.opt.DPI = dpi })
	}
	items = append(items, fyne.NewMenuItemSeparator())
	add(pr.w.label("print-svg-text"), !p.opt.SVGOutlines, func() { p.opt.SVGOutlines = false })
	add(pr.w.label("print-svg-outlines"), p.opt.SVGOutlines, func() { p.opt.SVGOutlines = true })
	pr.w.menus.show("fine", items, pr.paper.Below("fine"))
}

func (pr *printer) openScales() {
	p := pr.now
	items := []*fyne.MenuItem{pr.w.menus.choice(pr.w.label("print-fits"), false, func() { p.opt.Scale = 0 })}
	for _, n := range sheet.Scales() {
		items = append(items, pr.w.menus.choice(fmt.Sprintf("1 : %g", n), false, func() { p.opt.Scale = n }))
	}
	pr.w.menus.show("scale", items, pr.paper.Below("scale"))
}

// snapPage draws the page itself; figures of an exercise can be pressed to
// become blanks.
func (pr *printer) snapPage() func(*panel.Drawing) {
	p := pr.now
	page := p.shownPage()
	fault, question := "", 0
	if p != nil {
		fault, question = p.fault, p.question
	}
	return func(d *panel.Drawing) {
		d.Fill(0, 0, d.W, d.H, panel.Mix(d.Shades.Ground, d.Shades.Ink, 0.12))
		if page == nil {
			y := d.Para(d.Px(30), d.Px(30), d.W-d.Px(60), fault, panel.Bold(d.Big()))
			if question > 0 {
				d.Button(d.Px(30), y+d.Px(10), "remove-question", pr.w.label("print-remove-question", part.Count("n", question)), true, func() { p.removeQuestion(question) }, "")
			}
			return
		}
		const margin = 14
		f := min((d.W-2*margin)/page.W, (d.H-2*margin)/page.H)
		x, y := (d.W-page.W*f)/2, (d.H-page.H*f)/2
		d.Fill(x+3, y+3, page.W*f, page.H*f, panel.Mix(d.Shades.Ground, d.Shades.Ink, 0.35))
		d.Fill(x, y, page.W*f, page.H*f, panel.Hex(0xFFFFFF))
		page.Draw(pen.At(d.Pen, f, x, y))
		if page.Kind != sheet.Exercise {
			return
		}
		for i, g := range page.Figures {
			id := "figure " + itoa(i)
			h := panel.Hit{ID: id, X0: x + g.X0*f, Y0: y + g.Y0*f, X1: x + g.X1*f, Y1: y + g.Y1*f, Press: func() { pr.blank(g.Part) }}
			if d.Hover == id {
				d.Box(h.X0-2, h.Y0-2, h.X1-h.X0+4, h.Y1-h.Y0+4, 2, color.NRGBA{}, panel.Hex(0x6A3F9E), 2)
			}
			d.Hit(h)
		}
	}
}

// blank makes a figure a blank of the exercise, or shows it again.
func (pr *printer) blank(id string) {
	o := &pr.now.opt
	if i := slices.Index(o.Blanks, id); i >= 0 {
		o.Blanks = slices.Delete(slices.Clone(o.Blanks), i, i+1)
		return
	}
	o.Blanks = append(slices.Clone(o.Blanks), id)
}

// export writes the booklet as PDF, SVG or PNG, by the ending of the name;
// sheets with answers go to a file of their own.
func (pr *printer) export() {
	b := pr.now.booklet
	if b == nil || pr.now.stale() {
		return
	}
	names := func(path string) []string {
		all, _ := b.FileNames(path) // a wrong ending is told when it is written
		return all
	}
	pr.w.saveTo(pr.w.label("print-title"), pr.w.label("print-export"), ".pdf", names, func(path string) {
		name := part.Text("name", filepath.Base(path))
		pr.w.long.do("export "+path, pr.w.label("print-writing", name), func(ctx context.Context, progress func(int, int)) (func(), error) {
			names, err := exportTo(ctx, b, path, progress)
			return func() { pr.w.say(pr.w.label("picture-written", part.Text("name", strings.Join(names, ", ")))) }, err
		}, func(err error) {
			pr.w.complain(pr.w.label("picture-fault", name, part.Text("why", pr.w.words().Cause(err))))
		})
	})
}

// exportTo writes a booklet and returns the names of the files. It stops between
// two pages when ctx is done; until all are drawn nothing is written, and all
// are written or none.
func exportTo(ctx context.Context, b *sheet.Booklet, path string, progress func(done, total int)) ([]string, error) {
	files, err := b.Files(ctx, path, progress)
	if err != nil {
		return nil, err
	}
	return writeFiles(ctx, files)
}

// writeFiles writes all of some files or none, unless ctx is done, and returns their
// names.
func writeFiles(ctx context.Context, files []sheet.File) ([]string, error) {
	if err := ctx.Err(); err != nil { // from here on it is written to the end
		return nil, err
	}
	var names []string
	var all []store.Output
	for _, f := range files {
		names, all = append(names, filepath.Base(f.Path)), append(all, store.Output(f))
	}
	return names, store.WriteAll(all)
}

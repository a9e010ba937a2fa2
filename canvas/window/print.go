package window

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"image/color"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"kedge/canvas/panel"
	"kedge/canvas/pen"
	"kedge/canvas/sheet"
	"kedge/canvas/store"
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
}

// printKey tells whether a booklet is still that of the plan and options.
type printKey struct {
	plan *plan.Plan
	rig  plan.ID
	text string // of the options
}

// variantSteps are how many variants a button asks for.
var variantSteps = [...]int{1, 10, 30}

// printSheet shows the page in the board's place; again, or Escape, brings the
// board back.
func (w *Window) printSheet() {
	if w.print != nil {
		w.endPrint()
		return
	}
	w.closeEntry()
	if p := w.printed; p != nil && p.path == w.file.path { // as it was left
		p.made, w.print = printKey{}, p
		w.refresh()
		w.win.Canvas().Focus(w.sheets)
		return
	}
	w.print = &printing{path: w.file.path, kinds: map[sheet.Kind]bool{sheet.Overview: true}, opt: sheet.Options{Paper: sheet.A4, Vary: sheet.UsualVary()}, variants: 1}
	if len(sheet.Papers()) > 0 && w.words().System().Length() != 0 { // feet: the paper of those who use them
		w.print.opt.Paper = sheet.Letter
	}
	w.print.opt.Landscape = sheet.LongSide(w.board.Plan(), w.print.options(w)) // a first guess, for the drawing's sake
	w.refresh()
	w.win.Canvas().Focus(w.sheets)
}

func (w *Window) endPrint() {
	w.print, w.printed = nil, w.print
	w.refresh()
	w.focusBoard()
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

// makeSheets has the booklet drawn, if it is not that of the plan any more.
func (w *Window) makeSheets() {
	p := w.print
	if p == nil {
		return
	}
	o, at := p.options(w), w.board.Plan()
	key := printKey{at, o.Rig, fmt.Sprint(o.Sheets, o.Paper, o.Landscape, o.Scale, o.Blanks, o.Questions, o.Variants, o.Vary, o.DPI, o.SVGOutlines, o.Words.System(), o.Words.Lang(), p.taken)}
	if key == p.made {
		return
	}
	p.made = key
	if len(o.Sheets) == 0 {
		p.booklet, p.fault, p.question = nil, w.label("print-none"), 0
		return
	}
	took := func(b *sheet.Booklet, err error) {
		if w.print == p && p.made == key {
			p.booklet, p.fault, p.question, p.of = b, "", 0, key
			if q := (*sheet.QuestionProblem)(nil); errors.As(err, &q) {
				p.question = q.N
			}
			if err != nil {
				p.fault = store.Sentence(err)
			}
			w.refresh()
		}
	}
	w.long("booklet", w.label("print-making"), func(ctx context.Context, progress func(int, int)) (func(), error) {
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

// turnPage goes through the booklet by keys; false if the key is none of these.
func (w *Window) turnPage(k fyne.KeyName) bool {
	p := w.print
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
	w.refresh()
	return true
}

// snapSheets lists the sheets, ticked or not, and what the exercise asks.
func (w *Window) snapSheets() func(*panel.Drawing) {
	p := w.print
	if p == nil {
		return func(*panel.Drawing) {}
	}
	ticked := map[sheet.Kind]bool{}
	for k, on := range p.kinds {
		ticked[k] = on
	}
	questions, blanks, variants := slices.Clone(p.opt.Questions), slices.Clone(p.opt.Blanks), p.variants
	logo, class, vary, booklet := p.logo, len(p.opt.Class), p.opt.Vary, p.booklet
	a, names := w.answer(), w.names()
	return func(d *panel.Drawing) {
		naming := w.words().Naming(a, names)
		d.Title(w.label("title-sheets"), "")
		for _, s := range sheet.Kinds() {
			id, h := "sheet "+string(s), d.Px(25)
			if d.Hover == id {
				d.Fill(0, d.Y, d.W, h, d.Shades.Hover)
			}
			d.Tick(d.Px(22), d.Y+h/2, ticked[s])
			d.Text(d.Px(38), d.Y+h/2, w.label("sheet-kind-"+string(s)), d.Mid(), d.W-d.Px(48))
			d.Hit(panel.Hit{ID: id, X0: d.Px(4), Y0: d.Y, X1: d.W - d.Px(4), Y1: d.Y + h, Press: func() { w.tick(s) }})
			d.Y += h
		}
		d.Y += d.Px(8)
		d.Button(d.Px(14), d.Y, "title-block", w.label("do-sheet-details")+"…", false, func() { w.endPrint(); w.run("sheet-details") }, "")
		d.Y += d.ButtonHigh() + d.Px(4)
		if logo == "" {
			d.Button(d.Px(14), d.Y, "logo", w.label("print-logo"), false, w.askLogo, "")
			d.Y += d.ButtonHigh() + d.Px(4)
		} else {
			d.Removable(w.label("print-logo-is", text("name", logo)), "no-logo", func() { p.opt.Logo, p.logo = nil, ""; p.taken++ })
		}
		if !ticked[sheet.Exercise] {
			return
		}
		d.Y += d.Px(8)
		d.Title(w.label("sheet-kind-exercise"), "")
		d.Y = d.Para(d.Px(14), d.Y, d.W-d.Px(28), w.label("print-blank-hint"), d.Small()) + d.Px(6)
		for i, q := range questions {
			d.Removable(w.label("sheet-ask-"+string(q.Kind))+partOf(naming, q.Part), "question "+itoa(i), func() {
				p.opt.Questions = slices.Delete(slices.Clone(p.opt.Questions), i, i+1)
			})
		}
		for i, b := range blanks {
			d.Removable(w.label("print-blank", text("part", naming(plan.ID(b)))), "blank "+itoa(i), func() {
				p.opt.Blanks = slices.Delete(slices.Clone(p.opt.Blanks), i, i+1)
			})
		}
		drawGiveaways(d, w, booklet, naming)
		d.Button(d.Px(14), d.Y, "ask", w.label("print-add-question"), false, w.openQuestions, "")
		d.Y += d.ButtonHigh() + d.Px(10)
		d.Text(d.Px(14), d.Y+d.ButtonHigh()/2, w.label("print-variants"), d.Mid(), 0)
		x := d.Px(14) + panel.Width(w.label("print-variants"), d.Mid()) + d.Px(10)
		for _, n := range variantSteps {
			x += d.Button(x, d.Y, "variants "+itoa(n), itoa(n), n == variants, func() { p.variants, p.page = n, 0 }, "")
		}
		d.Y += d.ButtonHigh() + d.Px(10)
		if variants > 1 {
			drawVary(d, w, vary)
			drawVariants(d, w, booklet)
		}
		drawClass(d, w, class)
	}
}

func partOf(names func(plan.ID) string, id string) string {
	if id == "" {
		return ""
	}
	return " · " + names(plan.ID(id))
}

// tick takes a sheet in or out; the exercise brings its key.
func (w *Window) tick(s sheet.Kind) {
	p := w.print
	p.kinds[s] = !p.kinds[s]
	if s == sheet.Exercise && p.kinds[s] {
		p.kinds[sheet.Key] = true
	}
	p.page = 0
}

// openQuestions shows what the exercise may ask.
func (w *Window) openQuestions() {
	p, a := w.print, w.answer()
	naming := w.words().Naming(a, w.names())
	var items []*fyne.MenuItem
	add := func(name string, q sheet.Question) *fyne.MenuItem {
		return fyne.NewMenuItem(name, func() {
			p.opt.Questions = append(slices.Clone(p.opt.Questions), q)
			w.refresh()
			w.win.Canvas().Focus(w.sheets)
		})
	}
	for _, kind := range sheet.QuestionKinds() {
		name := w.label("sheet-ask-" + string(kind))
		switch kind {
		case sheet.AskWeakest, sheet.AskFirst:
			items = append(items, add(name, sheet.Question{Kind: kind}))
			continue
		}
		var of []*fyne.MenuItem
		for i := range a.Parts {
			q := &a.Parts[i]
			called := w.words().PartName(q, naming)
			switch kind {
			case sheet.AskAngle:
				if q.Kind == part.KindBlock {
					of = append(of, add(called, sheet.Question{Kind: kind, Part: q.ID}))
				}
			case sheet.AskLoad:
				of = append(of, add(called, sheet.Question{Kind: kind, Part: q.ID}))
			case sheet.AskWhatIf:
				for _, t := range w.board.Tabs() {
					if _, both := t.Answer.Part(q.ID); both && t.Rig != w.board.Rig() {
						of = append(of, add(t.Name+": "+called, sheet.Question{Kind: kind, Part: q.ID, Rig: t.Rig}))
					}
				}
			}
		}
		items = append(items, submenu(name, of, w.label("print-nothing-to-ask")))
	}
	w.showMenu("ask", items, w.sheets.Below("ask"))
}

// snapPaper draws the choices of paper, scale and page over the page.
func (w *Window) snapPaper() func(*panel.Drawing) {
	p := w.print
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
		why = w.label("print-no-page")
	case p.stale():
		why = w.label("print-making")
	}
	return func(d *panel.Drawing) {
		d.Fill(0, 0, d.W, 4000, d.Shades.Ground)
		row := d.ButtonHigh() + d.Px(12)
		x, y := d.Px(8), d.Px(6)
		button := func(id, word string, on bool, press func(), why string, gap float64) {
			if wide := panel.Width(word, panel.Bold(d.Small())) + d.Px(18); x+wide > d.W-d.Px(4) && x > d.Px(8) { // on to the next row
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
		button("turn", w.label("print-landscape"), o.Landscape, func() { p.opt.Landscape = !p.opt.Landscape }, "", d.Px(8))
		scale := w.label("print-fits")
		if o.Scale > 0 {
			scale = fmt.Sprintf("1 : %g", o.Scale)
		}
		button("scale", scale+" ▾", false, w.openScales, "", d.Px(8))
		button("fine", w.label("print-fine", dots(dpiOf(o)))+" ▾", false, w.openFine, "", d.Px(8))
		button("before", "◂", false, func() { p.page-- }, "", 0)
		shown := w.label("print-page", part.Value{Name: "n", Unit: part.UnitCount, X: float64(min(page+1, n))}, part.Value{Name: "of", Unit: part.UnitCount, X: float64(n)})
		if x+panel.Width(shown, d.Mid())+d.Px(50) > d.W {
			x, y = d.Px(8), y+row
		}
		d.Text(x+d.Px(6), y+d.ButtonHigh()/2, shown, d.Mid(), 0)
		x += panel.Width(shown, d.Mid()) + d.Px(12)
		button("after", "▸", false, func() { p.page++ }, "", d.Px(10))
		button("export", w.label("print-export"), true, w.export, why, d.Px(8))
		button("copy-page", w.label("print-copy"), false, func() { w.copyPage(".png") }, cmp.Or(why, w.noClipboard()), 0)
		button("copy-svg", w.label("print-copy-svg"), false, func() { w.copyPage(".svg") }, why, d.Px(8))
		button("back", w.label("print-back"), false, w.endPrint, "", 0)
		d.Y = y + d.ButtonHigh() - d.Px(2) // the panel adds the same below as above
	}
}

// copyPage gives the page that is looked at to the clipboard.
func (w *Window) copyPage(ending string) {
	b, page := w.print.booklet, w.print.page
	if b == nil || w.print.stale() {
		return
	}
	w.putPicture(ending, func() ([]byte, error) {
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
func (w *Window) openFine() {
	p := w.print
	var items []*fyne.MenuItem
	add := func(word string, on bool, take func()) {
		items = append(items, w.choiceItem(word, on, take))
	}
	for _, dpi := range finenesses {
		add(w.label("print-dpi", dots(dpi)), dpiOf(p.opt) == dpi, func() { p.opt.DPI = dpi })
	}
	items = append(items, fyne.NewMenuItemSeparator())
	add(w.label("print-svg-text"), !p.opt.SVGOutlines, func() { p.opt.SVGOutlines = false })
	add(w.label("print-svg-outlines"), p.opt.SVGOutlines, func() { p.opt.SVGOutlines = true })
	w.showMenu("fine", items, w.paper.Below("fine"))
}

func dots(dpi float64) part.Value {
	return part.Value{Name: "dpi", Unit: part.UnitCount, X: dpi}
}

func (w *Window) openScales() {
	p := w.print
	items := []*fyne.MenuItem{w.choiceItem(w.label("print-fits"), false, func() { p.opt.Scale = 0 })}
	for _, n := range sheet.Scales() {
		items = append(items, w.choiceItem(fmt.Sprintf("1 : %g", n), false, func() { p.opt.Scale = n }))
	}
	w.showMenu("scale", items, w.paper.Below("scale"))
}

// snapPage draws the page itself; figures of an exercise can be pressed to
// become blanks.
func (w *Window) snapPage() func(*panel.Drawing) {
	p := w.print
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
				d.Button(d.Px(30), y+d.Px(10), "remove-question", w.label("print-remove-question", part.Value{Name: "n", Unit: part.UnitCount, X: float64(question)}), true, func() { p.removeQuestion(question) }, "")
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
			h := panel.Hit{ID: id, X0: x + g.X0*f, Y0: y + g.Y0*f, X1: x + g.X1*f, Y1: y + g.Y1*f, Press: func() { w.blank(g.Part) }}
			if d.Hover == id {
				d.Box(h.X0-2, h.Y0-2, h.X1-h.X0+4, h.Y1-h.Y0+4, 2, color.NRGBA{}, panel.Hex(0x6A3F9E), 2)
			}
			d.Hit(h)
		}
	}
}

// blank makes a figure a blank of the exercise, or shows it again.
func (w *Window) blank(id string) {
	o := &w.print.opt
	if i := slices.Index(o.Blanks, id); i >= 0 {
		o.Blanks = slices.Delete(slices.Clone(o.Blanks), i, i+1)
		return
	}
	o.Blanks = append(slices.Clone(o.Blanks), id)
}

// export writes the booklet as PDF, SVG or PNG, by the ending of the name;
// sheets with answers go to a file of their own.
func (w *Window) export() {
	b := w.print.booklet
	if b == nil || w.print.stale() {
		return
	}
	w.chooseFile(w.label("print-title"), w.label("print-export"), w.file.name()+".pdf", nil, func(path string) {
		if filepath.Ext(path) == "" {
			path += ".pdf"
		}
		write := func() {
			name := text("name", filepath.Base(path))
			w.long("export "+path, w.label("print-writing", name), func(ctx context.Context, progress func(int, int)) (func(), error) {
				names, err := exportTo(ctx, b, path, progress)
				return func() { w.say(w.label("picture-written", text("name", strings.Join(names, ", ")))) }, err
			}, func(err error) { w.complain(w.label("picture-fault", name, text("why", store.Sentence(err)))) })
		}
		if there := firstThere(b, path); there != "" {
			w.ask(w.label("is-there", text("name", there)), []panel.Answer{{Word: w.label("do-overwrite"), Do: write}, {Word: w.label("do-cancel")}})
			return
		}
		write()
	})
}

// firstThere is the name of a file of the booklet that is there already, empty
// if none is: a key is overwritten no more quietly than its exercise.
func firstThere(b *sheet.Booklet, path string) string {
	names, _ := b.FileNames(path) // a wrong ending is told when it is written
	for _, name := range names {
		if _, err := os.Stat(name); err == nil {
			return filepath.Base(name)
		}
	}
	return ""
}

// exportTo writes a booklet and returns the names of the files. It stops between
// two pages when ctx is done; until all are drawn nothing is written, and all
// are written or none.
func exportTo(ctx context.Context, b *sheet.Booklet, path string, progress func(done, total int)) ([]string, error) {
	files, err := b.Files(ctx, path, progress)
	if err == nil {
		err = ctx.Err() // from here on it is written to the end
	}
	if err != nil {
		return nil, err
	}
	var names []string
	var all []store.Output
	for _, f := range files {
		names, all = append(names, filepath.Base(f.Path)), append(all, store.Output(f))
	}
	return names, store.WriteAll(all)
}

package window

import (
	"cmp"
	"os"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"kedge/canvas/board"
	"kedge/canvas/panel"
	"kedge/canvas/store"
	"kedge/canvas/words"
	"kedge/solver/part"
)

// english is the language of a first start on a desktop whose own is not there.
const english = "en"

// localeLanguages are the languages of the desktop, as its locale says it, the
// nearest first (de_DE.UTF-8: de-DE, de); none if none is said.
func localeLanguages() []string {
	code := localeCode()
	if code == "" {
		return nil
	}
	lang, region, ok := strings.Cut(code, "_")
	if lang = strings.ToLower(lang); ok {
		return []string{lang + "-" + strings.ToUpper(region), lang}
	}
	return []string{lang}
}

// localeCode is the desktop's locale without its letters: de_DE of de_DE.UTF-8.
func localeCode() string {
	code, _, _ := strings.Cut(cmp.Or(os.Getenv("LC_ALL"), os.Getenv("LC_MESSAGES"), os.Getenv("LANG")), ".") // POSIX: the first that is set counts
	code, _, _ = strings.Cut(code, "@")
	return code
}

// QuietLocale names a locale of no language as the window toolkit knows it, which
// complains of C.UTF-8 on standard error: called before it is started.
func QuietLocale() {
	if code := localeCode(); code == "C" || code == "POSIX" {
		os.Setenv("LC_ALL", code)
	}
}

// startLanguage is the language to start in: the one chosen, else the desktop's,
// else English.
func startLanguage(chosen string) string {
	have := words.Languages()
	for _, l := range append([]string{chosen}, localeLanguages()...) {
		if slices.Contains(have, l) { // not one of another Kedge
			return l
		}
	}
	return english
}

// ownNames are what languages call themselves, so that whoever looks for one
// finds it in any other.
var ownNames = map[string]string{english: "English", "en-US": "English (US)", "de": "Deutsch"}

// ownName is what a language calls itself, its code if that is not known here.
func ownName(language string) string {
	if n, ok := ownNames[language]; ok {
		return n
	}
	return language
}

// sizes chooses the size of the panels' text.
func (ms *menus) sizes() *fyne.MenuItem {
	var items []*fyne.MenuItem
	for _, n := range store.TextPercents() {
		items = append(items, ms.choice(ms.w.words().Share(float64(n)/100), n == max(ms.w.prefs.Percent, 100), func() { ms.w.setTextSize(n) }))
	}
	return submenu(ms.w.label("do-text-size"), items, "")
}

// setTextSize chooses the size of the panels' text for good, per cent of the
// usual one.
func (w *Window) setTextSize(percent int) {
	w.details.closeEntry()
	w.prefs.Percent = percent
	w.keepPreferences()
	w.restyle()
}

// languages chooses the language of window, board and sheets.
func (ms *menus) languages() *fyne.MenuItem {
	var items []*fyne.MenuItem
	for _, l := range words.Languages() {
		items = append(items, ms.choice(ownName(l), l == ms.w.words().Lang(), func() { ms.w.setLanguage(l) }))
	}
	return submenu(ms.w.label("do-language"), items, "")
}

// setLanguage chooses the language for good. All texts follow at once; the plan
// stays as it is.
func (w *Window) setLanguage(language string) {
	ws, err := words.New(language, w.words().System())
	if err != nil {
		w.refused(err)
		return
	}
	w.details.closeEntry()
	w.said = ""
	w.board.SetWords(ws)
	w.board.Handle(board.Command{}) // what it reported was in the other language
	w.prefs.Language = language
	w.keepPreferences()
	w.refresh()
}

// drawClass draws who the variants are for.
func (pr *printer) drawClass(d *panel.Drawing, n int) {
	p := pr.now
	switch {
	case n == 1:
		d.Removable(pr.w.label("print-class-one"), "no-class", p.noClass)
	case n > 1:
		d.Removable(pr.w.label("print-class-is", part.Count("count", n)), "no-class", p.noClass)
	default:
		d.Note(pr.w.label("print-class-hint"), d.Small(), 4)
	}
	x, room := d.Px(14), d.W-d.Px(14)
	for _, b := range [...]struct {
		id, word string
		press    func()
	}{{"class-file", pr.w.label("print-class-file"), pr.askClass}, {"class-paste", pr.w.label("print-class-paste"), pr.pasteClass}} {
		if x > d.Px(14) && x+d.ButtonWide(b.word) > room { // on to the next row
			x, d.Y = d.Px(14), d.Y+d.ButtonHigh()+d.Px(4)
		}
		x += d.Button(x, d.Y, b.id, b.word, false, b.press, "") + d.Px(6)
	}
	d.Y += d.ButtonHigh()
}

func (p *printing) noClass() {
	p.opt.Class, p.variants, p.page = nil, 1, 0
	p.taken++
}

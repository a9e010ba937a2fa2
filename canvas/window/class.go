package window

import (
	"errors"
	"path/filepath"
	"strings"
	"unicode/utf8"

	"kedge/canvas/sheet"
	"kedge/solver/part"
)

// Files of the sheets panel, by their extensions, and the most that is read of
// one. (ours; a logo's bound is that of package sheet)
var classFiles = []string{".txt", ".csv", ".tsv", ".lst"}

const (
	mostClassBytes = 1 << 20
	mostLogoBytes  = 4 << 20
)

// errNoText is a list that is no text.
var errNoText = errors.New("window: class: not text in UTF-8")

// namesIn are the names of a list with one a line; empty lines are passed over.
func namesIn(list string) ([]string, error) {
	list = strings.TrimPrefix(list, "\ufeff")
	if !utf8.ValidString(list) || strings.ContainsRune(list, 0) {
		return nil, errNoText
	}
	var names []string
	for l := range strings.Lines(strings.ReplaceAll(list, "\r", "\n")) {
		if n := strings.Join(strings.Fields(l), " "); n != "" {
			names = append(names, n)
		}
	}
	return names, nil
}

// ask has a file chosen under a title and hands on what is in it, at most so many
// bytes, if usable has nothing against it (nil: all will do) and the same sheet is
// still being made.
func (pr *printer) ask(title string, files []string, most int64, usable func(data []byte) error, take func(path string, data []byte)) {
	p := pr.now
	pr.w.chooseFile(pr.w.label(title), pr.w.label("do-open-it"), "", files, func(path string) {
		pr.w.slow.Do(title, func() func() {
			data, err := pr.w.store.Read(path, most)
			if err == nil && usable != nil {
				err = usable(data)
			}
			return func() {
				switch {
				case pr.now != p:
				case err != nil:
					pr.w.refused(err)
				default:
					take(path, data)
				}
			}
		})
	})
}

// askClass takes the class from a file.
func (pr *printer) askClass() {
	pr.ask("print-class-title", classFiles, mostClassBytes, nil, func(_ string, data []byte) { pr.takeClass(string(data)) })
}

// pasteClass takes the class from the clipboard.
func (pr *printer) pasteClass() { pr.takeClass(pr.w.app.Clipboard().Content()) }

// takeClass makes a variant for each name of a list.
func (pr *printer) takeClass(list string) {
	p := pr.now
	names, err := namesIn(list)
	switch {
	case err != nil:
		pr.w.complain(pr.w.label("print-class-no-text"))
		return
	case len(names) == 0:
		pr.w.complain(pr.w.label("print-class-none"))
		return
	case len(names) > sheet.MaxVariants:
		pr.w.complain(pr.w.label("print-class-many", part.Count("count", len(names)), part.Count("most", sheet.MaxVariants)))
		return
	}
	p.opt.Class, p.variants, p.page = names, len(names), 0
	p.taken++
	pr.w.refresh()
}

// askLogo takes a picture for the title block.
func (pr *printer) askLogo() {
	p, at, ws := pr.now, pr.w.board.Plan(), pr.w.words()
	pr.ask("print-logo-title", pictureFiles, mostLogoBytes, func(data []byte) error {
		// only a picture the sheets can use is taken
		if _, err := sheet.Make(at, sheet.Options{Logo: data, Words: ws}); errors.Is(err, sheet.ErrLogo) {
			return err
		}
		return nil
	}, func(path string, data []byte) {
		p.opt.Logo, p.logo = data, filepath.Base(path)
		p.taken++
		pr.w.refresh()
	})
}

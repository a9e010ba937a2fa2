package window

import (
	"os"
	"path/filepath"
	"strings"

	"kedge/canvas/panel"
	"kedge/canvas/sheet"
	"kedge/canvas/store"
	"kedge/solver"
)

// PictureClipboard takes pictures for other programs.
type PictureClipboard interface {
	// PutPNG offers a PNG file's bytes to whoever pastes. The error says why
	// this desktop does not take pictures.
	PutPNG(png []byte) error
}

// excerpt is the board as it is shown, without what the pointer adds; of the
// selection, what lies round it. False: nothing of it is drawn.
func (w *Window) excerpt(selection bool) (sheet.Excerpt, bool) {
	p, rig := w.board.Plan(), w.board.Rig()
	if _, ok := p.Rig(rig); !ok && len(p.Rigs) > 0 { // a way looked at: it is not in the plan yet
		rig = p.Rigs[0].ID
	}
	// What is being dragged or looked at is not in the picture, nor its figures.
	x := sheet.Excerpt{Plan: p, Rig: rig, Answer: solver.Assess(p, rig), Words: w.words(), View: w.board.View(), Look: w.look(), Show: w.show}
	if !selection {
		return x, true
	}
	return x.Round(w.board.Selection())
}

// savePicture writes the board, or what lies round the selection, as PNG or
// SVG, by the ending of the name.
func (w *Window) savePicture(selection bool) {
	x, ok := w.excerpt(selection)
	if !ok {
		w.say(w.label("nothing-drawn"))
		return
	}
	w.chooseFile(w.label("picture-title"), w.label("do-save"), w.file.name()+".png", nil, func(path string) {
		if filepath.Ext(path) == "" {
			path += ".png"
		}
		name, ending := text("name", filepath.Base(path)), strings.ToLower(filepath.Ext(path))
		if ending != ".png" && ending != ".svg" {
			w.complain(w.label("picture-fault", name, text("why", w.label("picture-ending"))))
			return
		}
		write := func() {
			w.slow.Do("picture "+path, func() func() {
				data, err := encoded(x, ending)
				if err == nil {
					err = store.WriteAll([]store.Output{{Path: path, Data: data}})
				}
				return func() {
					if err != nil {
						w.complain(w.label("picture-fault", name, text("why", store.Sentence(err))))
						return
					}
					w.say(w.label("picture-written", name))
				}
			})
		}
		if _, err := os.Stat(path); err == nil {
			w.ask(w.label("is-there", name), []panel.Answer{{Word: w.label("do-overwrite"), Do: write}, {Word: w.label("do-cancel")}})
			return
		}
		write()
	})
}

// encoded is an excerpt as a file: SVG, or else PNG.
func encoded(x sheet.Excerpt, ending string) ([]byte, error) {
	if ending == ".svg" {
		return x.SVG(false)
	}
	return x.PNG()
}

// copyPicture gives the board, or what lies round the selection, to the
// clipboard: as pixels, or as SVG, which a clipboard holds as text.
func (w *Window) copyPicture(selection, svg bool) {
	x, ok := w.excerpt(selection)
	if !ok {
		w.say(w.label("nothing-drawn"))
		return
	}
	ending := ".png"
	if svg {
		ending = ".svg"
	}
	w.putPicture(ending, func() ([]byte, error) { return encoded(x, ending) })
}

// putPicture makes a picture and gives it to the clipboard.
func (w *Window) putPicture(ending string, picture func() ([]byte, error)) {
	w.slow.Do("clipboard", func() func() {
		data, err := picture()
		return func() {
			switch {
			case err != nil:
			case ending == ".svg":
				w.app.Clipboard().SetContent(string(data))
			default:
				err = w.opt.Clipboard.PutPNG(data)
			}
			if err != nil {
				w.complain(w.label("copy-fault", text("why", store.Sentence(err))))
				return
			}
			w.say(w.label("picture-copied-" + strings.TrimPrefix(ending, ".")))
		}
	})
}

// noClipboard says why pictures of pixels cannot be copied; empty: they can.
func (w *Window) noClipboard() string {
	if w.opt.Clipboard == nil {
		return w.label("no-clipboard")
	}
	return ""
}

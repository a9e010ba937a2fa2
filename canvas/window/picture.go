package window

import (
	"os"
	"path/filepath"
	"strings"

	"kedge/canvas/panel"
	"kedge/canvas/sheet"
	"kedge/canvas/store"
	"kedge/solver/travel"
)

// PictureClipboard takes pictures for other programs.
type PictureClipboard interface {
	// PutPNG offers a PNG file's bytes to whoever pastes. The error says why
	// this desktop does not take pictures.
	PutPNG(png []byte) error
}

// pictures take pictures of the board, and pictures to trace into it.
type pictures struct{ w *Window }

// excerpt is the board as it is shown, at the moment of the pull that is, without what the pointer adds; of the
// selection, what lies round it. False: nothing of it is drawn.
func (ps *pictures) excerpt(selection bool) (sheet.Excerpt, bool) {
	p, rig := ps.w.board.Plan(), ps.w.board.Rig()
	if _, ok := p.Rig(rig); !ok && len(p.Rigs) > 0 { // a way looked at: it is not in the plan yet
		rig = p.Rigs[0].ID
	}
	// What is being dragged or looked at is not in the picture, nor its figures.
	shown, answer := travel.Of(p, rig).Shown(p, rig, ps.w.travel.atM)
	x := sheet.Excerpt{Plan: shown, Rig: rig, Answer: answer, Words: ps.w.words(), View: ps.w.board.View(), Look: ps.w.look(), Show: ps.w.show}
	if !selection {
		return x, true
	}
	return x.Round(ps.w.board.Selection())
}

// save writes the board, or what lies round the selection, as PNG or
// SVG, by the ending of the name.
func (ps *pictures) save(selection bool) {
	x, ok := ps.excerpt(selection)
	if !ok {
		ps.w.say(ps.w.label("nothing-drawn"))
		return
	}
	ps.w.chooseFile(ps.w.label("picture-title"), ps.w.label("do-save"), ps.w.file.name()+".png", nil, func(path string) {
		if filepath.Ext(path) == "" {
			path += ".png"
		}
		name, ending := text("name", filepath.Base(path)), strings.ToLower(filepath.Ext(path))
		if ending != ".png" && ending != ".svg" {
			ps.w.complain(ps.w.label("picture-fault", name, text("why", ps.w.label("picture-ending"))))
			return
		}
		write := func() {
			ps.w.slow.Do("picture "+path, func() func() {
				data, err := encoded(x, ending)
				if err == nil {
					err = store.WriteAll([]store.Output{{Path: path, Data: data}})
				}
				return func() {
					if err != nil {
						ps.w.complain(ps.w.label("picture-fault", name, text("why", ps.w.words().Cause(err))))
						return
					}
					ps.w.say(ps.w.label("picture-written", name))
				}
			})
		}
		if _, err := os.Stat(path); err == nil {
			ps.w.ask(ps.w.label("is-there", name), []panel.Answer{{Word: ps.w.label("do-overwrite"), Do: write}, {Word: ps.w.label("do-cancel")}})
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

// copy gives the board, or what lies round the selection, to the
// clipboard: as pixels, or as SVG, which a clipboard holds as text.
func (ps *pictures) copy(selection, svg bool) {
	x, ok := ps.excerpt(selection)
	if !ok {
		ps.w.say(ps.w.label("nothing-drawn"))
		return
	}
	ending := ".png"
	if svg {
		ending = ".svg"
	}
	ps.put(ending, func() ([]byte, error) { return encoded(x, ending) })
}

// put makes a picture and gives it to the clipboard.
func (ps *pictures) put(ending string, picture func() ([]byte, error)) {
	ps.w.slow.Do("clipboard", func() func() {
		data, err := picture()
		return func() {
			switch {
			case err != nil:
			case ending == ".svg":
				ps.w.app.Clipboard().SetContent(string(data))
			default:
				err = ps.w.opt.Clipboard.PutPNG(data)
			}
			if err != nil {
				ps.w.complain(ps.w.label("copy-fault", text("why", ps.w.words().Cause(err))))
				return
			}
			ps.w.say(ps.w.label("picture-copied-" + strings.TrimPrefix(ending, ".")))
		}
	})
}

// noClipboard says why pictures of pixels cannot be copied; empty: they can.
func (ps *pictures) noClipboard() string {
	if ps.w.opt.Clipboard == nil {
		return ps.w.label("no-clipboard")
	}
	return ""
}

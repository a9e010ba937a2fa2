package window

import (
	"context"
	"os"
	"path/filepath"
	"strings"

	"kedge/canvas/panel"
	"kedge/canvas/sheet"
	"kedge/canvas/store"
	"kedge/solver/part"
	"kedge/solver/plan"
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
	p, rig := ps.w.board.Plan(), ps.planRig()
	// What is being dragged or looked at is not in the picture, nor its figures.
	pull := travel.Of(p, rig)
	at := min(ps.w.travel.atM, pull.EndM)
	shown, answer, _ := pull.Shown(p, rig, at)
	x := sheet.Excerpt{Plan: shown, Rig: rig, Answer: answer, AtM: at, Words: ps.w.words(), View: ps.w.board.View(), Look: ps.w.look(), Show: ps.w.show}
	if !selection {
		return x, true
	}
	return x.Round(ps.w.board.Selection())
}

// planRig is the rig of the plan that is pictured.
func (ps *pictures) planRig() plan.ID {
	p, rig := ps.w.board.Plan(), ps.w.board.Rig()
	if _, ok := p.Rig(rig); !ok && len(p.Rigs) > 0 { // a way looked at: it is not in the plan yet
		rig = p.Rigs[0].ID
	}
	return rig
}

// save writes the board, or what lies round the selection, as PNG or
// SVG, by the ending of the name.
func (ps *pictures) save(selection bool) {
	x, ok := ps.excerpt(selection)
	if !ok {
		ps.w.say(ps.w.label("nothing-drawn"))
		return
	}
	ps.w.saveTo(ps.w.label("picture-title"), ps.w.label("do-save"), ".png", oneFile, func(path string) {
		name, ending := part.Text("name", filepath.Base(path)), strings.ToLower(filepath.Ext(path))
		if ending != ".png" && ending != ".svg" {
			ps.w.complain(ps.w.label("picture-fault", name, part.Text("why", ps.w.label("picture-ending"))))
			return
		}
		ps.w.slow.Do("picture "+path, func() func() {
			data, err := encoded(x, ending)
			if err == nil {
				err = store.WriteAll([]store.Output{{Path: path, Data: data}})
			}
			return func() {
				if err != nil {
					ps.w.complain(ps.w.label("picture-fault", name, part.Text("why", ps.w.words().Cause(err))))
					return
				}
				ps.w.say(ps.w.label("picture-written", name))
			}
		})
	})
}

// film writes the pull as pictures one after the other, by the ending of the name.
func (ps *pictures) film() {
	x := sheet.Film{Plan: ps.w.board.Plan(), Rig: ps.planRig(), Words: ps.w.words()}
	names := func(path string) []string { return []string{sheet.FrameName(path, 0)} }
	ps.w.saveTo(ps.w.label("film-title"), ps.w.label("do-save"), ".gif", names, func(path string) {
		name := part.Text("name", filepath.Base(path))
		ps.w.long.do("film "+path, ps.w.label("film-making", name), func(ctx context.Context, progress func(int, int)) (func(), error) {
			x := x
			x.Progress = progress
			files, err := x.Files(ctx, path)
			if err != nil {
				return nil, err
			}
			names, err := writeFiles(ctx, files)
			return func() { ps.w.say(ps.w.label("picture-written", part.Text("name", seriesName(names)))) }, err
		}, func(err error) {
			ps.w.complain(ps.w.label("picture-fault", name, part.Text("why", ps.w.words().Cause(err))))
		})
	})
}

// seriesName names a series of files by its first and last.
func seriesName(names []string) string {
	if len(names) > 2 {
		names = []string{names[0], "…", names[len(names)-1]}
	}
	return strings.Join(names, " ")
}

// noFilm says why there is no film of the pull; empty: there is.
func (ps *pictures) noFilm() string {
	if ps.w.board.Pull().EndM > 0 {
		return ""
	}
	return ps.w.label("strip-none")
}

// oneFile is the name of a file that is written by itself.
func oneFile(path string) []string { return []string{path} }

// saveTo asks for the name of what is written; one without ending gets that given. Of
// files that are there already it asks first.
func (w *Window) saveTo(title, word, ending string, names func(path string) []string, write func(path string)) {
	w.chooseFile(title, word, w.file.name()+ending, nil, func(path string) {
		if filepath.Ext(path) == "" {
			path += ending
		}
		for _, name := range names(path) { // one is overwritten no more quietly than the other
			if _, err := os.Stat(name); err == nil {
				w.ask(w.label("is-there", part.Text("name", filepath.Base(name))), []panel.Answer{
					{Word: w.label("do-save-as"), Do: func() { w.saveTo(title, word, ending, names, write) }},
					{Word: w.label("do-overwrite"), Do: func() { write(path) }},
					{Word: w.label("do-cancel")},
				})
				return
			}
		}
		write(path)
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
				ps.w.complain(ps.w.label("copy-fault", part.Text("why", ps.w.words().Cause(err))))
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

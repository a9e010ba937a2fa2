package window

import (
	"encoding/json"
	"os"
	"strings"

	"kedge/canvas/board"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// showKeys lists the keys.
func (w *Window) showKeys() {
	var lines []string
	for i := 1; w.words().HasLabel("keys-" + itoa(i)); i++ {
		lines = append(lines, w.label("keys-"+itoa(i)))
	}
	var short []string
	for _, c := range w.commands {
		if strings.HasPrefix(c.shortcut, "Ctrl") {
			short = append(short, c.shortcut+" "+w.label(c.label))
		}
	}
	for _, e := range w.board.Commands() {
		if strings.HasPrefix(e.Shortcut, "Ctrl") {
			short = append(short, e.Shortcut+" "+e.Label)
		}
	}
	lines = append(lines, strings.Join(short, " · "))
	w.page(w.label("do-keys"), lines, []answer{{w.label("do-close"), nil}})
}

// showCautions shows what the program never answers for.
func (w *Window) showCautions() {
	lines := append(w.words().Cautions(), "", w.label("title-not-checked")+":")
	for _, n := range w.words().NotChecked() {
		lines = append(lines, "– "+n)
	}
	w.page(w.label("title-cautions"), lines, []answer{{w.label("do-close"), nil}})
}

// showAbout says what Kedge is.
func (w *Window) showAbout() {
	w.page(w.label("about-title"), []string{w.label("about-1"), w.label("aid"), w.label("about-font")}, []answer{{w.label("do-close"), nil}})
}

// renameRig opens the name of the rig in Details.
func (w *Window) renameRig() {
	rig := w.board.Rig()
	w.typeInto(&board.FocusField{Thing: rig, Member: "name"})
}

// shownLoad is a row of the table as tests read it.
type shownLoad struct {
	ID     string   `json:"id"`
	Name   string   `json:"name"`
	Status string   `json:"status"`
	Load   *float64 `json:"load"`
	Stall  *float64 `json:"at_stall"`
	Limit  *float64 `json:"limit"`
	Used   *float64 `json:"used"`
	Move   string   `json:"move_text"`
	Text   string   `json:"used_text"`
}

// shownBoard is what tests are told after a save: the table of loads, and where
// the plan's origin lies on the screen, y down, with pixels to a metre.
type shownBoard struct {
	OriginX float64     `json:"origin_x_px"`
	OriginY float64     `json:"origin_y_px"`
	PerM    float64     `json:"px_per_m"`
	Loads   []shownLoad `json:"loads"`
}

// dumpLoads writes the table of loads where a test asked for it.
func (w *Window) dumpLoads() {
	if w.opt.LoadsFile == "" {
		return
	}
	a, ws := w.answer(), w.words()
	names := ws.Naming(a, w.names())
	var rows []shownLoad
	num := func(x float64, known bool) *float64 {
		if !known {
			return nil
		}
		return &x
	}
	for _, i := range sortedParts(a, w.sortBy, func(p *part.Part) string { return ws.PartName(p, names) }) {
		p := &a.Parts[i]
		r := rowOf(ws, a, p, names)
		rows = append(rows, shownLoad{p.ID, r.name, p.Status.String(), num(float64(p.Move.Force), p.Move.Known), num(float64(p.Stall.Force), p.Stall.Known),
			num(float64(p.Limit.Force), p.Limit.Known), num(p.Used, p.Known()), r.move, r.used})
	}
	at, v, scale := w.app.Driver().AbsolutePositionForObject(w.view), w.board.View(), w.scale()
	x, y := v.ToPen(plan.Point{})
	shown := shownBoard{OriginX: (x + float64(at.X)) * scale, OriginY: (y + float64(at.Y)) * scale, PerM: v.PerM * scale, Loads: rows}
	data, err := json.MarshalIndent(shown, "", "  ")
	if err == nil {
		err = os.WriteFile(w.opt.LoadsFile, data, 0o644)
	}
	if err != nil {
		w.complain(err.Error())
	}
}

package window

import (
	"encoding/json"
	"os"

	"kedge/canvas/panel"
	"kedge/canvas/words"
	"kedge/solver/plan"
)

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

// shownHit is something to press in a panel, in the order in which the keys
// walk them.
type shownHit struct {
	ID   string  `json:"id"`
	X    float64 `json:"x_px"`
	Y    float64 `json:"y_px"`
	Seen bool    `json:"seen"`               // all of it, it is not scrolled away
	Keys bool    `json:"has_keys,omitempty"` // the next key is for it
}

// shownBoard is what tests are told after a save: the table of loads, and where
// things lie on the screen in its pixels, y down.
type shownBoard struct {
	OriginX float64               `json:"origin_x_px"` // of the plan
	OriginY float64               `json:"origin_y_px"`
	PerM    float64               `json:"px_per_m"`
	Loads   []shownLoad           `json:"loads"`
	Panels  map[string][]shownHit `json:"panels"`
	Tags    map[string][2]float64 `json:"tags"` // middles of the picture's tags, by their worst parts
	Cross   *plan.Point           `json:"crosshair"`
	Picked  []plan.ID             `json:"selected"`
	Pinned  string                `json:"pinned"`
	Pointed string                `json:"pointed"` // part whose sum is shown while it is pointed at
}

// dumpLoads writes the table of loads where a test asked for it.
func (w *Window) dumpLoads() {
	if w.opt.LoadsFile == "" {
		return
	}
	a, ws := w.answer(), w.words()
	var rows []shownLoad
	num := func(x float64, known bool) *float64 {
		if !known {
			return nil
		}
		return &x
	}
	table := ws.Loads(a, w.names(), w.loads.sortBy)
	for i := range table.Rows {
		r := &table.Rows[i]
		p := r.Part
		rows = append(rows, shownLoad{p.ID, r.Cells[words.ColumnPart], p.Status.String(), num(float64(p.Move.Force), p.Move.Known), num(float64(p.Stall.Force), p.Stall.Known),
			num(float64(p.Limit.Force), p.Limit.Known), num(p.Used, p.Known()), r.Cells[words.ColumnMove], figureOf(r, words.ColumnUsed)})
	}
	scale := w.scale()
	at := w.app.Driver().AbsolutePositionForObject(w.view)
	px := func(x, y float64) [2]float64 {
		return [2]float64{(x + float64(at.X)) * scale, (y + float64(at.Y)) * scale}
	}
	v := w.board.View()
	origin := px(v.ToPen(plan.Point{}))
	shown := shownBoard{OriginX: origin[0], OriginY: origin[1], PerM: v.PerM * scale, Loads: rows, Panels: w.shownHits(),
		Tags: map[string][2]float64{}, Cross: w.board.Overlay().Cross, Picked: w.board.Selection(), Pinned: w.whys.last, Pointed: w.why.part()}
	for _, l := range w.view.boxes {
		if l.Part != "" {
			shown.Tags[l.Part] = px(l.Box.Center().X, l.Box.Center().Y)
		}
	}
	data, err := json.MarshalIndent(shown, "", "  ")
	if err == nil {
		err = os.WriteFile(w.opt.LoadsFile, data, 0o644)
	}
	if err != nil {
		w.refused(err)
	}
}

// shownHits are the places to press of the panels that are shown.
func (w *Window) shownHits() map[string][]shownHit {
	all, scale := map[string][]shownHit{}, w.scale()
	for _, p := range [...]*panel.Pane{w.frame.tabs, w.findings.pane, w.loads.pane, w.details.pane} {
		if !p.Shown() {
			continue
		}
		at := w.app.Driver().AbsolutePositionForObject(p)
		for _, h := range p.Hits {
			if h.Idle || h.ID == "" {
				continue
			}
			s := p.Scroll
			seen := s == nil || float32(h.Y0) >= s.Offset.Y && float32(h.Y1) <= s.Offset.Y+s.Size().Height
			all[p.Name] = append(all[p.Name], shownHit{h.ID, (float64(at.X) + (h.X0+h.X1)/2) * scale, (float64(at.Y) + (h.Y0+h.Y1)/2) * scale, seen, w.win.Canvas().Focused() == p && p.Focus == h.ID})
		}
	}
	return all
}

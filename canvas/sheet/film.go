package sheet

import (
	"context"
	"fmt"
	"math"
	"path/filepath"
	"strings"

	"github.com/golang/geo/r2"

	"kedge/canvas/draw"
	"kedge/canvas/pen"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/travel"
)

// Film is the whole pull as pictures one after the other, for a lesson: each the
// drawing of a moment with that moment's figures, under it the curve of the whole pull
// with the moment marked, over it the verdict on the whole pull.
type Film struct {
	Plan     *plan.Plan
	Rig      plan.ID
	Words    *words.Words
	PerM     float64 // frames for each metre of travel; 0: two
	WidthPx  float64 // of a picture, logical pixels; 0: 960
	Outlines bool    // letters as outlines in SVG
	Progress func(done, total int)
}

// Of films. (ours)
const (
	filmPerM      = 2.0
	filmWidth     = 960.0
	filmShare     = 0.55 // height of the drawing of its width, at most
	filmDPI       = 96
	filmLeast     = 320.0
	mostFilm      = 400 // frames
	filmUnder     = 130 * pxInMM
	filmCaptionMM = 20 * pxInMM
)

// frame is the moment that a picture of a film shows.
type frame struct {
	pull    *travel.Answer
	atM     float64
	plan    *plan.Plan         // drawn there
	answer  *solver.Assessment // of that moment
	names   words.Names
	caption string
	labels  *draw.Labels
}

// under draws the caption of a frame and the curve of its pull.
func (g *frame) under(p pen.Pen, x *Excerpt, l laid, c draw.Colors) {
	y := l.topMM + l.drawn
	t := letters(excerptEm, true)
	t.Colour = c.Ink
	write(p, excerptPad, y+filmCaptionMM/2, fitted(g.caption, t, l.w-2*excerptPad), t)
	draw.DrawCurve(p, r2.RectFromPoints(r2.Point{X: excerptPad, Y: y + filmCaptionMM}, r2.Point{X: l.w - excerptPad, Y: y + filmUnder}),
		&draw.Curve{Pull: g.pull, Words: x.Words, Names: g.names, ShownM: g.atM, Text: excerptEm, Ink: c.Ink, Quiet: c.Quiet, Paper: c.Paper})
}

// settled are the film's own figures, or what is wrong with them, at most mostPx across.
func (x Film) settled(mostPx float64) (Film, error) {
	if x.PerM == 0 {
		x.PerM = filmPerM
	}
	if x.WidthPx == 0 {
		x.WidthPx = filmWidth
	}
	if x.Plan == nil {
		return x, noPlan.At("")
	}
	if !(x.PerM > 0) || x.PerM > 100 {
		return x, noRate.At("", written(x.PerM))
	}
	if !(x.WidthPx >= filmLeast) || x.WidthPx > mostPx {
		return x, noWidth.At("", written(x.WidthPx), written(filmLeast), written(mostPx))
	}
	return x, nil
}

// frames follows the pull and lays out the pictures of its moments. They are drawn in
// turn, for labels stay where they are from one to the next.
func (x Film) frames(ctx context.Context) ([]Excerpt, error) {
	pull, err := travel.Assess(ctx, x.Plan, x.Rig, nil)
	if err != nil {
		return nil, err
	}
	if !(pull.EndM > 0) {
		return nil, noPull.At("")
	}
	m := maker{ctx: ctx, w: x.Words}
	m.take(x.Plan, x.Rig, pull.Assessment)
	m.whole = pull
	n := min(int(math.Ceil(pull.EndM*x.PerM)), mostFilm-1) // steps
	all, box, labels := make([]Excerpt, n+1), r2.EmptyRect(), &draw.Labels{}
	for i := range all {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		at := m.at(pull.EndM * float64(i) / float64(n))
		g := &frame{pull: pull, atM: at.atM, plan: travel.At(m.p, x.Rig, at.atM), answer: plain(at.a), names: m.names, caption: m.caption(at, math.Inf(1)), labels: labels}
		box = box.AddRect(draw.Bounds(g.plan, g.answer))
		all[i] = Excerpt{Plan: m.p, Rig: x.Rig, Answer: m.a, Words: x.Words, film: g, Show: draw.Show{HideGrid: true, HideUnderlay: true, HideZones: everyZone()}}
	}
	room := 2.0 * excerptRoomPx
	perM := min((x.WidthPx-room)/box.X.Length(), (x.WidthPx*filmShare-room)/box.Y.Length())
	view := draw.View{Middle: plan.Point(box.Center()), PerM: perM, W: x.WidthPx, H: math.Ceil(box.Y.Length()*perM + room), UnitsPerPx: 1}
	for i := range all {
		all[i].View = view
	}
	return all, nil
}

// Files is the film as files by the ending of the name: GIF, that plays by itself, or
// a PNG or SVG a frame. It stops between two frames when ctx is done. Nothing is written.
func (x Film) Files(ctx context.Context, path string) ([]File, error) {
	ending := strings.ToLower(filepath.Ext(path))
	if ending != ".gif" && ending != ".png" && ending != ".svg" {
		return nil, filmEnding.At("")
	}
	mostPx := float64(excerptMostPx)
	if ending == ".gif" {
		mostPx = gifMostPx
	}
	x, err := x.settled(mostPx)
	if err != nil {
		return nil, err
	}
	frames, err := x.frames(ctx)
	if err != nil {
		return nil, err
	}
	if ending == ".gif" {
		data, err := x.animated(ctx, frames)
		return []File{{path, data}}, err
	}
	out := make([]File, len(frames))
	for i := range frames {
		if err := x.tell(ctx, i, len(frames)); err != nil {
			return nil, err
		}
		data, err := []byte(nil), error(nil)
		if ending == ".svg" {
			data, err = frames[i].SVG(x.Outlines)
		} else {
			data, err = frames[i].PNG()
		}
		if err != nil {
			return nil, err
		}
		out[i] = File{FrameName(path, i), data}
	}
	return out, nil
}

// FrameName is the name of the file of a frame, counted from 0, of a film at path:
// FILE-001.png and so on, or that of the one file that holds them all.
func FrameName(path string, i int) string {
	ext := filepath.Ext(path)
	if strings.EqualFold(ext, ".gif") {
		return path
	}
	return fmt.Sprintf("%s-%03d%s", strings.TrimSuffix(path, ext), i+1, ext)
}

// tell tells how many frames are done; the error is the context's.
func (x Film) tell(ctx context.Context, done, total int) error {
	if x.Progress != nil {
		x.Progress(done, total)
	}
	return ctx.Err()
}

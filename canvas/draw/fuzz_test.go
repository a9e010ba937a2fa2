package draw_test

import (
	"testing"

	"kedge/canvas/draw"
	"kedge/canvas/pen"
	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/seeded"
)

// FuzzDraw draws every rig of whatever plan, fitted into a window of 640 by 480: there
// are marks, and none lies nowhere.
func FuzzDraw(f *testing.F) {
	w := english(f)
	seeded.Fuzz(f, func(t *testing.T, p *plan.Plan) {
		for i := range p.Rigs {
			s := &draw.Scene{Plan: p, Rig: p.Rigs[i].ID, Answer: solver.Assess(p, p.Rigs[i].ID), Words: w}
			box := draw.Bounds(p, s.Answer)
			if box.IsEmpty() {
				continue
			}
			s.View = draw.Fit(box, 640, 480, 50)
			r := &pen.Recorder{}
			r.Hi.X, r.Hi.Y = 640, 480
			draw.Draw(r, s)
			if err := r.Err(); err != nil || len(r.Marks) == 0 {
				t.Fatalf("%d marks: %v", len(r.Marks), err)
			}
		}
	})
}

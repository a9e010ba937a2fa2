package window

import (
	"cmp"
	"reflect"

	"kedge/canvas/exercise"
	"kedge/solver/plan"
)

// settle keeps in the plan what is asked of the exercise as it was changed here, and
// shows what the plan keeps where that was changed: by undo, by another rig, by a
// file opened.
func (pr *printer) settle() {
	p, at, rig := pr.now, pr.w.board.Plan(), pr.w.board.Rig()
	r, ok := at.Rig(rig)
	if !ok {
		return
	}
	if !p.settled || r.Exercise != p.kept || rig != p.rig {
		p.show(at, r)
		return
	}
	if p.foreign {
		return
	}
	s := exercise.Setup{Questions: p.opt.Questions, Blanks: p.opt.Blanks, Variants: p.variants, Vary: p.opt.Vary, Names: p.opt.Class}
	if x := s.Kept(r.Exercise); !reflect.DeepEqual(x, r.Exercise) && pr.w.board.Put(pr.w.label("edit-exercise"), plan.WithExercise(at, at.RigIndex(rig), x)) == nil {
		if r, ok = pr.w.board.Plan().Rig(rig); ok {
			p.kept = r.Exercise
		}
	}
}

// show takes what the plan keeps of the exercise of a rig. What a later version
// asked is left as it is.
func (p *printing) show(at *plan.Plan, r *plan.Rig) {
	s, err := exercise.SetupOf(at, r.ID)
	p.settled, p.kept, p.rig, p.foreign = true, r.Exercise, r.ID, err != nil
	p.opt.Questions, p.opt.Blanks, p.opt.Class, p.opt.Vary, p.variants = s.Questions, s.Blanks, s.Names, s.Vary, cmp.Or(s.Variants, max(1, len(s.Names)))
	if s.Vary.IsZero() {
		p.opt.Vary = exercise.UsualVary()
	}
	p.taken++ // names are no part of what tells one booklet from another
}

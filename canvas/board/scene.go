package board

import (
	"slices"
	"strings"

	"kedge/canvas/draw"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/travel"
)

// scene is what there is to see and to take hold of: the plan as it is with the
// rig shown and what is selected in it, where the picture looks, and the words
// it is told in. What tools and gestures would do is a function of it. What was
// found of the plan is kept with it, so that it is found once.
type scene struct {
	words *words.Words
	kit   []facts.GearItem
	snapM float64

	plan      *plan.Plan
	rig       plan.ID // shown; empty: the plan has none
	selection []plan.ID
	ways      *waysRound // shown beside the sheet; nil: not

	view  draw.View
	cycle int             // how many things behind one another were passed over
	boxes []draw.LabelBox // labels of the last picture

	measured collected // of the picture to trace

	answers []answered[*solver.Assessment] // of plans as drawn, the newest first
	pulls   []answered[*travel.Answer]     // of whole pulls, the newest first
	found   struct {                       // of the plan as it is: hook-on points, asked for on every frame
		plan  *plan.Plan
		rig   plan.ID
		words *words.Words
		spots []spot
		none  bool // nothing stands on the sheet
	}
	named struct {
		plan  *plan.Plan
		rig   plan.ID
		words *words.Words
		names words.Names
	}
	index struct {
		plan *plan.Plan
		rig  plan.ID
		x    *plan.Index
	}
}

// rigOf is the rig of p that is shown: a preview may hold the first there is, or
// be of a way round.
func (sc *scene) rigOf(p *plan.Plan) plan.ID {
	if w := sc.way(); w != nil && w.Plan == p {
		return w.Rig
	}
	if sc.rig == "" && len(p.Rigs) > 0 {
		return p.Rigs[0].ID
	}
	return sc.rig
}

// with is the scene with another plan that nobody has seen yet, and nothing found of it.
func (sc *scene) with(p *plan.Plan) *scene {
	return &scene{words: sc.words, kit: sc.kit, snapM: sc.snapM, plan: p, rig: sc.rig, view: sc.view}
}

// planWhole is the answer for the whole pull of the plan as it is.
func (sc *scene) planWhole() *solver.Assessment { return sc.whole(sc.plan).Assessment }

// planAnswer is the assessment of the plan as it is drawn, whatever is previewed:
// where everything lies.
func (sc *scene) planAnswer() *solver.Assessment { return sc.assess(sc.plan) }

// stretch is a stretch of a line as it lies; nil if there is none.
func (sc *scene) stretch(line plan.ID, index int) *part.Stretch {
	list := sc.planAnswer().Stretches
	i := slices.IndexFunc(list, func(s part.Stretch) bool { return s.Line == line && s.Index == index })
	if i < 0 {
		return nil
	}
	return &list[i]
}

// answered is an answer that was found.
type answered[A any] struct {
	plan   *plan.Plan
	rig    plan.ID
	answer A
}

// answersKept is how many answers are kept: of the plan, of the preview, and of the
// preview before, which the next frame asks for once more.
const answersKept = 3

// assess is the assessment of p and the rig shown, as drawn: the first moment of its
// whole pull, if that is known.
func (sc *scene) assess(p *plan.Plan) *solver.Assessment {
	if i := answerAt(sc.pulls, p, sc.rigOf(p)); i >= 0 {
		return sc.pulls[i].answer.Moments[0].Assessment
	}
	return answerOf(&sc.answers, p, sc.rigOf(p), solver.Assess)
}

// whole is the answer for the whole pull of p and the rig shown.
func (sc *scene) whole(p *plan.Plan) *travel.Answer {
	return answerOf(&sc.pulls, p, sc.rigOf(p), travel.Of)
}

// answerOf is the answer for a plan and rig, found once while it is kept.
func answerOf[A any](kept *[]answered[A], p *plan.Plan, rig plan.ID, find func(*plan.Plan, plan.ID) A) A {
	if i := answerAt(*kept, p, rig); i >= 0 {
		a := (*kept)[i]
		copy((*kept)[1:i+1], (*kept)[:i])
		(*kept)[0] = a
		return a.answer
	}
	a := find(p, rig)
	keepAnswer(kept, answered[A]{p, rig, a})
	return a
}

// answerAt is where the answer for a plan and rig is kept, -1 if it is not.
func answerAt[A any](kept []answered[A], p *plan.Plan, rig plan.ID) int {
	return slices.IndexFunc(kept, func(a answered[A]) bool { return a.plan == p && a.rig == rig })
}

func keepAnswer[A any](kept *[]answered[A], a answered[A]) {
	*kept = slices.Insert(*kept, 0, a)
	if len(*kept) > answersKept {
		*kept = (*kept)[:answersKept]
	}
}

// at finds the things of the plan and the rig shown.
func (sc *scene) at() *plan.Index {
	if c := &sc.index; c.x == nil || c.plan != sc.plan || c.rig != sc.rig {
		r, _ := sc.plan.Rig(sc.rig)
		c.plan, c.rig, c.x = sc.plan, sc.rig, plan.NewIndex(sc.plan, r)
	}
	return sc.index.x
}

// naming gives things their names.
func (sc *scene) naming() words.Names {
	if c := &sc.named; c.names == nil || c.plan != sc.plan || c.rig != sc.rig || c.words != sc.words {
		c.plan, c.rig, c.words, c.names = sc.plan, sc.rig, sc.words, sc.words.Names(sc.plan, sc.rig)
	}
	return sc.named.names
}

// name is what a thing is called.
func (sc *scene) name(id plan.ID) string {
	if s := sc.naming()(id); s != "" {
		return s
	}
	return string(id)
}

// aside reports whether an id names something with fields that is no thing, as the
// ground or a rig.
func (sc *scene) aside(id plan.ID) bool {
	if _, pin := plan.RefPin(id); pin {
		return false
	}
	return strings.HasPrefix(string(id), "/") || sc.plan.RigIndex(id) >= 0
}

package board

import (
	"reflect"
	"slices"
	"strings"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Fields are the members of a thing for the Details panel; see [Fields].
func (b *Board) Fields(thing plan.ID) []Field {
	return Fields(b.Shown(), b.rig, thing, b.Answer(), b.words)
}

// Set types a text into a field, as one undo step; see [SetMember]. An empty
// text over a typed value brings back what the program had proposed for it in
// this session; where there was no proposal, or the proposal itself is emptied,
// the member is not known. What is refused is also reported to the person, and
// the plan stays.
func (b *Board) Set(thing plan.ID, member, given string) error {
	b.begin()
	b.cancel()
	next, name, err := SetMember(b.plan, b.rig, thing, member, given, b.words)
	if err != nil {
		b.say(b.sentence(err))
		return err
	}
	if strings.TrimSpace(given) == "" {
		for i := len(b.undo) - 1; i >= 0; i-- {
			if back, ok := presetAgain(b.plan, b.undo[i].plan, b.rig, thing, member); ok {
				next = back
				break
			}
		}
	}
	if err := b.edit(name, pictureFollowed(b.plan, next)); err != nil {
		return err
	}
	b.sayWeight(thing, member, given)
	return nil
}

// sayWeight says that a force was typed as the weight of a mass, and what it was
// taken as.
func (b *Board) sayWeight(thing plan.ID, member, given string) {
	t, ok := findThing(b.plan, b.rig, thing)
	if !ok {
		return
	}
	m, basis, ok := memberOf(t, member)
	if !ok || basis || m.unit != unitForce && m.unit != unitRating {
		return
	}
	figure, _, _ := ratingFigure(strings.TrimSpace(given))
	d, err := quantity.ParseDoubtForce(figure, b.words.System())
	if err != nil || !d.AsWeight {
		return
	}
	e := fieldEntry{float64(d.Value), float64(d.Low), float64(d.High), d.PlusMinus}
	b.say(b.label("taken-as-weight", text("typed", figure), text("force", m.unit.show(e, b.words.System())+"\u00a0"+m.unit.symbol(b.words.System()))))
}

// presetAgain is p with the preset that a member had in an earlier plan; false
// if it was none there, or still is in p.
func presetAgain(p, earlier *plan.Plan, rig, id plan.ID, member string) (*plan.Plan, bool) {
	now, ok := findThing(p, rig, id)
	was, there := findThing(earlier, rig, id)
	if !ok || !there || now.kind != was.kind {
		return p, false
	}
	m, basis, ok := memberOf(now, member)
	if !ok || basis || m.presence != "" || m.preset(now) || !m.preset(was) {
		return p, false
	}
	old, ok := walkPath(was.value, pathSteps(m.path))
	if !ok {
		return p, false
	}
	done := false
	q, err := editThing(p, now, func(v reflect.Value) error {
		to, ok := openPath(v, pathSteps(m.path))
		if !ok {
			return nil
		}
		owner, names := presetNames(m.path)
		marks, ok := openPath(v, append(slices.Clone(owner), "presets"))
		if !ok {
			return nil
		}
		to.Set(old)
		m.setDoubt(v, nil)
		list, _ := marks.Interface().([]string)
		marks.Set(reflect.ValueOf(append(slices.Clone(list), names[len(names)-1])))
		done = true
		return nil
	})
	return q, err == nil && done
}

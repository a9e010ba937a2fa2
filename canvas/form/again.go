package form

import (
	"reflect"
	"slices"
	"strings"

	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// AsWeight says that a force was typed as the weight of a mass, and what it was
// taken as; empty if it was not.
func AsWeight(p *plan.Plan, rig, thing plan.ID, member, given string, w *words.Words) string {
	t, ok := Find(p, rig, thing)
	if !ok {
		return ""
	}
	m, basis, ok := memberOf(t, member)
	if !ok || basis || m.unit != unitForce && m.unit != unitRating {
		return ""
	}
	figure, _, _ := ratingFigure(strings.TrimSpace(given))
	d, err := quantity.ParseDoubtForce(figure, w.System())
	if err != nil || !d.AsWeight {
		return ""
	}
	e := entry{float64(d.Value), float64(d.Low), float64(d.High), d.PlusMinus, d.Likely}
	return w.Label("taken-as-weight", part.Text("typed", figure), part.Text("force", m.unit.show(e, w.System())+"\u00a0"+m.unit.symbol(w.System())))
}

// PresetAgain is p with the preset that a member had in an earlier plan; false
// if it was none there, or still is in p.
func PresetAgain(p, earlier *plan.Plan, rig, id plan.ID, member string) (*plan.Plan, bool) {
	now, ok := Find(p, rig, id)
	was, there := Find(earlier, rig, id)
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

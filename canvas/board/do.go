package board

import (
	"slices"

	"kedge/canvas/form"
	"kedge/canvas/remedy"
	"kedge/solver/part"
)

// Do does a finding's remedy as one undo step, or says which field is to be
// typed into; see [remedy.Do]. What cannot be done is also reported to the person.
func (b *Board) Do(r part.Remedy) (*form.Focus, error) {
	if can, why := b.CanDo(r); !can && b.ways != nil { // the finding is that of a way
		b.say(why)
		return nil, &remedy.NoButton{Do: r.Do, Why: why}
	}
	b.cancel()
	if r.Do == remedy.Ways {
		b.openWays()
		return nil, nil
	}
	done, err := remedy.Do(remedyIn(b.scene), r)
	if err != nil {
		b.say(b.scene.words.Refusal(err))
		return nil, err
	}
	if done.Focus != nil {
		b.Select(done.Focus.Thing)
		return done.Focus, nil
	}
	before := b.planWhole().Findings
	if err := b.edit(done.Name, done.Plan); err != nil {
		return nil, err
	}
	b.say(clearedText(b.scene, done.Name, before, b.planWhole().Findings))
	return nil, nil
}

// clearedText says how many findings a remedy cleared, and how many came instead.
func clearedText(sc *scene, name string, before, after []part.Finding) string {
	lacks := func(list []part.Finding, key string) bool {
		return !slices.ContainsFunc(list, func(f part.Finding) bool { return f.Key() == key })
	}
	cleared, fresh := 0, 0
	for _, f := range before {
		if lacks(after, f.Key()) {
			cleared++
		}
	}
	for _, f := range after {
		if lacks(before, f.Key()) {
			fresh++
		}
	}
	out := sc.label("remedy-done", part.Text("what", name))
	if cleared > 0 {
		out = sc.label("cleared", part.Count("count", cleared))
	}
	if fresh > 0 {
		out += " · " + sc.label("cleared-new", part.Count("count", fresh))
	}
	return out
}

// CanDo reports whether a remedy has a button now, and if not why.
func (b *Board) CanDo(r part.Remedy) (can bool, why string) {
	if r.Do == remedy.Ways {
		return true, ""
	}
	if b.ways != nil {
		return false, b.label("why-take-first")
	}
	return remedy.Can(remedyIn(b.scene), r)
}

func remedyIn(sc *scene) remedy.Given {
	return remedy.Given{Plan: sc.plan, Rig: sc.rig, Kit: sc.kit, Words: sc.words, Answer: sc.planWhole()}
}

// Field is what a remedy would have somebody type; nil if it is another edit or there is
// no such field.
func (b *Board) Field(r part.Remedy) *form.Focus {
	if !remedy.Typed(r) || b.ways != nil {
		return nil
	}
	done, err := remedy.Do(remedyIn(b.scene), r)
	if err != nil {
		return nil
	}
	return done.Focus
}

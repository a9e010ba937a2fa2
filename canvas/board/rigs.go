package board

import (
	"slices"
	"strings"

	"kedge/canvas/form"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/layout"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Tab is one rig as its tab shows it.
type Tab struct {
	Rig    plan.ID
	Name   string // its own, or after its shape
	Text   string // with its worst share, or why there is none
	Shown  bool
	Answer *solver.Assessment // of the plan as it is
}

// Tabs are the rigs in the order of their tabs. Each is assessed once for a
// plan.
func (b *Board) Tabs() []Tab {
	if b.tabs.plan != b.plan || len(b.tabs.list) != len(b.plan.Rigs) || b.tabs.words != b.words {
		b.tabs.plan, b.tabs.words, b.tabs.list = b.plan, b.words, nil
		for i := range b.plan.Rigs {
			r := &b.plan.Rigs[i]
			a := solver.Assess(b.plan, r.ID)
			t := Tab{Rig: r.ID, Name: b.rigName(i), Answer: a}
			t.Text = b.tabText(r, t.Name, a)
			b.tabs.list = append(b.tabs.list, t)
		}
	}
	list := slices.Clone(b.tabs.list)
	for i := range list {
		list[i].Shown = list[i].Rig == b.rig
	}
	return list
}

type tabs struct {
	plan  *plan.Plan
	words *words.Words
	list  []Tab
}

// tabText is a tab: the worst used share of all parts, or what stands in its
// way.
func (b *Board) tabText(r *plan.Rig, name string, a *solver.Assessment) string {
	rig := text("rig", name)
	switch {
	case len(r.Lines)+len(r.Blocks)+len(r.Slings) == 0:
		return b.label("tab-empty", rig)
	case a.Status == part.Refused:
		return b.label("tab-refused", rig)
	case a.Status != part.Within:
		return b.label("tab-not-computed", rig)
	case a.Worst >= 0 && a.Worst < len(a.Parts):
		return b.label("tab-worst", rig, part.Value{Name: "used", Unit: part.UnitShare, X: a.Parts[a.Worst].Most()})
	case a.Move.Known:
		return b.label("tab-no-rating", rig)
	}
	return b.label("tab-not-computed", rig)
}

// rigName is what a rig is called; see [words.Words.RigName].
func (b *Board) rigName(i int) string { return b.words.RigName(b.plan, i) }

// ShowRig shows a rig; what is selected in another is no longer selected.
func (b *Board) ShowRig(id plan.ID) {
	if _, ok := b.plan.Rig(id); !ok || id == b.rig {
		return
	}
	b.cancel()
	b.question, b.hang = nil, nil
	b.rig = id
	b.Select(b.selection...)
}

func (b *Board) nextRig(by int) {
	i, n := b.plan.RigIndex(b.rig), len(b.plan.Rigs)
	b.ShowRig(b.plan.Rigs[(i+by+n)%n].ID)
}

func (b *Board) newRig() outcome {
	d := b.draft(false)
	id := plan.NewID(d.Plan, plan.PrefixRig)
	d.Rigs = append(d.Rigs, plan.Rig{Head: plan.Head{ID: id}})
	return outcome{plan: d.Plan, name: b.label("edit-new-rig"), then: func() { b.ShowRig(id) }}
}

// copyRig puts a copy of the rig shown behind it. Its parts keep their ids:
// those are unique within each rig, and the same part keeps the same name.
func (b *Board) copyRig() outcome {
	d := b.draft(false)
	i := b.plan.RigIndex(b.rig)
	r := d.Rigs[i]
	layout.CloneRig(&r)
	id := plan.NewID(d.Plan, plan.PrefixRig)
	r.Head = renew(r.Head, id)
	r.Name = b.freeRigName(b.label("copy-of", text("name", b.rigName(i))))
	d.Rigs = slices.Insert(d.Rigs, i+1, r)
	return outcome{plan: d.Plan, name: b.label("edit-copy-rig"), then: func() { b.ShowRig(id) }}
}

// freeRigName is a name for a rig that no other has: itself, or numbered.
func (b *Board) freeRigName(want string) string {
	taken := map[string]bool{}
	for i := range b.plan.Rigs {
		taken[b.rigName(i)] = true
	}
	name := want
	for n := 2; taken[name]; n++ {
		name = b.label("rig-again", text("name", want), count("count", n))
	}
	return name
}

func (b *Board) deleteRig() outcome {
	d := b.draft(false)
	i := b.plan.RigIndex(b.rig)
	name := b.rigName(i)
	d.Rigs = slices.Delete(d.Rigs, i, i+1)
	next := plan.ID("")
	if len(d.Rigs) > 0 {
		next = d.Rigs[min(i, len(d.Rigs)-1)].ID
	} else {
		d.Rigs = nil
	}
	return outcome{plan: d.Plan, name: b.label("edit-delete", text("thing", name)), selected: []plan.ID{}, then: func() { b.ShowRig(next) },
		report: b.label("deleted", text("what", name)) + " · " + b.label("undo-with")}
}

func (b *Board) moveRig(by int) outcome {
	d := b.draft(false)
	i := b.plan.RigIndex(b.rig)
	d.Rigs[i], d.Rigs[i+by] = d.Rigs[i+by], d.Rigs[i]
	return outcome{plan: d.Plan, name: b.label("edit-move", text("thing", b.rigName(i)))}
}

// RenameRig gives a rig a name, as one undo step; an empty one leaves it named
// after its shape. The error says which rig there is not.
func (b *Board) RenameRig(id plan.ID, name string) error {
	next, edit, err := form.Set(b.plan, b.rig, id, "name", strings.TrimSpace(name), b.words)
	if err != nil {
		return err
	}
	return b.edit(edit, next)
}

package board

import (
	"slices"

	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/travel"
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
			a := b.planWhole() // found once for tab and panels
			if r.ID != b.rigOf(b.plan) {
				a = travel.Whole(b.plan, r.ID)
			}
			t := Tab{Rig: r.ID, Name: b.words.RigName(b.plan, i), Answer: a}
			t.Text = tabText(b.scene, r, t.Name, a)
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
func tabText(sc *scene, r *plan.Rig, name string, a *solver.Assessment) string {
	rig := part.Text("rig", name)
	switch {
	case len(r.Lines)+len(r.Blocks)+len(r.Slings) == 0:
		return sc.label("tab-empty", rig)
	case a.Status == part.Refused:
		return sc.label("tab-refused", rig)
	case a.Status != part.Within:
		return sc.label("tab-not-computed", rig)
	case a.Worst >= 0 && a.Worst < len(a.Parts):
		return sc.label("tab-worst", rig, part.Number("used", part.UnitShare, a.Parts[a.Worst].Most()))
	case a.Move.Known:
		return sc.label("tab-no-rating", rig)
	}
	return sc.label("tab-not-computed", rig)
}

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

func newRig(sc *scene) outcome {
	d := sc.draft(false)
	d.LayNew()
	id := d.Laid.ID
	return outcome{plan: d.Plan, name: sc.label("edit-new-rig"), then: func(b *Board) { b.ShowRig(id) }}
}

// copyRig puts a copy of the rig shown behind it. Its parts keep their ids:
// those are unique within each rig, and the same part keeps the same name.
func copyRig(sc *scene) outcome {
	d := sc.draft(false)
	i := sc.plan.RigIndex(sc.rig)
	r := d.Rigs[i]
	r.Unshare()
	id := plan.NewID(d.Plan, plan.PrefixRig)
	r.Head = renew(r.Head, id)
	r.Name = freeRigName(sc, sc.label("copy-of", part.Text("name", sc.words.RigName(sc.plan, i))))
	d.Rigs = slices.Insert(d.Rigs, i+1, r)
	return outcome{plan: d.Plan, name: sc.label("edit-copy-rig"), then: func(b *Board) { b.ShowRig(id) }}
}

// freeRigName is a name for a rig that no other has: itself, or numbered.
func freeRigName(sc *scene, want string) string {
	taken := map[string]bool{}
	for i := range sc.plan.Rigs {
		taken[sc.words.RigName(sc.plan, i)] = true
	}
	name := want
	for n := 2; taken[name]; n++ {
		name = sc.label("rig-again", part.Text("name", want), part.Count("count", n))
	}
	return name
}

func deleteRig(sc *scene) outcome {
	d := sc.draft(false)
	i := sc.plan.RigIndex(sc.rig)
	name := sc.words.RigName(sc.plan, i)
	d.Rigs = slices.Delete(d.Rigs, i, i+1)
	next := plan.ID("")
	if len(d.Rigs) > 0 {
		next = d.Rigs[min(i, len(d.Rigs)-1)].ID
	} else {
		d.Rigs = nil
	}
	return outcome{plan: d.Plan, name: sc.label("edit-delete", part.Text("thing", name)), selected: []plan.ID{}, then: func(b *Board) { b.ShowRig(next) },
		report: sc.label("deleted", part.Text("what", name)) + " · " + sc.label("undo-with")}
}

func moveRig(sc *scene, by int) outcome {
	d := sc.draft(false)
	i := sc.plan.RigIndex(sc.rig)
	d.Rigs[i], d.Rigs[i+by] = d.Rigs[i+by], d.Rigs[i]
	return outcome{plan: d.Plan, name: sc.label("edit-move", part.Text("thing", sc.words.RigName(sc.plan, i)))}
}

package board

import (
	"slices"

	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/zone"
)

// ToolStand shows where people may stand, and is armed by a command alone.
const ToolStand Tool = "stand"

// standTool shows where an operator and a spotter may stand, and puts them there.
type standTool struct {
	common
	of    *plan.Plan // the plan whose places are found; people do not change them
	rig   plan.ID
	found zone.Places
}

// placePx is how near the pointer comes to a place to take it, pixels.
const placePx = 18

func (t *standTool) start(b *Board) {
	b.fitAll()
	t.common.start(b)
}

// offered is a place that is offered to somebody.
type offered struct {
	at   plan.Point
	role string
}

// places are those that are offered now, an operator's first.
func (t *standTool) places(sc *scene) []offered {
	if t.of != sc.plan || t.rig != sc.rig {
		t.of, t.rig, t.found = sc.plan, sc.rig, sc.whole(sc.plan).Places(sc.plan)
	}
	var all []offered
	for _, at := range t.found.Operators {
		all = append(all, offered{rounded(at, fineM), plan.RoleOperator})
	}
	for _, at := range t.found.Spotters {
		all = append(all, offered{rounded(at, fineM), plan.RoleSpotter})
	}
	return all
}

func (t *standTool) prompt(sc *scene) string {
	if len(t.places(sc)) == 0 {
		return sc.words.NoPlace(sc.planWhole())
	}
	return sc.label("prompt-stand-tool")
}

// aim is what a click at p would do: put somebody at the place that is near.
func (t *standTool) aim(sc *scene, p pointer) outcome {
	o := outcome{dim: true}
	n := map[string]int{}
	for _, q := range t.places(sc) {
		n[q.role]++
		hot := p.on && q.at.Dist(p.at)*sc.view.PerM <= placePx && o.plan == nil
		o.places = append(o.places, draw.PlaceMark{At: q.at, Role: q.role, Number: n[q.role], Hot: hot})
		if hot {
			t.put(sc, q, &o)
		}
	}
	return o
}

// put puts somebody of a role at a place: who stands in a zone, else the first of
// that role, else somebody new.
func (t *standTool) put(sc *scene, q offered, o *outcome) {
	d := sc.draft(false)
	people := slices.Clone(d.Site.People)
	who := -1
	for i := range people {
		if people[i].Role == q.role && !people[i].Locked && (who < 0 || len(insideOf(sc.planWhole(), people[who].ID)) == 0 && len(insideOf(sc.planWhole(), people[i].ID)) > 0) {
			who = i
		}
	}
	if who < 0 {
		who = len(people)
		people = append(people, plan.Person{Head: plan.Head{ID: plan.NewID(sc.plan, plan.PrefixPerson)}, Role: q.role})
	}
	x := &people[who]
	if x.At == q.at && x.Vehicle == "" {
		return
	}
	x.At, x.Vehicle, x.Cover = q.at, "", plan.CoverNone
	d.Site.People = people
	o.plan, o.name, o.selected = d.Plan, sc.label("edit-place", part.Text("what", sc.label("role-"+q.role))), []plan.ID{x.ID}
	o.texts = append(o.texts, draw.FreeText{At: q.at, Text: standsText(sc, d.Plan, x.ID)})
}

// stops are the places that are offered.
func (t *standTool) stops(sc *scene) ([]stop, bool) {
	var list []stop
	for _, q := range t.places(sc) {
		list = append(list, stop{at: q.at})
	}
	return list, true
}

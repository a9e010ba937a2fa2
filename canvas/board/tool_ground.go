package board

import (
	"kedge/canvas/form"
	"kedge/solver/plan"
)

// groundTool shows the ground's fields; a drag sets where it falls to.
type groundTool struct{ common }

func (t *groundTool) start(b *Board) { selectGround(b) }

func (t *groundTool) aim(sc *scene, _ pointer) outcome { return outcome{prompt: t.prompt(sc)} }

func (t *groundTool) press(b *Board, p pointer, _ int) *gesture {
	return &gesture{from: p, tap: selectGround, outcome: func(q pointer) outcome { return downhill(b.scene, p, q) }}
}

// selectGround selects the ground, so that Details shows it, and asks for its
// slope.
func selectGround(b *Board) {
	b.Select(form.ThingGround)
	b.ask(form.ThingGround)
}

// downhill is what a drag with the ground tool does: it sets where the ground
// falls to.
func downhill(sc *scene, from, p pointer) outcome {
	d := sc.draft(false)
	to := bearing(from.at, p.at)
	if !p.mods.Alt {
		to = roundedBearing(to)
	}
	g := d.Site.Ground
	g.Downhill = plan.Known(to)
	d.Site.Ground = g
	o := outcome{plan: d.Plan, name: sc.label("edit-downhill"), selected: []plan.ID{form.ThingGround}, rubber: []plan.Point{from.at, p.at}, preview: true}
	if g.Slope.Or(0) == 0 {
		o.then = func(b *Board) { b.ask(form.ThingGround) }
	}
	return o
}

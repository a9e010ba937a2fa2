package board

import (
	"kedge/canvas/draw"
	"kedge/canvas/form"
	"kedge/solver/layout"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// anchorKinds are the kinds that the tool goes through.
var anchorKinds = func() (kinds []string) {
	for i := range plan.AnchorKinds {
		if k := &plan.AnchorKinds[i]; k.Placed {
			kinds = append(kinds, k.Word)
		}
	}
	return kinds
}()

// anchorPresets are what an anchor of a kind is set down with.
var anchorPresets = map[string]plan.Anchor{
	plan.AnchorPickets: {Layout: presetLayout},
	plan.AnchorDeadman: {Depth: presetDeadmanM, LogLength: presetLogM, LogDiameter: presetLogDiameterM},
	plan.AnchorRated:   {Rating: plan.Rating{Force: presetRatedN, Basis: plan.BasisWorking}},
}

// anchorTool places an anchor.
type anchorTool struct {
	common
	kind int // into anchorKinds
}

func (t *anchorTool) again(*scene) { t.kind = (t.kind + 1) % len(anchorKinds) }

func (t *anchorTool) prompt(sc *scene) string {
	return sc.label("prompt-anchor", part.Text("kind", sc.label("kind-"+anchorKinds[t.kind])))
}

// aim sets an anchor down; on a boulder it asks whether that may serve
// as one: it is one thing, not two.
func (t *anchorTool) aim(sc *scene, p pointer) outcome {
	if ob := boulderAt(sc, p.at); ob != nil {
		o := outcome{selected: []plan.ID{ob.ID}}
		if ob.Locked {
			o.prompt = whyStays(sc, ob.ID)
			return o
		}
		o.ask = anchorQuestion(sc, ob)
		o.prompt = o.ask.Label
		return o
	}
	at, guides := snap(sc, p, nil, trail{})
	kind := anchorKinds[t.kind]
	a := newAnchor(kind)
	prefix := plan.PrefixAnchor
	if kind == plan.AnchorTree {
		prefix = plan.PrefixTree
	}
	a.ID, a.At = plan.NewID(sc.plan, prefix), at
	said := traced(sc, &a.Head, at)
	d := sc.draft(false)
	d.Site.Anchors = append(d.Site.Anchors, a)
	return outcome{
		plan: d.Plan, name: sc.label("edit-place", part.Text("what", sc.label("kind-"+kind))), selected: []plan.ID{a.ID},
		ghost: &draw.Ghost{Anchor: &a, Label: sc.label("kind-" + kind)}, guides: guides,
		texts: said,
		then:  func(b *Board) { b.ask(a.ID) },
	}
}

// boulderAt is the boulder at a place, nil if there is none. Walls, buildings and
// water are ground on which an anchor is set.
func boulderAt(sc *scene, at plan.Point) *plan.Obstacle {
	for i := range sc.plan.Site.Obstacles {
		if ob := &sc.plan.Site.Obstacles[i]; !ob.Hidden && (ob.Kind == "boulder" || ob.Kind == "") && terrain.Inside(ob.Outline, at) {
			return ob
		}
	}
	return nil
}

// anchorQuestion asks whether a boulder may serve as anchor, and says what is
// entered now.
func anchorQuestion(sc *scene, ob *plan.Obstacle) *Question {
	label := "no-anchor"
	if ob.Anchor {
		label = "is-anchor"
	}
	return &Question{Thing: ob.ID, Member: "may_serve_as_anchor", Label: sc.label(label, part.Text("thing", sc.name(ob.ID))), choices: []string{form.Yes, form.No}}
}

// newAnchor is an anchor of a kind. A tree's trunk and health are nobody's to
// propose: until they are entered its hold is not known.
func newAnchor(kind string) plan.Anchor {
	a := anchorPresets[kind]
	a.Kind = kind
	a.Presets = layout.PresetMembers(&a)
	return a
}

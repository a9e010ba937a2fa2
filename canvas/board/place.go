package board

import (
	"math"

	"kedge/canvas/draw"
	"kedge/canvas/form"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// placing is what a click at p would do with the tool that is armed, for tools
// that set one thing down.
func (b *Board) placing(p pointer) outcome {
	switch b.tool {
	case ToolVehicle:
		return b.placeVehicle(p)
	case ToolAnchor:
		return b.placeAnchor(p)
	case ToolPerson:
		return b.placePerson(p)
	case ToolNote:
		return placeNote(b.scene, p)
	case ToolDamper:
		return placeDamper(b.scene, p)
	}
	return outcome{}
}

func (b *Board) placeVehicle(p pointer) outcome {
	at, guides := snap(b.scene, p, nil, trail{})
	kind := b.nextVehicle()
	v := newVehicle(b.scene, kind)
	v.ID, v.At, v.Bearing = plan.NewID(b.plan, plan.PrefixVehicle), at, 90
	o := outcome{name: b.label("edit-place", text("what", b.label("edit-vehicle"))), guides: guides}
	o.texts = append(o.texts, draw.FreeText{At: at, Text: placeText(b.scene, at)})
	if c := b.plan.Casualty(); c != nil && kind != vehicleStuck {
		to := nearestPoint(c, at)
		if to != at {
			v.Bearing = roundedBearing(bearing(at, to))
		}
		o.guides = append(o.guides, draw.Guide{A: at, B: to, Why: lengthText(b.scene, dist(at, to))})
	}
	o.ghost = &draw.Ghost{Vehicle: &v, Label: b.label("kind-" + kind)}
	d := b.draft(false)
	d.Site.Vehicles = append(d.Site.Vehicles, v)
	o.plan, o.selected = d.Plan, []plan.ID{v.ID}
	o.then = func(b *Board) {
		b.kinds.vehicle = ""
		b.ask(v.ID)
	}
	return o
}

// nearestPoint is the recovery point of v nearest to a place, or its middle.
func nearestPoint(v *plan.Vehicle, at plan.Point) plan.Point {
	best, d := v.At, math.Inf(1)
	for i := range v.Recovery {
		if q := v.Place(v.Recovery[i].Ahead, v.Recovery[i].Left.Or(0)); dist(q, at) < d {
			best, d = q, dist(q, at)
		}
	}
	return best
}

// placeAnchor sets an anchor down; on a boulder it asks whether that may serve
// as one: it is one thing, not two.
func (b *Board) placeAnchor(p pointer) outcome {
	if ob := boulderAt(b.scene, p.at); ob != nil {
		o := outcome{selected: []plan.ID{ob.ID}}
		if ob.Locked {
			o.prompt = whyStays(b.scene, ob.ID)
			return o
		}
		o.ask = anchorQuestion(b.scene, ob)
		o.prompt = o.ask.Label
		return o
	}
	at, guides := snap(b.scene, p, nil, trail{})
	kind := anchorKinds[b.kinds.anchor]
	a := newAnchor(kind)
	prefix := plan.PrefixAnchor
	if kind == plan.AnchorTree {
		prefix = plan.PrefixTree
	}
	a.ID, a.At = plan.NewID(b.plan, prefix), at
	d := b.draft(false)
	d.Site.Anchors = append(d.Site.Anchors, a)
	return outcome{
		plan: d.Plan, name: b.label("edit-place", text("what", b.label("kind-"+kind))), selected: []plan.ID{a.ID},
		ghost: &draw.Ghost{Anchor: &a, Label: b.label("kind-" + kind)}, guides: guides,
		texts: []draw.FreeText{{At: at, Text: placeText(b.scene, at)}},
		then:  func(b *Board) { b.ask(a.ID) },
	}
}

// boulderAt is the boulder at a place, nil if there is none. Walls, buildings and
// water are ground on which an anchor is set.
func boulderAt(sc *scene, at plan.Point) *plan.Obstacle {
	for i := range sc.plan.Site.Obstacles {
		if ob := &sc.plan.Site.Obstacles[i]; !ob.Hidden && (ob.Kind == "boulder" || ob.Kind == "") && inside(at, ob.Outline) {
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
	return &Question{Thing: ob.ID, Member: "may_serve_as_anchor", Label: sc.label(label, text("thing", sc.name(ob.ID))), choices: []string{form.Yes, form.No}}
}

func (b *Board) placePerson(p pointer) outcome {
	at, guides := snap(b.scene, p, nil, trail{})
	role := roles[b.kinds.role]
	q := plan.Person{Role: role, At: at}
	q.ID = plan.NewID(b.plan, plan.PrefixPerson)
	if role == plan.RoleDriver {
		for _, h := range hitsAt(b.scene, p.at) {
			if h.kind == plan.ThingVehicle {
				q.Vehicle = h.id
				q.At = b.at().Vehicle(h.id).At
				break
			}
		}
	}
	d := b.draft(false)
	d.Site.People = append(d.Site.People, q)
	o := outcome{
		plan: d.Plan, name: b.label("edit-place", text("what", b.label("role-"+role))), selected: []plan.ID{q.ID},
		ghost: &draw.Ghost{Person: &q, Label: b.label("role-" + role)}, guides: guides,
	}
	stands := ""
	if q.Vehicle == "" { // zones do not depend on people: those of the plan count
		a := b.planAnswer()
		stands = insideText(b.scene, a, a.Stand(&q).Inside)
	} else {
		stands = standsText(b.scene, d.Plan, q.ID)
	}
	o.texts = append(o.texts, draw.FreeText{At: q.At, Text: stands})
	return o
}

func placeNote(sc *scene, p pointer) outcome {
	at, guides := snap(sc, p, nil, trail{})
	n := plan.Note{At: at}
	n.ID = plan.NewID(sc.plan, plan.PrefixNote)
	n.Text = sc.label("note-text")
	d := sc.draft(false)
	d.Site.Notes = append(d.Site.Notes, n)
	return outcome{
		plan: d.Plan, name: sc.label("edit-place", text("what", sc.label("edit-note"))), selected: []plan.ID{n.ID}, guides: guides,
		texts: []draw.FreeText{{At: at, Text: n.Text}},
		then:  func(b *Board) { b.ask(n.ID) },
	}
}

// placeDamper lays a damper over the stretch under the pointer.
func placeDamper(sc *scene, p pointer) outcome {
	h, ok := lineAt(sc, p.at)
	if !ok {
		return outcome{prompt: sc.label("prompt-damper-tool")}
	}
	d := sc.draft(true)
	k := sc.gear().Damper()
	k.Line, k.Stretch, k.Share = h.id, h.stretch, stepped(h.share, 0.01)
	id := d.addDamper(k)
	return outcome{
		plan: d.Plan, name: sc.label("edit-place", text("what", sc.label("edit-damper"))), selected: []plan.ID{id},
		texts: []draw.FreeText{{At: p.at, Text: sc.label("damper-at", metres("along", h.share*stretchLength(sc, h)))}},
	}
}

func stretchLength(sc *scene, h hit) float64 {
	a := sc.planAnswer()
	for i := range a.Stretches {
		if s := &a.Stretches[i]; s.Line == h.id && s.Index == h.stretch {
			return float64(s.Length)
		}
	}
	return 0
}

// lineAt is the stretch nearest to a place, within the reach of a hook-on
// point.
func lineAt(sc *scene, at plan.Point) (hit, bool) {
	best, has := hit{distM: hitPx / sc.view.PerM}, false
	a := sc.planAnswer()
	for i := range a.Stretches {
		s := &a.Stretches[i]
		if d, share := toSegment(at, flat(s.A), flat(s.B)); d <= best.distM {
			best, has = hit{id: s.Line, kind: plan.ThingLine, stretch: s.Index, share: share, part: s.Part, distM: d}, true
		}
	}
	return best, has
}

// standsText says in which zones a person of a plan stands, as the answer for
// that plan tells it. Without zones it says that there are none: nobody stands
// outside of what was not drawn.
func standsText(sc *scene, p *plan.Plan, person plan.ID) string {
	a := sc.assess(p)
	for i := range a.People {
		if q := &a.People[i]; q.Person == person {
			return insideText(sc, a, q.Inside)
		}
	}
	return sc.label("no-zones")
}

// insideText says in which zones of an answer something lies; without zones
// that there are none, of a rig that was not computed that some are missing.
func insideText(sc *scene, a *solver.Assessment, inside []part.ZoneKind) string {
	switch {
	case len(a.Zones) == 0:
		return sc.label("no-zones")
	case len(inside) == 0 && a.ZonesPartly():
		return sc.label("outside-partly")
	case len(inside) == 0:
		return sc.label("outside")
	}
	var words []string
	for _, k := range inside {
		words = append(words, sc.label("zone-"+string(k)))
	}
	return sc.label("inside", text("zones", joined(sc, words)))
}

// joined joins words with commas and an "and".
func joined(sc *scene, words []string) string {
	out := ""
	for i, w := range words {
		switch {
		case i == 0:
			out = w
		case i == len(words)-1:
			out += " " + sc.label("and") + " " + w
		default:
			out += ", " + w
		}
	}
	return out
}

// wayText is a length as shown live with the bearing of its last part: "24.4 m ·
// 275°".
func wayText(sc *scene, a, c plan.Point, lengthM float64) string {
	return sc.label("live-way", text("length", lengthText(sc, lengthM)), text("bearing", sc.words.Bearing(bearing(a, c))))
}

func lengthText(sc *scene, lengthM float64) string {
	return sc.words.Value(metres("", lengthM), nil)
}

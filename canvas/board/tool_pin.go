package board

import (
	"slices"

	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// ToolPin pins evidence of a pull that went wrong.
const ToolPin Tool = "fact"

// pinTool pins a piece of evidence: a click at what it is about, or at a place; dragged
// from a thing, its mark lies where it is let go.
type pinTool struct{ common }

func (t *pinTool) aim(sc *scene, p pointer) outcome {
	return pinned(sc, aboutAt(sc, p), p, false)
}

func (t *pinTool) press(b *Board, p pointer, _ int) *gesture {
	sc, about := b.scene, aboutAt(b.scene, p)
	return &gesture{from: p, tap: func(b *Board) { b.commit(t.aim(b.scene, p)) },
		outcome: func(q pointer) outcome { return pinned(sc, about, q, aboutAt(sc, q) != about) }}
}

// stops are the things that evidence may be about.
func (t *pinTool) stops(sc *scene) ([]stop, bool) {
	var list []stop
	sc.everything(func(id plan.ID, kind plan.ThingKind, pts []plan.Point) {
		if len(pts) > 0 && kind.CarriesEvidence() {
			list = append(list, stop{plan.Centroid(pts), plan.Port{Thing: id}})
		}
	})
	return list, true
}

// aboutAt is the thing that evidence pinned at p is about: the one Tab went to, else the
// one under the pointer, those behind one another passed through with Alt or Tab; empty:
// there is none.
func aboutAt(sc *scene, p pointer) plan.ID {
	if !p.port.IsZero() {
		return p.port.Thing
	}
	list := slices.DeleteFunc(hitsAt(sc, p.at), func(h hit) bool { return !h.kind.CarriesEvidence() })
	if len(list) == 0 {
		return ""
	}
	return list[sc.cycle%len(list)].id
}

// pinned is the edit that pins evidence about a thing; away: where p is, and not at the
// thing. It says nothing before somebody has said how it is known: then it is assumed.
func pinned(sc *scene, about plan.ID, p pointer, away bool) outcome {
	d := sc.draft(true)
	q := plan.Pin{ID: d.Laid.Incident.NextPin(), Thing: about, Kind: sc.at().PinKindsFor(about)[0]}
	o := outcome{name: sc.label("edit-pin"), selected: []plan.ID{q.Ref()}, then: func(b *Board) { b.ask(q.Ref()) }}
	if about == "" || away {
		at, guides := snap(sc, p, nil, trail{})
		q.At, o.guides = &at, guides
	}
	o.plan = plan.WithPin(d.Plan, d.RigIndex(d.Laid.ID), q)
	r, _ := o.plan.Rig(d.Laid.ID)
	marks := draw.Pins(plan.NewIndex(o.plan, r), sc.planAnswer(), sc.view.PerM)
	m := marks[len(marks)-1]
	o.ghost = &draw.Ghost{Pin: &m, Label: sc.label("pin-called", part.Text("letter", string(q.ID)))}
	if about != "" {
		o.ghost.Label += " · " + sc.name(about)
	}
	return o
}

package board

import (
	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// ToolTurn turns what is selected about a point.
const ToolTurn Tool = "turn"

// turnTool turns what is selected about a point that was chosen first: by a drag
// round it, or by an angle that is typed, clockwise. It turns what the pointer
// would move.
type turnTool struct{ common }

func (t *turnTool) prompt(sc *scene) string {
	switch {
	case len(movable(sc, sc.selection)) == 0:
		return sc.label("turn-nothing")
	case len(t.points) == 0:
		return sc.label("prompt-turn-tool")
	}
	return sc.label("prompt-turn-tool-2")
}

func (t *turnTool) fixable(*scene) fixable {
	if len(t.points) == 0 {
		return fixable{}
	}
	return fixable{kind: fixAngle}
}

func (t *turnTool) stops(sc *scene) ([]stop, bool) { return stopsAt(sc, anySpot), true }

func (t *turnTool) aim(sc *scene, p pointer) outcome {
	o := outcome{prompt: t.prompt(sc)}
	switch {
	case len(movable(sc, sc.selection)) == 0:
		return o
	case len(t.points) == 0:
		to := measureAt(sc, p, nil)
		o.guides, o.ports = to.guides, to.ports
		o.texts = []draw.FreeText{{At: to.at, Text: placeText(sc, to.at)}}
		return o
	case p.fix != nil:
		return turnedRound(sc, t.points[0], p.fix.bearing, p)
	}
	return turnedRound(sc, t.points[0], 0, p)
}

func (t *turnTool) press(b *Board, p pointer, _ int) *gesture {
	if len(movable(b.scene, b.selection)) == 0 {
		b.say(t.prompt(b.scene))
		return nil
	}
	if len(t.points) == 0 {
		return &gesture{from: p, tap: func(b *Board) { t.about(b, p) }, missed: t.about,
			outcome: func(q pointer) outcome { return t.aim(b.scene, q) }}
	}
	about := t.points[0]
	return &gesture{from: p, dragged: movable(b.scene, b.selection), fix: t.fixable(b.scene),
		tap: func(b *Board) {
			o := t.aim(b.scene, p)
			if o.plan == nil {
				b.say(o.prompt)
				return
			}
			t.drop()
			b.commit(o)
		},
		outcome: func(q pointer) outcome {
			by := bearing(about, q.at) - bearing(about, p.at)
			switch {
			case q.fix != nil:
				by = q.fix.bearing
			case q.mods.Alt:
				by = roundedBearing(by)
			default:
				by = quantity.Degrees(stepped(float64(by), turnStep)).Normal()
			}
			return turnedRound(b.scene, about, by, q)
		}}
}

// about takes the point that things turn about.
func (t *turnTool) about(b *Board, p pointer) {
	t.points = []plan.Point{measureAt(b.scene, p, nil).at}
	b.show(t.aim(b.scene, p))
}

// turnedRound is the edit that turns what is selected clockwise about a point; 0
// turns nothing.
func turnedRound(sc *scene, about plan.Point, by quantity.Degrees, p pointer) outcome {
	ids := movable(sc, sc.selection)
	said, angle := "turn-right", by.Normal()
	if angle > 180 {
		said, angle = "turn-left", 360-angle
	}
	o := outcome{rubber: []plan.Point{about, p.at}, prompt: sc.label("prompt-turn-tool-2"), preview: true,
		name:    sc.label("edit-turn-many", part.Count("count", len(ids))),
		texts:   []draw.FreeText{{At: about, Text: sc.label(said, degrees("angle", angle))}},
		handles: []draw.Handle{{At: about, Kind: "turn", Hot: true}},
	}
	if len(ids) == 1 {
		o.name = sc.label("edit-turn", part.Text("thing", sc.name(ids[0])))
	}
	if by.Normal() == 0 {
		return o
	}
	d := sc.draft(false)
	carry(d, ids, func(q plan.Point) plan.Point { return rounded(turnedAbout(q, about, by), fineM/10) }, by)
	o.plan = d.Plan
	return o
}

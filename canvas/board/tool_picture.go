package board

import (
	"strings"

	"kedge/canvas/draw"
	"kedge/canvas/form"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// The tools of the picture to trace. They are armed by commands, not from the
// rail: without a picture they do nothing.
const (
	ToolPictureMove  Tool = "picture-move"  // drag moves the picture
	ToolPictureScale Tool = "picture-scale" // two points and a typed length
	ToolPictureTurn  Tool = "picture-turn"  // two points, the second north of the first
)

// pictureTool is a tool of the picture to trace: it moves, scales or turns it.
type pictureTool struct{ common }

// idle is why it does nothing; empty: it does something.
func (t *pictureTool) idle(sc *scene) string {
	switch u := sc.plan.Site.Underlay; {
	case u == nil:
		return sc.label("no-picture")
	case len(u.Points) > 0:
		return sc.label("picture-is-laid")
	}
	return ""
}

func (t *pictureTool) prompt(sc *scene) string {
	switch why := t.idle(sc); {
	case why != "":
		return why
	case len(t.points) > 0 && t.id != ToolPictureMove:
		return sc.label("prompt-" + string(t.id) + "-2")
	}
	return sc.label("prompt-" + string(t.id))
}

func (t *pictureTool) aim(sc *scene, p pointer) outcome {
	o := outcome{prompt: t.prompt(sc)}
	if t.idle(sc) != "" || t.id == ToolPictureMove {
		return o
	}
	pts := append([]plan.Point{}, t.points...)
	if len(pts) < 2 {
		pts = append(pts, finePoint(p.at))
	}
	o.rubber = pts
	if len(pts) == 2 {
		o.texts = []draw.FreeText{{At: pts[0].Mid(pts[1]), Text: t.pairText(sc, pts[0], pts[1])}}
	}
	return o
}

func (t *pictureTool) press(b *Board, p pointer, _ int) *gesture {
	if why := t.idle(b.scene); why != "" {
		b.say(why)
		return nil
	}
	if t.id == ToolPictureMove {
		return &gesture{from: p, tap: func(b *Board) { b.Select(form.ThingUnderlay) }, outcome: func(q pointer) outcome { return t.moved(b.scene, p, q) }}
	}
	if len(t.points) > 1 { // a length was asked for and not given
		t.drop()
	}
	return &gesture{from: p, tap: func(b *Board) { t.add(b, p) }, outcome: func(q pointer) outcome {
		from := finePoint(p.at)
		if pts := t.points; len(pts) > 0 {
			from = pts[0]
		}
		to := finePoint(q.at)
		return outcome{
			rubber: []plan.Point{from, to}, prompt: t.prompt(b.scene),
			texts: []draw.FreeText{{At: from.Mid(to), Text: t.pairText(b.scene, from, to)}},
			then:  func(b *Board) { t.pair(b, from, to) },
		}
	}}
}

// add takes a click; the second makes the pair.
func (t *pictureTool) add(b *Board, p pointer) {
	at := finePoint(p.at)
	pts := t.points
	if len(pts) == 0 {
		t.points = []plan.Point{at}
		b.show(t.aim(b.scene, p))
		return
	}
	t.pair(b, pts[0], at)
}

// pair goes on with two points of the picture: a length is asked for,
// or the picture is turned.
func (t *pictureTool) pair(b *Board, from, to plan.Point) {
	if from.Dist(to)*b.view.PerM < dragPx {
		b.say(b.label("picture-one-place"))
		return
	}
	if t.id == ToolPictureTurn {
		t.drop()
		north := -b.plan.Site.Ground.NorthTurn
		b.commit(turnedPicture(b.scene, from, north-bearing(from, to)))
		b.arm(ToolSelect)
		return
	}
	t.points = []plan.Point{from, to}
	b.question = &Question{
		Thing: form.ThingUnderlay, Member: "scaled_by/length_m", Label: b.label("prompt-picture-length"),
		take: func(b *Board, typed string) error { return takeLength(b, from, to, typed) },
	}
	b.changed()
}

// takeLength takes how far apart two points of the picture are, and asks whether it looks
// straight down: only then does that scale it.
func takeLength(b *Board, from, to plan.Point, typed string) error {
	l, err := quantity.ParseDoubtLength(typed, b.words.System())
	if err != nil {
		return err
	}
	if !(l.Low > 0) {
		return fault{b.label("picture-length-above-0"), errNoLength}
	}
	answers := []string{b.label("picture-down-yes"), b.label("picture-down-no")}
	b.question = &Question{
		Thing: form.ThingUnderlay, Member: "scaled_by/looks_straight_down", Label: b.label("prompt-picture-down"),
		choices: []string{form.Yes, form.No}, texts: answers,
		take: func(b *Board, typed string) error {
			switch {
			case typed == answers[0] || strings.HasPrefix(form.Yes, strings.ToLower(typed)):
				return scaleDown(b, from, to, l)
			case typed == answers[1] || strings.HasPrefix(form.No, strings.ToLower(typed)):
				b.arm(ToolPicturePoints)
				b.say(b.label("picture-not-by-two"))
				return nil
			}
			return fault{b.label("picture-down-which"), errNoLength}
		},
	}
	return nil
}

// scaleDown scales a picture that looks straight down so that two of its points are that far
// apart; the first stays where it lies.
func scaleDown(b *Board, from, to plan.Point, l quantity.Doubt[quantity.Length]) error {
	u := b.plan.Site.Underlay
	if u == nil || len(u.Points) > 0 {
		return fault{(&pictureTool{}).idle(b.scene), errPicture}
	}
	if err := b.edit(b.label("edit-scale-picture"), withPicture(b.plan, scaledPicture(u, from, to, l))); err != nil {
		return err
	}
	b.tool, b.out = newTool(ToolSelect), outcome{}
	b.fitAll() // it is of another size now
	b.Select(form.ThingUnderlay)
	size, perPixel := pictureSize(u.Bytes), b.plan.Site.Underlay.Metres
	b.say(b.label("picture-scaled", part.Length("length", l.Value), part.Length("width", float64(size.X)*perPixel), part.Length("height", float64(size.Y)*perPixel)))
	return nil
}

// moved is the edit that moves the picture by a drag.
func (t *pictureTool) moved(sc *scene, from, p pointer) outcome {
	u := sc.plan.Site.Underlay
	if u == nil {
		return outcome{}
	}
	v := *u
	v.At = rounded(u.At.Plus(p.at.X-from.at.X, p.at.Y-from.at.Y), fineM)
	return outcome{
		plan: pictureFollowed(sc.plan, withPicture(sc.plan, &v)), name: sc.label("edit-move-picture"), prompt: t.prompt(sc),
		selected: []plan.ID{form.ThingUnderlay},
		texts:    []draw.FreeText{{At: p.at, Text: lengthText(sc, from.at.Dist(p.at))}},
	}
}

// pairText says what two points of the picture span as it is now.
func (t *pictureTool) pairText(sc *scene, from, to plan.Point) string {
	if t.id == ToolPictureTurn {
		return sc.words.Bearing(bearing(from, to))
	}
	return sc.label("picture-now", part.Length("length", from.Dist(to)))
}

// finePoint is a place to a tenth of a millimetre: a point clicked on a picture
// keeps to what is seen there, not to the grid.
func finePoint(p plan.Point) plan.Point { return rounded(p, fineM/100) }

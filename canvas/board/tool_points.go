package board

import (
	"image"
	"math"
	"slices"
	"strconv"
	"strings"

	"kedge/canvas/draw"
	"kedge/canvas/form"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// ToolPicturePoints lays a picture that does not look straight down by points that were
// measured on the ground: each a click on the picture, and a place that is typed or a survey
// point. It is armed by a command.
const ToolPicturePoints Tool = "picture-points"

// pointsTool collects measured points until there are enough to lay the picture; then each
// is one edit.
type pointsTool struct{ common }

// collected are measured points of a picture, too few yet to lay it. A plan can't hold them:
// they are kept beside it, whatever tool is armed, and taken back one by one.
type collected struct {
	of     []byte // the picture
	points []plan.PicturePoint
}

// collected are the measured points that wait for more; none once the picture is laid.
func (sc *scene) collected() []plan.PicturePoint {
	u, c := sc.plan.Site.Underlay, &sc.measured
	if u == nil || len(u.Points) > 0 || len(u.Bytes) != len(c.of) || len(c.of) == 0 || &u.Bytes[0] != &c.of[0] {
		return nil
	}
	return c.points
}

// collect keeps points that are too few yet, as one undo step.
func collect(b *Board, name string, points []plan.PicturePoint) {
	putStep(b, name)
	b.measured = collected{b.plan.Site.Underlay.Bytes, points}
	b.changed()
}

// collectedBack takes back what was collected last: a point that was clicked, or one whose
// place is known; false: there is none.
func collectedBack(b *Board) bool {
	points := b.collected()
	t, ok := b.tool.(*pointsTool)
	switch n := len(points); {
	case !ok:
		return false
	case len(t.points) > 0:
		t.drop()
	case n > 0:
		collect(b, b.label("edit-point-back", part.Count("number", n)), points[:n-1])
	default:
		return false
	}
	return true
}

// measuredSoFar are the points that the picture has, and those that are being collected.
func measuredSoFar(sc *scene) []plan.PicturePoint {
	u := sc.plan.Site.Underlay
	if u == nil {
		return nil
	}
	return slices.Concat(u.Points, sc.collected())
}

func (t *pointsTool) prompt(sc *scene) string {
	if sc.plan.Site.Underlay == nil {
		return sc.label("no-picture")
	}
	n := len(measuredSoFar(sc))
	if n < plan.LeastPicturePoints {
		return sc.label("prompt-picture-points", part.Count("number", n+1))
	}
	return sc.label("prompt-picture-points-more", part.Count("number", n+1))
}

func (t *pointsTool) aim(sc *scene, _ pointer) outcome { return outcome{prompt: t.prompt(sc)} }

func (t *pointsTool) press(b *Board, p pointer, _ int) *gesture {
	if b.plan.Site.Underlay == nil {
		b.say(b.label("no-picture"))
		return nil
	}
	return &gesture{from: p, tap: func(b *Board) { t.add(b, p) }, outcome: func(pointer) outcome { return outcome{prompt: t.prompt(b.scene)} }}
}

// add takes a click: a point of the picture, or where the last one was measured, if that is a
// survey point.
func (t *pointsTool) add(b *Board, p pointer) {
	if q, ok := surveyAt(b.scene, p); ok && len(t.points) > 0 {
		if err := t.measured(b, plan.Point{X: q.X, Y: q.Y}, q.Doubt, q.Name); err != nil {
			b.say(b.scene.words.Refusal(err))
		}
		return
	}
	at := finePoint(p.at)
	lies := lieOf(b.plan.Site.Underlay)
	if _, _, ok := lies.pixel(at); !ok {
		b.say(b.label("picture-points-beside"))
		return
	}
	t.points = []plan.Point{at}
	b.question = &Question{
		Thing: form.ThingUnderlay, Member: "measured_points", In: true,
		Label: b.label("prompt-picture-place", part.Count("number", len(measuredSoFar(b.scene))+1)),
		take: func(b *Board, typed string) error {
			at, doubt, name, err := readMeasured(b.scene, typed)
			if err != nil {
				return err
			}
			return t.measured(b, at, doubt, name)
		},
	}
	b.changed()
}

// readMeasured reads where a point was measured: two lengths or the name of a survey point,
// with a ±.
func readMeasured(sc *scene, typed string) (at plan.Point, doubt quantity.Length, name string, err error) {
	called, rest, _ := quantity.CutPlusMinus(typed)
	if s := sc.plan.Site.Survey; s != nil {
		for _, q := range s.Points {
			if q.Name == "" || !strings.EqualFold(q.Name, strings.TrimSpace(called)) {
				continue
			}
			if strings.TrimSpace(rest) != "" {
				d, err := quantity.ParseLength(rest, sc.words.System())
				return plan.Point{X: q.X, Y: q.Y}, d, q.Name, err
			}
			return plan.Point{X: q.X, Y: q.Y}, q.Doubt, q.Name, nil
		}
	}
	at, doubt, err = form.ReadPlace(typed, sc.words.System())
	return at, doubt, "", err
}

// surveyAt is the survey point under the pointer.
func surveyAt(sc *scene, p pointer) (best plan.SurveyPoint, ok bool) {
	s, least := sc.plan.Site.Survey, hitPx/2/sc.view.PerM
	if s == nil {
		return best, false
	}
	for _, q := range s.Points {
		if d := math.Hypot(q.X-p.at.X, q.Y-p.at.Y); d <= least {
			best, ok, least = q, true, d
		}
	}
	return best, ok
}

// measured takes the place of the point that was clicked. From the fourth on the picture is
// laid; points that do not say how are refused, and the last can be measured again.
func (t *pointsTool) measured(b *Board, at plan.Point, doubt quantity.Length, name string) error {
	u := b.plan.Site.Underlay
	if u == nil || len(t.points) == 0 {
		return fault{b.label("no-picture"), errPicture}
	}
	lies := lieOf(u)
	right, down, ok := lies.pixel(t.points[0])
	if !ok {
		return fault{b.label("picture-points-beside"), errPicture}
	}
	q := plan.PicturePoint{Name: name, Right: right, Down: down, At: finePoint(at), Doubt: doubt}
	all, first := append(measuredSoFar(b.scene), q), len(u.Points) == 0
	if len(all) < plan.LeastPicturePoints {
		t.drop()
		collect(b, b.label("edit-point", part.Count("number", len(all))), all)
		return nil
	}
	v := *u
	v.Points = all
	next := withPicture(b.plan, &v)
	if err := plan.Validate(next); err != nil {
		return form.Placeless(err)
	}
	if err := b.edit(b.label("edit-picture-points"), next); err != nil {
		return err
	}
	t.drop()
	b.out = outcome{}
	if first {
		b.fitAll() // it lies elsewhere now
	}
	b.Select(form.ThingUnderlay)
	said := form.PictureLies(b.scene.words, &v)[0]
	if off := form.PictureOff(b.scene.words, &v); off != "" {
		said = b.scene.words.Level(part.Caution) + ": " + off
	}
	b.say(said)
	return nil
}

// lie is how a picture lies on the sheet.
type lie struct {
	u    *plan.Underlay
	fit  *plan.PictureFit // nil: by its middle, scale and turn
	size image.Point
}

func lieOf(u *plan.Underlay) lie { return lie{u, u.Fit(), pictureSize(u.Bytes)} }

// pixel is what is seen of the picture at a place of the sheet, pixels from its upper left
// corner; false: the place is beside it.
func (l *lie) pixel(at plan.Point) (right, down float64, ok bool) {
	if l.fit != nil {
		right, down, _ = l.fit.Pixel(at)
		return tenth(right), tenth(down), l.fit.Shows(at, l.size.X, l.size.Y)
	}
	q := turnedAbout(at, l.u.At, -l.u.Turn)
	w, h := float64(l.size.X), float64(l.size.Y)
	right, down = w/2+(q.X-l.u.At.X)/l.u.Metres, h/2-(q.Y-l.u.At.Y)/l.u.Metres
	return tenth(right), tenth(down), right >= 0 && down >= 0 && right <= w && down <= h
}

// ground is where a point of the picture lies on the sheet.
func (l *lie) ground(q *plan.PicturePoint) plan.Point {
	if l.fit != nil {
		at, _ := l.fit.Ground(q.Right, q.Down)
		return at
	}
	u := l.u
	return turnedAbout(u.At.Plus((q.Right-float64(l.size.X)/2)*u.Metres, (float64(l.size.Y)/2-q.Down)*u.Metres), u.At, u.Turn)
}

// tenth is a place in a picture to a tenth of a pixel: nobody clicks finer.
func tenth(x float64) float64 { return math.Round(x*10) / 10 }

// over shows the measured points of the picture while it is selected or they are
// collected: each where it was measured, with a line to where the picture has it. No tool:
// none are collected.
func (t *pointsTool) over(b *Board, v *draw.Overlay, u *plan.Underlay) {
	if t == nil && (len(b.selection) != 1 || b.selection[0] != form.ThingUnderlay) {
		return
	}
	lies := lieOf(u)
	mark := func(at plan.Point, i int, q *plan.PicturePoint) {
		v.Ports = append(v.Ports, draw.PortMark{At: at, Kind: draw.PortRecovery, State: draw.PortUnder, Label: strings.TrimSpace(strconv.Itoa(i+1) + " " + q.Name)})
	}
	for i := range u.Points {
		q := &u.Points[i]
		mark(q.At, i, q)
		if at := lies.ground(q); at.Dist(q.At)*b.view.PerM > 1 {
			v.Guides = append(v.Guides, draw.Guide{A: at, B: q.At})
		}
	}
	waiting := b.collected()
	for i := range waiting {
		mark(lies.ground(&waiting[i]), i, &waiting[i])
	}
	if t != nil && len(t.points) > 0 {
		mark(t.points[0], len(u.Points)+len(waiting), &plan.PicturePoint{})
	}
}

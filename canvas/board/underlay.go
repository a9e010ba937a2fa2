package board

import (
	"bytes"
	"errors"
	"image"
	_ "image/jpeg" // the two forms of a picture to trace
	_ "image/png"
	"math"
	"slices"
	"strconv"

	"kedge/canvas/draw"
	"kedge/canvas/form"
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

// Presets of a picture that was just placed. (ours: what is drawn over it must
// stay easy to read, and all of it should be in sight)
const (
	pictureFade  = 0.4
	pictureShare = 0.8 // of the sheet in sight
)

// PictureFades are the choices of how far a picture is faded, shares of 1.
func PictureFades() []float64 { return []float64{0, 0.25, 0.5, 0.75} }

// errPicture is a picture that cannot be placed.
var errPicture = errors.New("board: not a picture")

// PlacePicture puts a picture to trace in the middle of what is seen, in place
// of the one there was, as one undo step, and arms the tool that scales it. kind
// is "image/png" or "image/jpeg"; the plan keeps data itself, which must not
// change any more. note is said; it may be empty. The error says that it is no
// picture, or too large for a plan.
func (b *Board) PlacePicture(kind string, data []byte, note string) error {
	size := pictureSize(data)
	if size.X <= 0 || size.Y <= 0 {
		b.say(b.label("picture-none-in-it"))
		return errPicture
	}
	v := b.view
	u := &plan.Underlay{Type: kind, Bytes: data, At: rounded(v.Middle, fineM), Fade: pictureFade}
	u.Metres = significant(pictureShare * math.Min(v.W/v.PerM/float64(size.X), v.H/v.PerM/float64(size.Y)))
	name := "edit-place-picture"
	if b.plan.Site.Underlay != nil {
		name = "edit-replace-picture"
	}
	b.cancel()
	if err := b.edit(b.label(name), withPicture(b.plan, u)); err != nil {
		return err
	}
	b.Select(form.ThingUnderlay)
	b.arm(ToolPictureScale)
	said := b.label("prompt-picture-scale")
	if note != "" {
		said = note + " " + said
	}
	b.say(said)
	return nil
}

// pictureSize is the size of a picture in pixels, nought if it is none.
func pictureSize(data []byte) image.Point {
	c, _, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return image.Point{}
	}
	return image.Pt(c.Width, c.Height)
}

// withPicture is p with another picture; the bytes are shared between plans.
func withPicture(p *plan.Plan, u *plan.Underlay) *plan.Plan {
	q := *p
	q.Site.Underlay = u
	return &q
}

// Picture is the picture to trace of the plan shown; nil if it has none. It is
// not to be changed.
func (b *Board) Picture() *plan.Underlay { return b.Shown().Site.Underlay }

// FadePicture fades the picture to trace, as one undo step: 0 as it is, 1 not to
// be seen. A share that is none is left.
func (b *Board) FadePicture(share float64) {
	u := b.plan.Site.Underlay
	if u == nil || !(share >= 0 && share <= 1) {
		return
	}
	v := *u
	v.Fade = share
	b.begin()
	b.commit(outcome{plan: withPicture(b.plan, &v), name: b.label("edit-fade-picture")})
}

// pictureCommands are those of the picture to trace.
func pictureCommands() []command {
	has := func(b *Board) bool { return b.plan.Site.Underlay != nil }
	arm := func(t Tool) func(*Board) {
		return func(b *Board) {
			b.arm(t)
			b.Select(form.ThingUnderlay)
		}
	}
	return []command{
		{"picture.scale", "do-picture-scale", "", has, "no-picture", arm(ToolPictureScale)},
		{"picture.turn", "do-picture-turn", "", has, "no-picture", arm(ToolPictureTurn)},
		{"picture.move", "do-picture-move", "", has, "no-picture", arm(ToolPictureMove)},
		{"picture.select", "do-picture-select", "", has, "no-picture", func(b *Board) { b.Select(form.ThingUnderlay) }},
		{"picture.remove", "do-picture-remove", "", has, "no-picture", func(b *Board) { b.commit(removingPicture(b.scene)) }},
	}
}

// removingPicture is the edit that takes the picture to trace away.
func removingPicture(sc *scene) outcome {
	if sc.plan.Site.Underlay == nil {
		return outcome{report: sc.label("no-picture")}
	}
	o := outcome{plan: withPicture(sc.plan, nil), name: sc.label("edit-remove-picture"), selected: []plan.ID{}}
	o.then = func(b *Board) {
		if pictureTool(b.tool) {
			b.arm(ToolSelect)
		}
	}
	return o
}

func pictureTool(t Tool) bool {
	return t == ToolPictureMove || t == ToolPictureScale || t == ToolPictureTurn
}

// aimPicture is what a tool of the picture shows at p.
func (b *Board) aimPicture(p pointer) outcome {
	o := outcome{prompt: b.picturePrompt()}
	if b.plan.Site.Underlay == nil || b.tool == ToolPictureMove {
		return o
	}
	pts := append([]plan.Point{}, b.points()...)
	if len(pts) < 2 {
		pts = append(pts, finePoint(p.at))
	}
	o.rubber = pts
	if len(pts) == 2 {
		o.texts = []draw.FreeText{{At: mid(pts[0], pts[1]), Text: b.picturePairText(pts[0], pts[1])}}
	}
	return o
}

// picturePrompt is the status line of a tool of the picture.
func (b *Board) picturePrompt() string {
	switch {
	case b.plan.Site.Underlay == nil:
		return b.label("no-picture")
	case len(b.points()) > 0 && b.tool != ToolPictureMove:
		return b.label("prompt-" + string(b.tool) + "-2")
	}
	return b.label("prompt-" + string(b.tool))
}

// picturePairText says what two points of the picture span as it is now.
func (b *Board) picturePairText(from, to plan.Point) string {
	if b.tool == ToolPictureTurn {
		return b.words.Bearing(bearing(from, to))
	}
	return b.label("picture-now", metres("length", dist(from, to)))
}

// finePoint is a place to a tenth of a millimetre: a point clicked on a picture
// keeps to what is seen there, not to the grid.
func finePoint(p plan.Point) plan.Point { return rounded(p, fineM/100) }

// pressPicture begins a gesture of a tool of the picture.
func (b *Board) pressPicture(p pointer) {
	if b.plan.Site.Underlay == nil {
		b.say(b.label("no-picture"))
		return
	}
	if b.tool == ToolPictureMove {
		b.gesture = &gesture{from: p, tap: func(b *Board) { b.Select(form.ThingUnderlay) }, outcome: func(q pointer) outcome { return b.movedPicture(p, q) }}
		return
	}
	if len(b.points()) > 1 { // a length was asked for and not given
		b.pending = nil
	}
	b.gesture = &gesture{from: p, tap: func(b *Board) { b.addPicturePoint(p) }, outcome: func(q pointer) outcome {
		from := finePoint(p.at)
		if pts := b.points(); len(pts) > 0 {
			from = pts[0]
		}
		to := finePoint(q.at)
		return outcome{
			rubber: []plan.Point{from, to}, prompt: b.picturePrompt(),
			texts: []draw.FreeText{{At: mid(from, to), Text: b.picturePairText(from, to)}},
			then:  func(b *Board) { b.pairOnPicture(from, to) },
		}
	}}
}

// addPicturePoint takes a click; the second makes the pair.
func (b *Board) addPicturePoint(p pointer) {
	at := finePoint(p.at)
	pts := b.points()
	if len(pts) == 0 {
		b.pending = &pending{points: []plan.Point{at}}
		b.show(b.aimPicture(p))
		return
	}
	b.pairOnPicture(pts[0], at)
}

// pairOnPicture goes on with two points of the picture: a length is asked for,
// or the picture is turned.
func (b *Board) pairOnPicture(from, to plan.Point) {
	if dist(from, to)*b.view.PerM < dragPx {
		b.say(b.label("picture-one-place"))
		return
	}
	if b.tool == ToolPictureTurn {
		b.pending = nil
		north := -b.plan.Site.Ground.NorthTurn
		b.commit(turnedPicture(b.scene, from, north-bearing(from, to)))
		b.arm(ToolSelect)
		return
	}
	b.pending = &pending{points: []plan.Point{from, to}}
	b.question = &Question{
		Thing: form.ThingUnderlay, Member: "scaled_by/length_m", Label: b.label("prompt-picture-length"),
		take: func(b *Board, typed string) error { return b.takeLength(from, to, typed) },
	}
	b.changed()
}

// taken is what became of an answer that is no member of a thing.
func (b *Board) taken(q *Question, err error) bool {
	if err != nil {
		q.Error = sentenceOf(b.scene, err)
		b.question = q
	}
	b.changed()
	return err == nil
}

// errNoLength is a length by which nothing can be scaled.
var errNoLength = errors.New("board: no length")

// takeLength scales the picture so that two of its points are as far apart as
// was typed; the first stays where it lies.
func (b *Board) takeLength(from, to plan.Point, typed string) error {
	l, err := quantity.ParseDoubtLength(typed, b.words.System())
	if err != nil {
		return err
	}
	if !(l.Low > 0) {
		return fault{b.label("picture-length-above-0"), errNoLength}
	}
	u := b.plan.Site.Underlay
	if u == nil {
		return fault{b.label("no-picture"), errPicture}
	}
	if err := b.edit(b.label("edit-scale-picture"), withPicture(b.plan, scaledPicture(u, from, to, l))); err != nil {
		return err
	}
	b.pending, b.tool, b.out = nil, ToolSelect, outcome{}
	b.Select(form.ThingUnderlay)
	size, perPixel := pictureSize(u.Bytes), b.plan.Site.Underlay.Metres
	b.say(b.label("picture-scaled", metres("length", float64(l.Value)), metres("width", float64(size.X)*perPixel), metres("height", float64(size.Y)*perPixel)))
	return nil
}

// fault is a refusal with its sentence.
type fault struct {
	sentence string
	err      error
}

func (f fault) Error() string { return f.sentence }
func (f fault) Unwrap() error { return f.err }

// scaledPicture is u scaled about one of its points so that another comes to lie
// the given length from it: metres per pixel grow by length over distance.
func scaledPicture(u *plan.Underlay, from, to plan.Point, l quantity.Doubt[quantity.Length]) *plan.Underlay {
	k := float64(l.Value) / dist(from, to)
	v := *u
	v.Metres = significant(u.Metres * k)
	v.At = finePoint(plus(from, (u.At.X-from.X)*k, (u.At.Y-from.Y)*k))
	s := &plan.ScaleBy{A: from, B: plus(from, (to.X-from.X)*k, (to.Y-from.Y)*k), Length: l.Value}
	s.Doubt = quantity.Length(math.Max(float64(l.High-l.Value), float64(l.Value-l.Low)))
	if u.Scaled != nil {
		s.Extra = u.Scaled.Extra
	}
	v.Scaled = s
	return &v
}

// significant is x to seven digits: a micrometre in ten metres, and a figure that
// can be read.
func significant(x float64) float64 {
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 7, 64), 64)
	if err != nil {
		return x
	}
	return y
}

// movedPicture is the edit that moves the picture by a drag.
func (b *Board) movedPicture(from, p pointer) outcome {
	u := b.plan.Site.Underlay
	if u == nil {
		return outcome{}
	}
	v := *u
	v.At = rounded(plus(u.At, p.at.X-from.at.X, p.at.Y-from.at.Y), fineM)
	return outcome{
		plan: pictureFollowed(b.plan, withPicture(b.plan, &v)), name: b.label("edit-move-picture"), prompt: b.picturePrompt(),
		selected: []plan.ID{form.ThingUnderlay},
		texts:    []draw.FreeText{{At: p.at, Text: lengthText(b.scene, dist(from.at, p.at))}},
	}
}

// turnedPicture is the edit that turns the picture clockwise about one of its
// points.
func turnedPicture(sc *scene, about plan.Point, by quantity.Degrees) outcome {
	u := sc.plan.Site.Underlay
	if u == nil {
		return outcome{}
	}
	v := *u
	by = quantity.Degrees(stepped(float64(by), fineDeg/10))
	v.Turn = (u.Turn + by).Normal()
	v.At = finePoint(turnedAbout(u.At, about, by))
	return outcome{
		plan: pictureFollowed(sc.plan, withPicture(sc.plan, &v)), name: sc.label("edit-turn-picture"), selected: []plan.ID{form.ThingUnderlay},
		report: sc.label("picture-turned", degrees("angle", v.Turn)),
	}
}

// turnedAbout is p turned clockwise about a point.
func turnedAbout(p, about plan.Point, by quantity.Degrees) plan.Point {
	sin, cos := math.Sincos(by.Radians())
	dx, dy := p.X-about.X, p.Y-about.Y
	return plus(about, dx*cos+dy*sin, dy*cos-dx*sin)
}

// pictureFollowed is next with the points that the picture was scaled by where
// the picture has taken them. Metres per pixel typed in their place are kept as
// the length they give the picture's lower edge.
func pictureFollowed(p, next *plan.Plan) *plan.Plan {
	old, now := p.Site.Underlay, next.Site.Underlay
	if old == nil || now == nil || old == now || now.Scaled != old.Scaled {
		return next
	}
	v := *now
	switch {
	case now.Metres != old.Metres:
		size := pictureSize(now.Bytes)
		if size.X <= 0 || !(now.Metres > 0) {
			return next
		}
		w, h := float64(size.X)*now.Metres/2, float64(size.Y)*now.Metres/2
		v.Scaled = &plan.ScaleBy{
			A:      turnedAbout(plus(now.At, -w, -h), now.At, now.Turn),
			B:      turnedAbout(plus(now.At, w, -h), now.At, now.Turn),
			Length: quantity.Length(2 * w),
		}
	case now.Scaled == nil || now.At == old.At && now.Turn == old.Turn:
		return next
	default:
		s := *now.Scaled
		by := now.Turn - old.Turn
		carry := func(q plan.Point) plan.Point {
			return turnedAbout(plus(q, now.At.X-old.At.X, now.At.Y-old.At.Y), now.At, by)
		}
		s.A, s.B = carry(s.A), carry(s.B)
		v.Scaled = &s
	}
	return withPicture(next, &v)
}

// overPicture adds what is shown of a picture to trace: that its scale is not
// known yet, as lengths traced over it mean nothing until it is, and the two
// points whose length is asked for, wherever the pointer is.
func (b *Board) overPicture(v *draw.Overlay) {
	u := b.Shown().Site.Underlay
	if u == nil {
		return
	}
	if pts := b.points(); pictureTool(b.tool) && len(pts) == 2 && v.Rubber == nil {
		v.Rubber = pts
		v.Texts = append(slices.Clip(v.Texts), draw.FreeText{At: mid(pts[0], pts[1]), Text: b.picturePairText(pts[0], pts[1])})
	}
	if u.Scaled == nil {
		size := pictureSize(u.Bytes)
		top := turnedAbout(plus(u.At, 0, float64(size.Y)*u.Metres*0.42), u.At, u.Turn)
		v.Texts = append(slices.Clip(v.Texts), draw.FreeText{At: top, Text: b.label("picture-not-to-scale")})
	}
}

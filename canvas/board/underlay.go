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
// of the one there was, as one undo step, and arms the tool that scales it. Of
// what is given its type, bytes and file count; the plan keeps the bytes
// themselves, which must not change any more. note is said; it may be empty. The
// error says that it is no picture, or too large for a plan.
func (b *Board) PlacePicture(of plan.Underlay, note string) error {
	size := pictureSize(of.Bytes)
	if size.X <= 0 || size.Y <= 0 {
		b.say(b.label("picture-none-in-it"))
		return errPicture
	}
	v := b.view
	u := &plan.Underlay{Type: of.Type, Bytes: of.Bytes, File: of.File, Original: of.Original, At: rounded(v.Middle, fineM), Fade: pictureFade}
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

// pictureSize is the size of a picture in pixels, zero if it is none.
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
		{"picture.points", "do-picture-points", "", has, "no-picture", arm(ToolPicturePoints)},
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
		switch b.tool.(type) {
		case *pictureTool, *pointsTool:
			b.arm(ToolSelect)
		}
	}
	return o
}

// taken is what became of an answer that is no member of a thing.
func taken(b *Board, q *Question, err error) bool {
	if err != nil {
		q.Error = b.scene.words.Refusal(err)
		b.question = q
	}
	b.changed()
	return err == nil
}

// errNoLength is a length by which nothing can be scaled.
var errNoLength = errors.New("board: no length")

// fault is a refusal with its sentence.
type fault struct {
	sentence string
	err      error
}

func (f fault) Error() string    { return f.err.Error() }
func (f fault) Sentence() string { return f.sentence }
func (f fault) Unwrap() error    { return f.err }

// scaledPicture is u scaled about one of its points so that another comes to lie
// the given length from it: metres per pixel grow by length over distance.
func scaledPicture(u *plan.Underlay, from, to plan.Point, l quantity.Doubt[quantity.Length]) *plan.Underlay {
	k := float64(l.Value) / from.Dist(to)
	v := *u
	v.Metres = significant(u.Metres * k)
	v.At = finePoint(from.Plus((u.At.X-from.X)*k, (u.At.Y-from.Y)*k))
	s := &plan.ScaleBy{A: from, B: from.Plus((to.X-from.X)*k, (to.Y-from.Y)*k), Length: l.Value, Down: true}
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
	return about.Plus(dx*cos+dy*sin, dy*cos-dx*sin)
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
			A:      turnedAbout(now.At.Plus(-w, -h), now.At, now.Turn),
			B:      turnedAbout(now.At.Plus(w, -h), now.At, now.Turn),
			Length: quantity.Length(2 * w),
			Down:   now.Scaled != nil && now.Scaled.Down,
		}
	case now.Scaled == nil || now.At == old.At && now.Turn == old.Turn:
		return next
	default:
		s := *now.Scaled
		by := now.Turn - old.Turn
		carry := func(q plan.Point) plan.Point {
			return turnedAbout(q.Plus(now.At.X-old.At.X, now.At.Y-old.At.Y), now.At, by)
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
	if t, ok := b.tool.(*pictureTool); ok && len(t.points) == 2 && v.Rubber == nil {
		pts := t.points
		v.Rubber = pts
		v.Texts = append(slices.Clip(v.Texts), draw.FreeText{At: pts[0].Mid(pts[1]), Text: t.pairText(b.scene, pts[0], pts[1])})
	}
	t, _ := b.tool.(*pointsTool)
	t.over(b, v, u)
	if u.Scaled == nil && len(u.Points) == 0 {
		size := pictureSize(u.Bytes)
		top := turnedAbout(u.At.Plus(0, float64(size.Y)*u.Metres*0.42), u.At, u.Turn)
		v.Texts = append(slices.Clip(v.Texts), draw.FreeText{At: top, Text: b.label("picture-not-to-scale")})
	}
}

package board

import (
	"math"
	"slices"
	"strings"
	"unicode"

	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// A number typed while something is dragged or drawn fixes the length of the
// gesture, or its angle: "8", "8 m", "26 ft", "8 m 30°", "30°". It counts at once,
// the pointer gives what is left open. Angles are bearings. While nothing is
// held down ";" goes on as a place, "12;4.5", as it does at the crosshair.

// fixKind is what a typed number fixes.
type fixKind int

const (
	fixNothing fixKind = iota
	fixLength          // of the way from a place
	fixAcross          // of twice that way: what is drawn round
	fixAngle           // a bearing
	fixSling           // the length of a sling
	fixHeight          // the height of a strap on its trunk
	fixAlong           // how far along a stretch a damper lies
)

// fixable is what a number typed now would fix.
type fixable struct {
	kind fixKind
	from plan.Point // where lengths count from
}

// fixing is a number that was typed.
type fixing struct {
	lengthM  float64
	bearing  quantity.Degrees
	hasLen   bool
	hasAngle bool
	text     string       // "8 m, fixed"
	why      string       // why it cannot be; empty: it can
	guides   []draw.Guide // what the direction snapped to
}

// fixable tells what a number typed now would fix: of the gesture, or of what
// is being clicked together with the pointer.
func (b *Board) fixable() fixable {
	if g := b.gesture; g != nil {
		return g.fix
	}
	if b.cross != nil || !b.pointer.on {
		return fixable{}
	}
	return b.tool.fixable(b.scene)
}

// fixFrom is the length from the last of some points.
func fixFrom(pts []plan.Point) fixable {
	if len(pts) == 0 {
		return fixable{}
	}
	return fixable{fixLength, pts[len(pts)-1]}
}

// fixRune takes a character of the number; false if it is none.
func (b *Board) fixRune(r rune) bool {
	f := b.fixable()
	held := b.gesture != nil
	switch {
	case f.kind == fixNothing || b.typed != "":
		return false
	case b.figure == "" && !unicode.IsDigit(r) && !strings.ContainsRune(".,", r) && !(r == '-' && f.kind == fixAngle) &&
		!(r == ';' && held) && !(r == ' ' && held):
		return false
	case b.figure == "" && r == ' ':
		return true
	case r == ';' && !held: // a place
		b.typed, b.figure = b.figure+";", ""
	default:
		b.figure += string(r)
	}
	b.refix()
	return true
}

// unfix takes the last character of the number back, or all of it. False if
// there is none.
func (b *Board) unfix(all bool) bool {
	if b.figure == "" {
		return false
	}
	t := []rune(b.figure)
	b.figure = string(t[:len(t)-1])
	if all {
		b.figure = ""
	}
	b.refix()
	return true
}

// refix shows what the number now does.
func (b *Board) refix() {
	if g := b.gesture; g != nil {
		g.far = true
		b.show(b.letGo(g, b.here()))
	} else {
		b.hover(b.here())
	}
}

// letGo is what letting go of a gesture at p would do, with the number typed.
func (b *Board) letGo(g *gesture, p pointer) outcome {
	p = b.aimed(p)
	if p.fix != nil && p.fix.why != "" {
		return unfixed(p, b.figure)
	}
	o := g.outcome(p)
	if p.fix != nil && o.plan != nil { // whatever may be typed: what is shown must be what is kept
		if err := plan.Validate(withoutOldSurvey(b.plan, o.plan)); err != nil {
			p.fix.why = b.scene.words.Refusal(err)
			return unfixed(p, b.figure)
		}
	}
	return o
}

// unfixed is what a number does that cannot be read: nothing, and it says why.
func unfixed(p pointer, figure string) outcome {
	return outcome{report: p.fix.why, prompt: p.fix.why, texts: []draw.FreeText{{At: p.at, Text: figure, Grey: true}}}
}

// aimed is the pointer held to the number that was typed.
func (b *Board) aimed(p pointer) pointer {
	if b.figure == "" {
		return p
	}
	f := b.fixable()
	if f.kind == fixNothing {
		return p
	}
	x := readFixed(b.scene, b.figure, f.kind)
	p.fix = x
	if x.why != "" || f.kind > fixAcross {
		return p
	}
	p.port = plan.Port{}
	dx, dy := p.at.X-f.from.X, p.at.Y-f.from.Y
	l := math.Hypot(dx, dy)
	e, n := 0.0, 0.0
	if l > 0 {
		e, n = dx/l, dy/l
	}
	switch {
	case x.hasAngle:
		e, n = plan.Heading(x.bearing)
		l = math.Max(0, dx*e+dy*n)
		if !p.mods.Alt {
			l = stepped(l, b.snapM)
		}
	case l == 0:
		return p // no direction yet
	case !p.mods.Alt:
		to := quantity.Degrees(stepped(float64(bearing(f.from, p.at)), turnStep))
		if te, tn := plan.Heading(to); math.Abs(dx*tn-dy*te)*b.view.PerM <= snapPx {
			e, n = te, tn
			x.guides = []draw.Guide{{A: f.from, B: p.at, Why: bearingText(b.scene, to)}}
		}
	}
	if x.hasLen {
		l = x.lengthM
		if f.kind == fixAcross {
			l /= 2
		}
	}
	p.at = f.from.Plus(l*e, l*n)
	for i := range x.guides {
		x.guides[i].B = p.at
	}
	return p
}

// readFixed reads the number that was typed.
func readFixed(sc *scene, figure string, kind fixKind) *fixing {
	x := &fixing{}
	refuse := func() *fixing {
		x.why = sc.label("fixed-refused", part.Text("typed", figure))
		return x
	}
	length, angle, cut := figure, "", false
	switch i := strings.Index(figure, ";"); {
	case kind == fixAngle:
		length, angle = "", strings.TrimLeft(figure, ";")
	case i >= 0 && kind <= fixAcross:
		length, angle, cut = figure[:i], figure[i+1:], true
	case kind <= fixAcross:
		length, angle = cutPolar(figure, sc.words.System())
	}
	bare := func(s string) string { return strings.TrimRight(strings.TrimSpace(s), ".,") } // "8." on the way to "8.5"
	if s := bare(length); s != "" {
		l, err := quantity.ParseLength(s, sc.words.System())
		if err != nil || !(l > 0) || l > maxPlaceM {
			return refuse()
		}
		x.lengthM, x.hasLen = float64(l), true
	}
	if s := bare(angle); s != "" && s != "-" {
		d, err := quantity.ParseDegrees(s)
		if err != nil {
			return refuse()
		}
		x.bearing, x.hasAngle = roundedBearing(d), true
	}
	switch {
	case x.hasLen && x.hasAngle:
		x.text = sc.label("fixed-at", part.Text("length", kitText(sc, quantity.Length(x.lengthM))), part.Text("angle", bareAngle(sc, x.bearing)))
	case x.hasLen:
		x.text = sc.label("fixed", part.Text("what", kitText(sc, quantity.Length(x.lengthM))))
	case x.hasAngle:
		x.text = sc.label("fixed", part.Text("what", bareAngle(sc, x.bearing)))
	case cut || kind == fixAngle:
		x.text = figure // the angle is still to come
	default:
		return refuse()
	}
	return x
}

// bareAngle is an angle as it is typed, "30°".
func bareAngle(sc *scene, d quantity.Degrees) string { return sc.words.Decimal(float64(d), -1) + "°" }

// bearingText is a direction that something snapped to, "to 045°".
func bearingText(sc *scene, d quantity.Degrees) string {
	return sc.label("snap-bearing", part.Text("bearing", sc.words.Bearing(d)))
}

// fixedText shows the number that was typed between two places, instead of the
// length that would stand there.
func (o *outcome) fixedText(p pointer, a, c plan.Point) {
	if p.fix == nil {
		return
	}
	at := a.Mid(c)
	o.texts = append(slices.DeleteFunc(slices.Clone(o.texts), func(t draw.FreeText) bool { return t.At == at }),
		draw.FreeText{At: at, Text: p.fix.text})
	if len(o.guides) == 0 {
		o.guides = p.fix.guides
	}
}

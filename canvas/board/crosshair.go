package board

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// crossStart is where the crosshair is, or begins: at what is selected, else at
// the pointer, else in the middle, on the grid.
func (b *Board) crossStart() plan.Point {
	if b.cross != nil {
		return *b.cross
	}
	at := b.view.Middle
	if b.pointer.on {
		at = b.pointer.at
	}
	return rounded(at, b.snapM)
}

// crossTo moves the crosshair to a place.
func (b *Board) crossTo(at plan.Point) { b.crossOn(at, plan.Port{}) }

// crossOn moves the crosshair to a place, and to the hook-on point there that
// is meant.
func (b *Board) crossOn(at plan.Point, port plan.Port) {
	at = rounded(at, fineM/10)
	b.cross, b.crossPort = &at, port
	p := b.here()
	if p.x < 0 || p.y < 0 || p.x > b.view.W || p.y > b.view.H { // keep it in the picture
		b.view.Middle = at
		b.fitted = true
		p = b.here()
	}
	switch {
	case b.gesture != nil:
		b.gesture.far = true
		b.show(b.letGo(b.gesture, p))
	case b.hang != nil:
		b.show(hangAt(b.scene, *b.hang, p))
	default:
		b.hover(p)
	}
}

// typeRune takes a character of a place: "12;4.5" or "8 m 30°". False if it is
// none. A place begins with a digit or a sign.
func (b *Board) typeRune(r rune) bool {
	if b.typed == "" && !(r >= '0' && r <= '9' || r == '-') {
		return false
	}
	b.typed += string(r)
	b.changed()
	return true
}

// jump takes the crosshair to the place that was typed.
func (b *Board) jump() {
	from := b.crossStart()
	if pts := b.tool.its().points; len(pts) > 0 {
		from = pts[len(pts)-1]
	}
	at, err := placeTyped(b.scene, b.typed, from)
	b.typed = "" // a refused one is said whole; what is typed next is another
	if err != "" {
		b.say(err)
		return
	}
	b.crossTo(at)
}

// placeTyped reads a place: east and north in metres, "12;4.5", or a length and
// a bearing from a place, "8 m 30°".
func placeTyped(sc *scene, typed string, from plan.Point) (plan.Point, string) {
	refused := sc.label("place-refused", part.Text("typed", typed))
	if x, y, ok := strings.Cut(typed, ";"); ok {
		px, err1 := parseCoordinate(sc, x)
		py, err2 := parseCoordinate(sc, y)
		if err1 != nil || err2 != nil {
			return plan.Point{}, refused
		}
		return plan.Point{X: px, Y: py}, ""
	}
	l, d := cutPolar(typed, sc.words.System())
	length, err1 := quantity.ParseLength(l, sc.words.System())
	to, err2 := quantity.ParseDegrees(d)
	if err1 != nil || err2 != nil {
		return plan.Point{}, refused
	}
	e, n := plan.Heading(to)
	at := from.Plus(float64(length)*e, float64(length)*n)
	if !(math.Abs(at.X) <= maxPlaceM && math.Abs(at.Y) <= maxPlaceM) {
		return plan.Point{}, refused
	}
	return at, ""
}

// maxPlaceM bounds a place that is typed: beyond it no plan has anything.
const maxPlaceM = 1e7

func parseCoordinate(sc *scene, s string) (float64, error) {
	l, err := quantity.ParseLength(strings.TrimSpace(s), sc.words.System())
	if err == nil && math.Abs(float64(l)) > maxPlaceM {
		err = strconv.ErrRange
	}
	return float64(l), err
}

// tab goes to the next hook-on point that is offered, or to the next thing.
func (b *Board) tab(back bool) {
	if b.gesture != nil {
		b.cycle++
		b.show(b.letGo(b.gesture, b.here()))
		return
	}
	if b.stepWay(back) {
		return
	}
	list, has := b.tool.stops(b.scene)
	if b.hang != nil {
		list, has = stopsAt(b.scene, hangWants(b.scene, *b.hang)), true
	}
	if !has {
		b.cross = nil
		b.pointer.on = false // it lies somewhere while the keys are used: what they pick is meant
		b.walk(back)
		return
	}
	if len(list) == 0 {
		return
	}
	i := -1
	if b.cross != nil {
		if !b.crossPort.IsZero() {
			i = slices.IndexFunc(list, func(s stop) bool { return s.port == b.crossPort })
		}
		if i < 0 {
			i = slices.IndexFunc(list, func(s stop) bool { return rounded(s.at, fineM/10) == *b.cross })
		}
	}
	to := list[stepIn(i, len(list), back)]
	b.crossOn(to.at, to.port)
}

// stepIn is the next place in a list of n, round its end.
func stepIn(i, n int, back bool) int {
	switch {
	case back && i <= 0:
		return n - 1
	case back:
		return i - 1
	}
	return (i + 1) % n
}

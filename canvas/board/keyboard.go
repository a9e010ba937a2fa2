package board

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// key takes a named key.
func (b *Board) key(e Key) {
	if e.Mods.Ctrl {
		if id, ok := shortcut(e); ok {
			b.command(id)
			return
		}
	}
	if b.questionKey(e.Name) {
		return
	}
	if b.turning && e.Name != "Escape" && e.Name != "Enter" && b.turnBy(e.Name, e.Mods) {
		return
	}
	if dx, dy, ok := b.arrow(e.Name, e.Mods); ok {
		if b.tool == ToolSelect && b.gesture == nil && len(b.movable(b.selection)) > 0 && b.cross == nil {
			b.nudge(dx, dy)
			return
		}
		b.crossTo(plus(b.crossStart(), dx, dy))
		return
	}
	switch e.Name {
	case "Escape":
		b.escape()
	case "Enter", "Return":
		b.enter()
	case "Tab":
		b.tab(e.Mods.Shift)
	case "Backspace":
		b.backspace()
	case "Delete":
		b.command("delete")
	}
}

// escape cancels, then goes to Select, then selects nothing.
func (b *Board) escape() {
	switch {
	case b.cancel() || b.hanging():
	case b.tool != ToolSelect:
		b.arm(ToolSelect)
	case b.cross != nil:
		b.cross = nil
	default:
		b.Select()
	}
	b.changed()
}

// hanging drops the hang-on of the keyboard; false if there is none.
func (b *Board) hanging() bool {
	was := b.hang != ""
	b.hang = ""
	return was
}

// backspace takes back the last character typed, the last corner or point
// collected, or deletes what is selected.
func (b *Board) backspace() {
	switch {
	case b.typed != "":
		t := []rune(b.typed)
		b.typed = string(t[:len(t)-1])
	case b.pending != nil && len(b.pending.points) > 1:
		b.pending.points = b.pending.points[:len(b.pending.points)-1]
	case b.pending != nil && len(b.pending.path) > 1:
		b.pending.path = b.pending.path[:len(b.pending.path)-1]
	case b.pending != nil:
		b.pending = nil
	case b.tool == ToolSelect:
		b.command("delete")
		return
	}
	if b.tool != ToolSelect {
		b.hover(b.here())
	}
	b.changed()
}

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

// crossTo moves the crosshair.
func (b *Board) crossTo(at plan.Point) {
	at = rounded(at, fineM/10)
	b.cross = &at
	p := b.here()
	if p.x < 0 || p.y < 0 || p.x > b.view.W || p.y > b.view.H { // keep it in the picture
		b.view.Middle = at
		b.fitted = true
		p = b.here()
	}
	switch {
	case b.gesture != nil:
		b.gesture.far = true
		b.show(b.gesture.outcome(p))
	case b.hang != "":
		b.show(b.hangAt(b.hang, p))
	default:
		b.hover(p)
	}
}

// enter takes what is typed, ends what is being collected, or clicks at the
// crosshair.
func (b *Board) enter() {
	switch {
	case b.typed != "":
		b.jump()
	case b.turning:
		b.turning = false
	case b.hang != "":
		block := b.hang
		b.hang = ""
		b.commit(b.hangAt(block, b.here()))
	case b.gesture != nil:
		b.commit(b.gesture.outcome(b.here()))
	case b.cross == nil || b.enterEnds():
		b.end()
	default:
		b.click()
	}
	b.changed()
}

// enterEnds tells that Enter at the crosshair ends what is collected: it stands
// where the last one was added.
func (b *Board) enterEnds() bool {
	at := *b.cross
	if pts := b.points(); len(pts) > 0 {
		return pts[len(pts)-1] == at
	}
	if path := b.path(); len(path) > 0 {
		s, ok := b.spotOf(path[len(path)-1])
		return ok && rounded(s.at, fineM/10) == at
	}
	return false
}

// end finishes what is being collected.
func (b *Board) end() {
	switch {
	case b.pending == nil:
	case len(b.pending.path) > 0:
		b.endLine()
	case !b.pending.on.IsZero():
		b.endSling()
	case b.tool == ToolMeasure:
		b.endMeasure()
	case len(b.pending.points) > 0:
		b.closeOutline()
	}
}

// click presses and lets go at the crosshair.
func (b *Board) click() {
	p := b.here()
	b.cancelGesture()
	b.press(p, 1)
	g := b.gesture
	if g == nil {
		return
	}
	b.gesture = nil
	if g.tap != nil {
		g.tap()
	} else {
		b.commit(g.outcome(p))
	}
	b.hoverAfter()
}

// tab goes to the next hook-on point that is offered, or to the next thing.
func (b *Board) tab(back bool) {
	if b.gesture != nil {
		b.cycle++
		b.show(b.gesture.outcome(b.here()))
		return
	}
	var want func(spot) bool
	switch {
	case b.hang != "":
		want = b.hangWants(b.hang)
	case b.tool == ToolLine:
		want = b.mayLead(b.path())
	case b.tool == ToolSling:
		want = b.slingWants()
	case b.tool == ToolBlock || b.tool == ToolMeasure:
		want = func(spot) bool { return true }
	case b.tool == ToolDamper:
		b.tabStretch(back)
		return
	default:
		b.cross = nil
		b.walk(back)
		return
	}
	list := slices.DeleteFunc(b.spots(), func(s spot) bool { return !want(s) })
	if len(list) == 0 {
		return
	}
	i := -1
	if b.cross != nil {
		i = slices.IndexFunc(list, func(s spot) bool { return rounded(s.at, fineM/10) == *b.cross })
	}
	b.crossTo(list[stepIn(i, len(list), back)].at)
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

// tabStretch goes to a third along the next stretch.
func (b *Board) tabStretch(back bool) {
	a := b.planAnswer()
	if len(a.Stretches) == 0 {
		return
	}
	at := func(i int) plan.Point {
		s := &a.Stretches[i]
		p, q := flat(s.A), flat(s.B)
		return rounded(plus(p, (q.X-p.X)/3, (q.Y-p.Y)/3), fineM/10)
	}
	i := -1
	if b.cross != nil {
		for k := range a.Stretches {
			if at(k) == *b.cross {
				i = k
			}
		}
	}
	b.crossTo(at(stepIn(i, len(a.Stretches), back)))
}

// typeRune takes a character of a place: "12;4.5" or "8 m < 30". False if it is
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
	at, err := b.placeTyped(b.typed)
	if err != "" {
		b.say(err)
		return
	}
	b.typed = ""
	b.crossTo(at)
}

// placeTyped reads a place: east and north in metres, "12;4.5", or a length and
// a bearing from where the crosshair is, "8 m < 30".
func (b *Board) placeTyped(typed string) (plan.Point, string) {
	refused := b.label("place-refused", text("typed", typed))
	if x, y, ok := strings.Cut(typed, ";"); ok {
		px, err1 := b.coordinate(x)
		py, err2 := b.coordinate(y)
		if err1 != nil || err2 != nil {
			return plan.Point{}, refused
		}
		return plan.Point{X: px, Y: py}, ""
	}
	l, d, ok := strings.Cut(typed, "<")
	if !ok {
		return plan.Point{}, refused
	}
	length, err1 := quantity.ParseLength(strings.TrimSpace(l), b.words.System())
	to, err2 := quantity.ParseDegrees(strings.TrimSpace(d))
	if err1 != nil || err2 != nil {
		return plan.Point{}, refused
	}
	from := b.crossStart()
	if pts := b.points(); len(pts) > 0 {
		from = pts[len(pts)-1]
	}
	e, n := plan.Heading(to)
	return plus(from, float64(length)*e, float64(length)*n), ""
}

// maxPlaceM bounds a place that is typed: beyond it no plan has anything.
const maxPlaceM = 1e7

func (b *Board) coordinate(s string) (float64, error) {
	l, err := quantity.ParseLength(strings.TrimSpace(s), b.words.System())
	if err == nil && math.Abs(float64(l)) > maxPlaceM {
		err = strconv.ErrRange
	}
	return float64(l), err
}

// letter takes a letter that arms no tool.
func (b *Board) letter(r rune) {
	switch r {
	case 'r':
		if _, ok := b.turnable(); ok {
			b.turning = true
			b.say(b.label("prompt-turn"))
		}
	case '[', ']':
		b.stepSling(r == ']')
	case 'h':
		b.startHang()
	case '+', '=':
		b.command("zoom-in")
	}
}

// stepSling gives the sling of the selected block, or the sling selected, the
// next length of the kit.
func (b *Board) stepSling(longer bool) {
	x := b.at()
	if len(b.selection) != 1 {
		return
	}
	id := b.selection[0]
	s := x.Sling(id)
	if s == nil && x.Rig != nil && x.Block(id) != nil {
		s = slungBy(x.Rig, id)
	}
	if s == nil {
		b.say(b.label("no-sling"))
		return
	}
	next := quantity.Length(0)
	for _, l := range kitLengths {
		if longer && l > s.Length && next == 0 || !longer && l < s.Length {
			next = l
		}
	}
	if next == 0 {
		b.say(b.label("no-other-length"))
		return
	}
	b.commit(outcome{plan: b.withSling(s.ID, next), name: b.label("edit-sling-length", text("thing", b.name(s.ID))), selected: []plan.ID{id},
		report: b.kitText(next)})
}

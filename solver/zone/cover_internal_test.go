package zone

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"kedge/solver/facts"
	"kedge/solver/plan"
)

func pt(x, y float64) plan.Point { return plan.Point{X: x, Y: y} }

// From 0;0 a line from -1;10 to 1;10 is hidden by what stands 4 to 5 m off and
// reaches from -w to w as soon as w is 0.4 m: at 4 m the outermost ways are
// 4/10 of the line's half apart (similar triangles).
func TestWhatHidesALine(t *testing.T) {
	block := func(w0, w1 float64) []plan.Point { return []plan.Point{pt(w0, 4), pt(w1, 4), pt(w1, 5), pt(w0, 5)} }
	a, b := pt(-1, 10), pt(1, 10)
	assert.True(t, hides(block(-0.401, 0.401), pt(0, 0), a, b))
	assert.False(t, hides(block(-0.401, 0.399), pt(0, 0), a, b))
	assert.False(t, hides(block(-0.399, 0.401), pt(0, 0), a, b))
	assert.False(t, hides([]plan.Point{pt(-2, 11), pt(2, 11), pt(2, 12), pt(-2, 12)}, pt(0, 0), a, b), "behind the line")
	assert.False(t, hides([]plan.Point{pt(-2, -2), pt(2, -2), pt(2, -1), pt(-2, -1)}, pt(0, 0), a, b), "behind the person")
	// An outline with a gap toward the line, 0.2 m wide at its far side.
	gap := []plan.Point{pt(-2, 3), pt(2, 3), pt(2, 5), pt(0.1, 5), pt(0.1, 4), pt(-0.1, 4), pt(-0.1, 5), pt(-2, 5)}
	assert.True(t, hides(gap, pt(0, 0), a, b), "its back is closed")
	// The line comes out in front of it: from 0.5;4.5, inside, to 0.5;2.
	assert.False(t, hides(block(-1, 1), pt(0, 0), pt(0.5, 4.5), pt(0.5, 2)))
	assert.True(t, hides(block(-1, 1), pt(0, 0), pt(0.5, 4.5), pt(0.5, 9)))
}

// What is said to be hidden is hidden, wherever one looks: no straight way from
// the line to the body misses the outline.
func TestHiddenIsHidden(t *testing.T) {
	hiddenOnce := false
	rapid.Check(t, func(t *rapid.T) {
		x := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		outline := round(pt(x("cx", -2, 2), x("cy", 1, 6)), x("r", 0.3, 3))
		a, b := pt(x("ax", -10, 10), x("ay", 2, 20)), pt(x("bx", -10, 10), x("by", 2, 20))
		c := newCrowd(&PeopleIn{Stretches: []Stretch{{A: a, B: b}}})
		if !c.hidden(outline, pt(0, 0)) {
			return
		}
		hiddenOnce = true
		for i := range 41 {
			s := add(a, sub(b, a), float64(i)/40)
			for k := range 36 {
				if p := polar(pt(0, 0), float64(k)*math.Pi/18, facts.PersonHalfWidth.Value()); !between(outline, s, p) {
					t.Fatalf("%v is open to %v", p, s)
				}
			}
		}
	})
	assert.True(t, hiddenOnce)
}

package layout_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/layout"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// looped is where a basket of a length holds what hangs on it, from the middle of a
// trunk, and the half angle of its legs. Two tangents and the arc between them take
//
//	L = 2r·(cot h + π/2 + h), and meet at r/sin h
//
// (closed form; h by halving)
func looped(radius, length float64) (reach, half float64) {
	lo, hi := 1e-6, math.Pi/2
	for range 100 {
		half = (lo + hi) / 2
		if 2*radius*(1/math.Tan(half)+math.Pi/2+half) > length {
			lo = half
		} else {
			hi = half
		}
	}
	return radius / math.Sin(half), half
}

// What is slung to a trunk hangs where the sling's legs meet, and a block its head
// further; of the slings of a kit the shortest is taken that is long enough and whose
// legs open less than 60°.
func TestWhatIsSlungToATrunkHangsWhereItsLegsMeet(t *testing.T) {
	kit := slices.Clone(starter(t))
	for i := range kit {
		if b := kit[i].Block; b != nil {
			headed := *b
			headed.HeadLength = 0.12
			kit[i].Block = &headed
		}
	}
	for _, trunk := range []float64{0.2, 0.4, 0.7, 1, 1.5, 1.9} {
		p := example(t, "straight")
		p.Site.Anchors[0].At, p.Site.Anchors[0].Trunk = plan.Point{X: 10, Y: 20}, quantity.Length(trunk)
		tree := plan.Port{Thing: p.Site.Anchors[0].ID}
		want := 0.0
		for _, l := range layout.KitLengths() {
			if _, half := looped(trunk/2, float64(l)); want == 0 && l >= 3 && half < math.Pi/6 {
				want = float64(l)
			}
		}
		if want == 0 {
			want = 6 // the longest there is
		}
		d := plan.Edit(p, p.Rigs[0].ID)
		port, hung := kit.Hang(d, tree, plan.Point{X: 13, Y: 24}, 0)
		assert.InDelta(t, want, float64(hung.Long), 1e-9, "round %v m", trunk)
		b, ok := d.Laid.Block(port.Thing)
		require.True(t, ok)
		reach, _ := looped(trunk/2, want)
		away := reach + float64(b.HeadLength) // toward 3;4: three and four fifths of it, drawn to the centimetre
		assert.InDelta(t, 10+0.6*away, b.At.X, 0.0051)
		assert.InDelta(t, 20+0.8*away, b.At.Y, 0.0051)

		end := kit.EndAt(d, tree, plan.Point{X: 7, Y: 16})
		k, ok := d.Laid.Shackle(end.Thing)
		require.True(t, ok)
		assert.InDelta(t, 10-0.6*reach, k.At.X, 0.0051)
		assert.InDelta(t, 20-0.8*reach, k.At.Y, 0.0051)
	}
}

// Of several winches the one counts that pulls most, and what no winch pulls does not.
func TestAWayPullsWithTheMostOfItsWinches(t *testing.T) {
	pulls := func(kind part.Kind, n quantity.Force) part.Part {
		return part.Part{Kind: kind, Move: part.Load{Known: true, Force: n}}
	}
	a := &solver.Assessment{Parts: []part.Part{pulls(part.KindWinch, 5000), pulls(part.KindWinch, 8000), pulls(part.KindWinch, 6000), pulls(part.KindBlock, 20000), {Kind: part.KindWinch}}}
	a.Move.Known, a.Move.Tension = true, 3000
	w := layout.Way{Answer: a}
	most, known := w.Tension()
	assert.True(t, known)
	assert.Equal(t, quantity.Force(8000), most)
	a.Move.Tension = 9000
	most, _ = w.Tension()
	assert.Equal(t, quantity.Force(9000), most)
	a.Move.Known = false
	_, known = w.Tension()
	assert.False(t, known)
}

package label_test

import (
	"fmt"
	"testing"

	"github.com/golang/geo/r2"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/canvas/label"
	"kedge/canvas/pen"
	"kedge/solver/plan"
)

// ground shows a metre as ten pixels, its origin in the corner.
type ground struct{}

func (ground) ToPen(p plan.Point) (x, y float64) { return p.X * 10, -p.Y * 10 }
func (ground) ToPlan(x, y float64) plan.Point    { return plan.Point{X: x / 10, Y: -y / 10} }
func form(w, h float64) []label.Form             { return []label.Form{{W: w, H: h}} }
func middle(x, y float64) (at r2.Point)          { return r2.Point{X: x, Y: y} }
func picture(w, h float64, g *label.Grid) label.Picture {
	v := pen.Box(0, 0, w, h)
	g.Reset(v, 1)
	return label.Picture{Ground: ground{}, PerM: 10, Px: 1, Area: v, Grid: g}
}

// The lattice of places is an eighth of a pixel. (ours)
const lattice = 0.125

func TestALabelStandsBesideItsThing(t *testing.T) {
	var g label.Grid
	at := middle(200, 150)
	laid := label.Lay(picture(400, 300, &g), []label.Wish{{Key: "a", Rank: label.Name, At: at, Clear: 10, Forms: form(40, 20)}}, &label.Memory{})
	require.True(t, laid[0].Laid)
	// Ours: the nearest places tried reach to 4 px beyond what the thing keeps clear.
	require.LessOrEqual(t, laid[0].Box.ClampPoint(at).Sub(at).Norm(), 10+4+lattice)
	require.False(t, laid[0].Box.ContainsPoint(at))
	require.False(t, laid[0].Leads)
}

func TestWhatMattersMostHasTheOnePlace(t *testing.T) {
	var g label.Grid
	p := picture(60, 30, &g)
	wish := func(key string, r label.Rank) label.Wish {
		return label.Wish{Key: key, Rank: r, At: middle(30, 15), Must: true, Forms: form(50, 24)}
	}
	laid := label.Lay(p, []label.Wish{wish("a", label.Other), wish("b", label.Over)}, &label.Memory{})
	require.Equal(t, 1, laid[0].Of)
	require.True(t, laid[0].Laid)
	require.False(t, laid[1].Laid)
	require.True(t, laid[1].Left)
	_, _, ok := p.Corner(form(50, 24))
	require.False(t, ok, "there is no corner left either")
}

func TestAShorterFormBeforeCoveringALine(t *testing.T) {
	var g label.Grid
	p := picture(400, 300, &g)
	g.Mark(pen.Box(0, 0, 160, 300), label.Line) // a corridor 80 px wide is left
	g.Mark(pen.Box(240, 0, 400, 300), label.Line)
	w := label.Wish{Key: "a", Rank: label.OfBlock, At: middle(200, 150), Clear: 4, Lead: true, Forms: []label.Form{{W: 90, H: 20}, {W: 24, H: 20}}}
	laid := label.Lay(p, []label.Wish{w}, &label.Memory{})
	require.True(t, laid[0].Laid)
	require.Equal(t, 1, laid[0].Form)
}

func TestALabelPutByHandStaysThere(t *testing.T) {
	var g label.Grid
	p := picture(400, 300, &g)
	p.Hand = map[string]r2.Point{"a": {X: -100, Y: 50}}
	g.Mark(pen.Box(0, 0, 400, 300), label.Line|label.Vehicle)
	laid := label.Lay(p, []label.Wish{{Key: "a", Rank: label.Name, At: middle(200, 150), Forms: form(40, 20), Lead: true}}, &label.Memory{})
	require.True(t, laid[0].Laid)
	require.InDelta(t, 100, laid[0].Box.Center().X, lattice)
	require.InDelta(t, 200, laid[0].Box.Center().Y, lattice)
	require.True(t, laid[0].Leads)
	require.Equal(t, middle(200, 150), laid[0].Leader[1])
}

// A label whose thing moves while a gesture goes on keeps its distance from it.
func TestHeldLabelsKeepTheirDistance(t *testing.T) {
	var g label.Grid
	var mem label.Memory
	require.True(t, mem.Empty())
	w := []label.Wish{{Key: "a", Rank: label.Name, At: middle(100, 100), Forms: form(40, 20)}}
	p := picture(400, 300, &g)
	was := label.Lay(p, w, &mem)[0].Box
	require.False(t, mem.Empty())
	w[0].At = middle(180, 140)
	p = picture(400, 300, &g)
	p.Hold = true
	now := label.Lay(p, w, &mem)[0].Box
	require.InDelta(t, 80, now.X.Lo-was.X.Lo, lattice)
	require.InDelta(t, 40, now.Y.Lo-was.Y.Lo, lattice)
}

// However many labels there are: none covers another or a person, all lie in
// the picture, and the same wishes in another order give the same places.
func TestNoLabelCoversAnother(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := func(lo, hi float64, of string) float64 { return rapid.Float64Range(lo, hi).Draw(t, of) }
		var wishes []label.Wish
		for i := range rapid.IntRange(1, 25).Draw(t, "labels") {
			w := label.Wish{Key: fmt.Sprint(i), Rank: label.Rank(rapid.IntRange(int(label.Live), int(label.Length)).Draw(t, "rank")),
				At: middle(in(0, 400, "x"), in(0, 300, "y")), Clear: in(0, 20, "clear"), Must: rapid.Bool().Draw(t, "must"), Lead: rapid.Bool().Draw(t, "lead")}
			if rapid.Bool().Draw(t, "line") {
				w.IsLine, w.A, w.B = true, w.At, middle(in(0, 400, "bx"), in(0, 300, "by"))
			}
			w.Forms = append(form(in(10, 120, "w"), in(10, 40, "h")), form(8, 8)...)
			wishes = append(wishes, w)
		}
		person := around(in(0, 400, "px"), in(0, 300, "py"))
		lay := func(w []label.Wish) map[string]label.Place {
			var g label.Grid
			p := picture(400, 300, &g)
			g.Mark(person, label.Person)
			out := map[string]label.Place{}
			for _, l := range label.Lay(p, w, &label.Memory{}) {
				key := w[l.Of].Key
				l.Of = 0
				out[key] = l
			}
			return out
		}
		laid := lay(wishes)
		for key, a := range laid {
			if !a.Laid {
				continue
			}
			if !pen.Box(0, 0, 400, 300).Contains(a.Box) || a.Box.InteriorIntersects(person) {
				t.Fatalf("label %s at %v lies outside or on a person at %v", key, a.Box, person)
			}
			for other, b := range laid {
				if other != key && b.Laid && a.Box.InteriorIntersects(b.Box) {
					t.Fatalf("labels %s %v and %s %v overlap", key, a.Box, other, b.Box)
				}
			}
		}
		perm := rapid.Permutation(wishes).Draw(t, "order")
		require.Equal(t, laid, lay(perm))
	})
}

func around(x, y float64) r2.Rect { return pen.Around(middle(x, y), 12, 12) }

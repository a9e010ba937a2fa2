package draw_test

import (
	"image"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/canvas/pen"
	"kedge/solver/plan"
)

// surveyed is a scene with n survey points scattered over a square, seen whole.
func surveyed(n int, sideM float64) *draw.Scene {
	rnd := rand.New(rand.NewPCG(7, 7))
	s := &plan.Survey{}
	for range n {
		s.Points = append(s.Points, plan.SurveyPoint{X: rnd.Float64() * sideM, Y: rnd.Float64() * sideM})
	}
	p := plan.New()
	p.Site.Survey = s
	return &draw.Scene{Plan: p, View: draw.View{Middle: plan.Point{X: sideM / 2, Y: sideM / 2}, PerM: 700 / sideM, W: 1000, H: 700, UnitsPerPx: 1},
		Show: draw.Show{HideGrid: true}}
}

// inked counts the pixels that differ from the paper.
func inked(t testing.TB, s *draw.Scene) int {
	t.Helper()
	count := func(s *draw.Scene) map[[4]uint8]int {
		img := image.NewRGBA(image.Rect(0, 0, 1000, 700))
		r := pen.NewRaster(img, 1)
		draw.DrawStatic(r, s)
		require.NoError(t, r.Flush())
		m := map[[4]uint8]int{}
		for i := 0; i < len(img.Pix); i += 4 {
			m[[4]uint8(img.Pix[i:i+4])]++
		}
		return m
	}
	paper, most := [4]uint8{}, 0
	without := *s
	without.Show.HideSurvey = true
	base := count(&without)
	for c, n := range base {
		if n > most {
			paper, most = c, n
		}
	}
	return base[paper] - count(s)[paper]
}

// Few points are all drawn; a hundred thousand in one picture are thinned to
// what can be told apart, and all are there again when one looks closer.
func TestSurveyIsThinnedByZoom(t *testing.T) {
	one := surveyed(0, 100)
	one.Plan.Site.Survey.Points = []plan.SurveyPoint{{X: 47.503, Y: 47.503}}
	cross := inked(t, one)
	require.Positive(t, cross)

	apart := surveyed(0, 100)
	for i := range 20 {
		for j := range 20 { // 35 px apart: nothing is thinned
			apart.Plan.Site.Survey.Points = append(apart.Plan.Site.Survey.Points, plan.SurveyPoint{X: 2.5 + float64(i)*5 + 0.003, Y: 2.5 + float64(j)*5 + 0.003})
		}
	}
	got := inked(t, apart)
	assert.InDelta(t, 400*cross, got, float64(cross), "all of them")

	many := surveyed(100_000, 100)
	assert.Greater(t, inked(t, many), 700*700/4, "dense points cover their square")
	near := *many
	near.View.PerM = 700 // a metre fills the picture: ten points
	inside := 0
	for _, q := range many.Plan.Site.Survey.Points {
		x, y := near.View.ToPen(plan.Point{X: q.X, Y: q.Y})
		if x > 5 && y > 5 && x < 995 && y < 695 {
			inside++
		}
	}
	require.Positive(t, inside)
	assert.GreaterOrEqual(t, inked(t, &near), inside*cross/2)
}

func BenchmarkSurvey100000(b *testing.B) {
	s := surveyed(100_000, 200)
	img := image.NewRGBA(image.Rect(0, 0, 1000, 700))
	r := pen.NewRaster(img, 1)
	b.ReportAllocs()
	for b.Loop() {
		r.Target(img, 1, 0, 0)
		draw.DrawStatic(r, s)
		if err := r.Flush(); err != nil {
			b.Fatal(err)
		}
	}
}

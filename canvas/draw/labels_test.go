package draw_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/golang/geo/r2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/solver"
	"kedge/solver/plan"
)

// noOverlap fails if two labels of the last picture overlap or one is cut off.
func noOverlap(t *testing.T, s *draw.Scene) {
	t.Helper()
	b := s.Labels.Boxes
	for i := range b {
		assert.True(t, b[i].Box.X.Lo >= s.View.X0 && b[i].Box.Y.Lo >= s.View.Y0 && b[i].Box.X.Hi <= s.View.X0+s.View.W && b[i].Box.Y.Hi <= s.View.Y0+s.View.H, "%s is cut off", b[i].Key)
		for k := range i {
			meet := b[i].Box.X.Lo < b[k].Box.X.Hi && b[k].Box.X.Lo < b[i].Box.X.Hi && b[i].Box.Y.Lo < b[k].Box.Y.Hi && b[k].Box.Y.Lo < b[i].Box.Y.Hi
			assert.False(t, meet, "%s and %s overlap", b[k].Key, b[i].Key)
		}
	}
}

func TestLabelsNeverOverlapOnTheExamples(t *testing.T) {
	for _, file := range []string{"redirect.kedge", "straight.kedge", "doubled.kedge"} {
		p := example(t, file)
		for i := range p.Rigs {
			for _, size := range [][2]float64{{1400, 900}, {1000, 640}, {560, 380}} {
				for _, look := range []draw.Look{{}, {Field: true}, {TextScale: 2}} {
					t.Run(fmt.Sprint(file, p.Rigs[i].ID, size, look), func(t *testing.T) {
						s := sceneOf(t, p, p.Rigs[i].ID, size[0], size[1])
						s.Look, s.Labels = look, &draw.Labels{}
						record(t, s, draw.Draw)
						require.NotEmpty(t, s.Labels.Boxes)
						noOverlap(t, s)
					})
				}
			}
		}
	}
}

func TestLabelsNeverOverlapOnRandomPlans(t *testing.T) {
	for seed := range uint64(50) {
		s := busyScene(t, seed, 1200, 800)
		s.Labels = &draw.Labels{}
		record(t, s, draw.Draw)
		noOverlap(t, s)
		first := append([]draw.LabelBox(nil), s.Labels.Boxes...)
		record(t, s, draw.Draw)
		assert.Equal(t, first, s.Labels.Boxes, "seed %d: the same scene moves no label", seed)
	}
}

func TestNumbersOutliveNames(t *testing.T) {
	s := busyScene(t, 3, 700, 460)
	s.Labels = &draw.Labels{}
	record(t, s, draw.Draw)
	names, tags := 0, 0
	for _, b := range s.Labels.Boxes {
		switch b.Key[:4] {
		case "name":
			names++
		case "tag ":
			tags++
		}
	}
	assert.Greater(t, tags, 30, "of some 57 tags most find room")
	assert.Less(t, names, 26, "of 26 names some give way")
}

func TestLabelsStayWhileAThingIsDragged(t *testing.T) {
	p := example(t, "redirect.kedge")
	s := sceneOf(t, p, "R1", 1400, 900)
	s.Labels = &draw.Labels{}
	record(t, s, draw.Draw)
	offset := func() map[string]r2.Point {
		out := map[string]r2.Point{}
		for _, b := range s.Labels.Boxes {
			out[b.Key] = b.Box.Center().Sub(b.At)
		}
		return out
	}
	before := offset()
	q := *p
	q.Site.Vehicles = append([]plan.Vehicle(nil), p.Site.Vehicles...)
	q.Site.Vehicles[1].At.X += 0.1
	s.Plan, s.Answer, s.Labels.Hold = &q, solver.Assess(&q, "R1"), true
	record(t, s, draw.Draw)
	after := offset()
	kept := 0
	for k, a := range before {
		if b, ok := after[k]; ok {
			if dx, dy := b.X-a.X, b.Y-a.Y; dx*dx+dy*dy < 1 { // figures of another width move a middle by less than a pixel
				kept++
			}
		}
	}
	assert.GreaterOrEqual(t, kept, len(before)*8/10)
	noOverlap(t, s)
}

func TestALabelPlacedByHandStaysPut(t *testing.T) {
	s := sceneOf(t, example(t, "redirect.kedge"), "R1", 1400, 900)
	hand := r2.Point{X: -220, Y: 150}
	s.Labels = &draw.Labels{Hand: map[string]r2.Point{"tag B1": hand}}
	record(t, s, draw.Draw)
	for _, b := range s.Labels.Boxes {
		if b.Key == "tag B1" {
			assert.InDelta(t, hand.X, b.Box.Center().X-b.At.X, 0.5)
			assert.InDelta(t, hand.Y, b.Box.Center().Y-b.At.Y, 0.5)
			return
		}
	}
	t.Fatal("no tag of the redirect")
}

func TestTheSameSceneIsTheSamePicture(t *testing.T) {
	s := sceneOf(t, example(t, "redirect.kedge"), "R1", 1000, 700)
	assert.Equal(t, record(t, s, draw.Draw).String(), record(t, s, draw.Draw).String())
}

// A name without a leader is read as that of the nearest thing: it never lies
// nearer to another one than to its own, however small the picture is.
func TestANameIsNotReadAsAnothers(t *testing.T) {
	for _, name := range []string{"redirect.kedge", "straight.kedge", "doubled.kedge"} {
		for _, share := range []float64{1, 0.6, 0.35, 0.2} {
			t.Run(fmt.Sprint(name, " ", share), func(t *testing.T) {
				s := sceneOf(t, example(t, name), "R1", 1200, 700)
				s.View.PerM *= share
				s.Labels = &draw.Labels{}
				record(t, s, draw.Draw)
				homes := map[plan.ID]r2.Point{}
				for i := range s.Plan.Site.Anchors {
					a := &s.Plan.Site.Anchors[i]
					x, y := s.View.ToPen(a.At)
					homes[a.ID] = r2.Point{X: x, Y: y}
				}
				off := func(b draw.LabelBox, p r2.Point) float64 {
					return math.Hypot(p.X-min(max(p.X, b.Box.X.Lo), b.Box.X.Hi), p.Y-min(max(p.Y, b.Box.Y.Lo), b.Box.Y.Hi))
				}
				for _, b := range s.Labels.Boxes {
					at, ok := homes[b.Thing]
					if !ok || !strings.HasPrefix(b.Key, "name ") {
						continue
					}
					for id, p := range homes {
						if id != b.Thing {
							assert.GreaterOrEqual(t, off(b, p), off(b, at)-3, "the name of %s lies nearer to %s", b.Thing, id)
						}
					}
				}
			})
		}
	}
}

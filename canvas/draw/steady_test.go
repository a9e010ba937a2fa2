package draw_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/golang/geo/r2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// offsets are where labels lie from what they belong to.
func offsets(s *draw.Scene) map[string]r2.Point {
	out := map[string]r2.Point{}
	for _, b := range s.Labels.Boxes {
		out[b.Key] = b.Box.Center().Sub(b.At)
	}
	return out
}

// moved are the labels that lie elsewhere than before, or are gone; skip leaves
// some out.
func moved(before, after map[string]r2.Point, skip func(key string) bool) []string {
	var out []string
	for k, a := range before {
		if skip(k) {
			continue
		}
		b, ok := after[k]
		if !ok || !(math.Hypot(a.X-b.X, a.Y-b.Y) <= 1) {
			out = append(out, k)
		}
	}
	return out
}

// personTo is a crowded scene with its first person elsewhere.
func personTo(s *draw.Scene, at plan.Point) (*plan.Plan, *solver.Assessment) {
	q, a := *s.Plan, *s.Answer
	q.Site.People = append([]plan.Person(nil), q.Site.People...)
	q.Site.People[0].At = at
	a.People = append([]solver.PersonAt(nil), a.People...)
	a.People[0].At = at
	return &q, &a
}

// While a person is carried across a crowded picture nothing moves but what
// belongs to it, save what its own body comes to lie on: that steps aside once
// and does not come back.
func TestLabelsKeepStillWhileAPersonIsCarriedThrough(t *testing.T) {
	for seed := range uint64(6) {
		t.Run(fmt.Sprint("made up ", seed), func(t *testing.T) {
			s := busyScene(t, seed, 1400, 900)
			s.Labels = &draw.Labels{}
			record(t, s, draw.Draw)
			id := s.Plan.Site.People[0].ID
			own := func(key string) bool { return strings.HasSuffix(key, " "+string(id)) }
			s.Labels.Hold, s.Overlay = true, &draw.Overlay{Dragged: []plan.ID{id}}
			before, total, unexplained := offsets(s), 0, 0
			where := boxesOf(s)
			for i := range 60 {
				s.Plan, s.Answer = personTo(s, plan.Point{X: 4 + float64(i)*1.2, Y: 6 + float64(i)*0.6})
				record(t, s, draw.Draw)
				noOverlap(t, s)
				after := offsets(s)
				body := draw.PeopleOf(s)[string(id)]
				for _, k := range moved(before, after, own) {
					total++
					b := where[k]
					if !(b.Box.X.Lo-12 < body[2] && body[0]-12 < b.Box.X.Hi && b.Box.Y.Lo-12 < body[3] && body[1]-12 < b.Box.Y.Hi) {
						unexplained++
						t.Logf("step %d: %s", i, k)
					}
				}
				before, where = after, boxesOf(s)
			}
			assert.Zero(t, unexplained, "labels that moved though the person did not come near")
			assert.LessOrEqual(t, total, 40, "of some 90 labels, those the person walked over")
		})
	}
}

func boxesOf(s *draw.Scene) map[string]draw.LabelBox {
	out := map[string]draw.LabelBox{}
	for _, b := range s.Labels.Boxes {
		out[b.Key] = b
	}
	return out
}

// Nothing jumps when the pointer goes over a part or a thing, and all is as it
// was when it has left: only the label that is pointed at may say more.
func TestNothingJumpsUnderThePointer(t *testing.T) {
	scenes := map[string]*draw.Scene{"made up": busyScene(t, 2, 1200, 800), "redirect": sceneOf(t, example(t, "redirect.kedge"), "R1", 960, 760), "doubled": sceneOf(t, example(t, "doubled.kedge"), "R1", 640, 500)}
	for name, s := range scenes {
		t.Run(name, func(t *testing.T) {
			s.Labels = &draw.Labels{}
			record(t, s, draw.Draw)
			rest := append([]draw.LabelBox(nil), s.Labels.Boxes...)
			before := offsets(s)
			for i := range s.Answer.Parts {
				id := s.Answer.Parts[i].ID
				key := "tag " + id
				for _, b := range rest { // of several parts that share a tag
					if slices.Contains(b.Parts, id) {
						key = b.Key
					}
				}
				was, there := boxesOf(s)[key]
				s.Overlay = &draw.Overlay{HoverPart: id, Hover: s.Answer.Parts[i].Thing}
				record(t, s, draw.Draw)
				noOverlap(t, s)
				assert.Empty(t, moved(before, offsets(s), func(k string) bool { return k == key }), "pointing at %s", id)
				if now, ok := boxesOf(s)[key]; there && assert.True(t, ok, id) {
					in := now.Box.X.Lo <= was.Box.X.Lo+1 && now.Box.X.Hi >= was.Box.X.Hi-1 && now.Box.Y.Lo <= was.Box.Y.Lo+1 && now.Box.Y.Hi >= was.Box.Y.Hi-1
					assert.True(t, in, "the tag of %s stays under the pointer", id)
				}
				s.Overlay = nil
				record(t, s, draw.Draw)
				require.ElementsMatch(t, rest, s.Labels.Boxes, "after pointing at %s", id)
			}
			s.Overlay = &draw.Overlay{Ghost: &draw.Ghost{Person: &plan.Person{Role: plan.RoleSpotter}, Label: "Spotter"}}
			for i := range 20 { // a thing about to be placed passes over the picture
				s.Overlay.Ghost.Person.At = s.View.ToPlan(40+float64(i)*50, 60+float64(i)*20)
				record(t, s, draw.Draw)
				assert.Empty(t, moved(before, offsets(s), func(string) bool { return false }), "ghost at step %d", i)
			}
		})
	}
}

// A load that changes while something is held changes its figure, not its place,
// and tags do not change their manner all at once.
func TestTagsKeepTheirMannerWhileHeld(t *testing.T) {
	s := busyScene(t, 4, 1100, 700)
	s.Labels = &draw.Labels{}
	record(t, s, draw.Draw)
	size := func() map[string][2]float64 {
		out := map[string][2]float64{}
		for _, b := range s.Labels.Boxes {
			if b.Part != "" {
				out[b.Key] = [2]float64{b.Box.X.Length(), b.Box.Y.Length()}
			}
		}
		return out
	}
	before := size()
	a := *s.Answer
	a.Parts = append([]part.Part(nil), a.Parts...)
	a.Parts = a.Parts[:len(a.Parts)-14] // fewer parts would have room for more text
	s.Answer, s.Labels.Hold = &a, true
	record(t, s, draw.Draw)
	for k, v := range size() {
		if was, ok := before[k]; ok {
			assert.Equal(t, was, v, k)
		}
	}
}

// Moved in steps of the keyboard, with nothing held, a person leaves the labels
// of everything else where they are but for a few that it comes near to.
func TestAStepOfThePersonMovesFewLabels(t *testing.T) {
	p := example(t, "redirect.kedge")
	s := sceneOf(t, p, "R1", 960, 760)
	s.Labels = &draw.Labels{}
	record(t, s, draw.Draw)
	id := string(p.Site.People[0].ID)
	own := func(key string) bool { return strings.Contains(key, id) || strings.HasPrefix(key, "zone ") }
	before, total := offsets(s), 0
	for i := range 20 {
		q := *p
		q.Site.People = append([]plan.Person(nil), p.Site.People...)
		q.Site.People[0].At.X -= 0.5 * float64(i+1)
		s.Plan, s.Answer = &q, solver.Assess(&q, "R1")
		record(t, s, draw.Draw)
		noOverlap(t, s)
		after := offsets(s)
		total += len(moved(before, after, own))
		before = after
	}
	assert.LessOrEqual(t, total, 8, "of some 30 labels in 20 steps")
}

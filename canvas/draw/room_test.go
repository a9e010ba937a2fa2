package draw_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/golang/geo/r2"
	"github.com/stretchr/testify/assert"

	"kedge/canvas/draw"
)

// covered counts what the labels of a scene's last picture lie on.
type covered struct{ labels, people, vehicles, placed int }

// meetsHull reports whether an upright box and a convex outline have more than an
// edge in common: no axis of either separates them.
func meetsHull(b *draw.LabelBox, hull []r2.Point) bool {
	box := b.Box.Vertices()
	axes := []r2.Point{{X: 1}, {Y: 1}}
	for i, p := range hull {
		q := hull[(i+1)%len(hull)]
		axes = append(axes, r2.Point{X: p.Y - q.Y, Y: q.X - p.X})
	}
	reach := func(pts []r2.Point, n r2.Point) (lo, hi float64) {
		for i, p := range pts {
			d := p.X*n.X + p.Y*n.Y
			if i == 0 || d < lo {
				lo = d
			}
			if i == 0 || d > hi {
				hi = d
			}
		}
		return lo, hi
	}
	for _, n := range axes {
		a0, a1 := reach(box[:], n)
		b0, b1 := reach(hull, n)
		if a1 <= b0+1e-6 || b1 <= a0+1e-6 {
			return false
		}
	}
	return true
}

func lookUnder(s *draw.Scene, say func(string, ...any)) (c covered) {
	people, bodies := draw.PeopleOf(s), draw.BodiesOf(s)
	all := s.Labels.Boxes
	c.placed = len(all)
	for i := range all {
		b := &all[i]
		for k := range i {
			o := &all[k]
			if b.Box.X.Lo < o.Box.X.Hi && o.Box.X.Lo < b.Box.X.Hi && b.Box.Y.Lo < o.Box.Y.Hi && o.Box.Y.Lo < b.Box.Y.Hi {
				c.labels++
				say("%s on %s", b.Key, o.Key)
			}
		}
		for id, p := range people {
			if b.Box.X.Lo < p[2] && p[0] < b.Box.X.Hi && b.Box.Y.Lo < p[3] && p[1] < b.Box.Y.Hi {
				c.people++
				say("%s on person %s", b.Key, id)
			}
		}
		for id, hull := range bodies {
			if meetsHull(b, hull) {
				c.vehicles++
				say("%s on vehicle %s", b.Key, id)
			}
		}
	}
	return c
}

// A label covers no person, no vehicle and no other label, on a screen, in
// Field and on A4; a plan of a size that is met has all its figures.
func TestLabelsCoverNeitherPeopleNorVehicles(t *testing.T) {
	for _, v := range []struct {
		name string
		w, h float64
		u    float64 // pen units to a pixel
		look draw.Look
		left int // of some 1000 figures of the made-up plans
	}{
		{"1440×900", 1440, 900, 1, draw.Look{}, 0},
		{"the board of it", 960, 760, 1, draw.Look{}, 4},
		{"1024×640", 1024, 640, 1, draw.Look{}, 6},
		{"the board of it", 640, 500, 1, draw.Look{}, 25},
		{"the least board", 560, 380, 1, draw.Look{}, 60},
		{"Field", 960, 760, 1, draw.Look{Field: true}, 10},
		{"Field, small", 640, 500, 1, draw.Look{Field: true}, 140},
		{"A4, landscape", 257, 150, 0.3, draw.Look{Print: true, TextScale: 1.06}, 25},
		{"A4, upright", 176, 200, 0.3, draw.Look{Print: true, TextScale: 1.06}, 25},
	} {
		t.Run(v.name, func(t *testing.T) {
			look := func(name string, s *draw.Scene) int {
				s.Look, s.View.UnitsPerPx, s.Labels = v.look, v.u, &draw.Labels{}
				r := record(t, s, draw.Draw)
				c := lookUnder(s, func(f string, a ...any) { t.Logf(name+": "+f, a...) })
				assert.Zero(t, c.labels, "%s: labels on labels", name)
				assert.Zero(t, c.people, "%s: labels on people", name)
				assert.Zero(t, c.vehicles, "%s: labels on vehicles", name)
				if n := len(s.Labels.Left); n > 0 && v.w > 600 {
					assert.Contains(t, strings.Join(textsOf(r), "\n"), fmt.Sprintf("+%d", n), "%s: the picture says that figures are missing", name)
				}
				return len(s.Labels.Left)
			}
			for _, f := range []string{"redirect.kedge", "straight.kedge", "doubled.kedge"} {
				p := example(t, f)
				for i := range p.Rigs {
					assert.Zero(t, look(f, sceneOf(t, p, p.Rigs[i].ID, v.w, v.h)), "%s: figures without room", f)
				}
			}
			left := 0
			for seed := range uint64(12) {
				left += look(fmt.Sprint("made up ", seed), busyScene(t, seed, v.w, v.h))
			}
			assert.LessOrEqual(t, left, v.left, "figures of crowded plans without room")
		})
	}
}

package draw_test

import (
	"fmt"
	"image"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/canvas/pen"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// busyScene is a made-up site of 60 parts: 8 lines over 20 blocks, each on a
// sling round a tree of its own, 6 vehicles, 10 people and 30 zones. Its figures
// mean nothing; they cover all states.
func busyScene(t testing.TB, seed uint64, w, h float64) *draw.Scene {
	t.Helper()
	rnd := rand.New(rand.NewPCG(seed, 60))
	p := &plan.Plan{Format: plan.FormatName, Version: plan.CurrentVersion, MinReader: 1}
	at := func() plan.Point { return plan.Point{X: rnd.Float64() * 80, Y: rnd.Float64() * 50} }
	for i := range 6 {
		v := plan.Vehicle{Head: plan.Head{ID: plan.ID(fmt.Sprint("V", i))}, At: at(), Bearing: quantity.Degrees(rnd.Float64() * 360), Length: 5.2, Width: 1.9,
			Mass: 2450, Wheelbase: 2.85, FrontOverhang: 0.95, Track: 1.58, Recovery: []plan.RecoveryPoint{{ID: "front", Ahead: 2.6, Kind: plan.PointRated}}, Winch: &plan.Winch{Ahead: 2.6}}
		if i == 0 {
			v.Stuck = &plan.Stuck{WayLength: 6, Depth: plan.DepthHub}
		}
		p.Site.Vehicles = append(p.Site.Vehicles, v)
	}
	r := plan.Rig{Head: plan.Head{ID: "R1"}}
	a := &solver.Assessment{Rig: "R1", Status: part.Within, Casualty: "V0", Worst: -1, First: -1}
	states := []part.Status{part.Within, part.Near, part.Over, part.NoLimit, part.Within, part.Slack}
	judge := func(x part.Part, i int) {
		x.Move = part.Load{Known: true, Force: quantity.Force(5000 + rnd.Float64()*40000), Vec: r3.Vector{X: rnd.Float64()*2e4 - 1e4, Y: rnd.Float64()*2e4 - 1e4}}
		x.Status = states[i%len(states)]
		if x.Status != part.NoLimit {
			share := map[part.Status]float64{part.Within: 0.1 + 0.6*rnd.Float64(), part.Near: 0.8, part.Over: 1.3, part.Slack: 1}[x.Status]
			x.Used, x.Limit = share, part.Limit{Known: true, Force: x.Move.Force / quantity.Force(share)}
		}
		a.Parts = append(a.Parts, x)
	}
	for i := range 20 {
		tree, block, sling := plan.ID(fmt.Sprint("T", i)), plan.ID(fmt.Sprint("B", i)), plan.ID(fmt.Sprint("S", i))
		q := at()
		p.Site.Anchors = append(p.Site.Anchors, plan.Anchor{Head: plan.Head{ID: tree}, Kind: plan.AnchorTree, At: q, Trunk: 0.4})
		r.Blocks = append(r.Blocks, plan.Block{Head: plan.Head{ID: block}, Kind: plan.BlockRoller, At: plan.Point{X: q.X, Y: q.Y - 1.1}, Sheave: 0.12})
		r.Slings = append(r.Slings, plan.Sling{Head: plan.Head{ID: sling}, On: plan.Port{Thing: tree}, Holds: plan.Port{Thing: block}})
		c, n := r3.Vector{X: q.X, Y: q.Y}, r3.Vector{X: q.X, Y: q.Y - 1.1}
		a.Nodes = append(a.Nodes, part.Node{Thing: block, At: n, Angle: 90, Force: r3.Vector{Y: -3e4}})
		a.Slings = append(a.Slings, part.SlingShape{Sling: sling, Hitch: plan.HitchBasket, Centre: c, Radius: 0.2, Apex: n})
		judge(part.Part{ID: string(block), Kind: part.KindBlock, Thing: block, Angle: 90}, i)
		if i%4 == 0 {
			judge(part.Part{ID: string(tree), Kind: part.KindAnchor, Thing: tree}, i)
		}
	}
	for i := range 8 {
		id := plan.ID(fmt.Sprint("L", i))
		l := plan.Line{Head: plan.Head{ID: id}, Path: []plan.Port{{Thing: plan.ID(fmt.Sprint("V", i%6)), Point: plan.PortWinch}}}
		for range 3 {
			l.Path = append(l.Path, plan.Port{Thing: plan.ID(fmt.Sprint("B", rnd.IntN(20)))})
		}
		l.Path = append(l.Path, plan.Port{Thing: plan.ID(fmt.Sprint("V", (i+1)%6)), Point: "front"})
		r.Lines = append(r.Lines, l)
	}
	p.Rigs = []plan.Rig{r}
	x := plan.NewIndex(p, &p.Rigs[0])
	place := func(port plan.Port) r3.Vector {
		if b := x.Block(port.Thing); b != nil {
			return r3.Vector{X: b.At.X, Y: b.At.Y}
		}
		s, ok := x.PortPlace(port)
		require.True(t, ok)
		return r3.Vector{X: s.At.X, Y: s.At.Y}
	}
	for i := range p.Rigs[0].Lines {
		l := &p.Rigs[0].Lines[i]
		for k := 0; k+1 < len(l.Path); k++ {
			st := part.Stretch{Part: fmt.Sprint(l.ID, "/", k+1), Line: l.ID, Index: k, A: place(l.Path[k]), B: place(l.Path[k+1])}
			st.Length = quantity.Length(st.B.Sub(st.A).Norm())
			a.Stretches = append(a.Stretches, st)
			judge(part.Part{ID: st.Part, Kind: part.KindStretch, Thing: l.ID, Index: k}, i+k)
		}
	}
	kinds := []part.ZoneKind{part.ZoneRecoil, part.ZoneRecoil, part.ZoneBight, part.ZoneRelease, part.ZoneTree, part.ZoneStandOff}
	for i := range 30 {
		c, k := at(), kinds[i%len(kinds)]
		z := part.Zone{Kind: k, Thing: plan.ID(fmt.Sprint("B", i%20)), Radius: 25}
		for j := range 24 {
			sn, cs := math.Sincos(float64(j) / 24 * 2 * math.Pi)
			z.Outline = append(z.Outline, plan.Point{X: c.X + 12*cs, Y: c.Y + 12*sn})
		}
		a.Zones = append(a.Zones, z)
	}
	for i := range 10 {
		q := plan.Person{Head: plan.Head{ID: plan.ID(fmt.Sprint("P", i))}, Role: plan.RoleSpotter, At: at()}
		p.Site.People = append(p.Site.People, q)
		in := solver.PersonAt{Person: q.ID, At: q.At}
		if i%2 == 0 {
			in.Inside = []part.ZoneKind{part.ZoneRecoil}
			a.Findings = append(a.Findings, part.Finding{ID: "person-in-recoil", Level: part.Danger, Things: []plan.ID{q.ID}})
		}
		a.People = append(a.People, in)
	}
	s := &draw.Scene{Plan: p, Rig: "R1", Answer: a, Words: english(t)}
	box := draw.Bounds(p, a)
	require.False(t, box.IsEmpty())
	s.View = draw.Fit(box, w, h, 50)
	return s
}

// largeScene is a made-up site of 300 things round the redirect's rig: trees,
// boulders, vehicles, people, notes.
func largeScene(t testing.TB, w, h float64) *draw.Scene {
	t.Helper()
	rnd := rand.New(rand.NewPCG(300, 1))
	p := *example(t, "redirect.kedge")
	at := func() plan.Point { return plan.Point{X: rnd.Float64()*160 - 60, Y: rnd.Float64()*100 - 40} }
	tree, car := p.Site.Anchors[0], p.Site.Vehicles[0]
	car.Stuck, car.Winch = nil, nil
	for i := range 130 {
		a := tree
		a.ID, a.Name, a.At = plan.ID(fmt.Sprint("T", 100+i)), "", at()
		p.Site.Anchors = append(p.Site.Anchors[:len(p.Site.Anchors):len(p.Site.Anchors)], a)
	}
	for i := range 60 {
		c, o := at(), plan.Obstacle{Head: plan.Head{ID: plan.ID(fmt.Sprint("O", 100+i))}, Kind: "boulder"}
		for k := range 9 {
			sn, cs := math.Sincos(float64(k) / 9 * 2 * math.Pi)
			o.Outline = append(o.Outline, plan.Point{X: c.X + 1.4*cs, Y: c.Y + 1.1*sn})
		}
		p.Site.Obstacles = append(p.Site.Obstacles[:len(p.Site.Obstacles):len(p.Site.Obstacles)], o)
	}
	for i := range 40 {
		v := car
		v.ID, v.Name, v.At, v.Bearing = plan.ID(fmt.Sprint("V", 100+i)), "", at(), quantity.Degrees(rnd.Float64()*360)
		p.Site.Vehicles = append(p.Site.Vehicles[:len(p.Site.Vehicles):len(p.Site.Vehicles)], v)
	}
	for i := range 40 {
		p.Site.People = append(p.Site.People[:len(p.Site.People):len(p.Site.People)], plan.Person{Head: plan.Head{ID: plan.ID(fmt.Sprint("P", 100+i))}, Role: plan.RoleBystander, At: at()})
	}
	for i := range 30 {
		p.Site.Notes = append(p.Site.Notes[:len(p.Site.Notes):len(p.Site.Notes)], plan.Note{Head: plan.Head{ID: plan.ID(fmt.Sprint("N", 100+i))}, At: at(), Text: "wet peat"})
	}
	s := sceneOf(t, &p, "R1", w, h)
	s.View = draw.Fit(pen.Box(-60, -40, 100, 60), w, h, 20)
	return s
}

// BenchmarkFrame draws a busy board at 1400×900. Budgets: the moving layer well
// under 8 ms, everything 15 ms, on two idle cores.
func BenchmarkFrame(b *testing.B) {
	img := image.NewRGBA(image.Rect(0, 0, 1400, 900))
	r := pen.NewRaster(img, 1)
	example := sceneOf(b, example(b, "redirect.kedge"), "R1", 1400, 900)
	busy := busyScene(b, 1, 1400, 900)
	for _, c := range []struct {
		name string
		s    *draw.Scene
	}{{"example", example}, {"busy", busy}, {"large", largeScene(b, 1400, 900)}} {
		c.s.Labels = &draw.Labels{}
		layer := func(name string, f func(pen.Pen, *draw.Scene)) {
			b.Run(c.name+"/"+name, func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					r.Target(img, 1, 0, 0)
					f(r, c.s)
					if err := r.Flush(); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
		layer("moving", draw.DrawMoving)
		c.s.Labels.Hold = true // as during a gesture
		layer("dragging", draw.DrawMoving)
		c.s.Labels.Hold = false
		layer("static", draw.DrawStatic)
		layer("all", draw.Draw)
		b.Run(c.name+"/recorded", func(b *testing.B) { // the drawing alone, no pixels
			for b.Loop() {
				draw.DrawMoving(nothing{}, c.s)
			}
		})
	}
}

// nothing is a pen that draws nothing.
type nothing struct{}

func (nothing) Path(*pen.Path, *pen.Style)                    {}
func (nothing) Text(float64, float64, string, *pen.TextStyle) {}
func (nothing) Image(image.Image, pen.Affine, float64)        {}
func (nothing) PushClip(*pen.Path)                            {}
func (nothing) PopClip()                                      {}
func (nothing) Err() error                                    { return nil }

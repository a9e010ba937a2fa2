package statics_test

import (
	"testing"

	"github.com/golang/geo/r3"

	"kedge/solver/statics"
)

// benchNames: a block on a sling; a line doubled over one on the casualty; three
// free blocks with a lossy line of given length; twenty blocks on slings.
var benchNames = []string{"redirect", "doubled", "free3", "free20"}

func benchRig(name string) statics.Rig {
	const T = 40e3
	fixed := func(x, y float64) statics.Point { return statics.Point{Pos: r3.Vector{X: x, Y: y}} }
	free := func(x, y float64) statics.Point {
		return statics.Point{Kind: statics.Free, Pos: r3.Vector{X: x, Y: y}}
	}
	body := func(x, y float64) statics.Point {
		return statics.Point{Kind: statics.OnBody, Pos: r3.Vector{X: x, Y: y}}
	}
	eta := func(n int, e float64) []statics.Sheave {
		h := make([]statics.Sheave, n)
		for i := range h {
			h[i] = statics.Sheave{Model: statics.Constant, Eta: e}
		}
		return h
	}
	v := []statics.Body{{Motion: r3.Vector{X: 1}}}
	switch name {
	case "redirect":
		return statics.Rig{Bodies: v,
			Points: []statics.Point{fixed(0, 0), free(18.5, 4.5), body(2, 15), fixed(20, 4)},
			Lines:  []statics.Line{{Path: []int{0, 1, 2}, Sheaves: eta(1, 0.92), Drum: true, TensionN: T}},
			Slings: []statics.Sling{{A: 3, B: 1, LengthM: 1.5}}}
	case "doubled":
		return statics.Rig{Bodies: v,
			Points: []statics.Point{fixed(20, 3), free(1.4, 0.3), fixed(21, -4), body(0, 0)},
			Lines:  []statics.Line{{Path: []int{0, 1, 2}, Sheaves: eta(1, 0.92), Drum: true, TensionN: T}},
			Slings: []statics.Sling{{A: 3, B: 1, LengthM: 1.5}}}
	case "free3":
		return statics.Rig{Bodies: v,
			Points: []statics.Point{fixed(30, 6), free(28, -3), fixed(30, -4), free(14, -1), fixed(33, 2),
				free(1.4, 0), body(0, 0), fixed(29, 9)},
			Lines: []statics.Line{
				{Path: []int{0, 1, 3, 4}, Sheaves: eta(2, 0.92), Drum: true, TensionN: T},
				{Path: []int{3, 5, 7}, Sheaves: eta(1, 0.92), LengthM: 43}},
			Slings: []statics.Sling{{A: 2, B: 1, LengthM: 2}, {A: 6, B: 5, LengthM: 1.5}}}
	case "free20":
		r := statics.Rig{Bodies: v, Points: []statics.Point{fixed(0, 0)}}
		l := statics.Line{Path: []int{0}, Sheaves: eta(20, 0.98), Drum: true, TensionN: T}
		for i := 0; i < 20; i++ {
			y := 8.0
			if i%2 == 1 {
				y = -y
			}
			x := 6 * float64(i+1)
			r.Points = append(r.Points, fixed(x, y), free(x+0.1, y*0.8))
			k := len(r.Points)
			l.Path = append(l.Path, k-1)
			r.Slings = append(r.Slings, statics.Sling{A: k - 2, B: k - 1, LengthM: 1.5})
		}
		r.Points = append(r.Points, body(6*21, 0))
		l.Path = append(l.Path, len(r.Points)-1)
		r.Bodies = []statics.Body{{Motion: r3.Vector{X: -1}}}
		r.Lines = []statics.Line{l}
		return r
	}
	panic("no bench rig " + name)
}

// elastic gives every sling and length line a compliance of 1e-6 m/N and no
// friction to length lines: what gonum can do as well.
func elastic(r statics.Rig) statics.Rig {
	r.Slings = append([]statics.Sling(nil), r.Slings...)
	for i := range r.Slings {
		r.Slings[i].StiffnessNPerM = 1e6
	}
	r.Lines = append([]statics.Line(nil), r.Lines...)
	for i := range r.Lines {
		if l := &r.Lines[i]; !l.Drum {
			l.ComplianceMPerN = 1e-6
			l.Sheaves = append([]statics.Sheave(nil), l.Sheaves...)
			for j := range l.Sheaves {
				l.Sheaves[j] = constant(1)
			}
		}
	}
	return r
}

// still takes the motion away: what is left is one equilibrium.
func still(r statics.Rig) statics.Rig {
	r.Bodies = []statics.Body{{}}
	return r
}

// BenchmarkSolve: warm (the winch dragged 5 cm to and fro), cold, and gonum's
// Newton on the same rig made elastic, each one equilibrium; directed is cold
// with the motion: rates, sheave directions and advantages as well; cold3d the
// rig raised unevenly in three dimensions.
func BenchmarkSolve(b *testing.B) {
	bench := func(kind string, warm bool, make func(string) statics.Rig) {
		for _, name := range benchNames {
			b.Run(kind+"/"+name, func(b *testing.B) {
				r := make(name)
				var s statics.Solver
				var out statics.Result
				if st := s.Solve(&r, &out); st != statics.Converged {
					b.Fatal(st, out.Flags)
				}
				y := r.Points[0].Pos.Y
				b.ReportAllocs()
				b.ResetTimer()
				for i := 0; i < b.N; i++ {
					st := statics.NotComputed
					if warm {
						r.Points[0].Pos.Y = y + 0.05*float64(i&1)
						st = s.Warm(&r, &out)
					} else {
						st = s.Solve(&r, &out)
					}
					if st != statics.Converged {
						b.Fatal(st)
					}
				}
				b.ReportMetric(float64(out.Iterations), "steps")
			})
		}
	}
	bench("warm", true, func(n string) statics.Rig { return still(benchRig(n)) })
	bench("cold", false, func(n string) statics.Rig { return still(benchRig(n)) })
	bench("directed", false, benchRig)
	bench("cold3d", false, func(n string) statics.Rig {
		r := still(benchRig(n))
		for i := range r.Points {
			r.Points[i].Pos.Z = 0.3 * float64(i%3)
		}
		return r
	})
	for _, name := range benchNames {
		b.Run("gonum/"+name, func(b *testing.B) {
			r := elastic(benchRig(name))
			p := newPotential(&r)
			b.ReportAllocs()
			for i := 0; i < b.N; i++ {
				if _, err := p.newton(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

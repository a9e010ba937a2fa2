package statics_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"

	"kedge/solver/statics"
)

// benchRigs are the rigs of statics.md 3.2.
var benchNames = []string{"redirect", "doubled", "free3", "free20"}

func benchRig(name string) statics.Rig {
	const T = 40e3
	fixed := func(x, y float64) statics.Point { return statics.Point{Pos: [3]float64{x, y, 0}} }
	free := func(x, y float64) statics.Point {
		return statics.Point{Kind: statics.Free, Pos: [3]float64{x, y, 0}}
	}
	body := func(x, y float64) statics.Point {
		return statics.Point{Kind: statics.OnBody, Pos: [3]float64{x, y, 0}}
	}
	eta := func(n int, e float64) []statics.Sheave {
		h := make([]statics.Sheave, n)
		for i := range h {
			h[i] = statics.Sheave{Model: statics.Constant, Eta: e}
		}
		return h
	}
	v := []statics.Body{{Motion: [3]float64{1, 0, 0}}}
	switch name {
	case "redirect":
		return statics.Rig{Dim: 2, Bodies: v,
			Points: []statics.Point{fixed(0, 0), free(18.5, 4.5), body(2, 15), fixed(20, 4)},
			Lines:  []statics.Line{{Path: []int{0, 1, 2}, Sheaves: eta(1, 0.92), Drum: true, TensionN: T}},
			Slings: []statics.Sling{{A: 3, B: 1, LengthM: 1.5}}}
	case "doubled":
		return statics.Rig{Dim: 2, Bodies: v,
			Points: []statics.Point{fixed(20, 3), free(1.4, 0.3), fixed(21, -4), body(0, 0)},
			Lines:  []statics.Line{{Path: []int{0, 1, 2}, Sheaves: eta(1, 0.92), Drum: true, TensionN: T}},
			Slings: []statics.Sling{{A: 3, B: 1, LengthM: 1.5}}}
	case "free3":
		return statics.Rig{Dim: 2, Bodies: v,
			Points: []statics.Point{fixed(30, 6), free(28, -3), fixed(30, -4), free(14, -1), fixed(33, 2),
				free(1.4, 0), body(0, 0), fixed(29, 9)},
			Lines: []statics.Line{
				{Path: []int{0, 1, 3, 4}, Sheaves: eta(2, 0.92), Drum: true, TensionN: T},
				{Path: []int{3, 5, 7}, Sheaves: eta(1, 0.92), LengthM: 43}},
			Slings: []statics.Sling{{A: 2, B: 1, LengthM: 2}, {A: 6, B: 5, LengthM: 1.5}}}
	case "free20":
		r := statics.Rig{Dim: 2, Bodies: v, Points: []statics.Point{fixed(0, 0)}}
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
		r.Bodies = []statics.Body{{Motion: [3]float64{-1, 0, 0}}}
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
				l.Sheaves[j] = statics.Sheave{Model: statics.Frictionless}
			}
		}
	}
	return r
}

func BenchmarkSolve(b *testing.B) {
	for _, name := range benchNames {
		b.Run("warm/"+name, func(b *testing.B) {
			r := benchRig(name)
			anchors := []int{0}
			var s statics.Solver
			var out statics.Result
			if st := s.Solve(&r, &out); st != statics.Converged {
				b.Fatal(st, out.Flags)
			}
			b.ReportAllocs()
			b.ResetTimer()
			x := r.Points[anchors[0]].Pos
			for i := 0; i < b.N; i++ {
				// drag the winch 5 cm to and fro
				r.Points[0].Pos[1] = x[1] + 0.05*float64(i&1)
				if s.Warm(&r, &out) != statics.Converged {
					b.Fatal(out.Status)
				}
			}
			b.ReportMetric(float64(out.Iterations), "its")
		})
	}
	for _, name := range benchNames {
		b.Run("cold/"+name, func(b *testing.B) {
			r := benchRig(name)
			var s statics.Solver
			var out statics.Result
			s.Solve(&r, &out)
			b.ReportAllocs()
			b.ResetTimer()
			for i := 0; i < b.N; i++ {
				if s.Solve(&r, &out) != statics.Converged {
					b.Fatal(out.Status)
				}
			}
			b.ReportMetric(float64(out.Iterations), "its")
		})
	}
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

// potential is the function of statics.md 1.2 written out for gonum: drum lines
// with constant ratios, elastic slings, elastic length lines without friction.
// It shares no code with the solver.
type potential struct {
	r    *statics.Rig
	col  map[int]int // free point -> first unknown
	n    int
	x0   []float64
	eps2 float64
}

func newPotential(r *statics.Rig) *potential {
	p := &potential{r: r, col: map[int]int{}}
	for i, q := range r.Points {
		if q.Kind == statics.Free {
			p.col[i] = p.n
			p.n += r.Dim
			p.x0 = append(p.x0, q.Pos[:r.Dim]...)
		}
	}
	return p
}

func (p *potential) place(x []float64, i int) (v [3]float64) {
	if c, ok := p.col[i]; ok {
		copy(v[:], x[c:c+p.r.Dim])
		return v
	}
	copy(v[:], p.r.Points[i].Pos[:p.r.Dim])
	return v
}

// walk calls f for every term: path, weights, given tension or compliance.
func (p *potential) walk(f func(path []int, w []float64, drum bool, t, l0, c float64)) {
	for _, l := range p.r.Lines {
		w := []float64{1}
		for j := range l.Sheaves {
			e := 1.0
			if l.Sheaves[j].Model == statics.Constant {
				e = l.Sheaves[j].Eta
			}
			w = append(w, w[j]*e)
		}
		f(l.Path, w, l.Drum, l.TensionN, l.LengthM, l.ComplianceMPerN)
	}
	for _, g := range p.r.Slings {
		f([]int{g.A, g.B}, []float64{1}, false, 0, g.LengthM, 1/g.StiffnessNPerM)
	}
}

func (p *potential) value(x []float64) float64 {
	v := 0.0
	p.walk(func(path []int, w []float64, drum bool, t, l0, c float64) {
		l := 0.0
		for k := range w {
			l += w[k] * dist(p.place(x, path[k]), p.place(x, path[k+1]))
		}
		if drum {
			v += t * l
		} else if l > l0 {
			v += (l - l0) * (l - l0) / (2 * c)
		}
	})
	for _, f := range p.r.Loads {
		q := p.place(x, f.Point)
		v -= q[0]*f.ForceN[0] + q[1]*f.ForceN[1] + q[2]*f.ForceN[2]
	}
	return v
}

func (p *potential) derive(grad []float64, hess *mat.SymDense, x []float64) {
	for i := range grad {
		grad[i] = 0
	}
	if hess != nil {
		hess.Zero()
	}
	d := p.r.Dim
	g := make([]float64, p.n)
	p.walk(func(path []int, w []float64, drum bool, t, l0, c float64) {
		l := 0.0
		for i := range g {
			g[i] = 0
		}
		for k := range w {
			a, b := p.place(x, path[k]), p.place(x, path[k+1])
			lk := dist(a, b)
			l += w[k] * lk
			for e := 0; e < d; e++ {
				u := w[k] * (b[e] - a[e]) / lk
				if ca, ok := p.col[path[k]]; ok {
					g[ca+e] -= u
				}
				if cb, ok := p.col[path[k+1]]; ok {
					g[cb+e] += u
				}
			}
		}
		if !drum {
			if l <= l0 {
				return
			}
			t = (l - l0) / c
		}
		for i := range g {
			grad[i] += t * g[i]
		}
		if hess == nil {
			return
		}
		if !drum {
			for i := range g {
				for j := i; j < len(g); j++ {
					if v := g[i] * g[j]; v != 0 {
						hess.SetSym(i, j, hess.At(i, j)+v/c)
					}
				}
			}
		}
		for k := range w {
			p.addCurvature(hess, x, path[k], path[k+1], t*w[k])
		}
	})
	for _, f := range p.r.Loads {
		for e := 0; e < d; e++ {
			grad[p.col[f.Point]+e] -= f.ForceN[e]
		}
	}
}

func (p *potential) addCurvature(hess *mat.SymDense, x []float64, ia, ib int, t float64) {
	d := p.r.Dim
	a, b := p.place(x, ia), p.place(x, ib)
	l := dist(a, b)
	ca, fa := p.col[ia]
	cb, fb := p.col[ib]
	for i := 0; i < d; i++ {
		for j := 0; j < d; j++ {
			k := -t / l * (b[i] - a[i]) * (b[j] - a[j]) / (l * l)
			if i == j {
				k += t / l
			}
			if fa && i <= j {
				hess.SetSym(ca+i, ca+j, hess.At(ca+i, ca+j)+k)
			}
			if fb && i <= j {
				hess.SetSym(cb+i, cb+j, hess.At(cb+i, cb+j)+k)
			}
			if fa && fb {
				hess.SetSym(ca+i, cb+j, hess.At(ca+i, cb+j)-k)
			}
		}
	}
}

func (p *potential) newton() (*optimize.Result, error) {
	tmax := 0.0
	for _, l := range p.r.Lines {
		tmax = math.Max(tmax, l.TensionN)
	}
	return optimize.Minimize(optimize.Problem{
		Func: p.value,
		Grad: func(g, x []float64) { p.derive(g, nil, x) },
		Hess: func(h *mat.SymDense, x []float64) { p.derive(make([]float64, p.n), h, x) },
	}, append([]float64(nil), p.x0...), &optimize.Settings{GradientThreshold: 1e-9 * tmax,
		Converger: optimize.NeverTerminate{}, MajorIterations: 200}, &optimize.Newton{})
}

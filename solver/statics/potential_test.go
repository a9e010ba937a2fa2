package statics_test

import (
	"math"

	"github.com/golang/geo/r3"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"

	"kedge/solver/statics"
)

// potential is the function of README section 2 written out for gonum: drum lines
// with constant ratios, elastic slings, elastic length lines without friction.
// It shares no code with the solver.
type potential struct {
	r   *statics.Rig
	col map[int]int // free point -> first unknown
	n   int
	x0  []float64
}

func newPotential(r *statics.Rig) *potential {
	p := &potential{r: r, col: map[int]int{}}
	for i, q := range r.Points {
		if q.Kind == statics.Free {
			p.col[i] = p.n
			p.n += 3
			p.x0 = append(p.x0, q.Pos.X, q.Pos.Y, q.Pos.Z)
		}
	}
	return p
}

func (p *potential) place(x []float64, i int) r3.Vector {
	if c, ok := p.col[i]; ok {
		return vec(x[c : c+3])
	}
	return p.r.Points[i].Pos
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
			l += w[k] * p.place(x, path[k]).Distance(p.place(x, path[k+1]))
		}
		if drum {
			v += t * l
		} else if l > l0 {
			v += (l - l0) * (l - l0) / (2 * c)
		}
	})
	for _, f := range p.r.Loads {
		q := p.place(x, f.Point)
		v -= q.X*f.ForceN.X + q.Y*f.ForceN.Y + q.Z*f.ForceN.Z
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
	g := make([]float64, p.n)
	p.walk(func(path []int, w []float64, drum bool, t, l0, c float64) {
		l := 0.0
		for i := range g {
			g[i] = 0
		}
		for k := range w {
			a, b := p.place(x, path[k]), p.place(x, path[k+1])
			lk := b.Distance(a)
			along := xyz(b.Sub(a))
			l += w[k] * lk
			for e := 0; e < 3; e++ {
				u := w[k] * along[e] / lk
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
		for e := 0; e < 3; e++ {
			grad[p.col[f.Point]+e] -= xyz(f.ForceN)[e]
		}
	}
}

func (p *potential) addCurvature(hess *mat.SymDense, x []float64, ia, ib int, t float64) {
	a, b := p.place(x, ia), p.place(x, ib)
	l := b.Distance(a)
	d := xyz(b.Sub(a))
	ca, fa := p.col[ia]
	cb, fb := p.col[ib]
	for i := 0; i < 3; i++ {
		for j := 0; j < 3; j++ {
			k := -t / l * d[i] * d[j] / (l * l)
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
	}, append([]float64(nil), p.x0...), &optimize.Settings{GradientThreshold: 1e-8 * tmax,
		Converger: optimize.NeverTerminate{}, MajorIterations: 200}, &optimize.Newton{})
}

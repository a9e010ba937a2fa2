package statics_test

import (
	"math"
	"math/rand/v2"

	"github.com/golang/geo/r3"

	"kedge/solver/statics"
)

// gen makes random rigs from a seeded stream.
type gen struct {
	*rand.Rand
	r     statics.Rig
	minM  float64 // shortest leg between stations
	level bool    // all in the plane z = 0
	at    []r3.Vector
}

func newGen(seed uint64) *gen {
	return &gen{Rand: rand.New(rand.NewPCG(seed, 0x6b65646765)), minM: 7}
}

func (g *gen) between(lo, hi float64) float64 { return lo + (hi-lo)*g.Float64() }

func (g *gen) point(kind statics.PointKind, pos r3.Vector) int {
	g.r.Points = append(g.r.Points, statics.Point{Kind: kind, Pos: pos})
	return len(g.r.Points) - 1
}

// station is a place at least minM from all stations before.
func (g *gen) station() r3.Vector {
	for {
		p := r3.Vector{X: g.between(-30, 30), Y: g.between(-30, 30)}
		if !g.level {
			p.Z = g.between(-4, 4)
		}
		far := true
		for _, q := range g.at {
			far = far && p.Distance(q) > g.minM
		}
		if far {
			g.at = append(g.at, p)
			return p
		}
	}
}

func towards(a, b r3.Vector, m float64) r3.Vector {
	k := m / a.Distance(b)
	return a.Add(b.Sub(a).Mul(k))
}

func (g *gen) sheave() statics.Sheave {
	switch g.IntN(8) {
	case 0:
		return constant(1)
	case 1, 2:
		return statics.Sheave{Model: statics.Constant, Eta: g.between(0.85, 1)}
	case 3:
		return statics.Sheave{Model: statics.Ring, Mu: g.between(0, 0.15)}
	}
	return statics.Sheave{Model: statics.ByWrap, Eta: g.between(0.8, 1)}
}

func (g *gen) sling(a, b int, lengthM float64) {
	s := statics.Sling{A: a, B: b, LengthM: lengthM}
	if g.IntN(2) == 0 {
		s.StiffnessNPerM = g.between(2e5, 5e6)
	}
	g.r.Slings = append(g.r.Slings, s)
}

// slung is a free block on a sling from an anchor, drawn near enough to where
// it will come to rest for the sling to reach.
func (g *gen) slung(anchor, from, to r3.Vector) int {
	l := g.between(0.5, 3)
	u := towards(anchor, from, 1)
	v := towards(anchor, to, 1)
	mid := u.Add(v).Sub(anchor)
	d := anchor.Distance(mid)
	if d < 0.1 {
		mid = u
	}
	a := g.point(statics.Fixed, anchor)
	b := g.point(statics.Free, towards(anchor, mid, l*g.between(0.7, 0.99)))
	g.sling(a, b, l)
	return b
}

// realistic makes a rig as drawn in practice: a winch, up to four slung or
// direct-fixed redirects, legs over 7 m, slings of 0.5 to 3 m, and a plain,
// doubled, compound or bridled end at the casualty.
func realistic(seed uint64, level bool) statics.Rig {
	g := newGen(seed)
	g.level = level
	g.r.Bodies = []statics.Body{{}}
	winch := g.station()
	n := g.IntN(4)
	var mids []r3.Vector
	for i := 0; i < n; i++ {
		mids = append(mids, g.station())
	}
	cas := g.station()
	g.r.Bodies[0].RefM = cas
	way := append(append([]r3.Vector{winch}, mids...), cas)
	line := statics.Line{Drum: true, TensionN: g.between(5e3, 8e4)}
	line.Path = append(line.Path, g.point(statics.Fixed, winch))
	for i := range mids {
		if g.IntN(4) == 0 {
			line.Path = append(line.Path, g.point(statics.Fixed, mids[i]))
		} else {
			line.Path = append(line.Path, g.slung(mids[i], way[i], way[i+2]))
		}
		line.Sheaves = append(line.Sheaves, g.sheave())
	}
	last := way[len(way)-2]
	dir := towards(cas, last, 1)
	g.r.Bodies[0].Motion = dir.Sub(cas)
	g.end(&line, cas, last)
	for i := range g.r.Points {
		if g.r.Points[i].Kind == statics.Free && !level && g.IntN(3) == 0 {
			g.r.Loads = append(g.r.Loads, statics.PointLoad{Point: i, ForceN: r3.Vector{Z: -g.between(20, 150)}})
		}
	}
	return g.r
}

func (g *gen) end(line *statics.Line, cas, last r3.Vector) {
	k := g.point(statics.OnBody, cas)
	switch g.IntN(6) {
	case 0: // made fast
		line.Path = append(line.Path, k)
		g.r.Lines = append(g.r.Lines, *line)
	case 1: // doubled, block on a strap
		g.doubled(line, k, cas, last)
	case 2: // doubled, direct
		line.Path = append(line.Path, k, g.point(statics.Fixed, g.station()))
		line.Sheaves = append(line.Sheaves, g.sheave())
		g.r.Lines = append(g.r.Lines, *line)
	case 3: // compound
		p := g.point(statics.Free, towards(last, cas, last.Distance(cas)*g.between(0.4, 0.6)))
		b := towards(last, cas, -g.between(2, 4))
		line.Path = append(line.Path, p, g.point(statics.Fixed, b))
		line.Sheaves = append(line.Sheaves, g.sheave())
		g.r.Lines = append(g.r.Lines, *line)
		off := last
		off.X += g.between(-2, 2)
		off.Y += g.between(-2, 2)
		g.r.Lines = append(g.r.Lines, statics.Line{Path: []int{p, k, g.point(statics.Fixed, off)},
			Sheaves: []statics.Sheave{g.sheave()}})
	default: // bridle, fixed or equalising
		g.bridle(line, cas, last)
	}
}

func (g *gen) doubled(line *statics.Line, k int, cas, last r3.Vector) {
	l := g.between(0.5, 3)
	b := g.point(statics.Free, towards(cas, last, l*0.98))
	g.sling(k, b, l)
	line.Path = append(line.Path, b, g.point(statics.Fixed, g.station()))
	line.Sheaves = append(line.Sheaves, g.sheave())
	g.r.Lines = append(g.r.Lines, *line)
}

func (g *gen) bridle(line *statics.Line, cas, last r3.Vector) {
	dx, dy := last.X-cas.X, last.Y-cas.Y
	h := math.Hypot(dx, dy)
	half := g.between(0.4, 0.8)
	side := r3.Vector{X: -dy / h * half, Y: dx / h * half}
	turn := g.between(-0.5, 0.5)
	side = r3.Vector{X: side.X*math.Cos(turn) - side.Y*math.Sin(turn), Y: side.X*math.Sin(turn) + side.Y*math.Cos(turn)}
	r1 := g.point(statics.OnBody, cas.Add(side))
	r2 := g.point(statics.OnBody, cas.Sub(side))
	l := g.between(1.5, 3)
	y := g.point(statics.Free, towards(cas, last, l*0.8))
	line.Path = append(line.Path, y)
	g.r.Lines = append(g.r.Lines, *line)
	if g.IntN(2) == 0 {
		g.sling(r1, y, l+g.between(-0.1, 0.3))
		g.sling(r2, y, l)
		return
	}
	e := statics.Line{Path: []int{r1, y, r2}, Sheaves: []statics.Sheave{g.sheave()}, LengthM: 2 * l}
	if g.IntN(2) == 0 {
		e.ComplianceMPerN = 2 * l / g.between(3e5, 4e6)
	}
	g.r.Lines = append(g.r.Lines, e)
}

// nasty makes a rig nobody would draw: blocks anywhere, visited more than once,
// beckets, second slings, length lines with heavy friction, short legs, slack
// and two-blocked places. What is drawn reaches, lengths being as drawn or longer.
func nasty(seed uint64, level bool) statics.Rig {
	g := newGen(seed)
	g.level = level
	g.r.Bodies = []statics.Body{{Motion: r3.Vector{X: g.NormFloat64(), Y: g.NormFloat64()}}}
	place := func() r3.Vector {
		p := r3.Vector{X: g.between(-20, 20), Y: g.between(-20, 20)}
		if !level {
			p.Z = g.between(-5, 5)
		}
		return p
	}
	var stand, free []int
	for i := 2 + g.IntN(4); i > 0; i-- {
		stand = append(stand, g.point(statics.Fixed, place()))
	}
	for i := 1 + g.IntN(2); i > 0; i-- {
		stand = append(stand, g.point(statics.OnBody, place()))
	}
	for i := 1 + g.IntN(6); i > 0; i-- {
		free = append(free, g.point(statics.Free, place()))
	}
	all := append(append([]int(nil), stand...), free...)
	pick := func(from []int, not int) int {
		for {
			if p := from[g.IntN(len(from))]; p != not {
				return p
			}
		}
	}
	lines := 1 + g.IntN(3)
	for i := 0; i < lines; i++ {
		l := statics.Line{Path: []int{pick(all, -1)}}
		for k := 1 + g.IntN(4); k > 0; k-- {
			l.Path = append(l.Path, pick(all, l.Path[len(l.Path)-1]))
		}
		l.Path = append(l.Path, pick(stand, l.Path[len(l.Path)-1]))
		for k := len(l.Path) - 2; k > 0; k-- {
			h := g.sheave()
			if h.Model == statics.Constant {
				h.Eta = g.between(0.6, 1)
			}
			l.Sheaves = append(l.Sheaves, h)
		}
		if i == 0 || g.IntN(3) == 0 {
			l.Drum, l.TensionN = true, g.between(1e3, 8e4)
		} else {
			l.LengthM = 0
			if g.IntN(3) == 0 {
				sum := 0.0
				for k := range l.Path[1:] {
					sum += g.r.Points[l.Path[k]].Pos.Distance(g.r.Points[l.Path[k+1]].Pos)
				}
				l.LengthM = sum * g.between(1, 1.2)
			}
			if g.IntN(2) == 0 {
				l.ComplianceMPerN = g.between(0, 1e-5)
			}
		}
		g.r.Lines = append(g.r.Lines, l)
	}
	for _, p := range free {
		// one in ten may hang loose, the others have a sling from what stands
		for k := g.IntN(3) + min(1, g.IntN(10)); k > 0; k-- {
			q := pick(all, p)
			if k == 1 && g.IntN(4) > 0 {
				q = pick(stand, p)
			}
			s := statics.Sling{A: q, B: p, LengthM: g.r.Points[p].Pos.Distance(g.r.Points[q].Pos) * g.between(1, 1.1)}
			if g.IntN(2) == 0 {
				s.StiffnessNPerM = math.Exp(g.between(10, 16))
			}
			g.r.Slings = append(g.r.Slings, s)
		}
		if g.IntN(6) == 0 {
			g.r.Loads = append(g.r.Loads, statics.PointLoad{Point: p, ForceN: r3.Vector{X: g.between(-2e3, 2e3), Y: g.between(-2e3, 2e3)}})
		}
	}
	return g.r
}

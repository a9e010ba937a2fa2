package statics

import (
	"math"

	"github.com/golang/geo/r3"
)

// Solver is a workspace for solving rigs, owned by one goroutine. The zero
// value is ready. It remembers the last equilibrium for Warm.
type Solver struct {
	origin  r3.Vector
	drawn   []r3.Vector // local places as drawn
	pos     []r3.Vector // local places, free points moving
	vel     []r3.Vector // rate of places for the motion
	fi      []int32     // point -> free index or -1
	free    []int32     // free index -> point
	motions []r3.Vector // unit direction of each body's motion, or zero
	load    []r3.Vector // dead load by free index

	st      []stretch
	el      []element
	vis     []visit
	lineSt  []int32 // first stretch of each line, then of the slings
	lineVis []int32 // first visit of each line
	swing   []swing
	slings  []int32 // slings at each free point
	spans   []span  // what they span

	nodes        []elementNode
	eForce, eRun []r3.Vector // by node: force for a tension of one, gradient of length

	vectors slab[r3.Vector]
	numbers slab[float64]
	indices slab[int32]

	m                skyline
	lu               dense
	grad, rhs, delta []float64
	save, from       []r3.Vector // places to go back to
	saveLb, held     []float64
	baseWas          []float64

	tref, lref float64 // N, m: scale of the rig
	eps2       float64 // m^2: smoothing of lengths
	reg        float64 // m/N: augmented-Lagrangian regularisation
	varying    bool    // some ratio, or what a line gives, depends on where it lies
	lopsided   bool    // a length line with friction: not symmetric
	lagged     bool    // continuation: length limits taken on weighted lengths, symmetric
	ratesKnown bool    // vel, dl, dt hold the rates for the motion
	moving     bool    // some body has a motion
	factored   bool    // m (or lu) holds the factor at pos
	its        int

	warmed  bool // pos and multipliers hold an answer
	warmSig signature
	prevPos []r3.Vector
	prevLb  []float64
	reach   []bool
	loose   []bool // by free index: can slide or hang
	scale   float64

	runs int   // rigs begun
	kept *kept // nil: it keeps none
}

// signature tells whether a previous answer belongs to a rig of the same make.
type signature struct{ points, free, stretches, slings, lines int }

// stretch is one straight part of a line, or a sling.
type stretch struct {
	a, b   int32 // points
	fa, fb int32 // free indices or -1
	na, nb int32 // indices into nodes for parts of long elements, or -1
	el     int32
	w      float64 // tension as a multiple of the element's
	l      float64
	u      r3.Vector
	dl     float64 // rate of length
	dw     float64 // rate of weight
}

// element is what shares one tension: a drum line, a length line, a sling, or
// the part of a line behind a stuck sheave.
type element struct {
	s0, s1   int32
	n0, n1   int32 // its nodes when it has more than one stretch
	line     int32 // or -1
	sling    int32 // or -1
	given    bool
	friction bool
	tN       float64 // given tension
	lenM     float64
	comp     float64 // m/N for weights of one
	c        float64 // m/N as loaded
	lb       float64 // multiplier
	t        float64
	tk       float64 // tension in the geometric stiffness
	act      float64 // 1/(c+reg) when active
	lam      float64 // weighted length limit of the lagged form
	dt       float64 // rate of tension
}

type elementNode struct{ f int32 }

// swing is a free block on one sling from a point that does not move: cold
// starts place it by direction.
type swing struct {
	p, a, el int32
	f        int32
}

// visit is a line passing a sheave.
type visit struct {
	line, at, point int32
	st              int32 // stretch before
	model           SheaveModel
	kappa2, mu      float64
	state           SheaveMotion // Stick: the line is split here
	equal           bool         // ratio one: equalising line at rest
	undetermined    bool
	unsettled       bool
	loss            bool
	flips           int8
	releases        int8
	rho             float64 // ratio used
	base            float64 // ratio while hauling
	run             float64
}

// Solve finds the equilibrium of the rig from the drawn places and writes it to
// out. It allocates nothing once solver and result have grown to the rig.
func (s *Solver) Solve(r *Rig, out *Result) Status { return s.run(r, out, false) }

// Warm is Solve starting from the solver's previous answer, for a rig of the
// same make with places, tensions or lengths a little changed. The answer is
// that of Solve to tolerance; without a fitting previous answer it is Solve.
func (s *Solver) Warm(r *Rig, out *Result) Status { return s.run(r, out, true) }

func (s *Solver) run(r *Rig, out *Result, warm bool) Status {
	s.scale = 1
	s.its = 0
	if st := s.begin(r, out, warm); st != NotComputed {
		return s.withhold(r, out, st)
	}
	st := s.settle(r, out, !warm)
	return s.finish(r, out, st)
}

// begin checks and compiles the rig; NotComputed means go on.
func (s *Solver) begin(r *Rig, out *Result, warm bool) Status {
	out.Flags = out.Flags[:0]
	out.Status = NotComputed
	if f := r.check(); f.kind != faultNone {
		s.warmed = false
		out.flag(Fault, f.i, f.j, 0)
		return BadInput
	}
	s.runs++
	s.compile(r)
	sig := signature{len(r.Points), len(s.free), len(s.st), len(r.Slings), len(r.Lines)}
	if warm && s.warmed && sig == s.warmSig {
		for f, p := range s.free {
			s.pos[p] = s.prevPos[f]
		}
		for i := range s.el {
			s.el[i].lb = s.prevLb[i]
		}
		if len(s.swing) > 0 {
			s.geometry(s.eps2)
			s.sweep()
		}
	} else {
		s.warmed = false
	}
	s.warmSig = sig
	if !s.connected(out) {
		s.warmed = false
		return LooseEnd
	}
	return NotComputed
}

// finish turns the state after settle into a result.
func (s *Solver) finish(r *Rig, out *Result, st Status) Status {
	if st != Converged {
		s.warmed = false
		return s.withhold(r, out, st)
	}
	st = s.fill(r, out)
	if !st.HasForces() {
		s.warmed = false
		return s.withhold(r, out, st)
	}
	return st
}

// remember keeps the answer for Warm: the one before any sheave was split, so
// that warm and cold solves take the same way.
func (s *Solver) remember() {
	s.prevPos = s.vectors.grow(s.prevPos, len(s.free))
	for f, p := range s.free {
		s.prevPos[f] = s.pos[p]
	}
	s.prevLb = s.numbers.grow(s.prevLb, len(s.el))
	for i := range s.el {
		s.prevLb[i] = s.el[i].lb
	}
	s.warmed = true
}

// grow gives a slice of length n, keeping storage when it suffices.
func grow[T any](x []T, n int) []T {
	if cap(x) < n {
		return make([]T, n, n+n/2)
	}
	return x[:n]
}

// slab is memory for many lists of one kind.
type slab[T any] []T

// grow is [grow] in memory of the slab.
func (b *slab[T]) grow(x []T, n int) []T {
	if cap(x) >= n {
		return x[:n]
	}
	room := n + n/2
	from := len(*b)
	if cap(*b)-from < room {
		*b, from = make([]T, 0, 6*room), 0
	}
	*b = (*b)[:from+room]
	return (*b)[from : from+n : from+room]
}

// at3 is the vector of free point f in x.
func at3(x []float64, f int) r3.Vector {
	v := x[3*f : 3*f+3]
	return r3.Vector{X: v[0], Y: v[1], Z: v[2]}
}

// put3 makes v the vector of free point f in x.
func put3(x []float64, f int, v r3.Vector) {
	w := x[3*f : 3*f+3]
	w[0], w[1], w[2] = v.X, v.Y, v.Z
}

func nan() float64 { return math.NaN() }

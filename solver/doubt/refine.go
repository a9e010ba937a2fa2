package doubt

import (
	"cmp"
	"math"
	"slices"
)

// How a combination is refined in which hardly a trial agrees with what was observed.
const (
	refineBelow  = 400  // effective trials that agree, below which more are sought
	refineRounds = 8    // at most, after the first
	refinePer    = 1024 // points of a set a round
	refineFewer  = 256  // the same where there are many combinations, or fewer than eliteAgree agree as yet
	eliteAgree   = 50   // trials that agree, above which they alone steer
	eliteNearest = 200  // else the nearest do
	negligible   = 1e-4 // of all that agrees, or of the least for which there is an answer: what is not looked for (ours)
	cloudLeast   = 30   // agreeing trials of one part for a proposal of its own
	priorShare   = 0.2  // of a proposal: no weight exceeds five
)

// gauss is a normal proposal over some of the dimensions, standard normal in the rest.
type gauss struct {
	dims  []int
	mean  []float64
	chol  []float64 // lower triangle, row after row
	logDe float64   // logarithm of its determinant
}

// round is one round of points and what they were drawn from.
type round struct {
	from, to int
	clouds   []gauss // none: the prior
}

// refiner seeks trials that agree: adaptive importance sampling by the cross-entropy
// method (Rubinstein) with a defensive mixture (Hesterberg 1995), all rounds pooled by
// the balance heuristic (Veach and Guibas 1995).
type refiner struct {
	*trier
	c      *stratum
	z      []float64 // points, standard normal, row after row
	miss   []float64
	mix    []float64 // Σ over rounds of points × density over the prior's
	rounds []round
}

// refine draws a combination anew until enough trials agree with all that was
// observed, so few can that they do not count, or the rounds are used up. It is sought in
// small rounds and, but of one of many combinations, measured in a large one. least is how
// likely it must be that a trial of it agrees, to count.
func (t *trier) refine(c *stratum, seed uint64, many bool, least float64) {
	c.trials, t.sparing = nil, t.Slow
	r, per, more := &refiner{trier: t, c: c}, refineFewer, refinePer
	if t.Slow {
		per, more = per/slowRound, more/slowRound
	}
	var clouds []gauss
	for k := range refineRounds + 1 {
		if !r.draw(clouds, per, mix(seed+uint64(k)+1)) {
			return
		}
		near := r.nearest()
		enough := ess(c.trials, agreeing(r.hard)) >= r.refineBelow() && (many || per == more)
		if k == refineRounds || enough || r.reach(near) < least {
			break
		}
		if !many && r.miss[near[eliteAgree-1]] <= 0 {
			per = more
		}
		clouds = r.propose(near)
	}
	r.sortBySet()
}

// refineBelow is how many effective trials must agree.
func (s *setup) refineBelow() float64 { return refineBelow / float64(s.fewer) }

// nearest are the trials that agree, or if those are few the nearest, the nearest first.
func (r *refiner) nearest() []int {
	near := make([]int, 0, len(r.miss))
	for i := range r.miss {
		if r.miss[i] <= 0 {
			near = append(near, i)
		}
	}
	if len(near) >= eliteAgree {
		return near
	}
	near = near[:len(r.miss)]
	for i := range near {
		near[i] = i
	}
	slices.SortFunc(near, func(a, b int) int { return cmp.Or(cmp.Compare(r.miss[a], r.miss[b]), a-b) })
	return near[:eliteNearest]
}

// reach is how likely it is at most, before any fact, that a trial agrees: as likely as
// that one comes as near as the nearest few do, and two standard errors of that.
func (r *refiner) reach(near []int) float64 {
	level := r.miss[near[eliteAgree-1]]
	sum, squares := 0.0, 0.0
	for i, miss := range r.miss {
		if w := r.c.trials[i].weight; miss <= max(level, 0) {
			sum, squares = sum+w, squares+w*w
		}
	}
	return (sum + 2*math.Sqrt(squares)) / float64(len(r.miss))
}

// draw makes a round of points and weighs all there are; false: it was given up.
func (r *refiner) draw(clouds []gauss, per int, seed uint64) bool {
	from := len(r.c.trials)
	r.z, r.c.trials = slices.Grow(r.z, Sets*per*r.dims), slices.Grow(r.c.trials, Sets*per)
	u, g := make([]float64, per*r.row), make([]float64, r.row)
	for set := range Sets {
		points(u, r.row, 0, set, seed)
		for i := range per {
			if r.looks(i) && r.given() {
				return false
			}
			row := u[i*r.row : (i+1)*r.row]
			for d := range g {
				g[d] = Quantile(row[d])
			}
			if k := pick(row[r.dims], len(clouds)); k >= 0 {
				clouds[k].move(g)
			}
			r.z = append(r.z, g[:r.dims]...)
			trial := r.try(r.c.below, g, Dist.OfNormal)
			r.c.trials, r.miss = append(r.c.trials, trial), append(r.miss, r.violation())
		}
	}
	r.rounds = append(r.rounds, round{from, len(r.c.trials), clouds})
	return r.weighAll(from)
}

// pick is which proposal a figure between 0 and 1 chooses; -1: the prior.
func pick(u float64, clouds int) int {
	if clouds == 0 || u < priorShare {
		return -1
	}
	return min(int((u-priorShare)/(1-priorShare)*float64(clouds)), clouds-1)
}

// weighAll sets the weights of all trials, of which those from fresh on are new; false: it
// was given up.
func (r *refiner) weighAll(fresh int) bool {
	last := len(r.rounds) - 1
	n := float64(len(r.c.trials))
	for i := range r.c.trials {
		if i%lookEvery == 0 && r.given() {
			return false
		}
		z := r.z[i*r.dims : (i+1)*r.dims]
		if i < fresh {
			r.mix[i] += r.rounds[last].density(z)
		} else {
			sum := 0.0
			for k := range r.rounds {
				sum += r.rounds[k].density(z)
			}
			r.mix = append(r.mix, sum)
		}
		r.c.trials[i].weight = n / r.mix[i]
	}
	return true
}

// density is the round's count of points times its density over the prior's.
func (q *round) density(z []float64) float64 {
	n := float64(q.to - q.from)
	if len(q.clouds) == 0 {
		return n
	}
	sum := 0.0
	for k := range q.clouds {
		sum += q.clouds[k].over(z)
	}
	return n * (priorShare + (1-priorShare)*sum/float64(len(q.clouds)))
}

// propose makes proposals of the nearest trials: where they agree, one for each part that
// fails first in many of them.
func (r *refiner) propose(near []int) []gauss {
	if r.miss[near[eliteAgree-1]] > 0 {
		return r.clouds(near)
	}
	var out []gauss
	for _, part := range append([]int{-1}, r.byID...) {
		var of []int
		for _, i := range near {
			if r.c.trials[i].First == part {
				of = append(of, i)
			}
		}
		if len(of) >= cloudLeast {
			out = append(out, r.clouds(of)...)
		}
	}
	if out == nil {
		out = r.clouds(near)
	}
	return out
}

// clouds is the proposal that some trials make, none if they say nothing.
func (r *refiner) clouds(elite []int) []gauss {
	sum, squares := 0.0, 0.0
	for _, i := range elite {
		w := r.c.trials[i].weight
		sum, squares = sum+w, squares+w*w
	}
	n := sum * sum / squares
	moment := func(d int) (m, v float64) {
		for _, i := range elite {
			m += r.c.trials[i].weight * r.z[i*r.dims+d] / sum
		}
		for _, i := range elite {
			x := r.z[i*r.dims+d] - m
			v += r.c.trials[i].weight * x * x / sum
		}
		return m, v
	}
	g := gauss{}
	for d := range r.dims {
		m, v := moment(d)
		if math.Abs(m) > 4/math.Sqrt(n) || math.Abs(v-1) > 4*math.Sqrt(2/n) {
			g.dims, g.mean = append(g.dims, d), append(g.mean, m)
		}
	}
	k := len(g.dims)
	cov := make([]float64, k*k)
	for a := range k {
		if r.given() {
			return nil
		}
		for b := range k {
			for _, i := range elite {
				cov[a*k+b] += r.c.trials[i].weight / sum * (r.z[i*r.dims+g.dims[a]] - g.mean[a]) * (r.z[i*r.dims+g.dims[b]] - g.mean[b])
			}
			if a == b {
				cov[a*k+b] = 1.3*cov[a*k+b] + 0.02
			} else {
				cov[a*k+b] *= 1.3 * 0.9
			}
		}
	}
	if k == 0 || !g.factor(cov) {
		return nil
	}
	return []gauss{g}
}

// factor is Cholesky's; false: the matrix is not positive.
func (g *gauss) factor(cov []float64) bool {
	k := len(g.dims)
	g.chol = make([]float64, k*k)
	for i := range k {
		for j := range i + 1 {
			s := cov[i*k+j]
			for l := range j {
				s -= g.chol[i*k+l] * g.chol[j*k+l]
			}
			switch {
			case i != j:
				g.chol[i*k+j] = s / g.chol[j*k+j]
			case s > 0:
				g.chol[i*k+i] = math.Sqrt(s)
				g.logDe += math.Log(s) / 2
			default:
				return false
			}
		}
	}
	return true
}

// move turns a standard normal point into one of the proposal.
func (g *gauss) move(z []float64) {
	k := len(g.dims)
	for i := k - 1; i >= 0; i-- {
		x := g.mean[i]
		for j := range i + 1 {
			x += g.chol[i*k+j] * z[g.dims[j]]
		}
		z[g.dims[i]] = x
	}
}

// over is the density of the proposal at z over the standard normal one.
func (g *gauss) over(z []float64) float64 {
	k, log := len(g.dims), -g.logDe
	var y [MaxDims]float64
	for i := range k {
		x := z[g.dims[i]]
		s := x - g.mean[i]
		for j := range i {
			s -= g.chol[i*k+j] * y[j]
		}
		y[i] = s / g.chol[i*k+i]
		log += (x*x - y[i]*y[i]) / 2
	}
	return math.Exp(log)
}

// sortBySet puts the trials of each set of all rounds together.
func (r *refiner) sortBySet() {
	out := make([]Trial, 0, len(r.c.trials))
	for set := range Sets {
		for _, q := range r.rounds {
			per := (q.to - q.from) / Sets
			out = append(out, r.c.trials[q.from+set*per:q.from+(set+1)*per]...)
		}
	}
	r.c.trials = out
}

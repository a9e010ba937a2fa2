package doubt

import (
	"cmp"
	"math"
)

// course is a trial of an incident whose pull is followed: the rig at each place of the
// way, up to where the winch stalls or the way ends. At the first place the tension rises
// from nothing, as in a pull at one place. From each place to the next loads go in a
// straight line, and the first part whose load reaches its strength on the way is the
// first to fail. A jerk comes once, anywhere up to the end alike, and raises all loads
// there at one stroke.
type course struct {
	wayM       []float64
	parts      []Part
	strength   []float64 // of each part, N
	rig        func(p *Pull)
	at         []Pull // the rig at each place
	used       [][]float64
	asked      int       // places that were asked in this trial
	stalls     bool      // at the last of them
	peak       []float64 // of each part: the most that its load came to, over its strength
	jerkFailed bool      // a part failed at the jerk
	pull       Pull      // the rig where a part failed, or where the pull was over; see [course.end]
}

// newCourse is a way of a pull. There may be more strengths than parts.
func newCourse(wayM []float64, parts []Part, strength []float64, ways []int) *course {
	n := len(parts)
	c := &course{wayM: wayM, parts: parts, strength: strength[:n], peak: make([]float64, n), pull: newPull(n)}
	for k := range wayM {
		c.at, c.used = append(c.at, newPull(n)), append(c.used, make([]float64, n))
		c.at[k].Place = k
	}
	c.pull.ways = ways
	return c
}

// begin begins a trial, of a rig that is asked as far as it must be.
func (c *course) begin(rig func(p *Pull)) { c.rig, c.asked, c.stalls = rig, 0, false }

// comes reports whether the pull comes to a place if nothing fails: it does not stall
// before that.
func (c *course) comes(to int) bool {
	for c.asked <= to && c.asked < len(c.at) && !c.stalls {
		p, used := &c.at[c.asked], c.used[c.asked]
		c.rig(p)
		for i := range used {
			used[i] = p.EndN * p.Factors[i] / c.strength[i]
		}
		c.asked, c.stalls = c.asked+1, !(p.EndN < p.StallN)
	}
	return to < c.asked
}

// follow finds which part fails first and where along the way, m; -1: none does, and where
// the pull is over. jerked is by how much a jerk raises the tension, 1: there is none, and
// share where it comes, of the way that the pull goes.
func (c *course) follow(jerked, share float64) (first int, atM float64) {
	jerkM := c.wayM[0]
	if share > 0 { // only a jerk asks how far the pull would go
		c.comes(len(c.at) - 1)
		jerkM += share * (c.wayM[c.asked-1] - jerkM)
	}
	c.comes(0)
	fill(c.peak, 0)
	c.come(1, 0)
	if jerkM <= c.wayM[0] {
		c.pull.EndN *= jerked
	}
	first, atM = c.most(), c.wayM[0]
	c.jerkFailed = first >= 0 && jerked > 1 && jerkM <= atM
	for k := 1; first < 0 && c.comes(k); k++ {
		from, long := c.wayM[k-1], c.wayM[k]-c.wayM[k-1]
		next, reached := c.crossing(k)
		if at := (jerkM - from) / long; at > 0 && at <= reached && jerked > 1 {
			c.come(k, at)
			c.pull.EndN *= jerked
			first, atM = c.most(), jerkM
			c.jerkFailed = first >= 0
		}
		if first < 0 {
			c.come(k, reached)
			c.most()
			first, atM = next, from+reached*long
		}
	}
	c.end(first)
	return first, atM
}

// crossing is the part that reaches its strength first on the way to the k-th place, and
// at which share of it; -1 and 1: none does.
func (c *course) crossing(k int) (first int, share float64) {
	first, share = -1, 1
	for i, now := range c.used[k] {
		if now < 1 || c.parts[i].Yields {
			continue
		}
		if at := max(0, (1-c.used[k-1][i])/(now-c.used[k-1][i])); first < 0 || at < share {
			first, share = i, at
		}
	}
	return first, share
}

// come has the pull come to a share of the way to the k-th place.
func (c *course) come(k int, share float64) {
	p, a, b := &c.pull, &c.at[k-1], &c.at[k-1]
	if share > 0 {
		b = &c.at[k]
	}
	between := func(x, y float64) float64 { return x + share*(y-x) }
	p.Layer = a.Layer
	if share > 0.5 {
		p.Layer = b.Layer
	}
	p.EndN, p.StallN, p.JPerN2 = between(a.EndN, b.EndN), between(a.StallN, b.StallN), between(a.JPerN2, b.JPerN2)
	for i := range p.Factors {
		p.Factors[i] = between(a.EndN*a.Factors[i], b.EndN*b.Factors[i]) / p.EndN
		p.Left[i], p.Real[i] = a.Left[i], between(a.Real[i], b.Real[i])
	}
}

// most notes how far each part is loaded where the pull has come to. Of those that are
// loaded to their strength there it is the part that is so the most, which reached it first
// if the tension rose at one stroke; -1: none is.
func (c *course) most() (first int) {
	first = -1
	for i := range c.peak {
		used := c.pull.EndN * c.pull.Factors[i] / c.strength[i]
		if c.peak[i] = max(c.peak[i], used); used >= 1 && !c.parts[i].Yields && (first < 0 || used > c.peak[first]) {
			first = i
		}
	}
	return first
}

// end settles what facts are asked of. Each part has the tension at which it would have
// failed where it came nearest to that, for the tension at which the pull is over: a part
// that failed, or slid, has no more than that. What an earlier pull held is asked of the
// rig as that began, at the first place.
func (c *course) end(first int) {
	p := &c.pull
	for i, peak := range c.peak {
		p.worstN[i] = p.EndN / peak // none if it is never loaded: +Inf
	}
	p.least(c.parts)
	if first >= 0 {
		p.first, p.EndN = first, max(p.EndN, p.worstN[first])
	}
	began := &c.at[0]
	p.BeforeN = cmp.Or(began.BeforeN, began.StallN)
	p.heldN = math.Inf(1)
	for i, f := range began.Factors {
		if f > 0 && !c.parts[i].Yields {
			p.heldN = min(p.heldN, c.strength[i]/f/began.Left[i])
		}
	}
}

package travel

import "github.com/golang/geo/r3"

// drift is the way of a body that nothing guides.
type drift struct {
	on    func(p *stance) bool // finds how it moves on from where it stands, from how it came; false: it stops there
	nodes []stance             // by freeStepM; the first is the start
}

// freeStepM, metres of way, is the step of the free motion; shorter last steps reach
// the places between (Runge and Kutta's fourth order).
const freeStepM = 0.25

// at is where the body stands after sM of its way, and how it moves on; false if it
// stops before.
func (d *drift) at(sM float64) (stance, bool) {
	k := int(sM / freeStepM)
	for len(d.nodes) <= k {
		next, ok := d.step(d.nodes[len(d.nodes)-1], freeStepM)
		if !ok {
			return stance{}, false
		}
		d.nodes = append(d.nodes, next)
	}
	p := d.nodes[k]
	if h := sM - float64(k)*freeStepM; h > 0 {
		next, ok := d.step(p, h)
		if !ok {
			return stance{}, false
		}
		p = next
	}
	return p, d.on(&p)
}

// step moves the body on by h metres of way.
func (d *drift) step(p stance, h float64) (stance, bool) {
	var way r3.Vector
	turn := 0.0
	q := p
	for i, share := range [...]float64{0, 0.5, 0.5, 1} {
		if i > 0 {
			q = stance{sM: p.sM + share*h, ref: p.ref.Add(q.way.Mul(share * h)), turnRad: p.turnRad + q.turnPerM*share*h, way: q.way, turnPerM: q.turnPerM}
		}
		if !d.on(&q) {
			return stance{}, false
		}
		weight := [...]float64{1, 2, 2, 1}[i] / 6
		way = way.Add(q.way.Mul(weight))
		turn += q.turnPerM * weight
	}
	return stance{sM: p.sM + h, ref: p.ref.Add(way.Mul(h)), turnRad: p.turnRad + turn*h, way: q.way, turnPerM: q.turnPerM}, true
}

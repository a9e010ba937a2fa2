package solver

import (
	"math"
	"slices"

	"kedge/solver/part"
	"kedge/solver/plan"
)

// came tells how a load at one of the pulls came about, for the sum of its
// part: a formula and what goes into it.
type came func(b *balances, l part.Load) (formula string, ops []part.Operand)

// stated is a load that the balance of the rig gave and no formula shows.
func stated(formula string) came {
	return func(*balances, part.Load) (string, []part.Operand) { return formula, nil }
}

// cameSlack is the share by which what lines give together may differ from the
// load it stands for: the noise of sines and roots. (ours)
const cameSlack = 1e-9

// gives tells that a force is that load.
func gives(n float64, l part.Load) bool {
	return l.Known && math.Abs(n-float64(l.Force)) <= cameSlack*n
}

func forceOperand(name string, n float64) part.Operand {
	return part.Operand{Value: part.Value{Name: name, Unit: part.UnitForce, X: n}}
}

// alongLine is the tension of a stretch out of that at the line's hauling end,
// and the share of it that arrives past the blocks between them; otherwise the
// load is only stated.
func alongLine(formula string, line, stretch int, times float64) came {
	return func(b *balances, l part.Load) (string, []part.Operand) {
		for _, r := range b {
			if r.isNone() || line < 0 || stretch >= len(r.Lines[line].Stretches) {
				continue
			}
			if ops := lineCame(r, line, stretch, times, l); ops != nil {
				return "load-of-line", ops
			}
		}
		return formula, nil
	}
}

// lineCame are the operands of a load of one stretch, nil if it is not that.
func lineCame(r *solution, line, stretch int, times float64, l part.Load) []part.Operand {
	end, here := r.tension(line)*times, r.Lines[line].Stretches[stretch].TensionN*r.times*times
	if !(end > 0) || !gives(here, l) {
		return nil
	}
	return []part.Operand{forceOperand("tension", end), {Value: part.Value{Name: "passed", Unit: part.UnitNone, X: here / end}}}
}

// onPoint is the load of the one or two stretches that end at a point, of the
// first point at which they give it; otherwise the load is only stated.
func (a *assessor) onPoint(formula string, nodes func() []int) came {
	return func(b *balances, l part.Load) (string, []part.Operand) {
		for _, node := range nodes() {
			for _, r := range b {
				if node < 0 || r.isNone() {
					continue
				}
				times := a.timesOf(lies(node)).planned // those at stall are in no sum
				if from, ops := pointCame(r, node, times, l); ops != nil {
					return from, ops
				}
			}
		}
		return formula, nil
	}
}

// pointCame are the formula and the operands of a load of the stretches at a
// point, nil if it is not that.
func pointCame(r *solution, node int, times float64, l part.Load) (string, []part.Operand) {
	var on []part.Vec
	var line, stretch int
	for i := range r.Lines {
		for k, st := range r.Lines[i].Stretches {
			pull := part.Vec(st.Dir).Scale(st.TensionN * r.times * times)
			if st.A == node {
				on, line, stretch = append(on, pull), i, k
			}
			if st.B == node {
				on, line, stretch = append(on, pull.Scale(-1)), i, k
			}
		}
	}
	switch {
	case len(on) == 1:
		return "load-of-line", lineCame(r, line, stretch, times, l)
	case len(on) == 2 && gives(on[0].Add(on[1]).Len(), l):
		between := part.Value{Name: "between", Unit: part.UnitAngle, X: float64(on[0].Angle(on[1]))}
		return "load-of-lines", []part.Operand{forceOperand("one", on[0].Len()), forceOperand("two", on[1].Len()), {Value: between}}
	}
	return "", nil
}

// pointsNear are the points of the ports of the site that match, and the other
// ends of the slings there.
func (a *assessor) pointsNear(match func(plan.Port) bool) func() []int {
	return func() (nodes []int) {
		for n, on := range a.g.on {
			if !on.IsZero() && match(on) {
				nodes = append(nodes, n)
			}
		}
		for i := range a.g.slings {
			if rs := &a.g.slings[i]; slices.Contains(nodes, rs.from) {
				nodes = append(nodes, rs.to)
			}
		}
		return nodes
	}
}

// pointsJoined are the point of a shackle and those of the slings and blocks it
// joins.
func (a *assessor) pointsJoined(k *plan.Shackle, node int) func() []int {
	return func() []int {
		nodes := []int{node}
		for _, j := range k.Joins {
			for i := range a.g.blocks {
				if rb := &a.g.blocks[i]; rb.block.ID == j.Thing {
					nodes = append(nodes, rb.node)
				}
			}
			for i := range a.g.slings {
				if rs := &a.g.slings[i]; rs.sling.ID == j.Thing {
					nodes = append(nodes, rs.to, rs.from)
				}
			}
		}
		return nodes
	}
}

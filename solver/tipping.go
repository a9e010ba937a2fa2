package solver

import (
	"github.com/golang/geo/r3"

	"kedge/solver/effort"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// tips weighs a vehicle against tipping over its left or right wheels, by
// whichever end of friction brings it nearer.
func (a *rating) tips(v *plan.Vehicle, sunk bool) (res effort.TipResult) {
	if a.refused || a.solved.status != part.Within {
		return res
	}
	in := effort.TipIn{
		Vehicle: a.conservative.vehicle(v), Lacks: a.slopeLacks(), HeightLacks: a.heightLacks(v), Sunk: sunk, Anchor: v != a.g.casualty && !a.winches(v.ID),
		FallLeftDeg: -float64(a.g.ground.Lateral(v.Bearing)), FallAheadDeg: float64(a.g.ground.Fall(v.Bearing)),
	}
	s := &a.solved
	set := func(e int) effort.TipIn {
		in := in
		at := func(r *solution) []effort.Pull { return a.sidewaysPulls(r, v, len(in.HeightLacks) > 0) }
		in.Move, in.Loosen, in.Stall = at(s.move[e]), at(s.loosen[e]), at(s.stall[e])
		return in
	}
	worst := set(0)
	if !s.move[1].isNone() || !s.stall[1].isNone() {
		slick := set(1)
		x, y := effort.Tipping(worst, nil, nil), effort.Tipping(slick, nil, nil)
		if y.Known && max(y.Share, y.Loosen, y.Stall) > max(x.Share, x.Loosen, x.Stall) {
			worst = slick
		}
	}
	return effort.Tipping(worst, a.derivationOf(string(v.ID)+"/tip"), a.found())
}

// sidewaysPulls is every force on a vehicle at a balance, where it acts; unknown
// tells that the height of one is.
func (a *rating) sidewaysPulls(r *solution, v *plan.Vehicle, unknown bool) (ps []effort.Pull) {
	if r.isNone() {
		return nil
	}
	w := a.work
	if w.sideways == nil {
		w.sideways = make([]effort.Pull, 0, 8)
	}
	from := len(w.sideways)
	a.pullsAt(r, v, func(at, force r3.Vector) {
		w.sideways = append(w.sideways, effort.Pull{Force: force, LeftM: at.Y, HeightM: at.Z, HeightUnknown: unknown && at.Z <= onGroundM})
	})
	return w.sideways[from:len(w.sideways):len(w.sideways)]
}

// onGroundM, metres, is how high a hook-on point without a height is drawn.
const onGroundM = 1e-3

// tipPart is a vehicle pulled across, against tipping over: its load is the side
// force, its limit the side force that brings the share to its warning.
func (a *rating) tipPart(v *plan.Vehicle, t effort.TipResult) {
	if !t.Known || !t.Sided || !(max(t.Share, t.Loosen, t.Stall) > tipShown) || effort.Unbounded(t.Limit) {
		return
	}
	load := func(known bool, f quantity.Force) part.Load { return part.Load{Known: known, Force: f} }
	s := &a.solved
	b := pulls{load(!s.move.isNone(), t.Side), load(!s.loosen.isNone(), t.SideLoosen), load(!s.stall.isNone(), t.SideStall)}
	c := part.Capacity{
		Limit: part.Limit{Known: t.Limit > 0, Force: max(0, t.Limit), Basis: "vehicle tips", Confidence: part.ConfidenceOurs, Preset: t.Preset},
		Note:  "tips",
	}
	if !c.Limit.Known {
		c.Limit.Basis = "past the share without any line"
	}
	if t.Ultimate > 0 && !effort.Unbounded(t.Ultimate) {
		c.Ultimate = part.Range{Known: true, Low: t.Ultimate, Likely: t.Ultimate, High: t.Ultimate}
	}
	a.add(&part.Part{ID: a.joined(v.ID, "tip"), Kind: part.KindTip, Thing: v.ID}, b, c)
}

// tipsAt is the winch line tension at which a vehicle tips, lines growing alike.
func (a *rating) tipsAt(t effort.TipResult) part.Range {
	tension := float64(a.out.Move.Tension)
	side := t.Side
	if !(side > 0) {
		tension, side = float64(a.out.Stall.Tension), t.SideStall
	}
	if !t.Known || !t.Sided || !(side > 0) || !(tension > 0) || effort.Unbounded(t.Ultimate/side*quantity.Force(tension)) {
		return part.Range{}
	}
	x := quantity.Force(max(0, float64(t.Ultimate/side)*tension))
	return part.Range{Known: true, Low: x, Likely: x, High: x}
}

// tipShown is the share of the righting moment from which tipping is a part of
// its own. (ours)
const tipShown = 0.1

package travel

import (
	"math"

	"kedge/solver"
	"kedge/solver/facts"
	"kedge/solver/gear"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Haul is what one winch hauls over the whole pull, at the pull that moves the
// casualty. The zero value is not computed.
type Haul struct {
	Known   bool
	Vehicle plan.ID
	Line    quantity.Length   // taken in
	Time    quantity.Duration // hauling, without rests
	Rests   int               // pauses that an electric motor needs on the way; 0 of any other
	Preset  bool              // speed or current rests on the handbook's typical winch
}

// Hauls are what the winches of the pull haul as far as it was followed, in the order
// of their lines: the sum over the moments of the line taken in at the speed that
// the winch has there. A winch asked for more than it is rated for has none.
func (a *Answer) Hauls(p *plan.Plan, rig plan.ID) []Haul {
	r, ok := p.Rig(rig)
	if !ok || !(a.EndM > 0) {
		return nil
	}
	var out []Haul
	for i := range r.Lines {
		l := &r.Lines[i]
		if l.Use != plan.UsePull || len(l.Path) == 0 || l.Path[0].Point != plan.PortWinch {
			continue
		}
		if v, ok := p.Vehicle(l.Path[0].Thing); ok && v.Winch != nil {
			out = append(out, a.haul(v, l))
		}
	}
	return out
}

// haul is that of one winch and its line.
func (a *Answer) haul(v *plan.Vehicle, l *plan.Line) Haul {
	h := Haul{Known: true, Vehicle: v.ID}
	winch := plan.Port{Thing: v.ID, Point: plan.PortWinch}.String()
	heat := 0.0 // seconds at rated pull that heat the motor as much
	for k := 1; k < len(a.Moments); k++ {
		from, to := lineAt(a.Moments[k-1], l.ID), lineAt(a.Moments[k], l.ID)
		in := from.Out - to.Out
		pull, ok := a.Moments[k-1].Part(winch)
		if !ok || !pull.Move.Known || !(in > 0) {
			continue
		}
		run := gear.Running(gear.RunIn{Vehicle: v.ID, Winch: v.Winch, Line: l, Layer: from.Layer, Tension: pull.Move.Force, Haul: in}, nil, nil)
		if !run.Known {
			return Haul{Vehicle: v.ID}
		}
		h.Line, h.Time, h.Preset = h.Line+in, h.Time+run.Time, h.Preset || run.FromPreset
		if pull.Limit.Known && run.Electric {
			share := float64(pull.Move.Force / pull.Limit.Force)
			heat += float64(run.Time) * share * share
		}
	}
	if most := facts.WinchDuty.Conservative().X; heat > most {
		h.Rests = int(math.Ceil(heat/most)) - 1
	}
	h.Known = h.Line > 0
	return h
}

// lineAt is how much of a line is out at a moment.
func lineAt(m solver.Moment, line plan.ID) solver.LineUse {
	for _, l := range m.Lines {
		if l.Line == line {
			return l
		}
	}
	return solver.LineUse{}
}

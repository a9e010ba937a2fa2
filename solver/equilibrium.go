package solver

import (
	"math"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/statics"
)

// solved is the equilibrium of one rig at its two pulls.
type solved struct {
	at          [2]statics.Result // room for the two
	unit        *solution         // any balance there is, for directions and places
	move, stall *solution         // at the pull that moves the casualty, and at stall
	status      part.Status
	why         string // id of the finding that says why not
}

// equilibrium solves a rigging: at the pull that gives plannedN along the way
// out (0: not known) and at the pull where the first winch stalls (stallN by
// line; nil entries 0: not known). Every failure leaves a finding.
func (a *assessor) equilibrium(plannedN float64, stallN []float64) {
	g, s := a.g, &a.solved
	if len(g.rig.Lines) == 0 {
		s.status, s.why = part.NotComputed, "nothing-pulls"
		return
	}
	var solver statics.Solver
	if plannedN > 0 && g.casualty != nil && g.touches(g.casualty.ID) {
		st := solver.RequiredPull(&g.rig, 0, plannedN, &s.at[0])
		switch {
		case st.HasForces():
			s.move = &solution{&s.at[0], true, 1}
			s.unit = s.move
		case st == statics.NoPull:
			a.find(part.Finding{ID: "no-pull-along-way-out", Level: part.Danger, Things: a.things(g.casualty.ID)})
		default:
			a.statusFinding(st, &s.at[0])
			return
		}
	}
	if s.unit == nil {
		if st := solver.Solve(&g.rig, &s.at[0]); !st.HasForces() {
			a.statusFinding(st, &s.at[0])
			return
		}
		s.unit = &solution{&s.at[0], true, 1}
	}
	a.atStall(&solver, stallN)
	s.status = part.Within
}

// atStall balances the rig where the first winch stalls. Without stretch,
// weights and given tensions every force goes with the drums, so that the
// balance at hand only has to be scaled.
func (a *assessor) atStall(solver *statics.Solver, stallN []float64) {
	g, s := a.g, &a.solved
	scale, ok := a.stallScale(stallN)
	if !ok {
		return
	}
	if g.homogeneous() {
		for _, rl := range g.lines {
			if rl.index >= 0 && rl.winch != nil {
				now := s.unit.Lines[rl.index].TensionN
				if times := scale * g.rig.Lines[rl.index].TensionN / now; times <= mostTimes {
					s.stall = &solution{s.unit.Result, true, times}
				}
				return
			}
		}
		return
	}
	a.scaleDrums(scale)
	if solver.Warm(&g.rig, &s.at[1]).HasForces() {
		s.stall = &solution{&s.at[1], true, 1}
	}
	a.scaleDrums(1 / scale)
}

// mostTimes is the factor on a balance beyond which it is not scaled: a pull so
// small has no digits left to tell of another. (ours)
const mostTimes = 1e9

// homogeneous tells that all forces of the rig go with its drum tensions.
func (g *rigging) homogeneous() bool {
	for i := range g.rig.Lines {
		if l := &g.rig.Lines[i]; l.Steady || l.ComplianceMPerN > 0 {
			return false
		}
	}
	for i := range g.rig.Slings {
		if k := g.rig.Slings[i].StiffnessNPerM; k > 0 && !math.IsInf(k, 1) {
			return false
		}
	}
	return len(g.rig.Loads) == 0
}

// stallScale is the factor on the drums' stated shares at which the first
// winch stalls.
func (a *assessor) stallScale(stallN []float64) (float64, bool) {
	scale, ok := 0.0, false
	for i, rl := range a.g.lines {
		if rl.index < 0 || rl.winch == nil || stallN[i] <= 0 {
			continue
		}
		sl := &a.g.rig.Lines[rl.index]
		if sl.Steady {
			continue
		}
		if f := stallN[i] / sl.TensionN; !ok || f < scale {
			scale, ok = f, true
		}
	}
	return scale, ok
}

func (a *assessor) scaleDrums(f float64) {
	for i := range a.g.rig.Lines {
		if l := &a.g.rig.Lines[i]; l.Drum && !l.Steady {
			l.TensionN *= f
		}
	}
}

// statusFinding turns a failed solve into findings with the names of the
// things at fault, and tells whether there are forces.
func (a *assessor) statusFinding(st statics.Status, r *statics.Result) bool {
	if st.HasForces() {
		return true
	}
	s := &a.solved
	s.status = part.Refused
	id := map[statics.Status]string{
		statics.TwoBlocked: "blocks-touch", statics.Infeasible: "too-short", statics.LooseEnd: "loose-end",
		statics.Runaway: "runs-away",
	}[st]
	if id == "" {
		id = "not-solved"
	}
	s.why = id
	found := false
	for _, f := range r.Flags {
		fd := part.Finding{ID: id, Level: part.Danger}
		switch f.Kind {
		case statics.BlocksTouch:
			fd.Things = a.things(a.thingAt(f.A), a.thingAt(f.B))
		case statics.ShortSling:
			fd.Things = a.things(a.slingAt(f.A))
			fd.Values = []part.Value{{Name: "missing", Unit: part.UnitLength, X: f.Value}}
		case statics.ShortLine:
			fd.Things = a.things(a.lineAt(f.A))
			fd.Values = []part.Value{{Name: "missing", Unit: part.UnitLength, X: f.Value}}
		case statics.LoosePoint, statics.RunawayPoint:
			fd.Things = a.things(a.thingAt(f.A))
		default:
			continue
		}
		found = true
		a.find(fd)
	}
	if !found {
		a.find(part.Finding{ID: id, Level: part.Danger, Things: a.things(a.g.r.ID)})
	}
	return false
}

// flags raises what a solve that did give forces still has to say.
func (a *assessor) flags(r *statics.Result) {
	for _, f := range r.Flags {
		switch f.Kind {
		case statics.SlackSling:
			a.find(part.Finding{ID: "slack-sling", Level: part.Caution, Things: a.things(a.slingAt(f.A))})
		case statics.SlackLine:
			a.find(part.Finding{ID: "slack-line", Level: part.Caution, Things: a.things(a.lineAt(f.A))})
		case statics.SharedSlings:
			a.find(part.Finding{ID: "shared-slings", Level: part.Caution, Things: a.things(a.slingAt(f.A), a.slingAt(f.B))})
		case statics.PullsBackwards:
			a.find(part.Finding{ID: "pulls-backwards", Level: part.Warning, Things: a.things(a.lineAt(f.A))})
		case statics.UndeterminedSheave, statics.UnsettledSheave:
			l := a.g.r.Lines[a.lineIndex(f.A)]
			a.find(part.Finding{ID: "sheave-undetermined", Level: part.Caution, Things: a.things(l.Path[f.B+1].Thing)})
		}
	}
	for li := range r.Lines {
		l := &a.g.r.Lines[a.lineIndex(li)]
		for vi, v := range r.Lines[li].Visits {
			if v.Motion == statics.Pay && v.Determined {
				a.find(part.Finding{ID: "reversed-sheave", Level: part.Caution, Things: a.things(l.Path[vi+1].Thing, l.ID)})
			}
		}
	}
}

// lineIndex is the index in the rig's lines of line i of the statics.
func (a *assessor) lineIndex(i int) int {
	for k := range a.g.lines {
		if a.g.lines[k].index == i {
			return k
		}
	}
	return 0
}

func (a *assessor) lineAt(i int) plan.ID {
	if i < 0 || i >= len(a.g.rig.Lines) {
		return a.g.r.ID
	}
	return a.g.r.Lines[a.lineIndex(i)].ID
}

func (a *assessor) slingAt(i int) plan.ID {
	for k := range a.g.slings {
		if a.g.slings[k].index == i {
			return a.g.slings[k].sling.ID
		}
	}
	return a.g.r.ID
}

// thingAt is the thing a point of the statics belongs to: a block first, then
// whatever port it was made for.
func (a *assessor) thingAt(node int) plan.ID {
	for i := range a.g.blocks {
		if a.g.blocks[i].node == node {
			return a.g.blocks[i].block.ID
		}
	}
	var best plan.ID
	for port, n := range a.g.nodeOf {
		if n == node && (best == "" || port.Thing < best) {
			best = port.Thing
		}
	}
	if best == "" {
		return a.g.r.ID
	}
	return best
}

// room is how many ids, values or names are made at a time for findings: one
// allocation for a whole rig's instead of one for each.
const room = 96

// things is a list of ids, without the empty ones, in the assessment's own
// memory.
func (a *assessor) things(ids ...plan.ID) []plan.ID {
	if cap(a.ids)-len(a.ids) < len(ids) {
		a.ids = make([]plan.ID, 0, max(room, len(ids)))
	}
	from := len(a.ids)
	for _, id := range ids {
		if id != "" {
			a.ids = append(a.ids, id)
		}
	}
	return a.ids[from:len(a.ids):len(a.ids)]
}

// given is a list of values, in the assessment's own memory.
func (a *assessor) given(values ...part.Value) []part.Value {
	if cap(a.values)-len(a.values) < len(values) {
		a.values = make([]part.Value, 0, max(2*room, len(values)))
	}
	from := len(a.values)
	a.values = append(a.values, values...)
	return a.values[from:len(a.values):len(a.values)]
}

// named is a list of one part, in the assessment's own memory.
func (a *assessor) named(id string) []string {
	if cap(a.names) == len(a.names) {
		a.names = make([]string, 0, room)
	}
	from := len(a.names)
	a.names = append(a.names, id)
	return a.names[from:len(a.names):len(a.names)]
}

package solver

import (
	"math"

	"github.com/golang/geo/r3"

	"kedge/solver/effort"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/statics"
)

// solved is the equilibrium of one rig at its three pulls.
type solved struct {
	unit                *solution // any balance there is, for directions and places
	move, loosen, stall balances
	status              part.Status
	why                 string // id of the finding that says why not
}

// balances are the equilibria of a rig at one pull: with the high end of every
// friction, which is what the pull takes, and with the low end, which leaves
// more for what lies behind a sheave, ring or trunk. The second is nil where no
// friction has two ends.
type balances [2]*solution

// main is the balance that figures of the whole rig are told of.
func (b *balances) main() *solution { return b[0] }

func (b *balances) isNone() bool { return b[0].isNone() }

// scaledBy is both balances with every force times a factor.
func (w *workspace) scaledBy(b balances, f float64) (out balances) {
	for e, s := range b {
		if s != nil {
			out[e] = w.solution(s.Result, s.times*f)
		}
	}
	return out
}

// equilibrium solves a rigging at the pull that gives plannedN along the way out
// and at the one that gives loosenN (0: not known), and where each winch stalls.
// Winches whose tensions are all typed pull with what they were measured to
// pull. Every failure leaves a finding.
func (a *solving) equilibrium(plannedN, loosenN float64) {
	g, s := a.g, &a.solved
	if len(g.rig.Lines) == 0 {
		s.status, s.why = part.NotComputed, "nothing-pulls"
		return
	}
	pulled := g.casualty != nil && g.touches(g.casualty.ID)
	switch {
	case pulled && plannedN > 0 && g.allTyped():
		if !a.balance(&s.move, (*statics.Solver).Solve) {
			return
		}
		s.unit, loosenN = s.move.main(), 0
	case pulled && plannedN > 0:
		if !a.require(plannedN, &s.move) {
			return
		}
		s.unit = s.move.main()
	}
	if s.unit == nil {
		if !a.balance(&s.move, (*statics.Solver).Solve) {
			return
		}
		s.unit, s.move = s.move.main(), balances{}
	}
	switch {
	case s.move.isNone():
	case !(loosenN > plannedN):
		s.loosen = s.move
	case g.homogeneous():
		s.loosen = a.work.scaledBy(s.move, loosenN/plannedN)
	case !a.require(loosenN, &s.loosen):
		return
	}
	if !a.atStall() {
		return
	}
	s.status = part.Within
}

// workspace is what the equilibrium is found in: used again when a rig is asked
// again.
type workspace struct {
	solver  statics.Solver
	keeping *[2]statics.Solver // of a rig that is asked again, for each end of friction; nil: none
	results [6]*statics.Result // made when they are needed
	times   [12]solution
	taken   int // of results
	scaled  int // of times
	rig     statics.Rig
	turned  []statics.Line // with a sheave begun the other way
	other   statics.Result // of these

	ends     []effort.LineEnd // forces on vehicles, one balance after another
	sideways []effort.Pull

	untouched untouched
	legs      []*riggedSling // that meet at points, one point after another
	onThings  []r3.Vector    // what a balance puts on each thing of the site
}

// room is a result that nobody uses yet.
func (w *workspace) room() *statics.Result {
	r := &w.results[w.taken]
	if w.taken++; *r == nil {
		*r = &statics.Result{}
	}
	return *r
}

// solution is a result with every force times a factor.
func (w *workspace) solution(r *statics.Result, times float64) *solution {
	w.scaled++
	s := &w.times[w.scaled-1]
	*s = solution{r, true, times}
	return s
}

// balance solves the rig with each end of friction. False: it has no forces,
// and a finding says why.
func (a *solving) balance(b *balances, solve func(*statics.Solver, *statics.Rig, *statics.Result) statics.Status) bool {
	rig := &a.work.rig
	*rig = a.g.rig
	for e, lines := range [2][]statics.Line{rig.Lines, a.g.slick} {
		if lines == nil {
			continue
		}
		rig.Lines = lines
		r := a.work.room()
		by := &a.work.solver
		if a.work.keeping != nil {
			by = &a.work.keeping[e]
		}
		switch st := solve(by, rig, r); {
		case st.HasForces():
			b[e] = a.work.solution(r, 1)
		case st == statics.NoPull:
			if e == 0 {
				a.find(part.Finding{ID: "no-pull-along-way-out", Level: part.Danger, Things: a.things(a.g.casualty.ID)})
			}
			return true
		default:
			a.statusFinding(st, r)
			return false
		}
	}
	return true
}

// require solves for the pull that gives a force along the way out.
func (a *solving) require(alongN float64, b *balances) bool {
	return a.balance(b, func(s *statics.Solver, g *statics.Rig, r *statics.Result) statics.Status {
		return s.RequiredPull(g, 0, alongN, r)
	})
}

// atStall balances the rig where every winch stalls: each chain may see its own
// winch's, whatever the others give. With one winch, and without stretch,
// weights and given tensions, every force goes with the drum, so that the
// balance at hand only has to be scaled.
func (a *solving) atStall() bool {
	g, s, stallN := a.g, &a.solved, a.stallN
	winches, known := 0, 0.0
	for i := range g.lines {
		rl := &g.lines[i]
		if rl.index < 0 || rl.winch == nil {
			continue
		}
		winches++
		if stallN[i] > 0 {
			known = max(known, stallN[i]/g.shareOf(rl.line, rl.winch))
		}
	}
	if winches == 0 || !(known > 0) {
		return true
	}
	if winches == 1 && g.homogeneous() {
		for i := range g.lines {
			rl := &g.lines[i]
			if rl.index < 0 || rl.winch == nil {
				continue
			}
			from := s.move
			if from.isNone() {
				from = balances{s.unit}
				if g.slick != nil && !a.balance(&from, (*statics.Solver).Solve) {
					return false
				}
			}
			for e, b := range from {
				if b == nil {
					continue
				}
				if times := b.times * stallN[i] / b.tension(rl.index); times <= mostTimes {
					s.stall[e] = a.work.solution(b.Result, times)
				}
			}
			return true
		}
	}
	for _, lines := range [2][]statics.Line{g.rig.Lines, g.slick} {
		for i := range g.lines {
			rl := &g.lines[i]
			if lines == nil || rl.index < 0 || rl.winch == nil {
				continue
			}
			t := stallN[i]
			if !(t > 0) { // nobody knows what it gives: its share of what the others do
				t = known * g.shareOf(rl.line, rl.winch)
			}
			lines[rl.index].TensionN, lines[rl.index].Steady = t, true
		}
	}
	return a.balance(&s.stall, (*statics.Solver).Solve)
}

// mostTimes is the factor on a balance beyond which it is not scaled: a pull so
// small has no digits left to tell of another. (ours)
const mostTimes = 1e9

// allTyped reports whether no winch line is left to find a tension for.
func (g *rigging) allTyped() bool {
	for i := range g.lines {
		if rl := &g.lines[i]; rl.index >= 0 && rl.winch != nil && !(rl.line.Fixed > 0) {
			return false
		}
	}
	return true
}

// homogeneous reports whether all forces of the rig go with its drum tensions.
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

// statusFinding turns a failed solve into findings with the names of the
// things at fault, and tells whether there are forces.
func (a *solving) statusFinding(st statics.Status, r *statics.Result) bool {
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
			fd.Values = []part.Value{part.Length("missing", f.Value)}
		case statics.ShortLine:
			fd.Things = a.things(a.lineAt(f.A))
			fd.Values = []part.Value{part.Length("missing", f.Value)}
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
func (a *solving) flags(r *statics.Result) {
	for _, f := range r.Flags {
		switch f.Kind {
		case statics.SlackSling:
			if a.slingTakesUp(f.A) || a.unknownBy(&part.Part{Thing: a.slingAt(f.A)}) {
				continue // said already, and it counts; or a restraint loads it
			}
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
func (a *solving) lineIndex(i int) int {
	for k := range a.g.lines {
		if a.g.lines[k].index == i {
			return k
		}
	}
	return 0
}

func (a *solving) lineAt(i int) plan.ID {
	if i < 0 || i >= len(a.g.rig.Lines) {
		return a.g.r.ID
	}
	return a.g.r.Lines[a.lineIndex(i)].ID
}

// slingTakesUp reports whether sling i of the statics is counted though it is slack.
func (a *solving) slingTakesUp(i int) bool {
	return some(a.g.slings, func(s *riggedSling) bool { return s.index == i && s.takes != nil })
}

func (a *solving) slingAt(i int) plan.ID {
	for k := range a.g.slings {
		if a.g.slings[k].index == i {
			return a.g.slings[k].sling.ID
		}
	}
	return a.g.r.ID
}

// thingAt is the thing a point of the statics belongs to: a block first, then
// whatever port it was made for.
func (a *solving) thingAt(node int) plan.ID {
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

// some reports whether one of a list is such: slices.ContainsFunc of what is too large
// to be copied each time.
func some[T any](list []T, such func(*T) bool) bool {
	for i := range list {
		if such(&list[i]) {
			return true
		}
	}
	return false
}

// more is a list with room for n more members, many made at a time for findings: a
// few allocations for a whole rig's instead of one for each.
func more[T any](list []T, n int) []T {
	if cap(list)-len(list) >= n {
		return list
	}
	return make([]T, 0, max(cap(list)+cap(list)/2, n, 24))
}

// things is a list of ids, without the empty ones, in the assessment's own
// memory.
func (a *notes) things(ids ...plan.ID) []plan.ID {
	a.ids = more(a.ids, len(ids))
	from := len(a.ids)
	for _, id := range ids {
		if id != "" {
			a.ids = append(a.ids, id)
		}
	}
	return a.ids[from:len(a.ids):len(a.ids)]
}

// given is a list of values, in the assessment's own memory.
func (a *notes) given(values ...part.Value) []part.Value {
	a.values = more(a.values, len(values))
	from := len(a.values)
	a.values = append(a.values, values...)
	return a.values[from:len(a.values):len(a.values)]
}

// joined is the id of a part of a thing. A rig that is asked again has it already:
// its parts are named in one order.
func (a *notes) joined(thing plan.ID, of string) string {
	if a.ofTurn < len(a.turn) {
		if id := a.turn[a.ofTurn]; len(id) == len(thing)+1+len(of) && id[:len(thing)] == string(thing) && id[len(thing)+1:] == of {
			a.ofTurn++
			return id
		}
		a.turn = a.turn[:a.ofTurn]
	}
	id := string(thing) + "/" + of
	if a.quiet {
		a.turn, a.ofTurn = append(a.turn, id), a.ofTurn+1
	}
	return id
}

// named is a list of one part, in the assessment's own memory.
func (a *notes) named(id string) []string {
	a.names = more(a.names, 1)
	from := len(a.names)
	a.names = append(a.names, id)
	return a.names[from:len(a.names):len(a.names)]
}

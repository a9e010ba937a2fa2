package exercise

import (
	"math"
	"slices"
	"strings"

	"kedge/solver/part"
	"kedge/solver/quantity"
	"kedge/solver/travel"
)

// What counts as right of a place on the way out. (ours: a student draws the casualty at
// a few places of its way; nobody finds one more closely than by half a metre)
const leastPlaceM = 0.5

// sameLimit is the share by which a limit may differ from the one printed for a question
// to be asked that compares with it.
const sameLimit = 0.01

// pull is the whole pull of the rig, followed when it is first asked about.
func (m *Model) pull() *travel.Answer {
	if m.whole == nil {
		m.whole = travel.Of(m.p, m.rig)
	}
	return m.whole
}

// loadAt are the places of the pull and the loads of a part there; not ok: not known at
// each.
func (m *Model) loadAt(id string) (atM, loadN []float64, ok bool) {
	all := m.pull().Moments
	for i := range all {
		p, has := all[i].Part(id)
		if !has || !p.Move.Known {
			return nil, nil, false
		}
		atM, loadN = append(atM, all[i].AtM), append(loadN, float64(p.Move.Force))
	}
	return atM, loadN, true
}

// answerWorstAt asks how far along the way a part's load is greatest.
func (m *Model) answerWorstAt(a *Asked, x *Exercise) (why string) {
	p, why := m.derivable(a.Part)
	if why == "" {
		why = m.anglesOn(x.N)
	}
	if why != "" {
		return why
	}
	if !(m.pull().EndM > 0) {
		return m.label("why-no-pull")
	}
	atM, loadN, ok := m.loadAt(p.ID)
	if !ok {
		return m.label("why-not-computed")
	}
	most := slices.Max(loadN)
	k := slices.Index(loadN, most)
	if slices.Min(loadN) >= closeShare*most {
		return m.label("why-flat", part.Text("part", m.w.PartName(p, m.names)))
	}
	lo, hi := k, k
	for lo > 0 && loadN[lo-1] >= (1-leastTolerance)*most {
		lo--
	}
	for hi < len(loadN)-1 && loadN[hi+1] >= (1-leastTolerance)*most {
		hi++
	}
	for i, f := range loadN {
		if (i < lo || i > hi) && f >= (1-leastTolerance)*most {
			return m.label("why-twice", part.Text("part", m.w.PartName(p, m.names)))
		}
	}
	a.Text = m.label("ask-worst-at", part.Text("part", m.w.PartName(p, m.names)))
	a.Unit = m.w.System().Length().String()
	a.X, a.Answer = atM[k], m.w.Length(quantity.Length(atM[k]))
	a.Tol = max(leastPlaceM, atM[k]-atM[lo], atM[hi]-atM[k])
	for _, i := range []int{0, k, len(loadN) - 1} {
		s := m.label("sum-worst-at", part.Length("at", atM[i]), part.Text("load", m.w.Load(quantity.Force(loadN[i]))))
		if !slices.Contains(a.Sums, s) {
			a.Sums = append(a.Sums, s)
		}
	}
	if k > 0 {
		a.Wrong = []string{m.label("wrong-as-drawn", part.Text("figure", m.w.Length(0)))}
	}
	return ""
}

// asked are the happenings that follow from the page: parts of the list of limits that
// come over them, and what a line carries that reaches a block or fairlead.
func (m *Model) asked(e *travel.Happening) bool {
	switch e.Kind {
	case travel.ReachesBlock, travel.ReachesFairlead:
		return !e.Start
	case travel.OverLimit:
		return !e.Start && slices.ContainsFunc(m.compared(false), func(p *part.Part) bool { return p.ID == e.Part })
	}
	return false
}

// answerHappens asks what happens first on the way.
func (m *Model) answerHappens(a *Asked, x *Exercise) (why string) {
	parts := m.compared(false)
	for _, p := range parts {
		if _, why := m.derivable(p.ID); why != "" {
			return why
		}
	}
	if why := m.anglesOn(x.N); why != "" {
		return why
	}
	pull := m.pull()
	if !(pull.EndM > 0) {
		return m.label("why-no-pull")
	}
	var also []string
	for i := range pull.Events {
		e := &pull.Events[i]
		switch said := m.w.Happening(e, m.names); {
		case !m.asked(e), a.Answer != "" && e.AtM > a.X+leastPlaceM:
			continue
		case e.Kind == travel.OverLimit && !m.limitStays(e):
			return m.label("why-limit-changes", part.Text("part", m.partNamed(e.Part)))
		case a.Answer == "":
			a.X, a.Answer, a.Part = e.AtM, said, e.Part
			a.Sums = append(a.Sums, m.overSum(e)...)
		default:
			also = append(also, said)
		}
	}
	if a.Answer == "" {
		return m.label("why-nothing-happens")
	}
	a.Text = m.label("ask-happens")
	a.Also = strings.Join(also, "; ")
	x.compares = true
	return ""
}

// limitStays reports whether the limit of a part that comes over it is the one printed.
func (m *Model) limitStays(e *travel.Happening) bool {
	was, ok := m.a.Part(e.Part)
	if !ok || !was.Limit.Known {
		return false
	}
	for i := range m.pull().Moments {
		o := &m.pull().Moments[i]
		p, has := o.Part(e.Part)
		if o.AtM <= e.AtM && (!has || !p.Limit.Known || math.Abs(float64(p.Limit.Force/was.Limit.Force)-1) > sameLimit) {
			return false
		}
	}
	return true
}

// overSum tells how a part comes over its limit: its load as drawn, and that limit.
func (m *Model) overSum(e *travel.Happening) []string {
	p, ok := m.a.Part(e.Part)
	if !ok {
		return []string{m.w.Happening(e, m.names)}
	}
	return []string{m.label("sum-over", part.Text("part", m.w.PartName(p, m.names)), part.Text("load", m.w.LoadOf(p.Move)), part.Text("limit", m.w.LimitOf(p.Limit)), part.Length("at", e.AtM))}
}

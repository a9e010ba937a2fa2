package sheet

import (
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// ends are the three resistances a pull is computed on.
var ends = [...]string{plan.PlanLow, plan.PlanLikely, plan.PlanHigh}

// planOn is the plan with the casualty's resistance taken at another end.
func planOn(p *plan.Plan, casualty plan.ID, end string) *plan.Plan {
	for i := range p.Site.Vehicles {
		v := p.Site.Vehicles[i]
		if v.ID == casualty && v.Stuck != nil {
			stuck := *v.Stuck
			stuck.PlanOn = end
			v.Stuck = &stuck
			return plan.WithVehicle(p, i, v)
		}
	}
	return p
}

// rangeSheet prints every load at low, likely and high resistance, and beside
// it what the part gives at, low, likely and high.
func (m *maker) rangeSheet() error {
	f, err := m.flow(Range, m.kindName(Range))
	if err != nil {
		return err
	}
	var answers [len(ends)]*solver.Assessment
	for i, end := range ends {
		answers[i] = solver.Assess(planOn(m.p, m.a.Casualty, end), m.rig)
	}
	r := &m.a.Resistance
	if r.Known {
		if err := f.para(m.label("range-of", part.Text("what", m.w.Label("title-resistance")), part.Force("low", r.Low),
			part.Force("likely", r.Likely), part.Force("high", r.High)), 0); err != nil {
			return err
		}
	}
	if err := f.para(m.label("range-how"), 0); err != nil {
		return err
	}
	f.gap(2)
	t := &table{cols: []column{{head: m.w.Label("column-part"), flex: 2}}}
	for _, end := range ends {
		t.cols = append(t.cols, column{head: m.label("load-on-" + end), right: true})
	}
	t.cols = append(t.cols, column{head: m.w.Label("column-limit"), right: true})
	for _, end := range ends {
		t.cols = append(t.cols, column{head: m.label("gives-" + end), right: true})
	}
	give := func(known bool, x quantity.Force) string {
		if !known {
			return noFigure
		}
		return m.w.Written(quantity.FormatForce(x, m.w.System(), quantity.AsLimit)).Number
	}
	for _, p := range m.a.PartsBy(part.WorstFirst) {
		c := []string{m.w.PartName(p, m.names)}
		for _, a := range answers {
			s := noFigure
			if q, ok := a.Part(p.ID); ok {
				s = m.w.LoadFigure(q.Move)
			}
			c = append(c, s)
		}
		u := p.Ultimate
		c = append(c, m.w.LimitFigure(p.Limit), give(u.Known, u.Low), give(u.Known, u.Likely), give(u.Known, u.High))
		t.rows = append(t.rows, row{cells: c, dress: true, state: p.Status})
	}
	return f.table(t)
}

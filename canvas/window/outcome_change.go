package window

import (
	"kedge/canvas/report"
	"kedge/canvas/sheet"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/travel"
)

// compareChange shows the rig as it was and with a change side by side, as soon as the
// pull with the change is followed.
func (op *outcomePanel) compareChange(a *report.Report, i int) {
	c, w := &a.Found.Changes[i], op.w.words()
	key := op.asked
	show := &changed{rig: a.Rig, of: [2]*plan.Plan{a.Plan, c.Plan}, name: [2]string{w.Label("outcome-was"), w.Label("outcome-with", part.Text("name", c.Name))}}
	before, after, still := a.Change(i)
	show.rows = [2][]comparedRow{{{label: "outcome-fails", text: before}, {label: "outcome-still", text: "–"}},
		{{label: "outcome-fails", text: after}, {label: "outcome-still", text: still}}}
	op.worker.Do("compare", func() func() {
		for i, p := range show.of {
			show.a[i] = travel.Of(p, a.Rig).Assessment
		}
		return func() {
			if op.asked == key {
				op.w.compare.show(show)
			}
		}
	})
}

// changedRigs are the two of a change.
func (cp *comparePanel) changedRigs(c *changed) (list []compared) {
	looser := c.a[0].Looser() || c.a[1].Looser()
	for i, p := range c.of {
		r, ok := p.Rig(c.rig)
		if !ok {
			continue
		}
		rows := append(cp.rows(p, r, c.a[i], looser), c.rows[i]...)
		list = append(list, compared{key: itoa(i), plan: p, id: c.rig, name: c.name[i], a: c.a[i], shown: i == 0, rows: rows})
	}
	return list
}

// openReport shows the report's sheet in the board's place.
func (op *outcomePanel) openReport() { op.w.printer.open(sheet.Report) }

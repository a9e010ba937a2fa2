package layout

import (
	"slices"

	"kedge/solver/plan"
)

// lay makes the plan of a candidate: the plan with one more rig.
func (q *pull) lay(c candidate) plan.Draft {
	p := *q.p
	r := q.rig
	r.Unshare()
	r.ID = plan.NewID(q.p, plan.PrefixRig)
	p.Rigs = append(slices.Clone(q.p.Rigs), r)
	d := plan.Draft{Plan: &p, Laid: &p.Rigs[len(p.Rigs)-1]}
	l, _ := d.Laid.Line(q.line)
	path := []plan.Port{l.Path[0]}
	before := func(i int) plan.Point { // where the line comes from, or goes to
		switch {
		case i < 0:
			return q.from
		case i < len(c.over):
			return c.over[i].at
		}
		return q.to
	}
	last := before(len(c.over) - 1)
	switch {
	case c.dead != nil:
		block, _ := q.kit.Hang(d, q.far, last, 0)
		end := c.dead.port
		if c.dead.slung {
			end = q.kit.EndAt(d, end, q.to)
		}
		path = append(path, block, end)
		d.Laid.Dampers = slices.DeleteFunc(d.Laid.Dampers, func(k plan.Damper) bool { return k.Line == q.line })
	case q.end.IsZero():
		path = append(path, q.kit.EndAt(d, q.far, last))
	default:
		path = append(path, q.end)
	}
	if l, _ = d.Laid.Line(q.line); c.dead != nil {
		l.Joins = nil
	}
	l.Path = path
	for i, a := range c.over {
		port, _ := q.kit.Hang(d, a.port, before(i-1).Mid(before(i+1)), 0)
		d.Thread(q.line, i, port)
	}
	return d
}

// isNew reports whether a block is not one of those that stay.
func (q *pull) isNew(block plan.ID) bool {
	_, was := q.rig.Block(block)
	return !was
}

// deadEnds are where the end of a doubled line could be made fast: the winch
// vehicle, and every anchor but the one it would come back from.
func (q *pull) deadEnds() []deadEnd {
	var list []deadEnd
	if port, ok := BackPoint(q.winch, q.to); ok {
		s, _ := q.winch.PortPlace(port.Point)
		list = append(list, deadEnd{anchor{port, s.At}, false})
	}
	if q.far.Thing == q.winch.ID {
		return list
	}
	for _, a := range q.anchors {
		if a.port != q.far {
			list = append(list, deadEnd{a, true})
		}
	}
	return list
}

package words

import "kedge/solver/plan"

// Names is how the things of a plan and one of its rigs are called, points of
// vehicles ("V1/P1"), winches ("V2/winch") and the winch's end of a line
// ("L1/winch") too. The only line of a rig, if
// it has no name of its own, is "Line", the only winch "Winch". A rig that is
// not in the plan leaves the site alone.
func (w *Words) Names(p *plan.Plan, rig plan.ID) Names {
	if p == nil {
		return nil
	}
	r, _ := p.Rig(rig)
	names := plan.Names(p, r)
	if r != nil && len(r.Lines) == 1 && r.Lines[0].Name == "" {
		names[r.Lines[0].ID] = w.Label("only-line")
	}
	if r != nil {
		for i := range r.Lines {
			if l := &r.Lines[i]; len(l.Path) > 0 && l.Path[0].Point == plan.PortWinch {
				names[winchPort(l.ID)] = w.Label("fairlead") // where its first stretch comes from
			}
		}
	}
	var winches []plan.ID
	for i := range p.Site.Vehicles {
		v := &p.Site.Vehicles[i]
		if v.Winch != nil {
			winches = append(winches, v.ID)
		}
		for j := range v.Recovery {
			point := v.Recovery[j].ID
			port := plan.ID(plan.Port{Thing: v.ID, Point: point}.String())
			names[port] = w.Label("point-of", said("thing", names[v.ID]), said("point", plan.PointName(v, point)))
		}
	}
	for _, v := range winches {
		names[winchPort(v)] = w.Label("part-winch", said("thing", names[v]))
		if len(winches) == 1 {
			names[winchPort(v)] = w.Label("only-winch")
		}
	}
	return func(id plan.ID) string { return names[id] }
}

// winchPort is the id by which the winch of a vehicle, or the winch's end of a
// line, is asked for.
func winchPort(id plan.ID) plan.ID {
	return plan.ID(plan.Port{Thing: id, Point: plan.PortWinch}.String())
}

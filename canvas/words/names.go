package words

import (
	"strings"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Names is how the things of a plan and one of its rigs are called, points of
// vehicles ("V1/P1"), winches ("V2/winch") and the winch's end of a line
// ("L1/winch") too. The only line of a rig, if it has no name of its own and was
// never one of several, is "Line", the only winch "Winch". A rig that is
// not in the plan leaves the site alone.
func (w *Words) Names(p *plan.Plan, rig plan.ID) Names {
	if p == nil {
		return nil
	}
	r, _ := p.Rig(rig)
	names := plan.Names(p, r)
	w.translate(names, p, r)
	if r != nil && len(r.Lines) == 1 && r.Lines[0].Name == "" && r.Lines[0].Number == 0 {
		names[r.Lines[0].ID] = w.Label("only-line")
	}
	if r != nil {
		for i := range r.Lines {
			if l := &r.Lines[i]; len(l.Path) > 0 && l.Path[0].Point == plan.PortWinch {
				names[winchPort(l.ID)] = w.Label("fairlead") // where its first stretch comes from
			}
		}
		if r.Incident != nil {
			for i := range r.Incident.Pins {
				q := &r.Incident.Pins[i]
				names[q.Ref()] = w.Label("pin-called", part.Text("letter", string(q.ID)))
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
			names[port] = w.Label("point-of", part.Text("thing", names[v.ID]), part.Text("point", w.PointName(v, point)))
		}
	}
	for _, v := range winches {
		names[winchPort(v)] = w.Label("part-winch", part.Text("thing", names[v]))
		if len(winches) == 1 {
			names[winchPort(v)] = w.Label("only-winch")
		}
	}
	for id, name := range names {
		names[id] = quantity.OneLine(name)
	}
	return func(id plan.ID) string { return names[id] }
}

// PointName is what a hook-on point of a vehicle is called: its own name, or
// after where it sits, "front right point".
func (w *Words) PointName(v *plan.Vehicle, point plan.ID) string {
	own := ""
	if q := v.RecoveryPoint(point); q != nil {
		own = q.Name
	}
	return w.called("called-at-", plan.PointName(v, point), own)
}

// translate gives things without a name of their own the one that their kind has in this language.
func (w *Words) translate(names map[plan.ID]string, p *plan.Plan, r *plan.Rig) {
	plan.EachHead(p, r, func(h *plan.Head) { names[h.ID] = w.called("called-", names[h.ID], h.Name) })
}

// called is a name by kind, "Tree 2", in this language. A name somebody gave
// stands, and so does a kind that has no word here.
func (w *Words) called(prefix, name, own string) string {
	if own != "" {
		return name
	}
	kind, number := name, ""
	if i := strings.LastIndexByte(name, ' '); i > 0 && strings.Trim(name[i+1:], "0123456789") == "" {
		kind, number = name[:i], name[i:]
	}
	id := prefix + strings.ToLower(strings.ReplaceAll(kind, " ", "-"))
	if !w.HasLabel(id) {
		return name
	}
	return w.Label(id) + number
}

// winchPort is the id by which the winch of a vehicle, or the winch's end of a
// line, is asked for.
func winchPort(id plan.ID) plan.ID {
	return plan.ID(plan.Port{Thing: id, Point: plan.PortWinch}.String())
}

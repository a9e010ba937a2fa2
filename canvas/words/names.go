package words

import (
	"strings"

	"kedge/solver/plan"
)

// Names is how the things of a plan and one of its rigs are called, points of
// vehicles ("V1/P1") and winches ("V2/winch") too. The only line of a rig, if
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
	winches := 0
	for i := range p.Site.Vehicles {
		v := &p.Site.Vehicles[i]
		if v.Winch != nil {
			winches++
		}
		for j := range v.Recovery {
			point := v.Recovery[j].ID
			port := plan.ID(plan.Port{Thing: v.ID, Point: point}.String())
			names[port] = w.Label("point-of", said("thing", names[v.ID]), said("point", plan.PointName(v, point)))
		}
	}
	return func(id plan.ID) string {
		if s, ok := names[id]; ok {
			return s
		}
		thing, isWinch := strings.CutSuffix(string(id), "/"+string(plan.PortWinch))
		name, known := names[plan.ID(thing)]
		switch {
		case !isWinch || !known:
			return ""
		case winches == 1:
			return w.Label("only-winch")
		}
		return w.Label("part-winch", said("thing", name))
	}
}

package solver

import (
	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// connectorID is the part that hooks a line on: at its far end, or at its
// hauling end.
func connectorID(line plan.ID, far bool) string {
	if far {
		return string(line) + "/end"
	}
	return string(line) + "/start"
}

// connectorParts makes a part of what hooks a pulling line on, under the load
// of the stretch that ends there.
func (a *assessor) connectorParts(rl *riggedLine) {
	if len(rl.path) < 2 {
		return
	}
	at := func(far bool, k int) {
		a.connectorPart(rl.line, far, a.loads(func(r *solution) part.Load { return a.stretchLoad(r, rl.index, k) }))
	}
	start, end := a.g.r.Connected(rl.line)
	if start {
		at(false, 0)
	}
	if end {
		at(true, len(rl.path)-2)
	}
}

// connectorPart is what hooks a line on at one of its ends, under that load.
func (a *assessor) connectorPart(l *plan.Line, far bool, b pulls) {
	id, port := connectorID(l.ID, far), 0
	if far {
		port = len(l.Path) - 1
	}
	line := a.weak.line(l)
	c := gear.Connector(gear.ConnectorIn{Line: line, Part: id}, a.sumOf(id), a.found())
	a.say(id, "stretch-tension", b)
	a.add(part.Part{ID: id, Kind: part.KindEnd, Thing: l.ID, Index: port, From: l.ID, To: l.Path[port].Thing,
		Values: []part.Value{{Name: "connector", Unit: part.UnitText, Text: gear.ConnectorWord(line.Connector.Kind)}}}, b, c)
}

package solver

import (
	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// connectors makes a part of what hooks a line on, where its k-th of n
// stretches ends, under the load of that stretch; say tells how that came about.
func (a *rating) connectors(l *plan.Line, k, n int, b pulls, say func(id string)) {
	start, end := a.g.r.Connected(l)
	if start && k == 0 {
		a.connectorPart(l, a.joined(l.ID, "start"), 0, b, say)
	}
	if end && k == n-1 {
		a.connectorPart(l, a.joined(l.ID, "end"), len(l.Path)-1, b, say)
	}
}

// connectorPart is the connector at a port of a line's path.
func (a *rating) connectorPart(l *plan.Line, id string, port int, b pulls, say func(id string)) {
	line := a.conservative.line(l)
	c := gear.Connector(gear.ConnectorIn{Line: line, Part: id}, a.derivationOf(id), a.found())
	say(id)
	a.add(&part.Part{ID: id, Kind: part.KindEnd, Thing: l.ID, Index: port, From: l.ID, To: l.Path[port].Thing, Use: l.Use,
		Values: a.given(part.Word("connector", gear.ConnectorWord(line.Connector.Kind)))}, b, c)
}

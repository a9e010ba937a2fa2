package solver

import (
	"math"
	"slices"
	"strconv"

	"github.com/golang/geo/r3"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/statics"
)

// at is where a point of the statics lies: as solved, or as drawn.
func (a *solving) at(node int) r3.Vector {
	if a.solved.status == part.Within && node < len(a.solved.unit.Points) {
		return a.solved.unit.Points[node].Pos
	}
	return a.g.rig.Points[node].Pos
}

// stretchID is the id of the i-th stretch of a line, counted from 1 at the
// winch.
func stretchID(line plan.ID, i int) string {
	return string(line) + "/" + strconv.Itoa(i+1)
}

// geometry lays out stretches, nodes and slings as they lie.
func (a *laying) geometry() {
	g := a.g
	n := 0
	for i := range g.lines {
		n += len(g.lines[i].path)
	}
	a.out.Stretches = slices.Grow(a.out.Stretches, n)
	a.out.Nodes = slices.Grow(a.out.Nodes, len(g.blocks)+len(g.r.Shackles))
	a.out.Slings = slices.Grow(a.out.Slings, len(g.slings))
	for i := range g.lines {
		rl := &g.lines[i]
		for k := 0; k+1 < len(rl.path); k++ {
			s := part.Stretch{
				Part: rl.parts[k], Line: rl.line.ID, Index: k,
				A: a.at(rl.path[k]), B: a.at(rl.path[k+1]),
				PortA: rl.line.Path[k], PortB: rl.line.Path[k+1],
			}
			s.Length = quantity.Length(s.B.Sub(s.A).Norm())
			s.Refused = rl.index < 0
			a.out.Stretches = append(a.out.Stretches, s)
		}
	}
	for i := range g.blocks {
		rb := &g.blocks[i]
		n := part.Node{Thing: rb.block.ID, At: a.at(rb.node), Loose: rb.loose}
		a.visit(rb.block.ID, &n)
		a.out.Nodes = append(a.out.Nodes, n)
	}
	a.layRestraints()
	a.restraintShapes()
	for i := range g.r.Shackles {
		k := &g.r.Shackles[i]
		if at, ok := a.jointPlace(k.ID); ok {
			a.out.Nodes = append(a.out.Nodes, part.Node{Thing: k.ID, At: at})
			continue
		}
		if n := g.node(plan.Port{Thing: k.ID}); n >= 0 {
			a.out.Nodes = append(a.out.Nodes, part.Node{Thing: k.ID, At: a.at(n)})
		}
	}
	for i := range g.slings {
		a.out.Slings = append(a.out.Slings, a.slingShape(&g.slings[i]))
	}
}

// visit fills in what the line does at a block: the angle, the force of its
// lines and the way its sheave turns.
func (a *laying) visit(block plan.ID, n *part.Node) {
	if a.solved.status != part.Within {
		return
	}
	r := a.solved.unit
	if m := a.solved.move.main(); !m.isNone() {
		r = m
	}
	for i := range a.g.lines {
		rl := &a.g.lines[i]
		if rl.index < 0 {
			continue
		}
		for k := 1; k+1 < len(rl.line.Path); k++ {
			if rl.line.Path[k].Thing != block {
				continue
			}
			v := &r.Lines[rl.index].Visits[k-1]
			n.Angle = quantity.Degrees(v.IncludedDeg)
			n.Force = n.Force.Add(v.LoadN.Mul(r.times))
			n.Turns = map[statics.SheaveMotion]string{statics.Haul: "hauls", statics.Pay: "pays out", statics.Stick: "stands"}[v.Motion]
		}
	}
	if a.solved.move.isNone() {
		n.Force = r3.Vector{}
	}
}

// slingShape is a sling as it lies: its legs as tangents of the trunk.
func (a *laying) slingShape(rs *riggedSling) part.SlingShape {
	s := part.SlingShape{Sling: rs.sling.ID, Hitch: Hitch(rs.sling, rs.onTrunk), Radius: rs.radius, Opens: rs.round.Opens, Reach: rs.round.Reach, Short: rs.round.Short}
	if on, holds, ok := a.memberPlaces(rs.sling); ok {
		s.Centre, s.Apex, s.Reach = on, holds, rs.sling.Length
		if rs.onTrunk && a.g.things.Anchor(rs.sling.Holds.Thing) != nil || a.g.things.Obstacle(rs.sling.Holds.Thing) != nil {
			s.Centre, s.Apex = holds, on
		}
		s.Hitch = hitchOf(rs.sling, rs.onTrunk)
		tangents(&s, rs.round.Tangent)
		return s
	}
	if rs.from < 0 {
		if rs.to >= 0 {
			s.Centre, s.Apex = a.at(rs.to), a.at(rs.to)
		}
		return s
	}
	s.Centre = a.at(rs.from)
	s.Apex = s.Centre
	if rs.to >= 0 {
		s.Apex = a.at(rs.to)
	}
	if rs.radius <= 0 {
		s.Reach = rs.sling.Length
		return s
	}
	toward := s.Apex.Sub(s.Centre)
	if b := a.g.things.Block(rs.sling.Holds.Thing); b != nil && b.HeadLength > 0 && toward.Norm() > 0 {
		s.Apex = s.Centre.Add(toward.Normalize().Mul(float64(rs.round.Reach)))
	}
	tangents(&s, rs.round.Tangent)
	return s
}

// tangents are where the legs of a sling leave its trunk.
func tangents(s *part.SlingShape, turn quantity.Degrees) {
	if !(s.Radius > 0) {
		return
	}
	toward := s.Apex.Sub(s.Centre)
	phi := math.Atan2(toward.Y, toward.X)
	r := float64(s.Radius)
	at := func(t float64) r3.Vector {
		return r3.Vector{X: s.Centre.X + r*math.Cos(phi+t), Y: s.Centre.Y + r*math.Sin(phi+t), Z: s.Centre.Z}
	}
	s.TangentA, s.TangentB = at(turn.Radians()), at(-turn.Radians())
}

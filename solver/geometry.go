package solver

import (
	"math"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/statics"
	"kedge/solver/terrain"
)

// at is where a point of the statics lies: as solved, or as drawn.
func (a *assessor) at(node int) part.Vec {
	if a.solved.status == part.Within && node < len(a.solved.unit.Points) {
		return part.Vec(a.solved.unit.Points[node].Pos)
	}
	return part.Vec(a.g.rig.Points[node].Pos)
}

// stretchID is the id of the i-th stretch of a line, counted from 1 at the
// winch.
func stretchID(line plan.ID, i int) string {
	return string(line) + "/" + string(appendInt(nil, i+1))
}

func appendInt(b []byte, i int) []byte {
	if i >= 10 {
		b = appendInt(b, i/10)
	}
	return append(b, byte('0'+i%10))
}

// geometry lays out stretches, nodes and slings as they lie.
func (a *assessor) geometry() {
	g := a.g
	n := 0
	for i := range g.lines {
		n += len(g.lines[i].path)
	}
	a.out.Stretches = make([]part.Stretch, 0, n)
	a.out.Nodes = make([]part.Node, 0, len(g.blocks)+len(g.r.Shackles))
	a.out.Slings = make([]part.SlingShape, 0, len(g.slings))
	for i := range g.lines {
		rl := &g.lines[i]
		for k := 0; k+1 < len(rl.path); k++ {
			s := part.Stretch{
				Part: stretchID(rl.line.ID, k), Line: rl.line.ID, Index: k,
				A: a.at(rl.path[k]), B: a.at(rl.path[k+1]),
				PortA: rl.line.Path[k], PortB: rl.line.Path[k+1],
			}
			s.Length = quantity.Length(s.B.Sub(s.A).Len())
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
	for i := range g.r.Shackles {
		k := &g.r.Shackles[i]
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
func (a *assessor) visit(block plan.ID, n *part.Node) {
	if a.solved.status != part.Within {
		return
	}
	r := a.solved.unit
	if !a.solved.move.isNone() {
		r = a.solved.move
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
			n.Force = n.Force.Add(part.Vec(v.LoadN))
			n.Turns = map[statics.SheaveMotion]string{statics.Haul: "hauls", statics.Pay: "pays out", statics.Stick: "stands"}[v.Motion]
		}
	}
	if a.solved.move.isNone() {
		n.Force = part.Vec{}
	}
}

// slingShape is a sling as it lies: its legs as tangents of the trunk.
func (a *assessor) slingShape(rs *riggedSling) part.SlingShape {
	s := part.SlingShape{Sling: rs.sling.ID, Hitch: Hitch(rs.sling, rs.onTrunk), Radius: rs.radius, Opens: rs.round.Opens, Reach: rs.round.Reach, Short: rs.round.Short}
	if rs.sling.Use != plan.UsePull {
		s.Centre, s.Reach = a.portAt(rs.sling.On), rs.sling.Length
		s.Apex = s.Centre
		if !rs.sling.Holds.IsZero() {
			s.Apex = a.portAt(rs.sling.Holds)
		}
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
	if b := a.g.things.Block(rs.sling.Holds.Thing); b != nil && b.HeadLength > 0 && toward.Len() > 0 {
		s.Apex = s.Centre.Add(toward.Unit().Scale(float64(rs.round.Reach)))
	}
	phi := math.Atan2(toward[1], toward[0])
	turn := rs.round.Tangent.Radians()
	r := float64(rs.radius)
	tangent := func(t float64) part.Vec {
		return part.Vec{s.Centre[0] + r*math.Cos(phi+t), s.Centre[1] + r*math.Sin(phi+t), s.Centre[2]}
	}
	s.TangentA, s.TangentB = tangent(turn), tangent(-turn)
	return s
}

// wantClear is how far a line should keep from an obstacle: it moves as the
// casualty does, and sags when it slackens. (ours)
const wantClear = 0.5

// contacts finds where stretches bear on obstacles and trunks. A line that
// bears on something is refused: its tension past the contact is not that of
// the drawing, and the line is being cut.
func (a *assessor) contacts() {
	shapes := terrain.Shapes(&a.g.p.Site)
	a.shapes = shapes
	offset := make(map[plan.ID]quantity.Length, len(a.g.lines))
	for i := range a.out.Stretches {
		s := &a.out.Stretches[i]
		from := offset[s.Line]
		offset[s.Line] = from + s.Length
		for k := range shapes {
			o := &a.g.p.Site.Obstacles[k]
			if a.ownBoulder(s, o.ID) {
				continue
			}
			if c := shapes[k].Bears(&a.g.ground, s.A, s.B); c.Touches {
				a.bears(s, "line-bears", o.ID, from, c)
			} else if !c.Over {
				pa, pb := plan.Point{X: s.A[0], Y: s.A[1]}, plan.Point{X: s.B[0], Y: s.B[1]}
				a.near(s, o.ID, shapes[k].Distance(pa, pb, wantClear*8))
			}
		}
		for k := range a.g.p.Site.Anchors {
			t := &a.g.p.Site.Anchors[k]
			if t.Kind != plan.AnchorTree || !(t.Trunk > 0) {
				continue
			}
			pa, pb := plan.Point{X: s.A[0], Y: s.A[1]}, plan.Point{X: s.B[0], Y: s.B[1]}
			if s.PortA.Thing == t.ID || s.PortB.Thing == t.ID {
				if s.PortB.Thing == t.ID {
					a.find(part.Finding{ID: "bare-trunk", Level: part.Warning, Things: a.things(s.Line, t.ID), Parts: a.named(s.Part)})
				}
				continue
			}
			if a.unlaid(s, t.ID) {
				continue // said already: its sling does not close
			}
			if c := terrain.TrunkContact(pa, pb, t.At, float64(t.Trunk)/2); c.Touches {
				a.bears(s, "line-on-trunk", t.ID, from, c)
			}
		}
	}
	if a.refused {
		for i := range a.out.Stretches {
			a.out.Stretches[i].Refused = true
		}
	}
}

// unlaid tells that a stretch ends at what hangs in a sling that does not close
// round a tree: where that lies is not known, and drawn in the middle of it.
func (a *assessor) unlaid(s *part.Stretch, tree plan.ID) bool {
	for i := range a.g.slings {
		sl := a.g.slings[i].sling
		if sl.On.Thing == tree && a.g.slings[i].round.Short > 0 &&
			(sl.Holds.Thing == s.PortA.Thing || sl.Holds.Thing == s.PortB.Thing || sl.ID == s.PortB.Thing) {
			return true
		}
	}
	return false
}

// ownBoulder tells that a stretch ends at a boulder that serves as its anchor.
func (a *assessor) ownBoulder(s *part.Stretch, obstacle plan.ID) bool {
	if s.PortA.Thing == obstacle || s.PortB.Thing == obstacle {
		return true
	}
	for i := range a.g.r.Slings {
		sl := &a.g.r.Slings[i]
		if sl.On.Thing == obstacle && (sl.Holds.Thing == s.PortA.Thing || sl.Holds.Thing == s.PortB.Thing || sl.ID == s.PortB.Thing) {
			return true
		}
	}
	return false
}

func (a *assessor) bears(s *part.Stretch, id string, on plan.ID, from quantity.Length, c terrain.Contact) {
	s.Contacts = append(s.Contacts, part.Contact{Obstacle: on, From: from + c.From, To: from + c.To, Length: c.Length})
	s.Refused = true
	a.refuse(id)
	a.find(part.Finding{ID: id, Level: part.Danger, Things: a.things(s.Line, on), Parts: a.named(s.Part), Values: []part.Value{
		{Name: "from", Unit: part.UnitLength, X: float64(from + c.From)},
		{Name: "to", Unit: part.UnitLength, X: float64(from + c.To)},
		{Name: "length", Unit: part.UnitLength, X: float64(c.Length)},
	}, Remedies: waysRound(s.Line)})
}

// waysRound offers the rigs that lead a line round what it bears on. (package
// layout proposes them)
func waysRound(line plan.ID) []part.Remedy {
	return []part.Remedy{{Do: "ways-round", Thing: line}}
}

func (a *assessor) near(s *part.Stretch, id plan.ID, clearM float64) {
	if s.ClearOf == "" || quantity.Length(clearM) < s.Clear {
		s.Clear, s.ClearOf = quantity.Length(clearM), id
	}
	if clearM < wantClear {
		a.find(part.Finding{ID: "line-near", Level: part.Caution, Things: a.things(s.Line, id), Parts: a.named(s.Part), Values: []part.Value{
			{Name: "clear", Unit: part.UnitLength, X: clearM}, {Name: "want", Unit: part.UnitLength, X: wantClear}}})
	}
}

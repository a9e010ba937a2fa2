package plan

// rigIDs are the ids of a rig's things. One that the site has, or that stands
// twice, is refused.
func rigIDs(path string, r *Rig, site ids) (ids, error) {
	m := make(ids, len(r.Lines)+len(r.Blocks)+len(r.Slings)+len(r.Shackles)+len(r.Dampers)+len(r.Unknown))
	var err error
	eachRig(r, func(list string, i int, id ID, s Slot) {
		if err != nil {
			return
		}
		path := at(path+"/"+list, i)
		if _, taken := site[id]; taken || id == r.ID {
			err = doubled(path, id)
			return
		}
		err = m.add(path, id, s)
	})
	return m, err
}

// validRig checks the ids of a rig and everything that names something.
func validRig(path string, r *Rig, s *Site, site ids) error {
	m, err := rigIDs(path, r, site)
	if err != nil {
		return err
	}
	c := refs{s, site, m}
	for i := range r.Lines {
		l, path := &r.Lines[i], at(path+"/lines", i)
		if err := validDoubts(path, schemaOf[Line](), l.Doubts); err != nil {
			return err
		}
		for j, port := range l.Path {
			if err := c.port(at(path+"/path", j), port, l.ID); err != nil {
				return err
			}
		}
	}
	for i := range r.Blocks {
		b, path := &r.Blocks[i], at(path+"/blocks", i)
		if err := c.optional(path+"/fixed", b.Fixed, b.ID, b.Doubts, schemaOf[Block](), path); err != nil {
			return err
		}
	}
	for i := range r.Slings {
		s, path := &r.Slings[i], at(path+"/slings", i)
		if err := c.optional(path+"/on", s.On, s.ID, s.Doubts, schemaOf[Sling](), path); err != nil {
			return err
		}
		if err := c.optional(path+"/holds", s.Holds, s.ID, nil, nil, path); err != nil {
			return err
		}
	}
	for i := range r.Shackles {
		s, path := &r.Shackles[i], at(path+"/shackles", i)
		if err := validDoubts(path, schemaOf[Shackle](), s.Doubts); err != nil {
			return err
		}
		if n := len(s.Joins); n != 0 && n != 2 {
			return shackleJoins.At(path+"/joins", n)
		}
		for j, port := range s.Joins {
			if err := c.port(at(path+"/joins", j), port, s.ID); err != nil {
				return err
			}
		}
	}
	for i := range r.Dampers {
		d, path := &r.Dampers[i], at(path+"/dampers", i)
		if err := validDoubts(path, schemaOf[Damper](), d.Doubts); err != nil {
			return err
		}
		if m[d.Line].Kind != ThingLine {
			return noLine.At(path+"/line", quoted(d.Line))
		}
	}
	return nil
}

// refs looks up what the ports of one rig name.
type refs struct {
	s         *Site
	site, rig ids
}

// optional checks a port that may be zero, and the doubts of its thing.
func (c *refs) optional(path string, p Port, own ID, doubts []Doubt, n *node, thing string) error {
	if len(doubts) > 0 {
		if err := validDoubts(thing, n, doubts); err != nil {
			return err
		}
	}
	if p.IsZero() {
		return nil
	}
	return c.port(path, p, own)
}

// port checks one hook-on point; own is the thing that names it.
func (c *refs) port(path string, p Port, own ID) error {
	if p.Thing == own {
		return hookedToItself.At(path+"/thing", quoted(own))
	}
	s, ok := c.rig[p.Thing]
	if !ok {
		s, ok = c.site[p.Thing]
	}
	if !ok {
		return noSuchThing.At(path+"/thing", quoted(p.Thing))
	}
	switch s.Kind {
	case ThingVehicle:
		v := &c.s.Vehicles[s.Pos]
		if p.Point == PortWinch {
			if v.Winch == nil {
				return noWinch.At(path+"/point", quoted(p.Thing))
			}
			return nil
		}
		if v.RecoveryPoint(p.Point) == nil {
			return noVehiclePoint.At(path+"/point", quoted(p.Thing), quoted(p.Point))
		}
		return nil
	case ThingBlock:
		if p.Point == "" || p.Point == PortBecket {
			return nil
		}
	case ThingAnchor, ThingObstacle, ThingSling, ThingShackle:
		if p.Point == "" {
			return nil
		}
	case ThingUnknown:
		return nil
	default:
		return noHooking.At(path+"/thing", kindWord(s.Kind), quoted(p.Thing))
	}
	return noPoint.At(path+"/point", kindWord(s.Kind), quoted(p.Thing), quoted(p.Point))
}

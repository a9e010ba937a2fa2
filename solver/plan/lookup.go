package plan

// The look-ups below walk a list: they are for single questions. Whoever asks
// for many things builds an [Index]. The pointers lead into the plan, which is
// not to be changed through them.

func find[T any](list []T, is func(*T) bool) (*T, bool) {
	for i := range list {
		if is(&list[i]) {
			return &list[i], true
		}
	}
	return nil, false
}

// Vehicle is the vehicle id, false if there is none.
func (p *Plan) Vehicle(id ID) (*Vehicle, bool) {
	return find(p.Site.Vehicles, func(v *Vehicle) bool { return v.ID == id })
}

// Anchor is the anchor id, false if there is none.
func (p *Plan) Anchor(id ID) (*Anchor, bool) {
	return find(p.Site.Anchors, func(a *Anchor) bool { return a.ID == id })
}

// Obstacle is the obstacle id, false if there is none.
func (p *Plan) Obstacle(id ID) (*Obstacle, bool) {
	return find(p.Site.Obstacles, func(o *Obstacle) bool { return o.ID == id })
}

// Person is the person id, false if there is none.
func (p *Plan) Person(id ID) (*Person, bool) {
	return find(p.Site.People, func(q *Person) bool { return q.ID == id })
}

// Rig is the rig id, false if there is none.
func (p *Plan) Rig(id ID) (*Rig, bool) {
	return find(p.Rigs, func(r *Rig) bool { return r.ID == id })
}

// RigByName is the first rig shown as name (see [RigName]), or else with that
// id; false if there is none.
func (p *Plan) RigByName(name string) (*Rig, bool) {
	for i := range p.Rigs {
		if RigName(p, i) == name {
			return &p.Rigs[i], true
		}
	}
	return p.Rig(ID(name))
}

// RigIndex is the place of the rig id in p.Rigs, -1 if there is none.
func (p *Plan) RigIndex(id ID) int {
	for i := range p.Rigs {
		if p.Rigs[i].ID == id {
			return i
		}
	}
	return -1
}

// Casualty is the first vehicle that is to be moved, nil if there is none.
func (p *Plan) Casualty() *Vehicle {
	v, _ := find(p.Site.Vehicles, func(v *Vehicle) bool { return v.Stuck != nil })
	return v
}

// RecoveryPoint is the point id of v, nil if there is none.
func (v *Vehicle) RecoveryPoint(id ID) *RecoveryPoint {
	q, _ := find(v.Recovery, func(q *RecoveryPoint) bool { return q.ID == id })
	return q
}

// Line is the line id, false if there is none.
func (r *Rig) Line(id ID) (*Line, bool) {
	return find(r.Lines, func(l *Line) bool { return l.ID == id })
}

// Block is the block id, false if there is none.
func (r *Rig) Block(id ID) (*Block, bool) {
	return find(r.Blocks, func(b *Block) bool { return b.ID == id })
}

// Sling is the sling id, false if there is none.
func (r *Rig) Sling(id ID) (*Sling, bool) {
	return find(r.Slings, func(s *Sling) bool { return s.ID == id })
}

// Shackle is the shackle id, false if there is none.
func (r *Rig) Shackle(id ID) (*Shackle, bool) {
	return find(r.Shackles, func(s *Shackle) bool { return s.ID == id })
}

// Damper is the damper id, false if there is none.
func (r *Rig) Damper(id ID) (*Damper, bool) {
	return find(r.Dampers, func(d *Damper) bool { return d.ID == id })
}

// EachPort visits all hook-on points that the rig names.
func (r *Rig) EachPort(visit func(p *Port)) {
	for i := range r.Lines {
		for j := range r.Lines[i].Path {
			visit(&r.Lines[i].Path[j])
		}
	}
	for i := range r.Blocks {
		visit(&r.Blocks[i].Fixed)
	}
	for i := range r.Slings {
		visit(&r.Slings[i].On)
		visit(&r.Slings[i].Holds)
	}
	for i := range r.Shackles {
		for j := range r.Shackles[i].Joins {
			visit(&r.Shackles[i].Joins[j])
		}
	}
}

// Connected tells at which ends of its path a line's own connector hooks it on:
// the far one, and the hauling one too if it is no winch. A shackle of the rig
// that holds an end is the connector there itself.
func (r *Rig) Connected(l *Line) (start, end bool) {
	own := func(p Port) bool {
		_, held := r.Shackle(p.Thing)
		return p.Point != PortWinch && !held
	}
	if n := len(l.Path); n > 1 {
		return own(l.Path[0]), own(l.Path[n-1])
	}
	return false, false
}

package plan

// ThingKind tells which list of the plan a thing stands in. The zero value is
// no thing.
type ThingKind uint8

// The kinds of thing.
const (
	NoThing ThingKind = iota
	ThingVehicle
	ThingAnchor
	ThingObstacle
	ThingPerson
	ThingNote
	ThingMeasure
	ThingLine
	ThingBlock
	ThingSling
	ThingShackle
	ThingDamper
	ThingPin     // evidence, under its [Pin.Ref]
	ThingUnknown // of a kind this version does not know
)

var thingNames = [...]string{"nothing", "vehicle", "anchor", "obstacle", "person", "note", "measure", "line", "block", "sling", "shackle", "damper", "pin", "unknown thing"}

// String is the word for the kind.
func (k ThingKind) String() string {
	if int(k) >= len(thingNames) {
		return thingNames[ThingUnknown]
	}
	return thingNames[k]
}

// Slot is where a thing stands: the list of its kind, and the place in it. A
// unknown thing of the rig has InRig set; the other kinds tell by themselves.
type Slot struct {
	Kind  ThingKind
	Pos   int
	InRig bool
}

// eachSite visits all things of a site in file order.
func eachSite(s *Site, visit func(list string, i int, id ID, slot Slot)) {
	for i := range s.Vehicles {
		visit("vehicles", i, s.Vehicles[i].ID, Slot{Kind: ThingVehicle, Pos: i})
	}
	for i := range s.Anchors {
		visit("anchors", i, s.Anchors[i].ID, Slot{Kind: ThingAnchor, Pos: i})
	}
	for i := range s.Obstacles {
		visit("obstacles", i, s.Obstacles[i].ID, Slot{Kind: ThingObstacle, Pos: i})
	}
	for i := range s.People {
		visit("people", i, s.People[i].ID, Slot{Kind: ThingPerson, Pos: i})
	}
	for i := range s.Notes {
		visit("notes", i, s.Notes[i].ID, Slot{Kind: ThingNote, Pos: i})
	}
	for i := range s.Measures {
		visit("measures", i, s.Measures[i].ID, Slot{Kind: ThingMeasure, Pos: i})
	}
	for i := range s.Unknown {
		visit("unknown", i, s.Unknown[i].ID, Slot{Kind: ThingUnknown, Pos: i})
	}
}

// eachRig visits all things of a rig in file order.
func eachRig(r *Rig, visit func(list string, i int, id ID, slot Slot)) {
	for i := range r.Lines {
		visit("lines", i, r.Lines[i].ID, Slot{Kind: ThingLine, Pos: i, InRig: true})
	}
	for i := range r.Blocks {
		visit("blocks", i, r.Blocks[i].ID, Slot{Kind: ThingBlock, Pos: i, InRig: true})
	}
	for i := range r.Slings {
		visit("slings", i, r.Slings[i].ID, Slot{Kind: ThingSling, Pos: i, InRig: true})
	}
	for i := range r.Shackles {
		visit("shackles", i, r.Shackles[i].ID, Slot{Kind: ThingShackle, Pos: i, InRig: true})
	}
	for i := range r.Dampers {
		visit("dampers", i, r.Dampers[i].ID, Slot{Kind: ThingDamper, Pos: i, InRig: true})
	}
	for i := range r.Unknown {
		visit("unknown", i, r.Unknown[i].ID, Slot{Kind: ThingUnknown, Pos: i, InRig: true})
	}
}

// Index finds the things of a plan and one of its rigs by id, in constant time
// and without allocating. It holds for the plan it was built from; an edit makes
// a new plan and needs a new index. It may be read by several goroutines.
type Index struct {
	Plan *Plan
	Rig  *Rig // nil: the site alone
	at   map[ID]Slot
}

// NewIndex builds the index of p and its rig r; r may be nil. Of two things
// with one id, which no valid plan has, the first is found.
func NewIndex(p *Plan, r *Rig) *Index {
	s := &p.Site
	n := len(s.Vehicles) + len(s.Anchors) + len(s.Obstacles) + len(s.People) + len(s.Notes) + len(s.Measures) + len(s.Unknown)
	if r != nil {
		n += len(r.Lines) + len(r.Blocks) + len(r.Slings) + len(r.Shackles) + len(r.Dampers) + len(r.Unknown)
	}
	x := &Index{Plan: p, Rig: r, at: make(map[ID]Slot, n)}
	put := func(_ string, _ int, id ID, slot Slot) {
		if _, taken := x.at[id]; !taken {
			x.at[id] = slot
		}
	}
	eachSite(s, put)
	if r != nil {
		eachRig(r, put)
		if r.Incident != nil {
			for i := range r.Incident.Pins {
				put("", i, r.Incident.Pins[i].Ref(), Slot{Kind: ThingPin, Pos: i, InRig: true})
			}
		}
	}
	return x
}

// Find tells where the thing id stands; Kind is NoThing if there is none.
func (x *Index) Find(id ID) Slot { return x.at[id] }

// Kind is the kind of the thing id, NoThing if there is none.
func (x *Index) Kind(id ID) ThingKind { return x.at[id].Kind }

// Vehicle is the vehicle id, or nil.
func (x *Index) Vehicle(id ID) *Vehicle {
	if s := x.at[id]; s.Kind == ThingVehicle {
		return &x.Plan.Site.Vehicles[s.Pos]
	}
	return nil
}

// Anchor is the anchor id, or nil.
func (x *Index) Anchor(id ID) *Anchor {
	if s := x.at[id]; s.Kind == ThingAnchor {
		return &x.Plan.Site.Anchors[s.Pos]
	}
	return nil
}

// Obstacle is the obstacle id, or nil.
func (x *Index) Obstacle(id ID) *Obstacle {
	if s := x.at[id]; s.Kind == ThingObstacle {
		return &x.Plan.Site.Obstacles[s.Pos]
	}
	return nil
}

// Person is the person id, or nil.
func (x *Index) Person(id ID) *Person {
	if s := x.at[id]; s.Kind == ThingPerson {
		return &x.Plan.Site.People[s.Pos]
	}
	return nil
}

// Line is the line id of the rig, or nil.
func (x *Index) Line(id ID) *Line {
	if s := x.at[id]; s.Kind == ThingLine {
		return &x.Rig.Lines[s.Pos]
	}
	return nil
}

// Block is the block id of the rig, or nil.
func (x *Index) Block(id ID) *Block {
	if s := x.at[id]; s.Kind == ThingBlock {
		return &x.Rig.Blocks[s.Pos]
	}
	return nil
}

// Sling is the sling id of the rig, or nil.
func (x *Index) Sling(id ID) *Sling {
	if s := x.at[id]; s.Kind == ThingSling {
		return &x.Rig.Slings[s.Pos]
	}
	return nil
}

// Shackle is the shackle id of the rig, or nil.
func (x *Index) Shackle(id ID) *Shackle {
	if s := x.at[id]; s.Kind == ThingShackle {
		return &x.Rig.Shackles[s.Pos]
	}
	return nil
}

// Damper is the damper id of the rig, or nil.
func (x *Index) Damper(id ID) *Damper {
	if s := x.at[id]; s.Kind == ThingDamper {
		return &x.Rig.Dampers[s.Pos]
	}
	return nil
}

// Pin is the pin of the rig that goes by ref, or nil.
func (x *Index) Pin(ref ID) *Pin {
	if s := x.at[ref]; s.Kind == ThingPin {
		return &x.Rig.Incident.Pins[s.Pos]
	}
	return nil
}

// UnknownThing is the thing id of a kind this version does not know, or nil.
func (x *Index) UnknownThing(id ID) *UnknownThing {
	s := x.at[id]
	switch {
	case s.Kind != ThingUnknown:
		return nil
	case s.InRig:
		return &x.Rig.Unknown[s.Pos]
	}
	return &x.Plan.Site.Unknown[s.Pos]
}

package part

import (
	"github.com/golang/geo/r3"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// ZoneKind is a kind of ground where a parting line, a thrown part or a
// vehicle can reach.
type ZoneKind string

// The kinds of zone.
const (
	ZoneRecoil   ZoneKind = "recoil"
	ZoneBight    ZoneKind = "bight"
	ZoneRelease  ZoneKind = "release"
	ZoneStandOff ZoneKind = "stand-off"
	ZoneTree     ZoneKind = "tree"
	ZoneRollAway ZoneKind = "roll-away"
	ZoneSlide    ZoneKind = "slide path"
	ZoneCasualty ZoneKind = "casualty" // where the casualty is pulled, jumps and tips
)

// ZoneKinds are all of them, the one that kills first first; also the order in
// which a person's zones are named.
var ZoneKinds = [...]ZoneKind{ZoneBight, ZoneRecoil, ZoneRelease, ZoneTree, ZoneRollAway, ZoneCasualty, ZoneSlide, ZoneStandOff}

// Zone is ground where nobody stands.
type Zone struct {
	Kind    ZoneKind
	Thing   plan.ID         // the thing it comes from
	Outline []plan.Point    // closed polygon, not repeating its first corner, counter-clockwise
	Radius  quantity.Length // of a stand-off ring
	Fact    string          // row id of its rule
}

// Contact is where a stretch bears on an obstacle or trunk.
type Contact struct {
	Obstacle plan.ID
	From, To quantity.Length // along the line from its hauling end
	Length   quantity.Length
}

// Stretch is one straight part of a line as it lies.
type Stretch struct {
	Part     string // id of its part
	Line     plan.ID
	Index    int
	A, B     r3.Vector // ends, metres; A nearer the hauling end
	PortA    plan.Port
	PortB    plan.Port
	Length   quantity.Length
	Refused  bool // it bears on something, or was not solved
	Contacts []Contact
	Clear    quantity.Length // least distance to an obstacle; meaningful if ClearOf is set
	ClearOf  plan.ID
}

// Node is where a block, shackle or sling end settled.
type Node struct {
	Thing plan.ID
	At    r3.Vector
	Loose bool             // it lies as drawn: nothing holds it
	Angle quantity.Degrees // included angle of the line at a block
	Force r3.Vector        // force of the lines on it at the pull to move, newtons
	Turns string           // "hauls", "pays out", "stands", of a sheave; empty: none
}

// SlingShape is a sling as it lies.
type SlingShape struct {
	Sling              plan.ID
	Hitch              string
	Centre             r3.Vector        // of the trunk, or the point it is hooked to
	Radius             quantity.Length  // of the trunk; 0: hooked to a point
	Apex               r3.Vector        // where it holds what hangs on it
	TangentA, TangentB r3.Vector        // where its legs leave the trunk
	Opens              quantity.Degrees // between the legs
	Reach              quantity.Length  // from the centre to the apex
	Short              quantity.Length  // length it lacks to close; 0: it closes
}

package part

import (
	"math"

	"github.com/golang/geo/r3"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Flat is the point of the plan under v.
func Flat(v r3.Vector) plan.Point { return plan.Point{X: v.X, Y: v.Y} }

// Angle is the angle between v and w, 0 to 180°; 0 if either has no length.
func Angle(v, w r3.Vector) quantity.Degrees {
	if v.Norm2() == 0 || w.Norm2() == 0 { // the arc tangent takes a dot product of −0 for 180°
		return 0
	}
	return quantity.FromRadians(v.Angle(w).Radians())
}

// Kind tells what sort of part it is.
type Kind string

// The kinds of part.
const (
	KindStretch  Kind = "stretch"  // one straight part of a line
	KindWinch    Kind = "winch"    // the pull of a winch on its layer
	KindFairlead Kind = "fairlead" // the load across a fairlead
	KindBlock    Kind = "block"
	KindSling    Kind = "sling" // both checks of a sling, the worse governs
	KindShackle  Kind = "shackle"
	KindPoint    Kind = "recovery point"
	KindAnchor   Kind = "anchor"
	KindSlide    Kind = "slide"       // a vehicle that must stand still, against sliding
	KindTip      Kind = "tip"         // a vehicle against tipping sideways
	KindEnd      Kind = "end fitting" // the connector at an end of a line
)

// Status is the state of a part or of a whole answer. The zero value is
// NotComputed.
type Status int

// The states, least trustworthy first.
const (
	NotComputed   Status = iota // nobody computed it
	Refused                     // computing it would mislead; Why says which finding refuses it
	NotUnderstood               // it depends on members or things this version does not know
	NoLimit                     // there is a load, but no known limit
	Undecided                   // there are load and limit, but a rule that may refuse it, lower the limit or raise the load lacks what it would decide by
	Slack                       // it carries nothing
	Over                        // 100 % of its limit and more
	Near                        // 75 % to under 100 %
	Within                      // under 75 %
)

var statusNames = [...]string{"not computed", "refused", "not understood", "no rating", "not decided", "slack", "over", "near", "within"}

// String is the state in the words the program's output uses.
func (s Status) String() string {
	if s < 0 || int(s) >= len(statusNames) {
		return "not computed"
	}
	return statusNames[s]
}

// NearShare is the share of its limit from which a part is near it. (ours)
const NearShare = 0.75

// Load is the force on a part.
type Load struct {
	Known bool             // false: not computed; the other members then mean nothing
	Force quantity.Force   // its size
	Vec   r3.Vector        // what the part takes, as a vector in newtons; zero where direction means nothing
	Side  quantity.Force   // the share of it across the direction the part is meant to take
	Off   quantity.Degrees // angle off that direction
	Axis  r3.Vector        // that direction, a unit vector; zero if the part has none
}

// Limit is a force a part may be asked for, on a named basis.
type Limit struct {
	Known      bool
	Force      quantity.Force
	Basis      string     // word id: "line 2:1", "tag", "hold ÷ 3", …
	Confidence Confidence // the weakest confidence of the facts it rests on
	Preset     bool       // it rests on a value nobody read from a tag
	AtMost     bool       // a rule that may lower it is not decided: a part may be over it, but is not known to be within it
}

// Range is a quantity with doubt: low ≤ likely ≤ high. Known false: no idea.
type Range struct {
	Known             bool
	Low, Likely, High quantity.Force
}

// Capacity is what a package says of a part: the allowed force and the force at
// which it gives.
type Capacity struct {
	Limit    Limit
	Ultimate Range  // the zero value: not known, or (a winch) there is none
	Note     string // word id of what the ultimate rests on, e.g. "from the standard's factor, not tested"
}

// Confidence says how well a fact is known. The zero value is the weakest.
type Confidence int

// The confidences, weakest first.
const (
	ConfidenceNone   Confidence = iota // not said
	ConfidenceOurs                     // our own engineering judgement
	ConfidenceMemory                   // from memory
	ConfidenceCommon                   // common practice
	ConfidenceCopy                     // secondary copy
	ConfidencePublished
	ConfidenceTyped // typed by the user: a tag, a measurement
)

// ConfidenceOf is the confidence of a handbook row by the row's own word for it; any
// other word is ConfidenceNone.
func ConfidenceOf(word string) Confidence {
	switch word {
	case "published":
		return ConfidencePublished
	case "secondary copy":
		return ConfidenceCopy
	case "common practice":
		return ConfidenceCommon
	case "from memory":
		return ConfidenceMemory
	case "ours":
		return ConfidenceOurs
	}
	return ConfidenceNone
}

// Weaker is the weaker of two confidences, ConfidenceNone counting as not said.
func (s Confidence) Weaker(t Confidence) Confidence {
	if s == ConfidenceNone || t != ConfidenceNone && t < s {
		return t
	}
	return s
}

// Part is one piece that carries load, and what is known of it.
type Part struct {
	ID       string // stable: the thing, or thing/point, or line/stretch
	Kind     Kind
	Thing    plan.ID // the thing it belongs to
	Index    int     // the stretch of a line, the port of its path that a connector is at, the leg of a sling; else 0
	To       plan.ID // what a stretch leads to; else empty
	Use      string  // plan.UseTieBack or UseHoldBack of what lies in one; else empty
	From     plan.ID // what a stretch comes from; else empty
	Move     Load    // at the pull that moves the casualty
	Loosen   Load    // at the pull that breaks it loose; Move where that asks no more
	Stall    Load    // at the most the winch gives
	Limit    Limit
	Used     float64 // Move over Limit; meaningful only if both are known
	Ultimate Range
	Note     string // word id of what Ultimate rests on
	Status   Status
	Why      string           // id of the finding that refuses or explains it
	Angle    quantity.Degrees // included angle at a block, opening of sling legs; else 0
	Layer    int              // layer the rope is on, of a winch
	Values   []Value          // what else is worth saying of it
	AtM      float64          // metres of travel at which it is as said here; 0: as drawn
}

// Known reports whether a share can be stated.
func (p *Part) Known() bool { return p.Move.Known && p.Limit.Known && p.Limit.Force > 0 }

// UsedToLoosen is Loosen over Limit; 0 if either is not known.
func (p *Part) UsedToLoosen() float64 {
	if !p.Loosen.Known || !p.Limit.Known || !(p.Limit.Force > 0) {
		return 0
	}
	return float64(p.Loosen.Force / p.Limit.Force)
}

// Planned is the greater of the loads that the pull is planned with: that to
// move, and that to break loose. Shares and states rest on it.
func (p *Part) Planned() Load {
	if p.Loosen.Known && (!p.Move.Known || p.Loosen.Force > p.Move.Force) {
		return p.Loosen
	}
	return p.Move
}

// Most is Planned over Limit; meaningful only if both are known.
func (p *Part) Most() float64 { return max(p.Used, p.UsedToLoosen()) }

// Looser reports whether breaking loose asks more of the part than moving.
func (p *Part) Looser() bool { return p.Planned() != p.Move }

// ByLoosening reports whether only breaking loose makes the part over or near its
// limit.
func (p *Part) ByLoosening() bool {
	return p.Looser() && (p.Status == Over && p.Used < 1 || p.Status == Near && p.Used < NearShare)
}

// Told is the load that a tag tells: that to move, or the one to break loose where that
// alone brings the part near or over its limit.
func (p *Part) Told() Load {
	if p.ByLoosening() {
		return p.Loosen
	}
	return p.Move
}

// ToFailure is the share of the low ultimate at load l, and whether it is known.
func (p *Part) ToFailure(l Load) (share float64, ok bool) {
	if !l.Known || !p.Ultimate.Known || p.Ultimate.Low <= 0 {
		return 0, false
	}
	return float64(l.Force / p.Ultimate.Low), true
}

// Undecide says of a part that would be within its limit that it is not known to
// be.
func (p *Part) Undecide() {
	p.Status = Undecided
	if p.Why == "" {
		p.Why = NotDecidedID
	}
}

// Judge sets Used from Move and Limit, and Status from the greater of Move and
// Loosen. It leaves a part that was refused or not understood as it is.
func (p *Part) Judge() {
	switch {
	case p.Status == Refused || p.Status == NotUnderstood:
		return
	case !p.Move.Known:
		p.Status = NotComputed
	case !p.Limit.Known || !(p.Limit.Force >= 0):
		p.Status = NoLimit
	case p.Limit.Force == 0: // it holds nothing
		p.Used, p.Status = math.MaxFloat64, Over
	default:
		p.Used = float64(p.Move.Force / p.Limit.Force)
		most := p.Most()
		switch {
		case !(most < 1): // NaN is over, never within
			p.Status = Over
		case p.Limit.AtMost:
			p.Undecide()
		case most >= NearShare:
			p.Status = Near
		default:
			p.Status = Within
		}
	}
}

package plan

import (
	"github.com/go-json-experiment/json/jsontext"
	"math"

	"kedge/solver/quantity"
)

// ID names a thing for good: unique in its plan, kept through every edit.
type ID string

// Plan is the document of one `.kedge` file.
type Plan struct {
	Format    string         `json:"format"`           // always [FormatName]
	Version   int            `json:"version"`          // the file format's version, see [CurrentVersion]
	MinReader int            `json:"min_reader"`       // the oldest version that may open this file
	App       string         `json:"app,omitzero"`     // the program that wrote the file; stamped when it is stored
	Title     string         `json:"title,omitzero"`   // what the plan is called on screen and sheet
	TitleInfo TitleInfo      `json:"title_block"`      // the further fields of a sheet's title block
	Site      Site           `json:"site"`             // what stands there whatever is rigged
	Rigs      []Rig          `json:"rigs"`             // ways to pull on the site, in the order of their tabs
	Photos    []Photo        `json:"photos,omitempty"` // pictures that show evidence
	Extra     jsontext.Value `json:",embed"`           // members this version does not know, kept as read
}

// TitleInfo holds the fields of a title block that a person types (ISO 7200).
type TitleInfo struct {
	School   string         `json:"school,omitzero"`
	Author   string         `json:"author,omitzero"`
	Approver string         `json:"approver,omitzero"`
	Date     string         `json:"date,omitzero"` // as typed, ISO 8601 by preference
	Number   string         `json:"number,omitzero"`
	Extra    jsontext.Value `json:",embed"`
}

// Site is what stands there whatever is rigged.
type Site struct {
	Ground    Ground         `json:"ground"`
	Vehicles  []Vehicle      `json:"vehicles,omitempty"`
	Anchors   []Anchor       `json:"anchors,omitempty"`
	Obstacles []Obstacle     `json:"obstacles,omitempty"`
	People    []Person       `json:"people,omitempty"`
	Notes     []Note         `json:"notes,omitempty"`
	Measures  []Measure      `json:"measures,omitempty"`
	Underlay  *Underlay      `json:"underlay,omitempty"` // a picture to trace; nil: none
	Survey    *Survey        `json:"survey,omitempty"`   // points measured on the ground; nil: none
	Unknown   []UnknownThing `json:"unknown,omitempty"`  // things of a kind this version does not know
	Extra     jsontext.Value `json:",embed"`
}

// Head is what every thing has.
type Head struct {
	ID      ID       `json:"id"`
	Name    string   `json:"name,omitzero"`     // as shown; empty: named after its kind and number
	Number  int      `json:"number,omitzero"`   // kept with the name after its kind, see [KeepNames]; 0: after its place in the file
	Presets []string `json:"presets,omitempty"` // JSON members whose value is still the program's preset
	Doubts  []Doubt  `json:"doubts,omitempty"`  // ranges of members that are not known exactly
	Locked  bool     `json:"locked,omitzero"`   // not moved by the pointer
	Hidden  bool     `json:"hidden,omitzero"`   // not drawn; still computed
	Step    int      `json:"step,omitzero"`     // the step frame it first appears in; 0: from the start
	Caption string   `json:"caption,omitzero"`  // what that step says
}

// Doubt is the range of one member of a thing, in the member's own unit.
type Doubt struct {
	Member    string         `json:"member"` // the JSON name, e.g. "mass_kg"
	Low       float64        `json:"low"`
	High      float64        `json:"high"`
	PlusMinus bool           `json:"plus_minus,omitzero"` // typed as ±, and shown so
	Likely    bool           `json:"likely,omitzero"`     // typed as low / likely / high: the member's own value is the likely one
	Extra     jsontext.Value `json:",embed"`
}

// Point is a place on the ground plane: x metres east, y metres north, as on a
// map. Its JSON object is closed: a later version adds members beside a point,
// never in it.
type Point struct {
	X float64 `json:"x_m"`
	Y float64 `json:"y_m"`
}

// Dist is how far apart two points are, in metres.
func (p Point) Dist(q Point) float64 { return math.Hypot(q.X-p.X, q.Y-p.Y) }

// Plus is the point so many metres east and north of p.
func (p Point) Plus(dx, dy float64) Point { return Point{p.X + dx, p.Y + dy} }

// Mid is the point halfway between two.
func (p Point) Mid(q Point) Point { return Point{(p.X + q.X) / 2, (p.Y + q.Y) / 2} }

// Port names a hook-on point. Point is empty where the thing has only one. Like
// that of a [Point], its JSON object is closed.
//
//	vehicle  the id of one of its recovery points, or PortWinch for its fairlead
//	anchor   empty: the anchor itself (a trunk takes a sling, a rated point a shackle)
//	obstacle empty: a boulder that may serve as anchor
//	block    empty: its sheave; PortBecket: the becket
//	sling    empty: its free end (the eye, or the apex round a trunk)
//	shackle  empty: the place where its parts meet
type Port struct {
	Thing ID `json:"thing"`
	Point ID `json:"point,omitzero"`
}

// Points of a port that are no ids of the plan.
const (
	PortWinch  ID = "winch"
	PortBecket ID = "becket"
)

// IsZero reports whether p names nothing.
func (p Port) IsZero() bool { return p == Port{} }

// String is the port as the parts of an assessment are named: thing, or
// thing/point.
func (p Port) String() string {
	if p.Point == "" {
		return string(p.Thing)
	}
	return string(p.Thing) + "/" + string(p.Point)
}

// Rating is a force somebody vouches for, with what it means. The zero value
// is "no rating": there is then no limit, and the part is never within one.
type Rating struct {
	Force quantity.Force `json:"force_n,omitzero"`
	Basis RatingBasis    `json:"basis,omitzero"`
	Extra jsontext.Value `json:",embed"`
}

// RatingBasis says what a rating's force is. Unsaid counts as breaking: the
// lower allowance of the two.
type RatingBasis string

const (
	BasisUnsaid   RatingBasis = ""
	BasisWorking  RatingBasis = "working"
	BasisBreaking RatingBasis = "breaking"
)

// Known reports whether there is a rating at all.
func (r Rating) Known() bool { return r.Force > 0 }

// UnknownThing is a thing of a kind this version does not know: kept, drawn as
// "?", and what hangs on it is not computed.
type UnknownThing struct {
	ID    ID             `json:"id"`
	Kind  string         `json:"kind"`
	At    Point          `json:"at"`
	Extra jsontext.Value `json:",embed"`
}

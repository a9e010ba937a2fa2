package draw

import (
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/plan"
)

// Scene is everything a picture is drawn from.
type Scene struct {
	Plan    *plan.Plan
	Rig     plan.ID            // the rig shown; empty: only the site
	Answer  *solver.Assessment // of that rig; nil: nothing computed, and drawn so
	Words   *words.Words       // language and units
	View    View
	Look    Look
	Show    Show
	Overlay *Overlay           // what the board adds while it is used; nil on a sheet
	Labels  *Labels            // where labels lie, kept between frames; nil: placed anew
	Now     *solver.Assessment // the answer for the moment that the picture shows, where Answer is that for a whole pull; nil: no second figures
}

// View maps the plan to the picture: pen units are pixels on a screen and
// millimetres on a sheet, y down.
type View struct {
	Middle     plan.Point // the plan's point in the middle of the picture
	PerM       float64    // pen units per metre, > 0
	W, H       float64    // size of the picture, pen units
	X0, Y0     float64    // its top left corner on the page; 0 on a screen
	UnitsPerPx float64    // pen units per logical screen pixel: 1 on a screen, 0.2646 mm on a sheet (96 per inch)
}

// ToPen is the place of a plan point in the picture.
func (v View) ToPen(p plan.Point) (x, y float64) {
	return v.X0 + v.W/2 + (p.X-v.Middle.X)*v.PerM, v.Y0 + v.H/2 - (p.Y-v.Middle.Y)*v.PerM
}

// ToPlan is the plan point at a place of the picture.
func (v View) ToPlan(x, y float64) plan.Point {
	return plan.Point{X: v.Middle.X + (x-v.X0-v.W/2)/v.PerM, Y: v.Middle.Y - (y-v.Y0-v.H/2)/v.PerM}
}

// Look is how it is drawn.
type Look struct {
	Dark      bool
	Field     bool    // large text, bold strokes, no tints, no grid
	Print     bool    // black and white that copies: hatches in black, no fills of colour
	Alone     bool    // cut out of a board: nobody can move it to see what lies beyond; of what is printed that is sure
	Color     bool    // what is printed has the signal colours
	TextScale float64 // 1 = 100 %; 0 counts as 1
}

// Show switches what is drawn; the zero value draws everything but what is
// listed.
type Show struct {
	HideZones    map[string]bool // by part.ZoneKind
	ZonesApart   bool            // kinds of zone each with hatch and edge of its own; else only while pointed at
	HideGrid     bool
	HideTags     bool
	HideNames    bool
	HideUnderlay bool
	HideSurvey   bool
	Blank        map[string]bool // figures left blank on an exercise, by part id
	Figures      map[string]bool // figures shown though there is nothing to say of them, by part id
	UpToStep     int             // step frames: only things up to this step; 0: all
	Emphasis     int             // step frames: things of this step are emphasised
}

// Overlay is what the board adds to the picture while it is used. All places
// are plan points unless named Px.
type Overlay struct {
	Selected  []plan.ID
	Hover     plan.ID
	HoverPart string
	Flagged   string // key of the finding that is pointed at

	Ghost         *Ghost         // the thing about to be placed
	Ports         []PortMark     // hook-on points offered
	Rubber        []plan.Point   // line or outline under construction, to the pointer
	RubberRefused string         // word shown where it is refused, e.g. "bears on Boulder 1"
	RubberFrom    int            // index in Rubber from which it is refused
	Guides        []Guide        // snapping lines with their reason
	Texts         []FreeText     // live lengths, angles, names at the pointer
	Frame         *[2]plan.Point // selection frame
	Cross         *plan.Point    // keyboard crosshair
	Handles       []Handle       // turn handles and the like
	Way           []plan.Point   // legs of an exit path that is shaped, from corner to corner
	Preview       bool           // the answer shown is that of a preview; tags say so
	Arcs          []ReachArc     // lengths of slings of the kit, round an anchor
	Moved         *[2]plan.Point // old and new place of a block that jumped
	Dragged       []plan.ID      // things on the moving layer
	Places        []PlaceMark    // where somebody may be put
	Dim           bool           // the keep-out is darker than else
}

// PlaceMark is a place where somebody of a role may be put.
type PlaceMark struct {
	At     plan.Point
	Role   string
	Number int
	Hot    bool // a click puts them there
}

// Ghost is a thing before it is placed.
type Ghost struct {
	Vehicle *plan.Vehicle
	Anchor  *plan.Anchor
	Person  *plan.Person
	Inside  bool // the person would stand in a zone
	Block   *plan.Block
	Pin     *PinMark
	Label   string
}

// PortMark is a hook-on point as offered to the pointer.
type PortMark struct {
	Port  plan.Port
	At    plan.Point
	Kind  PortKind
	State PortState
	Label string // shown while under the pointer: name, rating, or the reason why not
}

// PortKind gives a hook-on point its shape.
type PortKind int

// The kinds of hook-on point.
const (
	PortRecovery PortKind = iota // ring
	PortFairlead                 // rounded square with the drum mark
	PortSheave                   // circle
	PortEye                      // small ring on a stub
	PortSling                    // drop
	PortTrunk                    // arc round the trunk
	PortRated                    // ring with cross
)

// PortState is how a hook-on point stands to the pointer.
type PortState int

// The states of a hook-on point.
const (
	PortHidden PortState = iota
	PortOffered
	PortUnder
	PortTaken
	PortRefused
)

// Guide is a snapping line.
type Guide struct {
	A, B plan.Point
	Why  string
}

// FreeText is a text at a place.
type FreeText struct {
	At   plan.Point
	Text string
	Grey bool
}

// Handle is a thing to grab.
type Handle struct {
	At   plan.Point
	Kind string // "turn", "corner", "end", "add", "strap"
	Hot  bool
}

// ReachArc shows where a block would lie with a sling of the kit.
type ReachArc struct {
	Centre  plan.Point
	RadiusM float64
	Label   string
	Hot     bool
}

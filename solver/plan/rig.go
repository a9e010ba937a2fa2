package plan

import (
	"github.com/go-json-experiment/json/jsontext"

	"kedge/solver/quantity"
)

// Rig is one way to pull on the site.
type Rig struct {
	Head
	Lines    []Line          `json:"lines,omitempty"`
	Blocks   []Block         `json:"blocks,omitempty"`
	Slings   []Sling         `json:"slings,omitempty"`
	Shackles []Shackle       `json:"shackles,omitempty"`
	Dampers  []Damper        `json:"dampers,omitempty"`
	Basis    string          `json:"basis,omitzero"`            // BasisPulling or BasisLifting; empty: pulling
	StandOff float64         `json:"stand_off_factor,omitzero"` // raises the stand-off ring; never lowers it
	Travel   quantity.Length `json:"travel_shown_m,omitzero"`   // travel the drawing shows
	Incident *Incident       `json:"incident,omitempty"`        // of a pull that went wrong with it; nil: none is known
	Exercise *Exercise       `json:"exercise,omitempty"`        // what a printed exercise asks of it; nil: the usual
	Unknown  []UnknownThing  `json:"unknown,omitempty"`
	Extra    jsontext.Value  `json:",embed"`
}

// What the shares of a rig are counted on.
const (
	BasisPulling = "pulling"
	BasisLifting = "lifting"
)

// Line is a rope that runs: from the winch through blocks to its end. A line
// that does not start at a winch is a secondary line of fixed Length.
type Line struct {
	Head
	Path      []Port                 `json:"path"`              // hook-on points visited, from the hauling end
	Material  string                 `json:"material,omitzero"` // LineWire, LineHMPE, …; empty: not known
	Diameter  quantity.Length        `json:"diameter_m,omitzero"`
	Length    quantity.Length        `json:"length_m,omitzero"` // all there is, drum included; of a secondary line: between its ends
	Rating    Rating                 `json:"rating"`
	Stiffness quantity.Force         `json:"stiffness_ae_n,omitzero"` // A·E; 0: from the material and the breaking strength
	MassPerM  quantity.LinearDensity `json:"mass_kg_per_m,omitzero"`  // 0: from the material
	End       string                 `json:"end_fitting,omitzero"`    // row id of the end fitting; empty: not known
	Connector Connector              `json:"connector,omitzero"`      // what its end is hooked on with, see [Rig.Connected]; zero: not known
	Condition string                 `json:"condition,omitzero"`      // ConditionNew, …; empty: used and inspected is NOT assumed
	Knots     []string               `json:"knots,omitempty"`         // row ids of knots in it
	Wet       bool                   `json:"wet,omitzero"`
	Joins     []Join                 `json:"joins,omitempty"`
	Use       string                 `json:"use,omitzero"`         // UsePull, UseTieBack, UseHoldBack; empty: pull
	PaidOut   string                 `json:"paid_out,omitzero"`    // how a hold-back is that no winch pays out: PaidOutFriction; empty: it is fixed
	Share     float64                `json:"winch_share,omitzero"` // share of the pull when several winches pull; 0: by line pull
	Fixed     quantity.Force         `json:"tension_n,omitzero"`   // a measured tension at the winch; 0: what the pull needs
	Elastic   bool                   `json:"elastic,omitzero"`     // compute its stretch; secondary lines only
	Extra     jsontext.Value         `json:",embed"`
}

// Materials of line and sling, states of a line, uses of a line or sling.
const (
	MaterialWire      = "wire"
	MaterialHMPE      = "HMPE"
	MaterialNylon     = "nylon"
	MaterialPolyester = "polyester"
	MaterialChain     = "chain"
	MaterialFibre     = "laid fibre"
	MaterialKinetic   = "kinetic rope" // rope made to stretch and snatch
	MaterialWeb       = "web"          // polyester webbing sling
	MaterialRound     = "round sling"

	ConditionUnknown  = ""
	ConditionNew      = "new"
	ConditionUsed     = "used and inspected"
	ConditionDoubtful = "doubtful"
	ConditionKinked   = "kinked or bird-caged"

	UsePull     = ""
	UseTieBack  = "tie-back"
	UseHoldBack = "hold-back"

	PaidOutFriction = "friction device" // turns round a bollard, a descender: paid out by hand under load
)

// Join is a place in a line where two pieces are joined.
type Join struct {
	At    quantity.Length `json:"from_winch_m"`  // from the hauling end
	Kind  string          `json:"kind,omitzero"` // "shackle", "soft shackle", "hook", "knot"
	Mass  quantity.Mass   `json:"mass_kg,omitzero"`
	Extra jsontext.Value  `json:",embed"`
}

// Connector is what hooks a line on: the piece between its end and the point,
// sling, anchor or block it pulls on. Presets and doubts of its members stand
// with those of its line, "connector.kind", "connector.rating".
type Connector struct {
	Kind   string         `json:"kind,omitzero"` // ConnectorHook, …; empty: not known
	Rating Rating         `json:"rating,omitzero"`
	Extra  jsontext.Value `json:",embed"`
}

// Kinds of connector.
const (
	ConnectorUnknown = ""
	ConnectorHook    = "hook"
	ConnectorThimble = "thimble" // an eye with a thimble, slipped over a hook or pin
	ConnectorSoft    = "soft shackle"
	ConnectorShackle = "shackle" // bow or dee
)

// Block is a pulley; its sheave turns on a bearing. A ring has no sheave.
type Block struct {
	Head
	Kind       string          `json:"kind,omitzero"`  // BlockRoller, BlockPlain, BlockRing; empty: not known, counts as a ring, the highest loss
	Fixed      Port            `json:"fixed,omitzero"` // the point it is shackled to directly; zero: it hangs from the slings that hold it
	At         Point           `json:"at"`             // drawn place, used while it is loose and to start the solver
	Rating     Rating          `json:"rating"`
	RatingOn   string          `json:"rating_on,omitzero"`         // RatedHanger or RatedLine; empty: not known, counts as hanger
	Sheave     quantity.Length `json:"sheave_diameter_m,omitzero"` // tread diameter
	LineMin    quantity.Length `json:"line_min_m,omitzero"`        // thinnest line it takes
	LineMax    quantity.Length `json:"line_max_m,omitzero"`        // thickest line it takes
	Efficiency float64         `json:"efficiency,omitzero"`        // at a half turn; 0: by kind
	Friction   float64         `json:"ring_friction,omitzero"`     // of a ring; 0: by material
	HeadLength quantity.Length `json:"head_m,omitzero"`            // from its eye to the middle of the sheave
	Mass       quantity.Mass   `json:"mass_kg,omitzero"`
	Extra      jsontext.Value  `json:",embed"`
}

// Kinds of block and what a block's rating is counted on.
const (
	BlockUnknown = ""
	BlockRoller  = "roller"
	BlockPlain   = "plain"
	BlockRing    = "ring"

	RatedUnsaid = ""
	RatedHanger = "hanger"
	RatedLine   = "line"
)

// Sling is a strap, chain or strop of fixed length.
type Sling struct {
	Head
	On        Port            `json:"on,omitzero"`    // what it is round or hooked to; zero: loose
	Holds     Port            `json:"holds,omitzero"` // the block, shackle, anchor or point at its other end; zero: a line may end in it
	Hitch     string          `json:"hitch,omitzero"` // HitchBasket, HitchChoked, HitchStraight; empty: basket round a trunk, else straight
	Material  string          `json:"material,omitzero"`
	Standard  string          `json:"standard,omitzero"` // "EN", "ASME"; empty: EN
	Length    quantity.Length `json:"length_m,omitzero"` // eye to eye
	Width     quantity.Length `json:"width_m,omitzero"`
	Rating    Rating          `json:"rating"`                     // for a straight pull
	Height    quantity.Length `json:"height_m,omitzero"`          // on the trunk, above ground; 0: 0.5 m by preset
	Stiffness quantity.Force  `json:"stiffness_n_per_m,omitzero"` // force per metre of stretch; 0: does not stretch
	Condition string          `json:"condition,omitzero"`
	Use       string          `json:"use,omitzero"`
	Extra     jsontext.Value  `json:",embed"`
}

// Hitches.
const (
	HitchDefault  = ""
	HitchBasket   = "basket"
	HitchChoked   = "choked"
	HitchStraight = "straight"
)

// Shackle joins parts. Where Joins names two parts it carries the force
// between them; where it names none it is the place where the slings that hold
// it and the lines that end on it meet.
type Shackle struct {
	Head
	Kind         string          `json:"kind,omitzero"`   // ShackleBow, ShackleDee, ShackleSoft; empty: not known
	Joins        []Port          `json:"joins,omitempty"` // none or two
	At           Point           `json:"at,omitzero"`     // drawn place while it is loose
	Rating       Rating          `json:"rating"`
	Body         quantity.Length `json:"body_m,omitzero"` // diameter of the body
	PinIsRunning bool            `json:"pin_on_running_line,omitzero"`
	RoundPin     bool            `json:"round_pin,omitzero"` // held by a split pin only
	Extra        jsontext.Value  `json:",embed"`
}

// Kinds of shackle.
const (
	ShackleBow  = "bow"
	ShackleDee  = "dee"
	ShackleSoft = "soft"
)

// Damper is a weight laid over a line.
type Damper struct {
	Head
	Line    ID             `json:"line"`
	Stretch int            `json:"stretch"` // 0 is the first, at the winch
	Share   float64        `json:"share"`   // place along the stretch, 0 to 1 from its hauling end
	Mass    quantity.Mass  `json:"mass_kg,omitzero"`
	Extra   jsontext.Value `json:",embed"`
}

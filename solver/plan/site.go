package plan

import (
	"github.com/go-json-experiment/json/jsontext"

	"kedge/solver/quantity"
)

// Ground is the plane everything stands on, and what it is made of.
type Ground struct {
	Slope     Maybe[quantity.Degrees] `json:"slope_deg,omitzero"`            // steepest slope, 0 to 60
	Downhill  Maybe[quantity.Degrees] `json:"downhill_bearing_deg,omitzero"` // where it falls to
	Surface   string                  `json:"surface,omitzero"`              // row id of a rolling surface; empty: not known
	Grip      string                  `json:"grip,omitzero"`                 // row id of tyre grip; empty: not known
	Soil      string                  `json:"soil,omitzero"`                 // soil for anchors; empty: not known
	NorthTurn quantity.Degrees        `json:"north_deg,omitzero"`            // bearing of the sheet's up direction, for the north arrow
	Extra     jsontext.Value          `json:",embed"`
}

// Vehicle is a vehicle of the site, to scale.
type Vehicle struct {
	Head
	At            Point            `json:"at"`              // middle of the footprint
	Bearing       quantity.Degrees `json:"bearing_deg"`     // of its nose
	Rise          quantity.Length  `json:"rise_m,omitzero"` // base above the ground plane
	Length        quantity.Length  `json:"length_m,omitzero"`
	Width         quantity.Length  `json:"width_m,omitzero"`
	Height        quantity.Length  `json:"height_m,omitzero"`
	Mass          quantity.Mass    `json:"mass_kg,omitzero"` // as it stands, without Load
	Load          quantity.Mass    `json:"load_kg,omitzero"` // cargo on top of Mass
	Wheelbase     quantity.Length  `json:"wheelbase_m,omitzero"`
	FrontOverhang quantity.Length  `json:"front_overhang_m,omitzero"` // nose to front axle
	Track         quantity.Length  `json:"track_m,omitzero"`
	CGHeight      quantity.Length  `json:"cg_height_m,omitzero"` // centre of gravity above ground
	CGBehindFront quantity.Length  `json:"cg_behind_front_axle_m,omitzero"`
	Brake         string           `json:"brake,omitzero"`         // BrakeNone …; empty: not known, counts for nothing
	BrakeForce    quantity.Force   `json:"brake_force_n,omitzero"` // what the parking brake is known to hold
	InGear        bool             `json:"in_gear,omitzero"`       // driver says it is left in gear
	FootBrake     bool             `json:"foot_brake,omitzero"`    // a driver stays on the foot brake
	Chocks        string           `json:"chocks,omitzero"`        // ChocksFront …; empty: none
	Grip          string           `json:"grip,omitzero"`          // overrides the ground's grip
	Recovery      []RecoveryPoint  `json:"recovery_points,omitempty"`
	Winch         *Winch           `json:"winch,omitempty"`   // nil: no winch
	Stuck         *Stuck           `json:"casualty,omitzero"` // nil: not the one to be moved
	Extra         jsontext.Value   `json:",embed"`
}

// What a vehicle's parking brake acts on, and where chocks lie.
const (
	BrakeUnknown = ""
	BrakeNone    = "none"
	BrakeRear    = "rear"
	BrakeFront   = "front"
	BrakeAll     = "all"

	ChocksNone  = ""
	ChocksFront = "front"
	ChocksRear  = "rear"
	ChocksAll   = "all"
)

// BrakeKnown reports whether somebody said what the parking brake acts on, in a
// word that is known.
func (v *Vehicle) BrakeKnown() bool {
	switch v.Brake {
	case BrakeNone, BrakeRear, BrakeFront, BrakeAll:
		return true
	}
	return false
}

// Chocked reports whether chocks lie somewhere. A word that is not known counts
// for none.
func (v *Vehicle) Chocked() bool {
	switch v.Chocks {
	case ChocksFront, ChocksRear, ChocksAll:
		return true
	}
	return false
}

// RecoveryPoint is a place on a vehicle where something can be hooked on.
type RecoveryPoint struct {
	ID       ID                      `json:"id"`
	Name     string                  `json:"name,omitzero"`
	Kind     string                  `json:"kind,omitzero"`          // PointRated …; empty: not known
	Ahead    quantity.Length         `json:"ahead_m"`                // of the footprint's middle
	Left     Maybe[quantity.Length]  `json:"left_m,omitzero"`        // of the middle line
	Height   quantity.Length         `json:"height_m,omitzero"`      // above ground
	Axis     Maybe[quantity.Degrees] `json:"axis_deg,omitzero"`      // direction it is meant to be pulled in, clockwise from the nose
	MaxAngle quantity.Degrees        `json:"max_angle_deg,omitzero"` // off that axis, by its tag; 0: the tag is silent
	Rating   Rating                  `json:"rating"`
	Presets  []string                `json:"presets,omitempty"`
	Extra    jsontext.Value          `json:",embed"`
}

// Kinds of point of a vehicle. Only the first four are recovery points.
const (
	PointUnknown  = ""
	PointRated    = "rated point" // a tagged recovery point
	PointBowEye   = "bow eye"     // a welded or bolted closed eye made for pulling
	PointHook     = "tow hook"
	PointPintle   = "pintle"       // drawbar hook or receiver made for pulling
	PointScrewEye = "screw-in eye" // in line only, steady pull
	PointTowBall  = "tow ball"     // never a recovery point
	PointTieDown  = "tie-down eye" // never a recovery point
	PointBar      = "bar"          // bumper or guard bar; never a recovery point
	PointAxle     = "axle"         // never a recovery point
	PointSteering = "steering"     // never a recovery point
)

// Winch is a drum winch built into a vehicle, with its fairlead.
type Winch struct {
	Ahead          quantity.Length         `json:"ahead_m"`         // fairlead, from the footprint's middle
	Left           Maybe[quantity.Length]  `json:"left_m,omitzero"` // of the middle line
	Height         quantity.Length         `json:"height_m,omitzero"`
	Axis           Maybe[quantity.Degrees] `json:"axis_deg,omitzero"`     // direction of a straight lead, clockwise from the nose
	LinePull       quantity.Force          `json:"line_pull_n,omitzero"`  // rated, layer 1
	StallFactor    float64                 `json:"stall_factor,omitzero"` // stall over rated pull; 0: the handbook's high end
	Limiter        quantity.Force          `json:"limiter_n,omitzero"`    // pull at which a limiter stops it; 0: none
	DrumDiameter   quantity.Length         `json:"drum_diameter_m,omitzero"`
	DrumWidth      quantity.Length         `json:"drum_width_m,omitzero"` // between the flanges
	FlangeDiameter quantity.Length         `json:"flange_diameter_m,omitzero"`
	NoLoadSpeed    quantity.Speed          `json:"no_load_speed_m_per_s,omitzero"`
	LoadSpeed      quantity.Speed          `json:"load_speed_m_per_s,omitzero"` // at rated pull
	NoLoadCurrent  quantity.Current        `json:"no_load_current_a,omitzero"`
	LoadCurrent    quantity.Current        `json:"load_current_a,omitzero"`
	MinWraps       int                     `json:"min_wraps,omitzero"`       // by its maker; 0: the handbook's
	Drive          string                  `json:"drive,omitzero"`           // "electric", "hydraulic", "mechanical"; empty: electric
	EngineOff      bool                    `json:"engine_off,omitzero"`      // the engine does not run while it pulls
	NoFairlead     bool                    `json:"no_fairlead,omitzero"`     // the line leaves the drum without a fairlead
	Control        string                  `json:"control,omitzero"`         // how it is worked: ControlWireless …; empty: not known
	ControlCable   quantity.Length         `json:"control_cable_m,omitzero"` // how far the cable reaches from the winch; 0: not known
	Presets        []string                `json:"presets,omitempty"`
	Extra          jsontext.Value          `json:",embed"`
}

// How a winch is worked.
const (
	ControlUnknown  = ""
	ControlWireless = "wireless"
	ControlCable    = "cable"
	ControlCab      = "cab" // by a switch inside the vehicle
)

// Stuck says how the casualty lies and where it is to go.
type Stuck struct {
	Way          string                  `json:"way,omitzero"`             // WayForward, WayReverse, WayFree; empty: forward
	WayBearing   Maybe[quantity.Degrees] `json:"way_bearing_deg,omitzero"` // for WayFree
	WayLength    quantity.Length         `json:"way_length_m,omitzero"`    // how far it has to go
	Bends        []Point                 `json:"way_bends,omitempty"`      // corners of a way that turns, see [Vehicle.WayLine]; none: it is straight
	TurnRadius   quantity.Length         `json:"turn_radius_m,omitzero"`   // the tightest it can be driven round a bend; 0: not known
	Stages       []Stage                 `json:"way_stages,omitempty"`     // what it lies in farther on
	Surface      string                  `json:"surface,omitzero"`         // overrides the ground's
	Depth        string                  `json:"depth,omitzero"`           // DepthNone …; empty: not known
	Sinkage      quantity.Length         `json:"sinkage_m,omitzero"`       // measured depth of the ruts
	LockedWheels int                     `json:"locked_wheels,omitzero"`   // wheels that do not turn, 0 to 4
	BackTheWay   bool                    `json:"back_the_way_it_came,omitzero"`
	OwnDrive     bool                    `json:"own_drive,omitzero"` // its own drive may help
	Overturned   bool                    `json:"overturned,omitzero"`
	InWater      bool                    `json:"in_water,omitzero"`
	WaterSpeed   Maybe[quantity.Speed]   `json:"water_speed_m_per_s,omitzero"`   // 0: it stands
	WaterDepth   quantity.Length         `json:"water_depth_on_body_m,omitzero"` // depth of body in the current
	TrappedWater quantity.Mass           `json:"trapped_water_kg,omitzero"`
	Breakaway    float64                 `json:"breakaway_factor,omitzero"`      // R_break over R_run; 0: the handbook's range
	Suction      quantity.Force          `json:"suction_n,omitzero"`             // belly or suction, a user's own figure
	Measured     quantity.Force          `json:"measured_resistance_n,omitzero"` // measured with a load cell; overrules the rules as far as the first stage
	PlanOn       string                  `json:"plan_on,omitzero"`               // PlanHigh, PlanLikely, PlanLow; empty: high
	Rule         string                  `json:"rule,omitzero"`                  // rule set to plan on; empty: the one that gives the range its end
	Extra        jsontext.Value          `json:",embed"`
}

// Stage is what the casualty lies in from some place of its way on, as when it
// comes out of its hole. An empty word leaves what was before.
type Stage struct {
	After   quantity.Length `json:"after_m"` // along the way
	Depth   string          `json:"depth,omitzero"`
	Surface string          `json:"surface,omitzero"`
	Extra   jsontext.Value  `json:",embed"`
}

// Words of [Stuck].
const (
	WayForward = "forward"
	WayReverse = "reverse"
	WayFree    = "free"

	DepthUnknown = ""
	DepthNone    = "none"
	DepthHub     = "hub"
	DepthChassis = "chassis"
	DepthBody    = "body"

	PlanHigh   = "high"
	PlanLikely = "likely"
	PlanLow    = "low"
)

// Kinds of obstacle that rules ask for.
const (
	ObstacleBank    = "bank" // ground that may cover a place, as the next
	ObstacleBoulder = "boulder"
	ObstacleWater   = "water"
)

// Obstacle is ground a line must not bear on.
type Obstacle struct {
	Head
	Kind    string          `json:"kind,omitzero"`     // "bank", "boulder", "wall", "building", "water", …
	Outline []Point         `json:"outline"`           // at least three corners, not crossing itself
	Height  quantity.Length `json:"height_m,omitzero"` // 0: as high as the line, whatever that is
	Anchor  bool            `json:"may_serve_as_anchor,omitzero"`
	Mass    quantity.Mass   `json:"mass_kg,omitzero"`  // of a boulder that may serve as anchor
	SeeOver bool            `json:"see_over,omitzero"` // people see each other across it
	Extra   jsontext.Value  `json:",embed"`
}

// Person is somebody on the site.
type Person struct {
	Head
	Role    string         `json:"role"` // RoleOperator …
	At      Point          `json:"at"`
	Vehicle ID             `json:"in_vehicle,omitzero"` // sits in it; At is then ignored
	Cover   string         `json:"cover,omitzero"`      // CoverGround …; empty: none marked; any other text counts for nothing
	Extra   jsontext.Value `json:",embed"`
}

// What may cover a place inside the stand-off. Whether it does is a matter of
// what stands on the site: no word makes a cover.
const (
	CoverNone   = ""
	CoverGround = "ground" // a bank or rock higher than the head
	CoverTimber = "timber" // a thick living tree that is no anchor
)

// Roles.
const (
	RoleOperator  = "operator"
	RoleSpotter   = "spotter"
	RoleBystander = "bystander"
	RoleDriver    = "driver"
)

// Note is a text on the sheet.
type Note struct {
	Head
	At    Point          `json:"at"`
	Text  string         `json:"text"`
	Extra jsontext.Value `json:",embed"`
}

// Measure is a length, or with a third point the angle at the second.
type Measure struct {
	Head
	Points []Point        `json:"points"` // two or three
	Extra  jsontext.Value `json:",embed"`
}

// Underlay is a picture to trace. It lies by its middle, scale and turn, which two points
// and a length give one that looks straight down; or by measured points, see
// [Underlay.Fit], which then are all that counts.
type Underlay struct {
	Type     string           `json:"type"`                      // "image/png" or "image/jpeg"
	Bytes    []byte           `json:"bytes"`                     // at most 12 MiB
	File     string           `json:"original_name,omitzero"`    // what the file was called that it was taken from
	Original string           `json:"original_sha256,omitzero"`  // of that file, hexadecimal; Bytes may be a smaller copy
	At       Point            `json:"at"`                        // the picture's middle
	Metres   float64          `json:"metres_per_pixel"`          // scale
	Turn     quantity.Degrees `json:"turn_deg,omitzero"`         // clockwise
	Fade     float64          `json:"fade,omitzero"`             // 0 as it is, 1 invisible
	Scaled   *ScaleBy         `json:"scaled_by,omitempty"`       // how the scale was found
	Points   []PicturePoint   `json:"measured_points,omitempty"` // none, or four and more
	Extra    jsontext.Value   `json:",embed"`
}

// ScaleBy is the known length between two points that scales an underlay.
type ScaleBy struct {
	A      Point           `json:"a"`
	B      Point           `json:"b"`
	Length quantity.Length `json:"length_m"`
	Doubt  quantity.Length `json:"doubt_m,omitzero"`
	Down   bool            `json:"looks_straight_down,omitzero"` // somebody said so; false: nobody did, and the scale may hold nowhere else
	Extra  jsontext.Value  `json:",embed"`
}

// Survey is one thing of up to 100 000 measured points.
type Survey struct {
	Source string         `json:"source,omitzero"` // the file it came from and how it was read
	LatDeg float64        `json:"origin_lat_deg,omitzero"`
	LonDeg float64        `json:"origin_lon_deg,omitzero"`
	Points []SurveyPoint  `json:"points"`
	Extra  jsontext.Value `json:",embed"`
}

// SurveyPoint is one measured point on the local plane.
type SurveyPoint struct {
	Name  string          `json:"name,omitzero"`
	X     float64         `json:"x_m"`
	Y     float64         `json:"y_m"`
	Z     quantity.Length `json:"z_m,omitzero"`
	Doubt quantity.Length `json:"doubt_m,omitzero"` // its place is known to ±, as stated; 0: not said

	Extra jsontext.Value `json:",embed"`
}

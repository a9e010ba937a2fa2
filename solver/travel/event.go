package travel

import "github.com/golang/geo/r2"

// EventKind says what happens on the way.
type EventKind string

const (
	// LayerChange: the last wrap comes to lie on another layer, From to To.
	LayerChange EventKind = "layer-change"
	// DrumFull: the drum holds no more layers.
	DrumFull EventKind = "drum-full"
	// LineOut: the drum has only the wraps left that must stay on it.
	LineOut EventKind = "line-out"
	// ReachesBlock: OnLine runs on to Point, visit Visit of the line on the drum.
	ReachesBlock EventKind = "reaches-block"
	// ReachesFairlead: OnLine runs on to the fairlead.
	ReachesFairlead EventKind = "reaches-fairlead"
	// OffWayBeyond and OffWayWithin: the pull comes to lie more than Level degrees
	// off the way, or less again.
	OffWayBeyond EventKind = "off-way-beyond"
	OffWayWithin EventKind = "off-way-within"
	// StretchTouches: stretch Stretch of line Line comes to bear on Obstacle, at
	// Place, for the first time.
	StretchTouches EventKind = "stretch-touches"
	// OverLimit and WithinLimitAgain: the load of Part comes above Level, or falls
	// back to it; the second is told of the winch alone.
	OverLimit        EventKind = "over-limit"
	WithinLimitAgain EventKind = "within-limit-again"
	// GapReached: the distance of two points falls to Level.
	GapReached EventKind = "gap-reached"
	// Abeam: the line loses its part along the motion. The tension grows without
	// bound before, and nothing is pulled beyond.
	Abeam EventKind = "abeam"
	// PullsBackward: stretch Stretch turns against the motion at Point.
	PullsBackward EventKind = "stretch-pulls-backward"
	// SheaveReverses: the line over visit Visit of line Line, at Point, comes to run
	// the other way.
	SheaveReverses EventKind = "sheave-reverses"
	// SheaveSticks: it stands, and the line behind it keeps its length.
	SheaveSticks EventKind = "sheave-sticks"
	// SlingSlack and SlingTaut: sling Sling comes to carry nothing, or something
	// again.
	SlingSlack EventKind = "sling-slack"
	SlingTaut  EventKind = "sling-taut"
	// MaxLoad: the largest load of Part, Value.
	MaxLoad EventKind = "max-load"
)

// Where says on which part of the way something is.
type Where string

const (
	AtStart Where = "start"
	Midway  Where = "middle"
	AtEnd   Where = "end"
)

// Event is something that happens on the way, with the members its kind names.
type Event struct {
	Kind     EventKind
	AtM      float64
	Start    bool    // so already at the start
	ByJump   bool    // at a step, from Before to After
	Before   float64 // value, if ByJump
	After    float64
	TensionN float64 // at the drum, on the far side of a step; OverLimit

	Part     Part
	Level    float64
	OnLine   int // index into Course.OnLine
	Obstacle int // index into Course.Obstacles
	Gap      int // index into Course.Gaps
	Sling    int
	Line     int
	Stretch  int
	Visit    int // from 0
	Point    int
	Place    r2.Point
	From, To int // layers

	RatioBefore, RatioAfter float64

	Value  float64
	Where  Where
	Smooth bool // a flat top; otherwise at an end of the way or at a step or kink
	Left   bool // reached just before a step down
}

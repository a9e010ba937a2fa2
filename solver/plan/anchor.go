package plan

import (
	"slices"

	"github.com/go-json-experiment/json/jsontext"

	"kedge/solver/quantity"
)

// Anchor is what does not move: a tree, boulder, picket holdfast, deadman, ground
// screw or rated point. Members that its kind does not use stay zero. A braked vehicle
// is an anchor by being hooked on to; it is not listed here.
type Anchor struct {
	Head
	Kind   string          `json:"kind"` // AnchorTree …
	At     Point           `json:"at"`   // middle of the trunk, front of the holdfast
	Rise   quantity.Length `json:"rise_m,omitzero"`
	Height quantity.Length `json:"height_m,omitzero"` // of the tree, of the boulder
	Soil   string          `json:"soil,omitzero"`     // overrides the ground's
	Rating Rating          `json:"rating"`            // a rated point's tag

	// Tree
	Species      string          `json:"species,omitzero"`        // species group, a row id; empty: not known, lowest row used
	Girth        quantity.Length `json:"girth_m,omitzero"`        // round the stem 1.3 m above the ground on its uphill side: for the hold
	Trunk        quantity.Length `json:"trunk_m,omitzero"`        // diameter at the strap: for the sling
	Crown        quantity.Length `json:"crown_radius_m,omitzero"` // drawn only if entered
	Health       string          `json:"health,omitzero"`         // HealthAlive …; empty: not known, no hold
	Rooting      string          `json:"rooting,omitzero"`        // "shallow", "deep"; empty: not known
	PulledBefore bool            `json:"pulled_before,omitzero"`  // before today, or its base moved a quarter degree
	BaseMoved    bool            `json:"base_moved,omitzero"`     // moved one degree: stop

	// Boulder
	Mass quantity.Mass `json:"mass_kg,omitzero"`

	// Picket holdfast, deadman and ground screw
	Layout      string           `json:"layout,omitzero"`          // "1", "1-1", "1-1-1", "2-1", "3-2-1"
	SetBearing  quantity.Degrees `json:"set_bearing_deg,omitzero"` // direction of the pull it was set for
	SetKnown    bool             `json:"set_known,omitzero"`       // SetBearing was entered
	Depth       quantity.Length  `json:"depth_m,omitzero"`         // mean depth of the deadman; of the screw's uppermost plate, straight down
	LogLength   quantity.Length  `json:"log_length_m,omitzero"`
	LogDiameter quantity.Length  `json:"log_diameter_m,omitzero"`
	LineRun     float64          `json:"line_run,omitzero"` // of a deadman: run per rise of its line in the trench, 1 to 4; 0: not known, counts as 1

	// Ground screw; its axis rises along SetBearing
	Helix    quantity.Length  `json:"helix_m,omitzero"`       // diameter of its plate, of several the uppermost; 0: not known
	AxisRise quantity.Degrees `json:"axis_rise_deg,omitzero"` // of its axis above the ground, toward the pull, to 90; 0: not known

	// A measured or otherwise known hold overrules the tables.
	HoldLow    Maybe[quantity.Force] `json:"hold_low_n,omitzero"` // 0: it holds nothing
	HoldLikely quantity.Force        `json:"hold_likely_n,omitzero"`
	HoldHigh   quantity.Force        `json:"hold_high_n,omitzero"`
	HoldSource string                `json:"hold_source,omitzero"`

	Extra jsontext.Value `json:",embed"`
}

// HoldTyped reports whether somebody entered what the anchor holds, be it nothing.
func (a *Anchor) HoldTyped() bool { return a.HoldLow.Known() || a.HoldLikely != 0 || a.HoldHigh != 0 }

// HasTrunk tells a tree, and an anchor of a kind nobody knows that has a trunk: it
// may be one.
func (a *Anchor) HasTrunk() bool {
	return a.Kind == AnchorTree || a.Trunk > 0 && AnchorKindOf(a.Kind) == nil
}

// Kinds of anchor and states of a tree.
const (
	AnchorTree    = "tree"
	AnchorBoulder = "boulder"
	AnchorPickets = "picket holdfast"
	AnchorDeadman = "deadman"
	AnchorScrew   = "ground screw" // a helical plate on a shaft, turned into the ground
	AnchorRated   = "rated point"

	HealthUnknown  = ""
	HealthAlive    = "alive"
	HealthDoubtful = "doubtful"
	HealthDead     = "dead"
	HealthRotten   = "rotten"
)

// AnchorKind describes one kind of anchor. What an anchor of it holds is the rule
// of its word in package hold, its symbol that in draw, and what it is called in
// the words; a test fails for a kind that lacks one of them.
type AnchorKind struct {
	Word    string   // in the file: Anchor.Kind
	Members []string // that not every anchor has, by their names in the file, in the order of its form
	Asks    []string // members asked for when one is set down, in order
	Lifted  string   // id of the rule by which a line that rises draws it out; empty: none
	Placed  bool     // set down by the board's anchor tool; a boulder is an obstacle marked as anchor
	Set     bool     // put into the ground for one direction, can be set anew for another, holds in no other
	Bearing bool     // may be made for one direction: its side-load counts once that is known
}

// AnchorKinds are all kinds, in the order in which they are offered. They are
// read-only.
var AnchorKinds = []AnchorKind{
	{Word: AnchorTree, Placed: true, Asks: []string{"girth_m", "trunk_m", "health"},
		Members: []string{"girth_m", "trunk_m", "height_m", "species", "health", "rooting", "pulled_before", "base_moved", "crown_radius_m"}},
	{Word: AnchorBoulder, Lifted: "boulder-lifted", Members: []string{"mass_kg", "height_m"}},
	{Word: AnchorPickets, Placed: true, Set: true, Lifted: "pickets-lifted", Members: []string{"layout", "set_bearing_deg"}},
	{Word: AnchorDeadman, Placed: true, Set: true, Lifted: "deadman-line-steep", Asks: []string{"depth_m"},
		Members: []string{"depth_m", "log_length_m", "log_diameter_m", "line_run", "set_bearing_deg"}},
	{Word: AnchorScrew, Placed: true, Set: true, Lifted: "screw-off-axis", Asks: []string{"helix_m", "depth_m", "axis_rise_deg"},
		Members: []string{"helix_m", "depth_m", "set_bearing_deg", "axis_rise_deg"}},
	{Word: AnchorRated, Placed: true, Bearing: true, Asks: []string{"rating"}, Members: []string{"rating", "set_bearing_deg"}},
}

// AnchorThick are the lengths of anchors that are measured in centimetres or
// inches, as trunks are. They are read-only.
var AnchorThick = []string{"girth_m", "trunk_m", "log_diameter_m", "helix_m"}

// AnchorKindOf is the kind with that word, nil if this version knows none.
func AnchorKindOf(word string) *AnchorKind {
	i := slices.IndexFunc(AnchorKinds, func(k AnchorKind) bool { return k.Word == word })
	if i < 0 {
		return nil
	}
	return &AnchorKinds[i]
}

// AnchorWords are the words of all kinds of anchor.
func AnchorWords() []string {
	words := make([]string, len(AnchorKinds))
	for i := range AnchorKinds {
		words[i] = AnchorKinds[i].Word
	}
	return words
}

// MayBeSet reports whether the anchor is set for one direction, or is of a kind
// that this version does not know.
func (a *Anchor) MayBeSet() bool { return AnchorKindOf(a.Kind) == nil || a.IsSet() }

// IsSet reports whether the anchor was put into the ground for one direction and
// holds in no other.
func (a *Anchor) IsSet() bool {
	k := AnchorKindOf(a.Kind)
	return k != nil && k.Set
}

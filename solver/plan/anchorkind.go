package plan

import "slices"

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
	{Word: AnchorRated, Placed: true, Bearing: true, Asks: []string{"rating"}, Members: []string{"rating", "set_bearing_deg"}},
}

// AnchorThick are the lengths of anchors that are measured in centimetres or
// inches, as trunks are. They are read-only.
var AnchorThick = []string{"girth_m", "trunk_m", "log_diameter_m"}

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

// IsSet reports whether the anchor was put into the ground for one direction and
// holds in no other.
func (a *Anchor) IsSet() bool {
	k := AnchorKindOf(a.Kind)
	return k != nil && k.Set
}

package layout

import (
	"reflect"
	"slices"
	"strings"

	"kedge/solver/facts"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Kit is the gear list that new pieces are copied from. An empty one gives
// pieces of which nothing is known, which have no limit.
type Kit []facts.GearItem

// Items of the gear list that new pieces are copied from; where a list lacks
// one, its first item of the kind is taken.
const (
	itemLine    facts.ID = "line-hmpe-10-40m"
	itemSling   facts.ID = "sling-web-3m"
	itemBlock   facts.ID = "block-roller"
	itemShackle facts.ID = "shackle-bow-19"
	itemDamper  facts.ID = "damper-bag"
)

const presetEnd = "end.hmpe-splice"

// Item is a piece of the gear list: the one of that id, else the first of its
// kind, else one of which nothing is known; never nil.
func (k Kit) Item(kind facts.GearKind, id facts.ID) *facts.GearItem {
	first := -1
	for i := range k {
		if k[i].Kind != kind {
			continue
		}
		if k[i].ID == id {
			return &k[i]
		}
		if first < 0 {
			first = i
		}
	}
	if first < 0 {
		return &facts.GearItem{}
	}
	return &k[first]
}

// Copied is the thing of a list entry, or a thing of which nothing is known.
func Copied[T any](p *T) T {
	if p == nil {
		var none T
		return none
	}
	return *p
}

// notPresets are members that no preset fills: what a thing is and where it
// stands are the person's own choice.
var notPresets = map[string]bool{
	"id": true, "name": true, "presets": true, "doubts": true, "at": true, "bearing_deg": true, "kind": true, "path": true,
	"on": true, "holds": true, "fixed": true, "joins": true, "line": true, "stretch": true, "share": true,
	"recovery_points": true, "winch": true, "connector": true, "casualty": true, "ahead_m": true, "left_m": true, "role": true,
}

// PresetMembers are the JSON members of a thing (a pointer to a struct of
// package plan) that have a value and that nobody chose.
func PresetMembers(thing any) []string {
	var names []string
	v := reflect.Indirect(reflect.ValueOf(thing))
	for i := range v.NumField() {
		f := v.Type().Field(i)
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name != "" && !f.Anonymous && !notPresets[name] && !v.Field(i).IsZero() {
			names = append(names, name)
		}
	}
	return names
}

// Line is a new line, its members marked as presets.
func (k Kit) Line() plan.Line {
	l := Copied(k.Item(facts.GearLine, itemLine).Line)
	if l.End == "" && l.Material == plan.MaterialHMPE {
		l.End = presetEnd
	}
	if l.Condition == "" {
		l.Condition = plan.ConditionUsed
	}
	l.Presets = PresetMembers(&l)
	return Hooked(l)
}

// Hooked is a new line with the connector it is laid out with, a hook. It has no
// rating: until a tag is read it counts as goes with the line, whatever line
// takes its place.
func Hooked(l plan.Line) plan.Line {
	l.Connector = plan.Connector{Kind: plan.ConnectorHook}
	l.Presets = append(slices.Clone(l.Presets), presetConnector)
	return l
}

const presetConnector = "connector.kind"

// Block is a new block, its members marked as presets.
func (k Kit) Block() plan.Block {
	b := Copied(k.Item(facts.GearBlock, itemBlock).Block)
	b.Presets = PresetMembers(&b)
	return b
}

// Sling is a new sling of a length: the kit's own of that length if it has one
// of the preset's material, else the preset cut to it.
func (k Kit) Sling(length quantity.Length) plan.Sling {
	s := Copied(k.Item(facts.GearSling, itemSling).Sling)
	for i := range k {
		if o := k[i].Sling; o != nil && o.Length == length && o.Material == s.Material {
			s = *o
			break
		}
	}
	s.Length = length
	if s.Condition == "" {
		s.Condition = plan.ConditionUsed
	}
	s.Presets = PresetMembers(&s)
	return s
}

// Shackle is a new shackle, its members marked as presets.
func (k Kit) Shackle() plan.Shackle {
	s := Copied(k.Item(facts.GearShackle, itemShackle).Shackle)
	s.Presets = append(PresetMembers(&s), "kind")
	slices.Sort(s.Presets)
	return s
}

// Damper is a new damper, its members marked as presets.
func (k Kit) Damper() plan.Damper {
	d := Copied(k.Item(facts.GearDamper, itemDamper).Damper)
	d.Presets = PresetMembers(&d)
	return d
}

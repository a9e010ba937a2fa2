package words

import (
	"slices"
	"strings"

	"kedge/solver/part"
	"kedge/solver/plan"
)

// Lacks are the fields that a rule lacked, by what they are of:
// "Slope (the ground); Flange diameter, Drum width (Winch)".
func (w *Words) Lacks(all []part.Lack, n Names) string {
	type group struct {
		owner  string
		fields []string
	}
	var groups []group
	for _, l := range all {
		owner, field := w.lackOf(l, n)
		i := slices.IndexFunc(groups, func(g group) bool { return g.owner == owner })
		if i < 0 {
			i = len(groups)
			groups = append(groups, group{owner: owner})
		}
		if !slices.Contains(groups[i].fields, field) {
			groups[i].fields = append(groups[i].fields, field)
		}
	}
	texts := make([]string, len(groups))
	for i, g := range groups {
		texts[i] = strings.Join(g.fields, ", ") + " (" + g.owner + ")"
	}
	return strings.Join(texts, "; ")
}

// lackOf is what a missing member is called where it is entered, and what has
// it: a winch and a recovery point have names of their own.
func (w *Words) lackOf(l part.Lack, n Names) (owner, field string) {
	owner, member := w.Label("thing-ground"), l.Member
	if l.Thing != "" {
		owner = w.nameOf(string(l.Thing), n)
	}
	within := func(point, rest string) bool {
		name := n(plan.ID(plan.Port{Thing: l.Thing, Point: plan.ID(point)}.String()))
		if name == "" {
			return false
		}
		owner, member = name, rest
		return true
	}
	if rest, ok := strings.CutPrefix(member, "winch."); ok {
		within("winch", rest)
	} else if rest, ok := strings.CutPrefix(member, "recovery_points."); ok {
		for i := range rest { // an id may hold dots: it ends at the first that makes it a point's
			if rest[i] == '.' && within(rest[:i], rest[i+1:]) {
				break
			}
		}
	}
	member = strings.TrimSuffix(member, ".force_n")
	steps := strings.Split(member, ".")
	last := steps[len(steps)-1]
	if len(steps) > 1 {
		if id := "field-" + steps[len(steps)-2] + "-" + last; w.HasLabel(id) {
			return owner, w.Label(id)
		}
	}
	return owner, w.Label("field-" + last)
}

// Member is what a member of a thing is called where it is entered, the thing behind
// it. The member is named as in the file, "casualty.breakaway_factor".
func (w *Words) Member(thing plan.ID, member string, n Names) string {
	owner, field := w.lackOf(part.Lack{Thing: thing, Member: member}, n)
	return field + " (" + owner + ")"
}

package words

import (
	"fmt"
	"slices"

	"kedge/solver/part"
)

// named are the placeholders that a finding's texts may use beside its values.
var named = []string{"thing", "thing2", "thing3", "part", "part2", "travel", "fields"}

// Missing lists what is lacking or wrong in the texts of a package's rules, one
// line each, sorted; nil for none. Sentences may use the rule's values and the
// names of things and parts.
func (w *Words) Missing(rules []part.Rule) []string {
	var all []string
	for _, r := range rules {
		for _, sentence := range []string{"what", "do"} {
			t, ok := w.text(findingSection, r.ID, sentence)
			if !ok {
				all = append(all, fmt.Sprintf("finding %q has no %q", r.ID, sentence))
				continue
			}
			for _, name := range slotNames(t) {
				if !slices.Contains(named, name) && !slices.Contains(r.Values, name) {
					all = append(all, fmt.Sprintf("finding %q: its %q uses {%s}, which the rule does not carry", r.ID, sentence, name))
				}
			}
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

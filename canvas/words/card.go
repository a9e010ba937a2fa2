package words

import (
	"cmp"
	"slices"
	"strings"

	"kedge/solver/part"
	"kedge/solver/plan"
)

// Card is findings that are told together: those of one rule and level, those that
// follow from one cause, or all answers that are missing. Each person keeps a card
// of its own, and so does each thing that slides, tips or rolls.
type Card struct {
	Level part.Level // the highest of its findings
	Of    []int      // places in the list of findings: the highest level first, of a rule the highest share
	about string     // the subject, "" if they are of one rule and level
}

// The subjects that are no cause, but findings of a kind that are read together.
const (
	subjectMargin  = "margin"  // loads near what is allowed or what breaks
	subjectMissing = "missing" // what somebody has to enter
	subjectNotices = "notices" // what is good to know
)

// noLimit is the finding that a part has no known limit.
const noLimit = "no-limit"

// causes are the subjects whose findings follow from one cause, with their rules: what is
// done about one of them is done about the others.
var causes = map[string]string{
	"tips-sideways": "aside", "tips-at-stall": "aside", "off-way-out": "aside", "off-way-out-refused": "aside",
	"side-slip": "aside", "dragged-aside": "aside", "point-side-pull": "aside",
	"vehicle-slides": "slides", "vehicle-slides-at-stall": "slides", "vehicle-near-sliding": "slides",
	"tree-may-fall": "tree", "tree-untested": "tree", "tree-extrapolated": "tree", "tree-strap-high": "tree",
	"tree-girth-doubtful": "tree", "hold-thin-stem": "tree", "hold-beyond-table": "tree",
	"winch-over": "winch", "winch-duty": "winch", "line-cannot-pass": "winch", "winch-lead": "winch", "fleet-angle": "winch",
	"near-limit": subjectMargin, "near-to-break-loose": subjectMargin, "stall-near": subjectMargin,
}

// subjectOf is what a finding is told with, and of which thing; "" if with its rule and
// level alone.
func subjectOf(f *part.Finding) (subject string, of plan.ID) {
	switch subject = causes[f.ID]; {
	case subject == "winch", subject == subjectMargin:
		return subject, ""
	case subject != "":
		return subject, firstThing(f)
	case Asks(f):
		return subjectMissing, ""
	case f.Level == part.Notice:
		return subjectNotices, ""
	}
	return "", ""
}

func firstThing(f *part.Finding) plan.ID {
	if len(f.Things) == 0 {
		return ""
	}
	return f.Things[0]
}

// Asks reports whether a card is that of the missing answers.
func (c *Card) Asks() bool { return c.about == subjectMissing }

// Asks reports whether a finding is raised because something was not entered, and
// is no DANGER: typing it is what is to be done.
func Asks(f *part.Finding) bool {
	return f.Level < part.Danger && (len(f.Lacks) > 0 || len(f.Remedies) > 0 && typed(f.Remedies[0].Do))
}

// typed reports whether a remedy is to type something.
func typed(do string) bool { return strings.HasPrefix(do, "type-") || strings.HasPrefix(do, "say-") }

// Cards are the cards of a list of findings, in the order of their first. Each
// finding is in one card.
func Cards(findings []part.Finding) []Card {
	var all []Card
	for i := range findings {
		f := &findings[i]
		subject, of := subjectOf(f)
		k := slices.IndexFunc(all, func(c Card) bool {
			first := &findings[c.Of[0]]
			if subject != "" {
				_, its := subjectOf(first)
				return c.about == subject && its == of
			}
			return c.about == "" && first.ID == f.ID && c.Level == f.Level && !keepsItsOwn(f.ID)
		})
		if f.ID == noLimit {
			k = withoutLimit(all, findings, f)
			subject = subjectMissing
		}
		if k < 0 {
			all = append(all, Card{f.Level, []int{i}, subject})
		} else {
			all[k].Of = append(all[k].Of, i)
		}
	}
	for i := range all {
		all[i].sort(findings)
	}
	slices.SortStableFunc(all, func(a, b Card) int { return cmp.Compare(b.Level, a.Level) })
	return all
}

// withoutLimit is the card of what has no limit: that of why it has none, else
// that of what is missing; -1 if there is none yet.
func withoutLimit(all []Card, findings []part.Finding, f *part.Finding) int {
	why := slices.IndexFunc(all, func(c Card) bool {
		return slices.ContainsFunc(c.Of, func(i int) bool {
			g := &findings[i]
			return g.Level >= part.Warning && len(f.Parts) > 0 && slices.Contains(g.Parts, f.Parts[0])
		})
	})
	if why >= 0 {
		return why
	}
	return slices.IndexFunc(all, func(c Card) bool { return c.about == subjectMissing })
}

// sort puts the highest level first, within a rule the highest share, and joins
// what is of one rule.
func (c *Card) sort(findings []part.Finding) {
	first := map[string]int{} // of each rule at a level
	key := func(f *part.Finding) string { return f.ID + f.Level.String() }
	for at, i := range c.Of {
		f := &findings[i]
		c.Level = max(c.Level, f.Level)
		if _, seen := first[key(f)]; !seen {
			first[key(f)] = at
		}
	}
	slices.SortStableFunc(c.Of, func(i, k int) int {
		f, g := &findings[i], &findings[k]
		return cmp.Or(cmp.Compare(g.Level, f.Level), cmp.Compare(first[key(f)], first[key(g)]), cmp.Compare(shareOf(g), shareOf(f)))
	})
}

// shareOf is the share that a finding speaks of, 0 if of none.
func shareOf(f *part.Finding) float64 {
	for _, v := range f.Values {
		if v.Unit == part.UnitShare {
			return v.X
		}
	}
	return 0
}

// ownCards are what the ids of findings contain that are about a person.
var ownCards = [...]string{"person", "bystander", "operator", "driver", "sight", "nobody", "role"}

// moving are what the ids of findings contain by which a vehicle or anchor moves.
var moving = [...]string{"slide", "slip", "tips", "roll"}

// moves reports whether a rule is about what slides, tips or rolls.
func moves(id string) bool {
	return slices.ContainsFunc(moving[:], func(s string) bool { return strings.Contains(id, s) })
}

func keepsItsOwn(id string) bool {
	return moves(id) || slices.ContainsFunc(ownCards[:], func(s string) bool { return strings.Contains(id, s) })
}

// CardNumber is the number of the card that a finding is in, from 1; 0 if it is in
// none. Flag, card and row of a table share it.
func CardNumber(cards []Card, finding int) int {
	return 1 + slices.IndexFunc(cards, func(c Card) bool { return slices.Contains(c.Of, finding) })
}

// CountLevels is how many cards a list of findings has, by level.
func CountLevels(findings []part.Finding) [part.Danger + 1]int {
	var n [part.Danger + 1]int
	for _, c := range Cards(findings) {
		n[c.Level]++
	}
	return n
}

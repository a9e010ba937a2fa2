package words

import (
	"cmp"
	"slices"
	"strings"

	"kedge/solver/part"
)

// Card is findings that are told together: those of one rule and level. What moves
// a vehicle, and each person, keeps a card of its own.
type Card struct {
	Level part.Level
	Of    []int // places in the list of findings, the highest share first, else in its order
}

// Cards are the cards of a list of findings, in the order of their first. Each
// finding is in one card.
func Cards(findings []part.Finding) []Card {
	var all []Card
	for i := range findings {
		f := &findings[i]
		k := slices.IndexFunc(all, func(c Card) bool {
			return findings[c.Of[0]].ID == f.ID && c.Level == f.Level && !keepsItsOwn(f.ID)
		})
		if k < 0 {
			all = append(all, Card{f.Level, []int{i}})
		} else {
			all[k].Of = append(all[k].Of, i)
		}
	}
	for _, c := range all {
		slices.SortStableFunc(c.Of, func(i, k int) int { return cmp.Compare(shareOf(&findings[k]), shareOf(&findings[i])) })
	}
	return all
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

// Card is what a card says: its title, a row each finding where there are several,
// and what to do, each thing once.
func (w *Words) Card(c Card, findings []part.Finding, n Names) (title string, rows, dos []string) {
	first := &findings[c.Of[0]]
	same := true
	for _, i := range c.Of {
		what, do := w.Finding(findings[i], n)
		same = same && findings[i].Travel == first.Travel
		title = what
		if do != "" && !slices.Contains(dos, do) {
			dos = append(dos, do)
		}
	}
	if len(c.Of) == 1 {
		return title, nil, dos
	}
	title = w.Label("card-many-alike", count("count", len(c.Of)))
	if id := "card-many-" + first.ID; w.HasLabel(id) {
		title = w.Label(id, count("count", len(c.Of)))
	}
	if same && first.Travel > 0 {
		title += " (" + w.travel(first) + ")"
	}
	for _, i := range c.Of {
		rows = append(rows, w.cardRow(&findings[i], !same, n))
	}
	return title, rows, dos
}

// cardRow is a finding among several of its rule: short where there is a text for
// that, else its whole sentence.
func (w *Words) cardRow(f *part.Finding, where bool, n Names) string {
	t, short := w.text(labelSection, "row-"+f.ID, "")
	if !short {
		t, short = w.text(findingSection, f.ID, "what")
	}
	row := w.generic(*f, n)
	if short {
		row = capital(fill(t, w.findingValues(*f, n)))
	}
	if where && f.Travel > 0 {
		row += " (" + w.travel(f) + ")"
	}
	return row
}

func (w *Words) travel(f *part.Finding) string {
	return w.Label("at-travel", part.Value{Name: "travel", Unit: part.UnitLength, X: f.Travel})
}

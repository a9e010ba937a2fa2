package words

import (
	"slices"
	"strings"

	"kedge/solver/part"
	"kedge/solver/plan"
)

// CardRow is a row of a card.
type CardRow struct {
	Finding int // place in the list of findings
	Text    string
	Thing   plan.ID // whose member is to be entered, "" with no member: no field, with one: the ground's
	Member  string  // its JSON name below the thing, as in [part.Lack]
}

// CardText is what a card says: its title, a row each finding or member where there
// are several, and what to do, each thing once.
type CardText struct {
	Title string
	Rows  []CardRow
	Dos   []string
}

// Texts are the texts of the rows.
func (t *CardText) Texts() []string {
	all := make([]string, len(t.Rows))
	for i := range t.Rows {
		all[i] = t.Rows[i].Text
	}
	return all
}

// Line is title and rows as one paragraph.
func (t *CardText) Line() string {
	line := t.Title
	for i, r := range t.Texts() {
		switch {
		case strings.HasSuffix(line, "."):
			line += " "
		case i == 0:
			line += ": "
		default:
			line += "; "
		}
		line += r
	}
	if len(t.Rows) > 0 && !strings.HasSuffix(line, ".") {
		line += "."
	}
	return line
}

// Card is what a card says. Of findings that follow from one cause the worst is
// the title.
func (w *Words) Card(c Card, findings []part.Finding, n Names) CardText {
	switch {
	case c.about == subjectMissing:
		return w.missingCard(c, findings, n)
	case len(c.Of) == 1:
		what, do := w.Finding(findings[c.Of[0]], n)
		return CardText{Title: what, Dos: nonEmpty(do)}
	case c.about == subjectNotices, c.about == subjectMargin && !oneRule(c, findings):
		return w.mixedCard(c, findings, n)
	case oneRule(c, findings):
		return w.alikeCard(c, findings, n)
	}
	return w.causeCard(c, findings, n)
}

// causeCard is findings that follow from one cause: the title is what the worst says, and
// its row what to do about it.
func (w *Words) causeCard(c Card, findings []part.Finding, n Names) CardText {
	first := &findings[c.Of[0]]
	what, do := w.Finding(*first, n)
	t := CardText{Title: what}
	if do != "" {
		t.Rows = append(t.Rows, CardRow{Finding: c.Of[0], Text: do})
	}
	for _, i := range c.Of[1:] {
		f := &findings[i]
		text := w.sentences(f, n)
		if f.Travel == first.Travel { // the title says where
			text = strings.Replace(text, " ("+w.travel(f)+")", "", 1)
		}
		t.Rows = append(t.Rows, CardRow{Finding: i, Text: w.atLevel(f, c.Level, text)})
	}
	return t
}

func nonEmpty(s string) []string {
	if s == "" {
		return nil
	}
	return []string{s}
}

// sentences are a finding with what to do about it. What has no limit for want of something
// else is mended with that.
func (w *Words) sentences(f *part.Finding, n Names) string {
	what, do := w.Finding(*f, n)
	if f.ID == noLimit {
		return what
	}
	return strings.TrimSpace(what + " " + do)
}

// atLevel is a row with its level in front, if that is not the card's.
func (w *Words) atLevel(f *part.Finding, card part.Level, text string) string {
	if f.Level == card {
		return text
	}
	return w.Label("card-row-level", part.Text("level", w.Level(f.Level)), part.Text("what", text))
}

// alikeCard is findings of one rule: a title that counts, and rows with figures.
func (w *Words) alikeCard(c Card, findings []part.Finding, n Names) CardText {
	first := &findings[c.Of[0]]
	same := true
	for _, i := range c.Of {
		same = same && findings[i].Travel == first.Travel
	}
	t := CardText{Title: w.Label("card-many-alike", part.Count("count", len(c.Of))), Dos: w.dos(c, findings, n)}
	if id := "card-many-" + first.ID; w.HasLabel(id) {
		t.Title = w.Label(id, part.Count("count", len(c.Of)))
	}
	if same && first.Travel > 0 {
		t.Title += " (" + w.travel(first) + ")"
	}
	for _, i := range c.Of {
		t.Rows = append(t.Rows, CardRow{Finding: i, Text: w.atLevel(&findings[i], c.Level, w.cardRow(&findings[i], !same, n))})
	}
	return t
}

// mixedCard is findings that are read together: a title that counts, and a row
// each, whole where there is no short text.
func (w *Words) mixedCard(c Card, findings []part.Finding, n Names) CardText {
	t := CardText{Title: w.Label("card-"+c.about, part.Count("count", len(c.Of)))}
	var short Card
	for _, i := range c.Of {
		f := &findings[i]
		text := ""
		if w.HasLabel("mixed-" + f.ID) {
			text = w.row("mixed-"+f.ID, f, n)
			short.Of = append(short.Of, i)
		} else {
			text = w.sentences(f, n)
		}
		t.Rows = append(t.Rows, CardRow{Finding: i, Text: w.atLevel(f, c.Level, text)})
	}
	t.Dos = w.dos(short, findings, n)
	return t
}

func oneRule(c Card, findings []part.Finding) bool {
	return !slices.ContainsFunc(c.Of, func(i int) bool { return findings[i].ID != findings[c.Of[0]].ID })
}

// dos is what to do about the findings of a card, each thing once; of several of a rule
// what is done about them all, where there is a text for that.
func (w *Words) dos(c Card, findings []part.Finding, n Names) []string {
	var dos []string
	for _, i := range c.Of {
		f := findings[i]
		_, do := w.Finding(f, n)
		if id := "do-many-" + f.ID; len(c.Of) > 1 && w.HasLabel(id) {
			do = w.Label(id)
		}
		if do != "" && !slices.Contains(dos, do) {
			dos = append(dos, do)
		}
	}
	return dos
}

// missingCard is all that has to be entered: a row a member, with what counts until then
// where a finding says that, and a row each finding of which no member is named. What has
// no limit for want of an answer comes last, and is none.
func (w *Words) missingCard(c Card, findings []part.Finding, n Names) CardText {
	t := CardText{}
	row := func(i int, text string, l part.Lack) {
		if l.Member == "" || !slices.ContainsFunc(t.Rows, func(r CardRow) bool { return r.Thing == l.Thing && r.Member == l.Member }) {
			t.Rows = append(t.Rows, CardRow{Finding: i, Text: text, Thing: l.Thing, Member: l.Member})
		}
	}
	of := func(which func(*part.Finding) bool) {
		for _, i := range c.Of {
			f := &findings[i]
			if !which(f) {
				continue
			}
			what, _ := w.Finding(*f, n)
			what = w.atLevel(f, c.Level, what)
			if len(f.Lacks) == 0 {
				row(i, what, part.Lack{})
			}
			for k, l := range f.Lacks {
				if k > 0 || f.ID == part.NotDecidedID {
					what = capital(w.Member(l.Thing, l.Member, n))
				}
				row(i, what, l)
			}
		}
	}
	of(func(f *part.Finding) bool { return f.ID != part.NotDecidedID && f.ID != noLimit })
	of(func(f *part.Finding) bool { return f.ID == part.NotDecidedID })
	answers := max(1, len(t.Rows))
	of(func(f *part.Finding) bool { return f.ID == noLimit })
	t.Title = w.Label("card-missing", part.Count("count", answers))
	t.Dos = []string{w.Label("do-missing")}
	return t
}

// cardRow is a finding among several of its rule: short where there is a text for
// that, else its whole sentence.
func (w *Words) cardRow(f *part.Finding, where bool, n Names) string {
	row := ""
	if id := "row-" + f.ID; w.HasLabel(id) {
		row = w.row(id, f, n)
	} else if t, ok := w.text(findingSection, f.ID, "what"); ok {
		row = capital(fill(t, w.findingValues(*f, n)))
	} else {
		row = w.generic(*f, n)
	}
	if where && f.Travel > 0 {
		row += " (" + w.travel(f) + ")"
	}
	return row
}

// row is the short text of a finding.
func (w *Words) row(label string, f *part.Finding, n Names) string {
	t, _ := w.text(labelSection, label, "")
	return capital(fill(t, w.findingValues(*f, n)))
}

func (w *Words) travel(f *part.Finding) string {
	return w.Label("at-travel", part.Length("travel", f.Travel))
}

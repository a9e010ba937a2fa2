package sheet

import (
	"cmp"
	"strings"

	"kedge/canvas/report"
	"kedge/canvas/words"
	"kedge/solver/plan"
)

// inquiryAsks are the questions that a class answers of an incident, each the label
// "inquiry-ask-" + its name, with the lines it has for the answer.
var inquiryAsks = []struct {
	name  string
	lines int
}{{"known", 3}, {"idle", 3}, {"order", 4}, {"fits", 3}, {"before", 2}, {"without", 2}, {"lowered", 4}}

// ruleMM is between the ruled lines of an answer, mm. (ours: a hand's writing)
const ruleMM = 8

// inquiry is an incident as an exercise for a class: what is told and was found, without
// how it is known, and questions with room for the answers.
func (m *maker) inquiry() error {
	f, n, err := m.incident(Inquiry)
	if n == nil || err != nil {
		return err
	}
	lines := make([]string, len(n.Pins))
	for i := range n.Pins {
		q := &n.Pins[i]
		said := []string{words.PinSaid(m.w, q, m.names)}
		for _, s := range []string{q.Source, q.Note} {
			if s != "" {
				said = append(said, s)
			}
		}
		lines[i] = strings.Join(said, " · ")
	}
	account, custody := m.written("report-accounts", n.Account), m.written("report-custody", n.Custody)
	for _, s := range []report.Section{{Title: m.w.Label("inquiry-what"), Lines: []string{m.w.Label("inquiry-how")}}, account, {Title: m.w.Label("recon-facts"), Lines: lines}, custody} {
		if err := f.section(&s); err != nil {
			return err
		}
	}
	for i, q := range inquiryAsks {
		if err := f.ask(i, lead*2+float64(q.lines)*ruleMM); err != nil {
			return err
		}
		for range q.lines {
			f.y += ruleMM
			ruled(&f.g.marks, f.x(), f.y, f.x()+f.w(), f.y, lineHair, faint)
		}
		f.gap(lead)
	}
	return nil
}

// ask sets a question of [inquiryAsks], with h mm free for it and what follows.
func (f *flow) ask(i int, h float64) error {
	if err := f.room(h); err != nil {
		return err
	}
	return f.styled(itoa(i+1)+". "+f.m.w.Label("inquiry-ask-"+inquiryAsks[i].name), 0, letters(textEm, true))
}

// inquiryKey answers the questions of an inquiry as kedge reconstruct does, and says what
// happened if that is known.
func (m *maker) inquiryKey() error {
	f, a, err := m.asked(InquiryKey)
	if a == nil || err != nil {
		return err
	}
	n := m.r.Incident
	answers := map[string]report.Section{"known": m.knownAs(n), "idle": m.idlePins(a), "before": a.Priors(), "lowered": a.Changes()}
	if a.Answered() {
		answers["order"], answers["fits"], answers["without"] = m.inOrder(a), a.Candidates(), a.Sensitivity()
	}
	for i, q := range inquiryAsks {
		s, ok := answers[q.name]
		if !ok {
			s.Lines = a.Cautions()
		}
		s.Title = ""
		if err := f.ask(i, 4*lead); err != nil {
			return err
		}
		if err := f.section(&s); err != nil {
			return err
		}
	}
	last := []report.Section{{Title: m.w.Label("report-cautions"), Lines: append(a.Cautions(), a.Head(), a.How(), m.w.Label("recon-limits"))}}
	if n.Truth != "" {
		last = append(last, report.Section{Title: m.w.Label("inquiry-truth"), Lines: []string{n.Truth, m.w.Label("inquiry-truth-note")}})
	}
	for _, s := range last {
		if err := f.section(&s); err != nil {
			return err
		}
	}
	return nil
}

// knownAs lists which pieces of evidence were observed, told and assumed.
func (m *maker) knownAs(n *plan.Incident) (s report.Section) {
	for _, known := range []string{plan.KnownObserved, plan.KnownTold, plan.KnownAssumed} {
		var letters []string
		for i := range n.Pins {
			if q := &n.Pins[i]; q.KnownAs() == known {
				letters = append(letters, string(q.ID))
			}
		}
		s.Lines = append(s.Lines, m.w.EvidenceWord("known", known)+": "+cmp.Or(strings.Join(letters, ", "), noFigure))
	}
	return s
}

// idlePins are the pieces of evidence that weigh nothing, with why.
func (m *maker) idlePins(a *report.Report) (s report.Section) {
	for i := range a.Found.Pins {
		switch u := &a.Found.Pins[i]; {
		case u.Why != "":
			s.Lines = append(s.Lines, string(u.Pin.ID)+": "+m.w.Label(u.Why))
		case !u.Weighs():
			s.Lines = append(s.Lines, string(u.Pin.ID)+": "+m.w.Label("inquiry-assumed"))
		}
	}
	if len(s.Lines) == 0 {
		s.Lines = []string{m.w.Label("inquiry-none-idle")}
	}
	return s
}

// inOrder are the candidates, the likeliest first, without figures: with what a class
// wrote down its own order is compared.
func (m *maker) inOrder(a *report.Report) (s report.Section) {
	for i, c := range a.Listed() {
		s.Lines = append(s.Lines, itoa(i+1)+". "+m.w.Candidate(&c, a.Names))
	}
	return s
}

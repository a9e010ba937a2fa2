package sheet

import (
	"crypto/sha256"
	"encoding/hex"
	"runtime"
	"strconv"
	"strings"

	"kedge/canvas/report"
	"kedge/solver/doubt"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// reportSheet says what may have happened in a pull that went wrong: facts, accounts,
// assumptions, method, results, what would have lowered the chance, sensitivity, limits,
// and the author's opinion apart.
func (m *maker) reportSheet() error {
	f, a, err := m.asked(Report)
	if a == nil || err != nil {
		return err
	}
	n := m.r.Incident
	sections := []report.Section{a.Evidence(), m.written("report-accounts", n.Account), m.written("report-custody", n.Custody), a.Assumptions(), a.Priors(), m.method(a),
		{Title: m.w.Label("report-cautions"), Lines: append(a.Cautions(), a.How())}}
	if a.Answered() {
		sections = append(sections, a.Candidates(), a.Changes(), a.Sensitivity())
	} else {
		sections = append(sections, a.Changes())
	}
	sections = append(sections, report.Section{Title: m.w.Label("report-limits"), Lines: []string{m.w.Label("recon-limits")}}, m.written("report-opinion", n.Opinion))
	for i := range sections {
		if err := f.section(&sections[i]); err != nil {
			return err
		}
	}
	return nil
}

// incident begins a sheet of a kind about what may have happened. Where nothing was seen
// or told it says so, and there is no incident.
func (m *maker) incident(k Kind) (f *flow, n *plan.Incident, err error) {
	if f, err = m.flow(k, m.kindName(k)); err != nil {
		return nil, nil, err
	}
	if n = m.r.Incident; !n.Seen() {
		return f, nil, f.para(m.w.Label("report-nothing"), 0)
	}
	return f, n, nil
}

// asked is [maker.incident] with what was found of it. Where the rig is not computed it
// says so, and there is no report.
func (m *maker) asked(k Kind) (f *flow, a *report.Report, err error) {
	f, n, err := m.incident(k)
	if n == nil || err != nil {
		return f, nil, err
	}
	a, err = report.New(m.w, m.file, m.rig, doubt.Request{Context: m.ctx, Per: report.PerSet, Seed: report.Seed, Workers: runtime.NumCPU()})
	if err == nil && a.Found == nil {
		return f, nil, f.para(a.NoAnswer(), 0)
	}
	return f, a, err
}

// written is a section of what somebody wrote, an item a line, or that nobody did.
func (m *maker) written(id, what string) report.Section {
	s := report.Section{Title: m.w.Label(id)}
	for _, l := range strings.Split(what, "\n") {
		if l = strings.TrimSpace(l); l != "" {
			s.Lines = append(s.Lines, l)
		}
	}
	if len(s.Lines) == 0 {
		s.Lines = []string{m.w.Label("report-not-given")}
	}
	return s
}

// method says how the report came about, so that it can be done again: the whole hash of
// the plan's file, the seed, the trials, the handbook.
func (m *maker) method(a *report.Report) report.Section {
	hash := "–"
	if data, err := plan.FormatPlan(m.file); err == nil {
		sum := sha256.Sum256(data)
		hash = hex.EncodeToString(sum[:])
	}
	return report.Section{Title: m.w.Label("report-method"), Lines: []string{a.Head(), m.w.Label("report-how"),
		m.w.Label("report-method-of", part.Text("plan", hash), part.Text("seed", strconv.FormatUint(a.Found.Seed, 10)), part.Text("revision", facts.Revision()), part.Text("app", report.Program()))}}
}

// section sets a section of a report.
func (f *flow) section(s *report.Section) error {
	if s.Title != "" {
		if err := f.title(s.Title); err != nil {
			return err
		}
	}
	if len(s.Rows) > 1 {
		t := &table{}
		for _, head := range s.Rows[0] {
			t.cols = append(t.cols, column{head: head, flex: 1})
		}
		for _, cells := range s.Rows[1:] {
			t.rows = append(t.rows, row{cells: cells})
		}
		if err := f.table(t); err != nil {
			return err
		}
		f.gap(1)
	}
	return f.items("·", s.Lines)
}

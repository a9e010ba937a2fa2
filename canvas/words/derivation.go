package words

import (
	"slices"
	"strings"

	"kedge/solver/facts"
	"kedge/solver/part"
)

// Derivation is how a number came about, one line a step: the formula with its
// values, then in brackets each handbook figure's title, and source and confidence
// where they were not named before.
// Figures from memory carry (m), of common practice (c). A step whose formula
// has no text shows its id and all its values by name.
func (w *Words) Derivation(s *part.Derivation, n Names) []string {
	if s == nil {
		return nil
	}
	lines := make([]string, 0, len(s.Steps))
	named := map[string]bool{}
	for _, st := range s.Steps {
		lines = append(lines, w.step(st, n)+w.sources(st, named))
	}
	return lines
}

func (w *Words) step(st part.Step, n Names) string {
	t, ok := w.text(formulaSection, st.Formula, "")
	if !ok {
		return w.bareStep(st, n)
	}
	line := fill(t, func(s slot) (string, bool) {
		for _, o := range st.Operands {
			if o.Name == s.name {
				return w.operand(o, s, n), true
			}
		}
		if s.name == "result" || s.name == st.Result.Name {
			return w.stepValue(st.Result, s, n), true
		}
		return "", false
	})
	return line
}

// bareStep is a step that nobody wrote a formula for.
func (w *Words) bareStep(st part.Step, n Names) string {
	var b strings.Builder
	name := st.Result.Name
	if name == "" {
		name = missing(st.Formula)
	}
	b.WriteString(name + " = " + w.stepValue(st.Result, slot{}, n))
	for i, o := range st.Operands {
		if i == 0 {
			b.WriteString(" · ")
		} else {
			b.WriteString(", ")
		}
		b.WriteString(o.Name + " = " + w.operand(o, slot{}, n))
	}
	return b.String()
}

// stepValue is a value of a sum, which somebody follows by hand: a share is a figure
// there, however high.
func (w *Words) stepValue(v part.Value, s slot, n Names) string {
	s.formats = append(slices.Clip(s.formats), "figure")
	return w.value(v, s, n)
}

// operand is a value with the mark of where it comes from.
func (w *Words) operand(o part.Operand, s slot, n Names) string {
	text := w.stepValue(o.Value, s, n)
	if o.Fact != "" {
		if row, ok := facts.Get(facts.ID(o.Fact)); ok {
			return text + w.ConfidenceMark(row.Confidence)
		}
	}
	if o.From == part.FromPreset {
		return text + " " + w.Label("mark-preset")
	}
	return text
}

// ConfidenceMark is the small mark behind a figure that is from memory or common
// practice, with a space in front; empty for any other.
func (w *Words) ConfidenceMark(s facts.Confidence) string {
	switch s {
	case facts.FromMemory:
		return " " + w.Label("mark-memory")
	case facts.CommonPractice:
		return " " + w.Label("mark-common")
	}
	return ""
}

// LimitMark is the mark behind a limit that rests on a preset, memory or common
// practice, with a space in front; empty for any other.
func (w *Words) LimitMark(l part.Limit) string {
	switch {
	case !l.Known:
		return ""
	case l.Preset:
		return " " + w.Label("mark-preset")
	case l.Confidence == part.ConfidenceMemory:
		return " " + w.Label("mark-memory")
	case l.Confidence == part.ConfidenceCommon:
		return " " + w.Label("mark-common")
	}
	return ""
}

// FactTitle is what a handbook row is called: in the language, else as the
// handbook's file has it, in English.
func (w *Words) FactTitle(r facts.Row) string {
	if w.own != nil {
		if t, ok := w.own.texts[key{factSection, string(r.ID), ""}]; ok {
			return t
		}
	}
	return w.Regional(r.Title)
}

// Story is a text of a built-in example in the language; else as its file has it, in English.
func Story(w *Words, text string) string {
	if w.own != nil {
		if t, ok := w.own.texts[key{storySection, text, ""}]; ok {
			return t
		}
	}
	return text
}

// FactNote is what is noted beside a handbook row: in the language, else as the
// handbook's file has it, in English; empty: nothing.
func FactNote(w *Words, r facts.Row) string {
	if w.own != nil {
		if t, ok := w.own.texts[key{remarkSection, r.Note, ""}]; ok {
			return t
		}
	}
	return w.Regional(r.Note)
}

// Source is where a handbook row comes from: the document as it is called, our own
// judgement in the language.
func (w *Words) Source(r facts.Row) string {
	if r.Confidence == facts.Ours {
		return w.Label("source-ours")
	}
	return r.Source
}

// FailureBasis is what the failure load of a part rests on: one line, none if no such
// load is known.
func (w *Words) FailureBasis(p *part.Part) []string {
	if !p.Ultimate.Known || p.Note == "" {
		return nil
	}
	return []string{w.Label("failure-basis", part.Text("load", w.Limit(p.Ultimate.Low)), part.Text("note", w.Note(p.Note)))}
}

// FailureBases is what the failure loads of parts rest on: a line each note, with the
// parts it is of, in the order of the parts.
func FailureBases(w *Words, parts []part.Part, names Names) (lines []string) {
	var notes []string
	of := map[string][]string{}
	for i := range parts {
		if p := &parts[i]; p.Ultimate.Known && p.Note != "" {
			if of[p.Note] == nil {
				notes = append(notes, p.Note)
			}
			of[p.Note] = append(of[p.Note], w.PartName(p, names))
		}
	}
	for _, note := range notes {
		lines = append(lines, w.Label("failure-bases", part.Text("note", w.Note(note)), part.Text("parts", strings.Join(of[note], "; "))))
	}
	return lines
}

// ZoneNotes are what the drawn zones rest on and what they do not promise: by what rule
// recoil is drawn, that what flies may fly further, that nothing makes a zone smaller.
func ZoneNotes(w *Words) []string {
	return []string{w.Note("no-published-angle"), w.Note("could-fly-further"), w.Note("zones-never-shrink")}
}

// RestsOn is the reason of a rule, in the language, else as the rule says it, in English,
// and its row of the handbook; "" if it has neither.
func (w *Words) RestsOn(r *part.Rule) string {
	why, ok := w.text(whySection, r.ID, "")
	if !ok {
		why = w.Regional(r.Why)
	}
	why = strings.ReplaceAll(why, "[ours]", "("+w.Label("ours")+")")
	row, ok := facts.Get(facts.ID(r.Fact))
	if !ok {
		return why
	}
	source := w.FactTitle(row) + " (" + w.Source(row) + ", " + w.Confidence(row.Confidence) + ")"
	if why == "" {
		return source
	}
	return why + "; " + source
}

// Confidence says how well a handbook row is founded.
func (w *Words) Confidence(s facts.Confidence) string { return w.Label("surety-" + string(s)) }

// sources are the handbook rows of a step, in brackets, those of one source
// together. A source that was named in the sum before is not named again.
func (w *Words) sources(st part.Step, named map[string]bool) string {
	var all, from []string
	seen := map[string]bool{}
	for _, o := range st.Operands {
		if o.Fact == "" || seen[o.Fact] {
			continue
		}
		seen[o.Fact] = true
		row, ok := facts.Get(facts.ID(o.Fact))
		if !ok {
			all, from = append(all, o.Fact), append(from, "")
			continue
		}
		source := ": " + row.Source + ", " + w.Confidence(row.Confidence)
		if i := slices.Index(from, source); i >= 0 {
			all[i] += ", " + w.FactTitle(row)
			continue
		}
		all, from = append(all, w.FactTitle(row)), append(from, source)
	}
	if len(all) == 0 {
		return ""
	}
	for i, source := range from {
		switch {
		case source == "": // no row of the handbook
		case named[source]:
			all[i] += ": " + w.Label("same-source")
		default:
			all[i], named[source] = all[i]+source, true
		}
	}
	return " [" + strings.Join(all, "; ") + "]"
}

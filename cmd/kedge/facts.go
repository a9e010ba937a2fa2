package main

import (
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"kedge/canvas/words"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/quantity"
)

func newFacts(out io.Writer) *cobra.Command {
	return &cobra.Command{
		Use: "facts",
		RunE: func(c *cobra.Command, args []string) error {
			lang, err := langFlag(c)
			if err != nil {
				return err
			}
			text, err := factsText(strings.Join(args, " "), lang)
			return tell(out, text, err)
		},
	}
}

// factsText is the listing of the rows that hold the words, in a language.
func factsText(wanted, lang string) (string, error) {
	if _, err := facts.BuiltIn(); err != nil {
		return "", wrongUse(handbookDamaged.At("").Because(err))
	}
	terms, err := words.Search(wanted)
	if err != nil {
		return "", wrongUse(textsDamaged.At("").Because(err))
	}
	w, err := words.New(lang, quantity.Metric)
	if err != nil {
		return "", wrongUse(textsDamaged.At("").Because(err))
	}
	wordings := make([][]string, len(terms))
	for i, t := range terms {
		wordings[i] = append([]string{t.Typed}, t.Also...)
	}
	rows := facts.FindTerms(wordings)
	if len(rows) == 0 {
		return "", wrongUse(noRow.At("", wanted))
	}
	var b strings.Builder
	for _, r := range rows {
		writeFact(&b, w, r)
	}
	for _, t := range terms {
		also := slices.DeleteFunc(t.Also, func(a string) bool { return strings.EqualFold(a, t.Typed) })
		if len(also) > 0 {
			b.WriteString(w.Label("facts-looked-for", part.Text("typed", t.Typed), part.Text("also", strings.Join(also, ", "))) + "\n")
		}
	}
	b.WriteString(w.Label("facts-rows", part.Count("count", len(rows)), part.Text("revision", facts.Revision())) + "\n")
	return b.String(), nil
}

// writeFact writes one row, and an empty line behind it.
func writeFact(b *strings.Builder, w *words.Words, r facts.Row) {
	b.WriteString(string(r.ID) + gap + w.FactTitle(r) + confidence(w, r) + "\n")
	for _, line := range figures(w, r) {
		b.WriteString(indent + line + "\n")
	}
	b.WriteString(indent + w.Confidence(r.Confidence) + ": " + w.Source(r) + "\n")
	if r.Note != "" {
		b.WriteString(indent + w.Label("facts-note", part.Text("note", words.FactNote(w, r))) + "\n")
	}
	if r.Choice != "" {
		which := "facts-other"
		if r.Default {
			which = "facts-taken"
		}
		b.WriteString(indent + w.Label(which, part.Text("choice", r.Choice)) + "\n")
	}
	b.WriteString("\n")
}

// confidence is the mark of a row that is not seen in its source.
func confidence(w *words.Words, r facts.Row) string {
	switch r.Confidence {
	case facts.FromMemory:
		return " " + w.Label("mark-memory")
	case facts.CommonPractice:
		return " " + w.Label("mark-common")
	}
	return ""
}

// figures are a row's figures: one line, or a table.
func figures(w *words.Words, r facts.Row) []string {
	plain := func(x float64) string { return w.Decimal(x, -1) } // as it was typed
	unit := ""
	if r.Unit != "1" {
		unit = " " + r.Unit
	}
	if !r.IsTable() {
		if !r.IsRange() {
			return []string{plain(r.Likely) + unit}
		}
		line := w.Label("facts-range", part.Text("low", plain(r.Low)), part.Text("high", plain(r.High)+unit), part.Text("likely", plain(r.Likely)))
		if r.Conservative != facts.NoEnd {
			line = w.Label("facts-careful", part.Text("range", line), part.Text("end", w.Label("end-"+string(r.Conservative))))
		}
		return []string{line}
	}
	var t table
	head := r.Columns()
	for i := range head {
		head[i] = "\t" + head[i]
	}
	if unit != "" {
		head[len(head)-1] += "," + unit
	}
	t.add(head...)
	for _, cells := range r.Cells() {
		row := make([]string, len(cells))
		for i, x := range cells {
			row[i] = plain(x)
		}
		t.add(row...)
	}
	var b strings.Builder
	t.write(&b, "")
	return strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
}

package main

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"kedge/canvas/words"
	"kedge/solver/facts"
)

const factsLong = `Facts lists the rows of the handbook that hold every one of the words, in id,
title, source, note, surety or room: each figure with its unit, how sure it is,
and where it comes from. Without a word it lists all rows.

A thing is found by its other names too, in English and German: pulley, D-ring,
tree saver, winch rope, Bodenanker. What a name was looked for as is said at the
end. The names are those of assets/words/en-search.toml and de-search.toml.

Sureties: published, secondary copy, common practice (c), from memory (m), and
ours, the judgement of this program's makers.`

func newFacts(out io.Writer) *cobra.Command {
	return &cobra.Command{
		Use:   "facts [WORD…]",
		Short: "The handbook: figures, their sources and how sure they are",
		Long:  factsLong,
		RunE: func(_ *cobra.Command, args []string) error {
			text, err := factsText(strings.Join(args, " "))
			if err != nil {
				return err
			}
			_, err = io.WriteString(out, text)
			return err
		},
	}
}

// factsText is the listing of the rows that hold the words.
func factsText(wanted string) (string, error) {
	if _, err := facts.BuiltIn(); err != nil {
		return "", wrongUse(handbookDamaged.At("").Because(err))
	}
	terms, err := words.Search(wanted)
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
		b.WriteString(string(r.ID) + gap + r.Title + confidence(r) + "\n")
		for _, line := range figures(r) {
			b.WriteString(indent + line + "\n")
		}
		b.WriteString(indent + string(r.Confidence) + ": " + r.Source + "\n")
		if r.Note != "" {
			b.WriteString(indent + "note: " + r.Note + "\n")
		}
		if r.Choice != "" {
			which := "another answer to the same question"
			if r.Default {
				which = "the one taken"
			}
			b.WriteString(indent + "choice " + r.Choice + ": " + which + "\n")
		}
		b.WriteString("\n")
	}
	for _, t := range terms {
		also := slices.DeleteFunc(t.Also, func(a string) bool { return strings.EqualFold(a, t.Typed) })
		if len(also) > 0 {
			fmt.Fprintf(&b, "%s was looked for as %s too\n", t.Typed, strings.Join(also, ", "))
		}
	}
	fmt.Fprintf(&b, "%d rows · handbook %s\n", len(rows), facts.Revision())
	return b.String(), nil
}

// confidence is the mark of a row that is not seen in its source.
func confidence(r facts.Row) string {
	switch r.Confidence {
	case facts.FromMemory:
		return " (m)"
	case facts.CommonPractice:
		return " (c)"
	}
	return ""
}

// figures are a row's figures: one line, or a table.
func figures(r facts.Row) []string {
	unit := ""
	if r.Unit != "1" {
		unit = " " + r.Unit
	}
	if !r.IsTable() {
		if !r.IsRange() {
			return []string{plainFigure(r.Likely) + unit}
		}
		line := plainFigure(r.Low) + " to " + plainFigure(r.High) + unit + ", likely " + plainFigure(r.Likely)
		if r.Conservative != facts.NoEnd {
			line += ", careful end: " + string(r.Conservative)
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
			row[i] = plainFigure(x)
		}
		t.add(row...)
	}
	var b strings.Builder
	t.write(&b, "")
	return strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
}

// plainFigure is a figure of the handbook as it was typed.
func plainFigure(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

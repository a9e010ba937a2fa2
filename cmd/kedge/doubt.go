package main

import (
	"bytes"
	"context"
	"errors"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"kedge/canvas/report"
	"kedge/canvas/store"
	"kedge/canvas/words"
	"kedge/solver/doubt"
	"kedge/solver/quantity"
	"kedge/solver/travel"
)

// doubtOptions are the flags of doubt.
type doubtOptions struct {
	rig, units, lang string
	csv              string
	json, typed      bool
}

func newDoubt(out io.Writer, in io.Reader, status *int) *cobra.Command {
	var o doubtOptions
	c := &cobra.Command{
		Use:  "doubt",
		Args: onePlan(1),
		RunE: telling(out, status, func(file string) (string, int, error) {
			ctx, stop := untilInterrupted()
			defer stop()
			return doubts(ctx, file, in, o)
		}),
	}
	c.Flags().StringVar(&o.rig, "rig", "", "")
	toldIn(c, &o.units, &o.lang)
	c.Flags().BoolVar(&o.json, "json", false, "")
	c.Flags().StringVar(&o.csv, "csv", "", "")
	c.Flags().BoolVar(&o.typed, "typed-only", false, "")
	return c
}

// doubts is the whole verb: the text to print and the exit status.
func doubts(ctx context.Context, file string, in io.Reader, o doubtOptions) (text string, status int, err error) {
	w, p, rigs, err := readRigs(file, in, o.lang, o.units, o.rig)
	if err != nil {
		return "", 0, err
	}
	q, err := report.Request(ctx, p, rigs[0], o.typed)
	if err != nil {
		return "", 0, givenUp()
	}
	found, err := report.NewChances(w, p, rigs[0], q)
	switch {
	case errors.Is(err, doubt.ErrNoDoubt) && doubt.InDoubt(p, rigs[0]):
		return "", 0, wrongUse(noneDrawn.At(""))
	case errors.Is(err, doubt.ErrNoDoubt):
		return "", 0, wrongUse(noDoubt.At(""))
	case err != nil:
		return "", 0, givenUp()
	}
	a := &drawn{Chances: found, w: w}
	if !o.json {
		whole, err := travel.Assess(ctx, p, rigs[0], nil)
		if err != nil {
			return "", 0, givenUp()
		}
		a.checked = a.Checked(whole.Findings)
	}
	status = report.Exit(a.Settled())
	if o.json {
		text, err = a.json(status)
	} else {
		text = a.text()
	}
	if err != nil || o.csv == "" || a.Found == nil {
		return text, status, err
	}
	if ctx.Err() != nil {
		return "", 0, givenUp()
	}
	return text, status, writeAll([]store.Output{{Path: o.csv, Data: samplesCSV(a.Found)}})
}

// drawn is what was found, to be written.
type drawn struct {
	*report.Chances
	w       *words.Words
	checked string // what check says of the same plan that is not to be missed
}

func (a *drawn) text() string {
	var b strings.Builder
	w := a.w
	if a.Found == nil {
		writeCautions(&b, w, a.NoAnswer())
		return quantity.PlainSpaces(b.String())
	}
	head := append([]string{a.Head()}, a.Drawn()...)
	if a.checked != "" {
		head = slices.Insert(head, 1, a.checked)
	}
	b.WriteString(strings.Join(head, "\n") + "\n\n")
	writeCautions(&b, w, a.Cautions()...)
	if t := a.Tension(); t != "" {
		b.WriteString(t + "\n")
	}
	writeSections(&b, "", a.Over(), a.Along(), a.Loads(), a.Assumed())
	b.WriteString("\n" + w.Label("doubt-rest") + "\n" + handbook(w) + "\n")
	return quantity.PlainSpaces(b.String())
}

// samplesCSV is every trial, a row each.
func samplesCSV(f *doubt.Chances) []byte {
	var b bytes.Buffer
	for i, name := range f.Columns {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString(strconv.Quote(name))
	}
	b.WriteByte('\n')
	var cell []byte
	for row := range f.Trials {
		for i, c := range f.Samples.Columns {
			if i > 0 {
				b.WriteByte(',')
			}
			if x := c[row]; !math.IsNaN(x) && !math.IsInf(x, 0) {
				cell = strconv.AppendFloat(cell[:0], x, 'g', -1, 64)
				b.Write(cell)
			}
		}
		b.WriteByte('\n')
	}
	return b.Bytes()
}

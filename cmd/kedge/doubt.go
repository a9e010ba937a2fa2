package main

import (
	"bytes"
	"errors"
	"io"
	"math"
	"runtime"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"kedge/canvas/store"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/doubt"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// How a plan is drawn.
const (
	doubtPerSet = 1024
	doubtSeed   = 1
)

// doubtOptions are the flags of doubt.
type doubtOptions struct {
	rig, units, lang string
	csv              string
	json             bool
}

func newDoubt(out io.Writer, in io.Reader, status *int) *cobra.Command {
	var o doubtOptions
	c := &cobra.Command{
		Use:  "doubt",
		Args: onePlan(1),
		RunE: telling(out, status, func(file string) (string, int, error) { return doubts(file, in, o) }),
	}
	c.Flags().StringVar(&o.rig, "rig", "", "")
	toldIn(c, &o.units, &o.lang)
	c.Flags().BoolVar(&o.json, "json", false, "")
	c.Flags().StringVar(&o.csv, "csv", "", "")
	return c
}

// doubts is the whole verb: the text to print and the exit status.
func doubts(file string, in io.Reader, o doubtOptions) (text string, status int, err error) {
	w, p, rigs, err := readRigs(file, in, o.lang, o.units, o.rig)
	if err != nil {
		return "", 0, err
	}
	a := drawn{p: p, rig: rigs[0], w: w, names: w.Names(p, rigs[0])}
	a.found, err = doubt.SamplePlan(p, a.rig, doubt.Request{Per: doubtPerSet, Seed: doubtSeed, Workers: runtime.NumCPU()})
	switch {
	case errors.Is(err, doubt.ErrNoDoubt):
		return "", 0, wrongUse(noDoubt.At(""))
	case err != nil:
		a.found = nil
	default:
		a.names = w.Naming(solver.Assess(p, a.rig), a.names)
	}
	status = a.status()
	if o.json {
		text, err = a.json(status)
	} else {
		text = a.text()
	}
	if err != nil || o.csv == "" || a.found == nil {
		return text, status, err
	}
	return text, status, writeAll([]store.Output{{Path: o.csv, Data: samplesCSV(a.found)}})
}

// drawn is what was found, to be written; found nil: the rig is refused.
type drawn struct {
	p     *plan.Plan
	rig   plan.ID
	w     *words.Words
	names words.Names
	found *doubt.Chances
}

// status is whether everything was known in every trial.
func (a *drawn) status() int {
	if a.found == nil || a.found.Refused > 0 || len(a.found.NotDrawn) > 0 || math.IsNaN(a.found.MoveN[0]) || len(a.without(noLimit))+len(a.without(noStrength)) > 0 {
		return statusUnsettled
	}
	return statusDone
}

func noLimit(p *doubt.PartChances) bool {
	return p.OverLimit.NotKnown > 0 || p.OverAtStall.NotKnown > 0
}

// noStrength reports whether it is not known at what load a part gives. A winch stalls
// and a vehicle slides or tips: they do not give.
func noStrength(p *doubt.PartChances) bool {
	switch p.Part.Kind {
	case part.KindWinch, part.KindSlide, part.KindTip:
		return false
	}
	return p.Gives.NotKnown > 0 || p.GivesStall.NotKnown > 0
}

// without are the names of the parts that lack something.
func (a *drawn) without(lacks func(*doubt.PartChances) bool) (names []string) {
	for i := range a.found.Parts {
		if p := &a.found.Parts[i]; lacks(p) {
			names = append(names, a.w.PartName(&p.Part, a.names))
		}
	}
	return names
}

func (a *drawn) text() string {
	var b strings.Builder
	w := a.w
	rig := string(a.rig)
	if i := a.p.RigIndex(a.rig); i >= 0 {
		rig = w.RigName(a.p, i)
	}
	caution := func(id string, values ...part.Value) {
		b.WriteString(w.Level(part.Caution) + ": " + w.Label(id, values...) + "\n")
	}
	if a.found == nil {
		caution("doubt-not-computed", textValue("rig", rig))
		return quantity.PlainSpaces(b.String())
	}
	f := a.found
	b.WriteString(w.Label("doubt-of", textValue("rig", rig), countValue("count", float64(f.Trials))) + "\n")
	b.WriteString(w.Label("doubt-drawn", a.list("list", f.Drawn)) + "\n" + w.Label("doubt-read") + "\n\n")
	if f.Refused > 0 {
		caution("doubt-refused", textValue("chance", a.chance(f.Refused, f.Trials)))
	}
	if len(f.NotDrawn) > 0 {
		caution("doubt-not-drawn", a.list("list", f.NotDrawn))
	}
	if names := a.without(noLimit); len(names) > 0 {
		caution("doubt-without-limit", textValue("list", strings.Join(names, ", ")))
	}
	if names := a.without(noStrength); len(names) > 0 {
		caution("doubt-without-strength", textValue("list", strings.Join(names, ", ")))
	}
	if math.IsNaN(f.MoveN[0]) {
		caution("doubt-tension-unknown")
	} else {
		force := func(name string, k int) part.Value { return textValue(name, w.Load(quantity.Force(f.MoveN[k]))) }
		b.WriteString(w.Label("doubt-tension", force("low", 0), force("mid", 1), force("high", 2)) + "\n")
	}
	a.tables(&b)
	b.WriteString("\n" + w.Label("doubt-rest") + "\n" + handbook(w) + "\n")
	return quantity.PlainSpaces(b.String())
}

// tables writes the chances and the loads.
func (a *drawn) tables(b *strings.Builder) {
	w := a.w
	var chances, loads table
	chances.add(w.Label("column-part"), w.Label("column-doubt-over"), w.Label("column-doubt-over-stall"), w.Label("column-doubt-gives"), w.Label("column-doubt-gives-stall"))
	loads.add(w.Label("column-part"), "\t"+w.Label("column-doubt-low"), "\t"+w.Label("column-doubt-mid"), "\t"+w.Label("column-doubt-high"), w.Label("column-doubt-drivers"))
	for i := range a.found.Parts {
		p := &a.found.Parts[i]
		name := w.PartName(&p.Part, a.names)
		chances.add(name, a.count(p.OverLimit), a.count(p.OverAtStall), a.count(p.Gives), a.count(p.GivesStall))
		load := func(k int) string {
			if math.IsNaN(p.PlannedN[k]) {
				return unknownCell
			}
			return quantity.FormatForce(quantity.Force(p.PlannedN[k]), w.System(), quantity.AsLoad).Number
		}
		var on []string
		for _, d := range p.Drivers {
			on = append(on, w.Member(d.Thing, d.Member, a.names)+" "+w.Share(min(d.Share, 1)))
		}
		loads.add(name, load(0), load(1), load(2), strings.Join(on, ", "))
	}
	b.WriteString("\n")
	chances.write(b, "")
	title(b, w.Label("doubt-bands", textValue("unit", w.System().Force().String())))
	loads.write(b, "")
}

// list is the names of figures.
func (a *drawn) list(name string, all []doubt.Doubtful) part.Value {
	var names []string
	for _, d := range all {
		names = append(names, a.w.Member(d.Thing, d.Member, a.names))
	}
	return textValue(name, strings.Join(names, ", "))
}

// count is how often something came about.
func (a *drawn) count(c doubt.Count) string {
	switch {
	case c.Of == 0:
		return a.w.Label("doubt-not-known")
	case c.NotKnown > 0:
		return a.w.Label("doubt-partly", textValue("chance", a.chance(c.Hits, c.Of+c.NotKnown)), textValue("more", a.chance(c.NotKnown, c.Of+c.NotKnown)))
	}
	return a.chance(c.Hits, c.Of)
}

// chance is a count in words: of a hundred, or of ten thousand where a hundred would
// make it none or all; none at all is fewer than three of all there were.
func (a *drawn) chance(hits, of int) string {
	switch share := float64(hits) / float64(of); {
	case hits == 0:
		return a.w.Label("doubt-none-of", countValue("of", float64(of)))
	case hits == of:
		return a.w.Label("doubt-every", countValue("of", float64(of)))
	case share < 0.01 || share > 0.99:
		return a.w.Chance(min(max(1, int(math.Round(share*1e4))), 9999), 1e4)
	default:
		return a.w.Chance(int(math.Round(share*100)), 100)
	}
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

package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"kedge/canvas/report"
	"kedge/canvas/store"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/facts"
	"kedge/solver/layout"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// waysOptions are the flags of ways.
type waysOptions struct {
	rig, units, lang, out string
	take                  int
	json                  bool
}

func newWays(out io.Writer, in io.Reader, status *int) *cobra.Command {
	var o waysOptions
	c := &cobra.Command{
		Use:  "ways",
		Args: onePlan(1),
		RunE: telling(out, status, func(file string) (string, int, error) { return ways(file, in, o) }),
	}
	c.Flags().StringVar(&o.rig, "rig", "", "")
	toldIn(c, &o.units, &o.lang)
	c.Flags().BoolVar(&o.json, "json", false, "")
	c.Flags().StringVarP(&o.out, "out", "o", "", "")
	c.Flags().IntVar(&o.take, "take", 1, "")
	return c
}

// ways is the whole verb: the text to print and the exit status.
func ways(file string, in io.Reader, o waysOptions) (text string, status int, err error) {
	w, p, err := readIn(file, in, o.lang, o.units)
	if err != nil {
		return "", 0, err
	}
	rig, err := rigToLead(p, o.rig)
	if err != nil {
		return "", 0, err
	}
	kit, err := facts.StarterGear()
	if err != nil {
		return "", 0, wrongUse(gearDamaged.At("").Because(err))
	}
	found := layout.Propose(p, rig, kit)
	if len(found.Ways) == 0 {
		status = statusUnsettled
	}
	a := proposed{p: p, rig: rig, w: w, names: w.Names(p, rig), found: &found}
	if o.json {
		text, err = a.json(status)
	} else {
		text = a.text()
	}
	if err != nil || o.out == "" {
		return text, status, err
	}
	if o.take < 1 || o.take > len(found.Ways) {
		return "", 0, wrongUse(noWay.At("", o.take, len(found.Ways)))
	}
	data, err := plan.FormatPlan(found.Ways[o.take-1].Plan)
	if err != nil {
		return "", 0, refused(notFormatted.At(o.out).Because(err))
	}
	return text, status, writeAll([]store.Output{{Path: o.out, Data: data}})
}

// rigToLead is the rig that is meant: the named one, else the first that is
// refused, else the first; empty if the plan has none.
func rigToLead(p *plan.Plan, name string) (plan.ID, error) {
	rigs, err := chosenRigs(p, name)
	if err != nil {
		return "", err
	}
	if name != "" {
		return rigs[0], nil
	}
	for _, id := range rigs {
		if id != "" && solver.Assess(p, id).Status == part.Refused {
			return id, nil
		}
	}
	return rigs[0], nil
}

// proposed is what was found, to be written.
type proposed struct {
	p     *plan.Plan
	rig   plan.ID
	w     *words.Words
	names words.Names
	found *layout.Proposal
}

func (a *proposed) name(kind string, over []plan.ID, end plan.ID) string {
	return a.w.Way(kind, over, end, a.names)
}

func (a *proposed) text() string {
	var b strings.Builder
	w := a.w
	b.WriteString(w.Label("ways-of", part.Text("rig", w.Rig(a.p, a.rig))) + "\n")
	if s := w.NoWay(a.found); s != "" {
		b.WriteString(s + "\n")
	}
	if len(a.found.Ways) > 0 {
		b.WriteString("\n")
		var t table
		t.add("\t", w.Label("column-way"), "\t"+w.Label("column-move")+", "+w.System().Force().String(),
			"\t"+w.Label("column-line"), "\t"+w.Label("column-worst"), w.Label("column-part"), w.Label("column-findings"))
		for i := range a.found.Ways {
			way := &a.found.Ways[i]
			move, worst, name := unknownCell, unknownCell, w.Label("way-worst-none")
			if pull, known := way.Tension(); known {
				move = w.Written(quantity.FormatForce(pull, w.System(), quantity.AsLoad)).Number
			}
			if p, ok := way.Worst(); ok {
				worst, name = w.UsedOf(p), w.PartName(p, w.Naming(way.Answer, w.Names(way.Plan, way.Rig)))
			}
			if way.Unrated > 0 {
				name += ", " + w.Label("way-unrated", part.Count("count", way.Unrated))
			}
			t.add(fmt.Sprint(i+1), a.name(way.Kind, way.Over, way.End), move, w.LengthNeeded(way.Line), worst, name, w.WayFindings(way.Found))
		}
		t.write(&b, "")
		a.lasts(&b)
	}
	if len(a.found.Left) > 0 {
		title(&b, w.Label("ways-left"))
		for i := range a.found.Left {
			l := &a.found.Left[i]
			b.WriteString(indent + a.name(l.Kind, l.Over, l.End) + ": " + w.WhyNoWay(l, a.names) + "\n")
		}
	}
	b.WriteString("\n")
	for _, s := range w.WaysRest(a.found) {
		b.WriteString(s + "\n")
	}
	title(&b, w.Label("title-cautions"))
	for _, s := range w.Cautions() {
		b.WriteString(indent + s + "\n")
	}
	b.WriteString("\n" + w.Label("marks") + " · " + handbook(w) + "\n")
	return quantity.PlainSpaces(b.String())
}

// lasts lists the ways that do not last to the end of the way out.
func (a *proposed) lasts(b *strings.Builder) {
	titled := false
	for i := range a.found.Ways {
		way := &a.found.Ways[i]
		s := a.w.WayLasts(way, a.found.WayOut, a.names)
		if s == "" {
			continue
		}
		if !titled {
			title(b, a.w.Label("ways-then"))
			titled = true
		}
		b.WriteString(indent + a.name(way.Kind, way.Over, way.End) + ": " + s + "\n")
	}
}

// The names that a JSON answer of ways says it is of.
const (
	waysFormat  = "kedge-ways"
	waysVersion = 1
)

type waysDoc struct {
	docHead
	Exit    int        `json:"exit"`
	Rig     string     `json:"rig"`
	Why     string     `json:"why"`
	Tried   int        `json:"tried"`
	Untried int        `json:"untried"`
	More    int        `json:"more"`
	WayOut  *number    `json:"way_out_m"`
	Ways    []wayJSON  `json:"ways"`
	Left    []leftJSON `json:"left"`
}

type wayJSON struct {
	Number   int            `json:"number"`
	Name     string         `json:"name"`
	Kind     string         `json:"kind"`
	Over     []string       `json:"over"`
	End      string         `json:"end"`
	Line     number         `json:"line_m"`
	Lasts    *number        `json:"lasts_m"`
	Then     []reasonJSON   `json:"then"`
	Findings map[string]int `json:"findings"`
	Rig      rigJSON        `json:"rig"`
}

type leftJSON struct {
	Name    string       `json:"name"`
	Kind    string       `json:"kind"`
	Over    []string     `json:"over"`
	End     string       `json:"end"`
	Reasons []reasonJSON `json:"reasons"`
}

type reasonJSON struct {
	ID     string      `json:"id"`
	Text   string      `json:"text"`
	Thing  string      `json:"thing"`
	Values []valueJSON `json:"values"`
}

func (a *proposed) json(status int) (string, error) {
	f := a.found
	top := waysDoc{docHead: report.HeadOf(waysFormat, waysVersion), Exit: status,
		Rig: string(a.rig), Why: f.Why, Tried: f.Tried, Untried: f.Untried, More: f.More, WayOut: positive(f.WayOut),
		Ways: make([]wayJSON, len(f.Ways)), Left: make([]leftJSON, len(f.Left))}
	id := func(id *plan.ID) string { return string(*id) }
	for i := range f.Ways {
		way := &f.Ways[i]
		found := map[string]int{}
		for l, n := range way.Found {
			found[part.Level(l).String()] = n
		}
		ans := answerFor(way.Plan, way.Rig, 0, a.w)
		ans.a = way.Answer
		top.Ways[i] = wayJSON{Number: i + 1, Name: plainName(a.name(way.Kind, way.Over, way.End)), Kind: way.Kind, Over: report.Each(way.Over, id), End: string(way.End),
			Line: number(way.Line), Lasts: known(way.Lasts, f.WayOut > 0), Then: a.reasons(&layout.Left{Plan: way.Plan, Rig: way.Rig, Reasons: way.Then}), Findings: found, Rig: rigOf(&ans)}
	}
	for i := range f.Left {
		l := &f.Left[i]
		top.Left[i] = leftJSON{Name: plainName(a.name(l.Kind, l.Over, l.End)), Kind: l.Kind, Over: report.Each(l.Over, id), End: string(l.End), Reasons: a.reasons(l)}
	}
	return encoded(top)
}

// reasons are why something is left out, each with its sentence.
func (a *proposed) reasons(l *layout.Left) []reasonJSON {
	return report.Each(l.Reasons, func(r *layout.Reason) reasonJSON {
		one := *l
		one.Reasons = []layout.Reason{*r}
		values, why := r.Values, r.ID
		if r.Finding != nil {
			values, why = r.Finding.Values, r.Finding.ID
		}
		return reasonJSON{ID: why, Text: plainName(a.w.WhyNoWay(&one, a.names)), Thing: string(r.Thing), Values: report.Each(values, valueOf)}
	})
}

func plainName(s string) string { return quantity.PlainSpaces(s) }

package main

import (
	"slices"
	"strconv"
	"strings"

	"kedge/canvas/report"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// unknownCell stands in the table where there is no figure; the state at the
// end of the row says why.
const unknownCell = words.NoFigure

// indent is what lines below a title stand behind.
const indent = "  "

// checkText is the answer as text, one block a rig, with ordinary spaces.
func checkText(answers []answer, w *words.Words) string {
	var b strings.Builder
	for i := range answers {
		if i > 0 {
			b.WriteString("\n")
		}
		t := rigText{Builder: &b, w: w, answer: &answers[i]}
		t.write()
	}
	title(&b, w.Label("title-cautions"))
	for _, s := range w.Cautions() {
		b.WriteString(indent + s + "\n")
	}
	title(&b, w.Label("title-not-checked"))
	for _, s := range w.NotChecked() {
		b.WriteString(indent + s + "\n")
	}
	b.WriteString("\n" + w.Label("marks") + " · " + handbook(w) + "\n")
	return quantity.PlainSpaces(b.String())
}

func handbook(w *words.Words) string {
	return w.Label("handbook-revision", part.Text("revision", facts.Revision()))
}

func title(b *strings.Builder, text string) { b.WriteString("\n" + text + "\n") }

// writeCautions writes sentences that stand above an answer.
func writeCautions(b *strings.Builder, w *words.Words, all ...string) {
	for _, c := range all {
		b.WriteString(w.Level(part.Caution) + ": " + c + "\n")
	}
}

// writeSections writes those sections that there are, the rows and lines of each behind
// the indent.
func writeSections(b *strings.Builder, indent string, all ...report.Section) {
	for _, s := range all {
		if s.Title == "" {
			continue
		}
		title(b, s.Title)
		t := table{rows: s.Rows}
		t.write(b, indent)
		for _, line := range s.Lines {
			b.WriteString(indent + line + "\n")
		}
	}
}

// rigText writes the answer for one rig.
type rigText struct {
	*strings.Builder
	*answer
	w *words.Words
}

func (t *rigText) line(s string) { t.WriteString(indent + s + "\n") }

func (t *rigText) title(id string, values ...part.Value) { title(t.Builder, t.w.Label(id, values...)) }

func (t *rigText) write() {
	planned := t.w.PlannedOn(t.a)
	if chip := t.w.Chip(t.a); chip != "" {
		planned = chip
	}
	head := []string{t.w.Label("basis-" + t.a.Basis()), planned}
	if t.name != "" {
		head = slices.Insert(head, 0, t.name)
	}
	t.WriteString(strings.Join(head, " · ") + "\n")
	t.WriteString(t.w.VerdictLine(t.a, t.names) + "\n")
	t.WriteString(t.w.CellsLine(t.a, t.names) + "\n")
	if t.pull != nil {
		t.WriteString(t.followed() + "\n")
	}
	t.loads()
	t.happenings()
	t.findings()
	t.resistance()
	t.lines()
	t.people()
	t.order()
	t.sumLines()
}

// followed says which travel the answer is for.
func (t *rigText) followed() string {
	if !(t.pull.EndM > 0) {
		return t.w.Label("pull-as-drawn")
	}
	return t.w.Label("pull-followed", part.Length("end", quantity.Length(t.pull.EndM)), part.Length("long", quantity.Length(t.pull.LongM)))
}

// happenings are what happens on the way, in its order.
func (t *rigText) happenings() {
	if t.pull == nil || !(t.pull.EndM > 0) {
		return
	}
	t.title("title-on-the-way")
	for i := range t.pull.Events {
		t.line(t.w.Happening(&t.pull.Events[i], t.w.Naming(t.a, t.names)))
	}
	if hauls := t.w.Hauls(t.pull.Hauls(t.plan, t.rig), t.w.Naming(t.a, t.names)); hauls != "" {
		t.line(hauls)
	}
	if len(t.pull.Rerigs) > 0 {
		t.title("title-rerig")
	}
	for i := range t.pull.Rerigs {
		t.line(t.w.Rerig(&t.pull.Rerigs[i], t.w.Naming(t.a, t.names)))
	}
}

// loads is the table of parts, the worst first.
func (t *rigText) loads() {
	if len(t.a.Parts) == 0 {
		return
	}
	w := t.w
	t.title("loads-in", part.Text("unit", w.System().Force().String()))
	loads := w.Loads(t.a, t.names, words.ColumnUsed)
	var tab table
	var heads []string
	for _, c := range loads.Columns {
		head := w.Label("column-" + string(c))
		if !c.Text() {
			head = "\t" + head // to the right
		}
		heads = append(heads, head)
	}
	tab.add(heads...)
	for _, r := range loads.Rows {
		var cells []string
		for _, c := range loads.Columns {
			cells = append(cells, r.Cells[c])
		}
		tab.add(cells...)
	}
	tab.write(t.Builder, indent)
}

// findings are the cards; a DANGER or WARNING has the number of its flag.
func (t *rigText) findings() {
	if len(t.a.Findings) == 0 {
		return
	}
	t.title("title-findings")
	var tab table
	tab.add("\t", "", "") // no heads, numbers to the right
	for i, c := range words.Cards(t.a.Findings) {
		number := ""
		if c.Level >= part.Warning {
			number = strconv.Itoa(i + 1)
		}
		card := t.w.Card(c, t.a.Findings, t.names)
		tab.add(number, t.w.Level(c.Level), card.Title)
		for _, row := range card.Texts() {
			tab.add("", "", indent+row)
		}
		for _, do := range card.Dos {
			tab.add("", "", do)
		}
	}
	var body strings.Builder
	tab.write(&body, indent)
	_, rows, _ := strings.Cut(body.String(), "\n")
	t.WriteString(rows)
}

// resistance says what moves the casualty, and what that is made of.
func (t *rigText) resistance() {
	r := &t.a.Resistance
	if t.a.Casualty == "" {
		return
	}
	t.title("title-resistance")
	if !r.Known {
		t.line(t.w.Label("not-computed"))
	} else {
		t.line(t.w.Label("resistance-known", part.Text("range", t.w.Range(r.Range, r.PlanOn)),
			part.Text("low", t.w.Word(r.LowRule)), part.Text("high", t.w.Word(r.HighRule))))
	}
	for _, rule := range r.Rules {
		name := part.Text("rule", t.w.Word(rule.Rule))
		switch {
		case rule.Known && rule.Low == rule.High:
			t.line(t.w.Label("rule-single", name, part.Force("low", rule.Low)))
		case rule.Known:
			t.line(t.w.Label("rule-range", name, part.Force("low", rule.Low), part.Force("high", rule.High)))
		case rule.Why != "":
			t.line(t.w.Label("rule-why", name, part.Text("why", t.w.Word(rule.Why))))
		}
	}
	for _, v := range r.Parts {
		t.line(t.w.Label("part-value", part.Text("name", t.w.Word(v.Name)), part.Text("value", t.w.Value(v, t.names))))
	}
	if b := r.Breakaway; b.Known {
		t.line(t.w.Label("resistance-breakaway", part.Force("low", b.Low), part.Force("high", b.High)))
	}
	pull := func(p solver.Pull) string {
		if !p.Known {
			return t.w.Label("not-computed")
		}
		return t.w.Load(p.Tension)
	}
	t.line(t.w.Label("pulls", part.Text("move", pull(t.a.Move)), part.Text("loosen", pull(t.a.Loosen)), part.Text("stall", pull(t.a.Stall))))
}

func (t *rigText) lines() {
	if len(t.a.Lines) == 0 {
		return
	}
	t.title("title-lines")
	for _, l := range t.a.Lines {
		id := "line-use"
		if l.Has <= 0 {
			id = "line-use-unknown"
		}
		s := t.w.Label(id, part.Text("line", t.thing(l.Line)), part.Length("out", l.Out), part.Length("has", l.Has))
		if l.Layer > 0 {
			s += ", " + t.w.Label("line-layer", part.Count("layer", l.Layer))
			s += ", " + t.w.Label("line-wraps", part.Number("wraps", part.UnitNone, wholeWraps(l.Wraps)))
		}
		if l.Missing > 0 {
			s += ", " + t.w.Label("line-missing", part.Length("missing", l.Missing))
		}
		t.line(s)
	}
}

func (t *rigText) thing(id plan.ID) string {
	return t.w.Value(part.Value{Unit: part.UnitThing, Text: string(id)}, t.names)
}

func (t *rigText) people() {
	t.title("title-people")
	if len(t.a.People) == 0 {
		t.line(t.w.Label("no-people"))
	}
	for _, p := range t.a.People {
		s := t.w.Person(p, t.names)
		for _, in := range p.Spans {
			s += " · " + t.w.Label("inside-along", part.Length("from", quantity.Length(in.FromM)), part.Length("to", quantity.Length(in.ToM)))
		}
		if out := t.w.WayOut(p); out != "" {
			s += " · " + out
		}
		t.line(s)
	}
}

// order is what gives first as the winch pulls to stall.
func (t *rigText) order() {
	if len(t.a.Parts) == 0 {
		return
	}
	t.title("title-order")
	if len(t.a.Order)+len(t.a.MayGive) == 0 {
		t.line(t.w.Label("nothing-known-gives"))
	}
	for _, f := range t.a.Order {
		if f.Part < 0 || f.Part >= len(t.a.Parts) {
			continue
		}
		id := "gives-at"
		if f.Beyond {
			id = "gives-beyond"
		}
		// the force at which it gives is a strength, so it rounds down
		t.line(t.w.Label(id, part.Text("part", t.w.PartName(&t.a.Parts[f.Part], t.names)),
			part.Number("tension", part.UnitLimit, f.Tension)))
	}
	if len(t.a.MayGive) > 0 {
		names := make([]string, len(t.a.MayGive))
		for i, k := range t.a.MayGive {
			names[i] = t.w.PartName(&t.a.Parts[k], t.names)
		}
		t.line(t.w.Label("may-give-first", part.Text("parts", t.w.List(names))))
	}
}

func (t *rigText) sumLines() {
	if t.derivation == nil {
		return
	}
	name, lines := t.w.Label("title-resistance"), t.w.Derivation(t.derivation, t.names)
	if p, ok := t.a.Part(t.answer.why); ok {
		name, lines = t.w.PartName(p, t.names), append(lines, t.w.FailureBasis(p)...)
	}
	t.title("why", part.Text("part", name))
	for _, s := range lines {
		t.line(s)
	}
}

package words

import (
	"math"
	"strconv"
	"strings"

	"kedge/solver/doubt"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// dashed is a word of a plan as the id of its text: "found broken" is "found-broken".
func dashed(word string) string {
	return strings.ReplaceAll(strings.ReplaceAll(word, ",", ""), " ", "-")
}

// Candidate is what a candidate says happened.
func (w *Words) Candidate(c *doubt.Candidate, n Names) string {
	name := part.Text("part", w.nameOf(c.Part, n))
	switch {
	case c.Part == "":
		return w.Label("candidate-none")
	case c.Way == plan.WeakOff:
		return w.Label("candidate-off", name)
	case c.Below:
		return w.Label("candidate-weak", name, part.Text("way", w.Label("weak-"+dashed(c.Way))))
	case c.Jerk:
		return w.Label("candidate-jerk", name)
	}
	return w.Label("candidate-sound", name)
}

// EvidenceWord is what a word of a pin is called: of the set "pin" its kind, of "known"
// how it is known, of "look" how a break looks.
func (w *Words) EvidenceWord(set, word string) string { return w.Label(set + "-" + dashed(word)) }

// PinSaid is what a piece of evidence says: its letter, its kind, its thing, its figures.
func PinSaid(w *Words, q *plan.Pin, n Names) string {
	text := string(q.ID) + "  " + w.EvidenceWord("pin", q.Kind)
	if q.Thing != "" {
		text += ": " + w.nameOf(string(q.Thing), n)
	}
	more := []string{text}
	if q.Low > 0 || q.High > 0 {
		high := w.Label("pin-or-more")
		if q.High > 0 {
			high = w.Load(q.High)
		}
		more = append(more, w.Label("pin-tension-of", part.Text("low", w.Load(q.Low)), part.Text("high", high)))
	}
	if l, known := q.Length.Get(); known {
		said := w.Length(l)
		for _, d := range q.Doubts {
			if d.Member == "trace_m" {
				said += " (" + w.Label("pin-tension-of", part.Text("low", w.Length(quantity.Length(d.Low))), part.Text("high", w.Length(quantity.Length(d.High)))) + ")"
			}
		}
		more = append(more, said)
	}
	if q.Mass > 0 {
		more = append(more, w.Mass(q.Mass))
	}
	if q.Layer > 0 {
		more = append(more, w.Label("pin-layer-of", part.Count("n", q.Layer)))
	}
	if q.Look != "" {
		more = append(more, w.EvidenceWord("look", q.Look))
	}
	if q.Rating.Known() {
		more = append(more, w.Load(q.Rating.Force))
	}
	if q.Earlier {
		more = append(more, w.Label("pin-earlier"))
	}
	return strings.Join(more, " · ")
}

// Pin is a piece of evidence in a line: what it says, how it is known, who says so.
func (w *Words) Pin(q *plan.Pin, n Names) string {
	more := []string{PinSaid(w, q, n)}
	more = append(more, w.Label("known-"+q.KnownAs()), w.Label("pin-trust", part.Text("trust", w.decimal(q.Trusted()))))
	if q.Source != "" {
		more = append(more, q.Source)
	}
	return strings.Join(more, " · ")
}

// decimal is a figure with two digits behind the point at most, as the language has it.
func (w *Words) decimal(x float64) string {
	return w.Written(quantity.Text{Number: strconv.FormatFloat(math.Round(x*100)/100, 'f', -1, 64)}).String()
}

// Frequency is a chance as a count of trials, never a percentage: of a hundred, or of
// ten thousand where a hundred would make it none or all.
func (w *Words) Frequency(x float64) string {
	switch {
	case math.IsNaN(x):
		return w.Label("doubt-not-known")
	case x < 0.00005:
		return w.Label("frequency-fewer", part.Count("of", 10000))
	case x < 0.01:
		return w.Chance(max(1, int(math.Round(x*1e4))), 1e4)
	case x > 0.99995:
		return w.Label("frequency-more", part.Count("of", 10000))
	case x > 0.99:
		return w.Chance(min(int(math.Round(x*1e4)), 9999), 1e4)
	}
	return w.Chance(int(math.Round(x*100)), 100)
}

// Likelihood says how many times as well the facts fit one candidate as another, with
// its interval and its word. The word belongs to the end of the interval nearest to one,
// and goes no higher than moderately strong: what is assumed here is our own judgement.
// (The words are those of a guideline on evaluative reporting of 2015, from memory.)
func (w *Words) Likelihood(r doubt.Ratio) string {
	two := func(x float64) part.Value { return part.Text("x", w.significant(x, 2)) }
	switch r.Bound {
	case 1:
		return w.Label("ratio-more", two(r.Value), part.Text("word", w.Label(ratioWord(r.Value))))
	case -1:
		return w.Label("ratio-less", two(r.Value), part.Text("word", w.Label(ratioWord(1/r.Value))))
	}
	near := r.Low
	if r.Value < 1 {
		near = 1 / r.High
	}
	return w.Label("ratio", two(r.Value), part.Text("low", w.significant(r.Low, 2)), part.Text("high", w.significant(r.High, 2)), part.Text("word", w.Label(ratioWord(near))))
}

// ratioWord is the label of the word that a ratio of that size is given.
func ratioWord(x float64) string {
	switch {
	case !(x >= 2):
		return "ratio-neither"
	case x < 10:
		return "ratio-weak"
	case x < 100:
		return "ratio-moderate"
	}
	return "ratio-strong"
}

// significant is a figure with so many significant digits, those that are nought too,
// without a power of ten; 0 of what is no figure.
func (w *Words) significant(x float64, digits int) string {
	if x == 0 || math.IsInf(x, 0) || math.IsNaN(x) {
		return "0"
	}
	d := digits - 1 - int(math.Floor(math.Log10(math.Abs(x))))
	f := math.Pow(10, float64(d))
	return w.Written(quantity.Text{Number: strconv.FormatFloat(math.Round(x*f)/f, 'f', max(0, d), 64)}).String()
}

// Assumption is one figure that is drawn: what it is, how it scatters, and how well that
// is founded.
func (w *Words) Assumption(a *doubt.Assumption, n Names) (what, scatter, founded string) {
	switch {
	case a.What == "strength":
		what = w.Label("assumed-strength", part.Text("part", w.nameOf(a.Part, n)))
	case a.What != "":
		what = w.Label("assumed-" + a.What)
	default:
		what = w.Member(a.Thing, a.Member, n)
	}
	kind, figures := a.Dist.Words()
	values := make([]part.Value, len(figures))
	for i, x := range figures {
		text := w.significant(x, 3)
		if a.What == "strength" {
			text = w.Load(quantity.Force(x))
		}
		values[i] = part.Text([]string{"a", "b", "c"}[i], text)
	}
	if a.What == "resistance" {
		return what, w.Label("scatter-resistance"), w.Label("founded-rules")
	}
	founded = w.Label("founded-typed")
	if a.Fact != "" {
		founded = w.Confidence(facts.Must(a.Fact).Confidence)
	} else if a.What == "strength" {
		founded = w.Label("founded-rules")
	} else if a.What == "jerk-place" {
		founded = w.Confidence(facts.Ours)
	}
	return what, w.Label("scatter-"+kind, values...), founded
}

// Prior is what was held likely before any evidence: of what, how likely, and whose
// that is.
func (w *Words) Prior(p *doubt.PriorOf, n Names) (what, chance, founded string) {
	founded = w.Label("founded-typed")
	if p.Fact != "" {
		founded = w.Confidence(facts.Must(p.Fact).Confidence)
	}
	if p.Source != "" {
		founded += " · " + p.Source
	}
	return w.nameOf(p.Part, n) + ": " + w.Label("weak-"+dashed(p.Way)), w.Frequency(p.Chance), founded
}

// Part is the name of a candidate's part.
func (w *Words) Part(id string, n Names) string { return w.nameOf(id, n) }

package exercise

import (
	"slices"
	"strings"

	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/refusal"
)

// QuestionKind is what a question asks for.
type QuestionKind string

// The kinds of question.
const (
	AskAngle   QuestionKind = "angle"    // between the stretches at a block
	AskLoad    QuestionKind = "load"     // of a part, at the planned pull
	AskWeakest QuestionKind = "weakest"  // which part is used most
	AskFirst   QuestionKind = "first"    // what gives or moves first
	AskWhatIf  QuestionKind = "what-if"  // the load of a part in another rig
	AskWorstAt QuestionKind = "worst-at" // how far along the way a part's load is greatest
	AskHappens QuestionKind = "happens"  // what happens first on the way
)

// kinds are all kinds in the order a list shows them, and how each is answered.
var kinds = [...]struct {
	name   QuestionKind
	answer func(m *Model, a *Asked, x *Exercise) (why string)
}{
	{AskAngle, (*Model).answerAngle}, {AskLoad, (*Model).answerLoad}, {AskWeakest, (*Model).answerWeakest},
	{AskFirst, (*Model).answerFirst}, {AskWhatIf, (*Model).answerWhatIf},
	{AskWorstAt, (*Model).answerWorstAt}, {AskHappens, (*Model).answerHappens},
}

// QuestionKinds are all kinds in the order a list shows them. The name of each
// is the label "sheet-ask-" + kind.
func QuestionKinds() []QuestionKind {
	var all []QuestionKind
	for _, k := range kinds {
		all = append(all, k.name)
	}
	return all
}

// Question is one question of an exercise.
type Question struct {
	Kind QuestionKind
	Part string  // id of the part asked about; of AskAngle, a block
	Rig  plan.ID // of AskWhatIf: the other rig
}

// QuestionProblem says why a question cannot be asked on the page.
type QuestionProblem struct {
	N    int    // its number, from 1
	Why  string // why, without the number
	said string // the whole sentence
}

// Error is the sentence with the package before it.
func (e *QuestionProblem) Error() string { return "sheet: " + e.said }

// Sentence is what a person reads.
func (e *QuestionProblem) Sentence() string { return e.said }

// Problem says why question n cannot be asked.
func Problem(w *words.Words, n int, why string) error {
	return &QuestionProblem{n, why, w.Label("sheet-why-question", part.Count("n", n), part.Text("why", why))}
}

// Unwrap is [ErrQuestion].
func (e *QuestionProblem) Unwrap() error { return ErrQuestion }

// Asked is a question with its answer.
type Asked struct {
	Question
	Drawn  bool   // a blank on the drawing, without a line of its own
	Text   string // as printed
	Unit   string
	Answer string
	X      float64  // of a number, in newtons, degrees or metres
	Tol    float64  // ± of it
	Also   string   // what else counts, of a question for a part
	Sums   []string // how the answer comes about
	Wrong  []string // usual mistakes, as figure and reason
}

// onDrawing are the kinds of part whose load follows from resistance, sheaves
// and the angles of the drawing alone.
var onDrawing = []part.Kind{part.KindStretch, part.KindWinch, part.KindBlock, part.KindSling, part.KindShackle, part.KindPoint, part.KindAnchor, part.KindEnd}

// derivable reports whether a part's load can be worked out from the page; else why
// not.
func (m *Model) derivable(id string) (p *part.Part, why string) {
	a := m.a
	p, ok := a.Part(id)
	switch {
	case !ok:
		return nil, m.label("why-no-part", part.Text("part", id))
	case a.Status != part.Within || !p.Move.Known:
		return nil, m.label("why-not-computed")
	case !a.Resistance.Known || !(a.Resistance.Planned > 0):
		return nil, m.label("why-no-resistance")
	case !a.Moves:
		return nil, m.label("why-does-not-move")
	case p.Status == part.Slack:
		return nil, m.label("why-slack")
	case slices.Contains(byDirection, p.Kind):
		if why := m.level(); why != "" {
			return nil, why
		}
		if _, ok := m.onPaper(p); !ok {
			return nil, m.label("why-several")
		}
		return p, ""
	case !slices.Contains(onDrawing, p.Kind):
		return nil, m.label("why-heights")
	}
	return p, m.level()
}

// leastLegMM is the shortest stretch on paper that a protractor can be laid to,
// mm. (ours: the base line of a school protractor)
const leastLegMM = 15.0

// measurable reports whether the stretches at a block can be measured on paper at
// 1 : n.
func (m *Model) measurable(block *part.Part, n float64) (why string) {
	legs := 0
	for i := range m.a.Stretches {
		s := &m.a.Stretches[i]
		if s.PortA.Thing != block.Thing && s.PortB.Thing != block.Thing {
			continue
		}
		legs++
		if mm := float64(s.Length) * mmPerM / n; mm < leastLegMM {
			return m.label("why-short", part.Number("length", part.UnitNone, mm))
		}
	}
	if legs < 2 {
		return m.label("why-no-angle")
	}
	return ""
}

// compared parts of the questions weakest and first: those that are worked out
// from the page, sliding too where asked.
func (m *Model) compared(slides bool) []*part.Part {
	var all []*part.Part
	for i := range m.a.Parts {
		p := &m.a.Parts[i]
		if p.Status == part.Slack || !p.Move.Known {
			continue
		}
		if slices.Contains(onDrawing, p.Kind) || slides && p.Kind == part.KindSlide {
			all = append(all, p)
		}
	}
	return all
}

// ParseQuestion reads a question as the command line writes it: angle:PART,
// load:PART, weakest, first, what-if:RIG:PART, worst-at:PART, happens. Parts and rigs are ids.
func ParseQuestion(s string) (Question, error) {
	kind, rest, _ := strings.Cut(s, ":")
	q := Question{Kind: QuestionKind(kind)}
	switch q.Kind {
	case AskAngle, AskLoad, AskWorstAt:
		q.Part = rest
		if rest == "" {
			return q, questionOf.At("", refusal.Clip(s, mostShown), kind)
		}
	case AskWeakest, AskFirst, AskHappens:
		if rest != "" {
			return q, questionMore.At("", refusal.Clip(s, mostShown), kind)
		}
	case AskWhatIf:
		rig, id, ok := strings.Cut(rest, ":")
		if !ok || rig == "" || id == "" {
			return q, questionIf.At("", refusal.Clip(s, mostShown))
		}
		q.Rig, q.Part = plan.ID(rig), id
	default:
		names := make([]string, 0, len(QuestionKinds()))
		for _, k := range QuestionKinds() {
			names = append(names, string(k))
		}
		return q, noQuestion.At("", refusal.Clip(kind, mostShown), strings.Join(names, ", "))
	}
	return q, nil
}

// Right is what counts as right: the answer with its ends, or with what else
// counts.
func (a *Asked) Right(w *words.Words) string {
	switch {
	case a.Unit != "":
		return w.Label("sheet-answer-range", part.Text("answer", a.Answer), part.Text("from", a.bound(w, -1)), part.Text("to", a.bound(w, 1)))
	case a.Also != "":
		return w.Label("sheet-answer-also", part.Text("answer", a.Answer), part.Text("also", a.Also))
	}
	return a.Answer
}

// bound is an end of what counts as right.
func (a *Asked) bound(w *words.Words, sign float64) string {
	v := a.X + sign*a.Tol
	switch a.Unit {
	case "°":
		return w.Angle(quantity.Degrees(max(v, 0)))
	case w.System().Length().String():
		return w.Length(quantity.Length(max(v, 0)))
	}
	as := quantity.AsLoad
	if sign < 0 {
		as = quantity.AsLimit
	}
	return w.Written(quantity.FormatForce(quantity.Force(max(v, 0)), w.System(), as)).String()
}

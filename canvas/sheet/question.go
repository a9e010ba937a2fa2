package sheet

import (
	"fmt"
	"slices"
	"strings"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// QuestionKind is what a question asks for.
type QuestionKind string

// The kinds of question.
const (
	AskAngle   QuestionKind = "angle"   // between the stretches at a block
	AskLoad    QuestionKind = "load"    // of a part, at the planned pull
	AskWeakest QuestionKind = "weakest" // which part is used most
	AskFirst   QuestionKind = "first"   // what gives or moves first
	AskWhatIf  QuestionKind = "what-if" // the load of a part in another rig
)

// QuestionKinds are all kinds in the order a list shows them. The name of each
// is the label "sheet-ask-" + kind.
func QuestionKinds() []QuestionKind {
	return []QuestionKind{AskAngle, AskLoad, AskWeakest, AskFirst, AskWhatIf}
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

func (m *maker) problem(n int, why string) error {
	return &QuestionProblem{n, why, m.label("why-question", count("n", n), text("why", why))}
}

// Unwrap is [ErrQuestion].
func (e *QuestionProblem) Unwrap() error { return ErrQuestion }

// asked is a question with its answer.
type asked struct {
	Question
	drawn  bool // a blank on the drawing, without a line of its own
	text   string
	unit   string
	answer string
	x      float64 // of a number, in newtons or degrees
	tol    float64 // ± of it
	accept string  // what else counts
	sums   []string
	wrong  []string // usual mistakes, as figure and reason
}

// onDrawing are the kinds of part whose load follows from resistance, sheaves
// and the angles of the drawing alone.
var onDrawing = []part.Kind{part.KindStretch, part.KindWinch, part.KindBlock, part.KindSling, part.KindShackle, part.KindPoint, part.KindAnchor, part.KindEnd}

// derivable reports whether a part's load can be worked out from the page; else why
// not.
func (m *maker) derivable(a *solver.Assessment, id string) (p *part.Part, why string) {
	p, ok := a.Part(id)
	switch {
	case !ok:
		return nil, m.label("why-no-part", text("part", id))
	case a.Status != part.Within || !p.Move.Known:
		return nil, m.label("why-not-computed")
	case !a.Resistance.Known || !(a.Resistance.Planned > 0):
		return nil, m.label("why-no-resistance")
	case !a.Moves:
		return nil, m.label("why-does-not-move")
	case p.Status == part.Slack:
		return nil, m.label("why-slack")
	case slices.Contains(byDirection, p.Kind):
		if why := m.level(a); why != "" {
			return nil, why
		}
		if _, ok := m.reckoned(a, p); !ok {
			return nil, m.label("why-several")
		}
		return p, ""
	case !slices.Contains(onDrawing, p.Kind):
		return nil, m.label("why-heights")
	}
	return p, m.level(a)
}

// leastLegMM is the shortest stretch on paper that a protractor can be laid to,
// mm. (ours: the base line of a school protractor)
const leastLegMM = 15.0

// measurable reports whether the stretches at a block can be measured on paper at
// 1 : n.
func (m *maker) measurable(a *solver.Assessment, block *part.Part, n float64) (why string) {
	legs := 0
	for i := range a.Stretches {
		s := &a.Stretches[i]
		if s.PortA.Thing != block.Thing && s.PortB.Thing != block.Thing {
			continue
		}
		legs++
		if mm := float64(s.Length) * mmPerM / n; mm < leastLegMM {
			return m.label("why-short", number("length", part.UnitNone, mm))
		}
	}
	if legs < 2 {
		return m.label("why-no-angle")
	}
	return ""
}

// compared parts of the questions weakest and first: those that are worked out
// from the page, sliding too where asked.
func (m *maker) compared(slides bool) []*part.Part {
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
// load:PART, weakest, first, what-if:RIG:PART. Parts and rigs are ids.
func ParseQuestion(s string) (Question, error) {
	kind, rest, _ := strings.Cut(s, ":")
	q := Question{Kind: QuestionKind(kind)}
	switch q.Kind {
	case AskAngle, AskLoad:
		q.Part = rest
		if rest == "" {
			return q, fmt.Errorf("%w: %q: say of what, as in %s:B1", ErrOption, s, kind)
		}
	case AskWeakest, AskFirst:
		if rest != "" {
			return q, fmt.Errorf("%w: %q: nothing follows %s", ErrOption, s, kind)
		}
	case AskWhatIf:
		rig, id, ok := strings.Cut(rest, ":")
		if !ok || rig == "" || id == "" {
			return q, fmt.Errorf("%w: %q: say rig and part, as in what-if:R2:B1", ErrOption, s)
		}
		q.Rig, q.Part = plan.ID(rig), id
	default:
		names := make([]string, 0, len(QuestionKinds()))
		for _, k := range QuestionKinds() {
			names = append(names, string(k))
		}
		return q, fmt.Errorf("%w: there is no question %q; there is %s", ErrOption, kind, strings.Join(names, ", "))
	}
	return q, nil
}

package board

import (
	"slices"
	"strings"
	"unicode"

	"kedge/canvas/form"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Question is the open question: the first unknown of the thing just placed.
type Question struct {
	Thing  plan.ID
	Member string // JSON member, nested as in "casualty/depth"
	Label  string // what is asked, as a sentence
	Text   string // typed so far
	In     bool   // the field has the keys: letters go to it too
	Marked bool   // all that is typed so far, so that the next key takes its place
	Error  string // why the last entry was refused; empty: none was

	bare    string                             // unit of a bare number, where the field shows another than the plan's
	take    func(b *Board, typed string) error // takes the answer if it is no member of a thing; else nil
	choices []string                           // words it may be; a beginning is enough
	texts   []string                           // what the choices are called, if each is taken by its number; else nil
}

// mark marks all that is typed; false: no question has the keys.
func (q *Question) mark() bool {
	if q == nil || !q.In {
		return false
	}
	q.Marked = q.Text != ""
	return true
}

// Choices are the words that answer it, of which the first letters do; nil: it
// takes a figure or a text.
func (q *Question) Choices() []string { return slices.Clone(q.choices) }

// Numbered are what its choices are called, of which the digits from 1 on do; nil:
// digits are a figure.
func (q *Question) Numbered() []string { return slices.Clone(q.texts) }

// Question is the open question, nil if there is none. It is a copy.
func (b *Board) Question() *Question {
	if b.question == nil {
		return nil
	}
	q := *b.question
	return &q
}

// questionsOf are what is asked about a thing, in order.
func questionsOf(sc *scene, id plan.ID) []Question {
	x, name := sc.at(), part.Text("thing", sc.name(id))
	ask := func(member, label string, choices ...string) Question {
		return Question{Thing: id, Member: member, Label: sc.label(label, name, part.Text("unit", thickUnit(sc))), choices: choices}
	}
	switch x.Kind(id) {
	case plan.ThingPin:
		return pinQuestions(sc, x.Pin(id))
	case plan.ThingVehicle:
		v := x.Vehicle(id)
		switch {
		case v.Stuck != nil:
			return []Question{
				ask("mass_kg", "prompt-mass"),
				ask("casualty/depth", "prompt-depth", plan.DepthNone, plan.DepthHub, plan.DepthChassis, plan.DepthBody),
			}
		case v.Winch != nil:
			return []Question{ask("winch/line_pull_n", "prompt-winch"), ask("mass_kg", "prompt-mass")}
		}
		return []Question{ask("mass_kg", "prompt-mass")}
	case plan.ThingAnchor:
		k := plan.AnchorKindOf(x.Anchor(id).Kind)
		if k == nil {
			return nil
		}
		var list []Question
		for _, member := range k.Asks {
			q := ask(member, "prompt-anchor-"+member)
			switch {
			case slices.Contains(plan.AnchorThick, member):
				q.bare = thickUnit(sc)
			case member == "health":
				q.choices = []string{plan.HealthAlive, plan.HealthDoubtful, plan.HealthDead, plan.HealthRotten}
			}
			list = append(list, q)
		}
		return list
	case plan.ThingObstacle:
		return []Question{ask("height_m", "prompt-height-preset")}
	case plan.ThingNote:
		q := ask("text", "prompt-note")
		q.In = true
		return []Question{q}
	case plan.NoThing:
		if id == form.ThingGround {
			return []Question{ask("slope_deg", "prompt-slope")}
		}
	}
	return nil
}

// thickUnit is the unit in which trunks are asked for.
func thickUnit(sc *scene) string {
	if sc.words.System().Length() == quantity.InFeet {
		return "in"
	}
	return "cm"
}

// ask opens the first question about a thing, if there is one.
func (b *Board) ask(id plan.ID) {
	b.question, b.guides = nil, false
	if list := questionsOf(b.scene, id); len(list) > 0 {
		b.question = &list[0]
	}
	b.changed()
}

// questionRune gives a character to the open question; false if it is not for
// it: until a digit or Tab has entered the field, letters belong to the tools.
func (b *Board) questionRune(r rune) bool {
	q := b.question
	if q != nil && q.Text == "" && r >= '1' && int(r-'1') < len(q.texts) {
		b.Choose(int(r - '1'))
		return true
	}
	if q == nil || !q.In && !unicode.IsDigit(r) && !(strings.ContainsRune(".,+-−±~", r)) && !q.yesNo(r) {
		return false
	}
	if q.Marked {
		q.Text = ""
	}
	q.In, q.Marked, q.Text, q.Error = true, false, q.Text+string(r), ""
	b.changed()
	return true
}

// Choose answers the open question with the choice at that place, from 0, and goes on to
// the next; nothing where there is none.
func (b *Board) Choose(i int) {
	q := b.question
	if q == nil || i < 0 || i >= len(q.texts) {
		return
	}
	q.Text = q.texts[i]
	if b.answer() {
		b.nextQuestion(q)
	}
}

// yesNo reports whether a letter answers a question that was asked with yes or no: it
// belongs to it before it belongs to a tool.
func (q *Question) yesNo(r rune) bool {
	return len(q.choices) == 2 && q.choices[0] == form.Yes && strings.ContainsRune("yYnN", r)
}

// questionKey gives a named key to the open question; false if it is not for
// it.
func (b *Board) questionKey(name string) bool {
	q := b.question
	if q == nil {
		return false
	}
	switch name {
	case "Enter":
		if _, pin := plan.RefPin(q.Thing); !b.guides && !pin {
			b.closeQuestion()
		} else if b.answer() { // nothing typed skips it
			b.nextQuestion(q)
		}
		return true
	case "Tab":
		switch {
		case !q.In:
			q.In = true
			b.changed()
		case b.answer():
			b.nextQuestion(q)
		}
		return true
	case "Backspace":
		if t := []rune(q.Text); q.In && len(t) > 0 {
			q.Text = string(t[:len(t)-1])
		}
		if q.Marked {
			q.Text = ""
		}
		q.In, q.Marked, q.Error = true, false, "" // never takes away the thing that is asked about
		b.changed()
		return true
	case "Delete", "ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown":
		return q.In // while one types nothing is deleted or moved
	case "Escape":
		b.question, b.guides = nil, false
		left := b.leavePin(q.Thing)
		b.changed()
		return q.In || left
	}
	return false
}

// nextQuestion opens the question after q, entered; none closes it.
func (b *Board) nextQuestion(q *Question) {
	if b.question != q { // the answer asked on
		return
	}
	b.question = nil
	list := questionsOf(b.scene, q.Thing)
	for i := range list {
		if list[i].Member == q.Member && i+1 < len(list) {
			list[i+1].In = true
			b.question = &list[i+1]
		}
	}
	if b.question == nil && b.guides {
		b.guide(b.guided)
	}
	b.changed()
}

// closeQuestion takes what was typed and closes the question. False: what was
// typed is refused, and the question stays with it.
func (b *Board) closeQuestion() bool {
	if b.question == nil {
		return true
	}
	q := b.question
	if !b.answer() {
		return false
	}
	if b.guides = false; b.question == q { // else the answer asked on
		b.question = nil
	}
	b.changed()
	return true
}

// answer enters what was typed. Nothing typed is nothing entered.
func (b *Board) answer() bool {
	q := b.question
	entry := strings.TrimSpace(q.Text)
	if entry == "" {
		return true
	}
	if q.take != nil {
		return taken(b, q, q.take(b, entry))
	}
	next, name, err := form.Set(b.plan, b.rig, q.Thing, q.Member, q.entry(entry), b.words)
	if err == nil {
		err = b.edit(name, next)
	}
	if err != nil {
		q.Error = b.scene.words.Refusal(err)
		b.question = q
		b.changed()
		return false
	}
	b.sayWeight(q.Thing, q.Member, q.entry(entry))
	return true
}

// entry is what was typed as the field takes it: a bare number in the unit the
// question shows, the beginning of a choice as the choice.
func (q *Question) entry(typed string) string {
	if i := slices.Index(q.texts, typed); i >= 0 {
		return q.choices[i]
	}
	if q.texts != nil { // of two that begin alike neither is meant
		return typed
	}
	for _, c := range q.choices {
		if strings.HasPrefix(c, strings.ToLower(typed)) {
			return c
		}
	}
	if q.bare != "" && !strings.ContainsFunc(typed, func(r rune) bool { return unicode.IsLetter(r) || r == '"' || r == '\'' || r == '″' || r == '′' }) {
		return typed + " " + q.bare
	}
	return typed
}

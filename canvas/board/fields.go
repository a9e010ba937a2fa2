package board

import (
	"strings"

	"kedge/canvas/form"
	"kedge/solver/plan"
)

// Fields are the members of a thing for the Details panel; see [form.Fields].
func (b *Board) Fields(thing plan.ID) []form.Field {
	return form.Fields(b.Shown(), b.rig, thing, b.Answer(), b.words)
}

// Set types a text into a field, as one undo step; see [form.Set]. An empty
// text over a typed value brings back what the program had proposed for it in
// this session; where there was no proposal, or the proposal itself is emptied,
// the member is not known. What is refused is also reported to the person, and
// the plan stays.
func (b *Board) Set(thing plan.ID, member, given string) error {
	return b.SetAll([]plan.ID{thing}, member, given)
}

// SetAll is [Board.Set] of a member of several things, as one undo step; what one of them
// refuses changes none. There must be one thing at least.
func (b *Board) SetAll(things []plan.ID, member, given string) error {
	b.begin()
	b.cancel()
	next, name, err := form.SetAll(b.plan, b.rig, things, member, given, b.words)
	if err != nil {
		b.say(b.scene.words.Refusal(err))
		return err
	}
	if strings.TrimSpace(given) == "" {
		for _, thing := range things {
			next = b.proposedAgain(next, thing, member)
		}
	}
	if err := b.edit(name, pictureFollowed(b.plan, next)); err != nil {
		return err
	}
	b.sayWeight(things[0], member, given)
	return nil
}

// proposedAgain is a plan with what the program had proposed last for a member that was
// emptied.
func (b *Board) proposedAgain(p *plan.Plan, thing plan.ID, member string) *plan.Plan {
	for i := len(b.undo) - 1; i >= 0; i-- {
		if _, typed := form.PresetAgain(b.plan, b.undo[i].plan, b.rig, thing, member); typed {
			p, _ = form.PresetAgain(p, b.undo[i].plan, b.rig, thing, member)
			break
		}
	}
	return p
}

// sayWeight says that a force was typed as the weight of a mass, and what it was
// taken as.
func (b *Board) sayWeight(thing plan.ID, member, given string) {
	if said := form.AsWeight(b.plan, b.rig, thing, member, given, b.words); said != "" {
		b.say(said)
	}
}

package board

import (
	"fmt"
	"math"
	"reflect"
	"slices"

	"github.com/golang/geo/r2"

	"kedge/canvas/draw"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/travel"
)

// Options are the choices a board starts with. The zero value is usable.
type Options struct {
	Words *words.Words     // language and units; nil: English, metric
	Kit   []facts.GearItem // the gear list presets are taken from; nil: the starter list
	Snap  quantity.Length  // step of the grid things snap to; 0: 0.5 m
}

// PresetSnap is the step of the grid things snap to, also the step of an arrow
// key. (ours: half a metre is what a tape read at arm's length gives)
const PresetSnap quantity.Length = 0.5

// Board is a plan being edited. It belongs to one goroutine; see the package.
type Board struct {
	*scene

	undo   []step
	redo   []step
	saved  *plan.Plan // as it was last stored; the plan itself is compared
	report string     // what the last edit did or why it was refused, until the next event

	clip *clip

	tool    tool
	gesture *gesture
	shown   *plan.Plan // preview; nil: the plan as it is
	out     outcome    // of the gesture or the armed tool under the pointer

	fitted    bool
	pointer   pointer
	cross     *plan.Point         // keyboard crosshair; nil: not in use
	crossPort plan.Port           // hook-on point that Tab took the crosshair to
	typed     string              // place being typed to the crosshair
	figure    string              // number typed during a gesture
	turning   bool                // R was pressed: arrows turn
	ofPart    string              // part whose row selected the thing; empty: it was picked itself
	onWay     *wayHandle          // handle of an exit path that is taken; nil: none
	running   string              // name of the edit that arrow keys go on with
	hang      *hanging            // what the keyboard hangs elsewhere; nil: nothing
	hand      map[string]r2.Point // where tags were put by hand
	flagged   string              // key of the finding pointed at

	question *Question
	guided   []plan.ID // things that are asked about after the one that is
	guides   bool      // one thing is asked about after another

	generation uint64
	tabs       tabs
}

// step is one edit in the undo or redo list: the plan to go back (or forward)
// to.
type step struct {
	plan *plan.Plan
	rig  plan.ID
	name string

	measured collected
}

// New is a board with a plan, which the board never changes: edits make new
// plans. A nil plan starts an empty one with one empty rig.
func New(p *plan.Plan, opt Options) (*Board, error) {
	b := &Board{scene: &scene{words: opt.Words, kit: opt.Kit, snapM: float64(opt.Snap)}}
	if b.words == nil {
		w, err := words.New("en", quantity.Metric)
		if err != nil {
			return nil, fmt.Errorf("board: %w", err)
		}
		b.words = w
	}
	if b.kit == nil {
		kit, err := facts.StarterGear()
		if err != nil {
			return nil, fmt.Errorf("board: %w", err)
		}
		b.kit = kit
	}
	if !(b.snapM > 0) || math.IsInf(b.snapM, 0) {
		b.snapM = float64(PresetSnap)
	}
	if p == nil {
		p = Empty()
	}
	if err := plan.Validate(p); err != nil {
		return nil, fmt.Errorf("board: %w", err)
	}
	b.view = draw.View{Middle: plan.Point{X: 20, Y: 11}, PerM: 25, W: 1000, H: 700, UnitsPerPx: 1}
	b.setPlan(p)
	return b, nil
}

// Empty is the plan of an empty sheet: one rig with nothing in it.
func Empty() *plan.Plan {
	p := plan.New()
	p.Rigs = []plan.Rig{{Head: plan.Head{ID: "R1"}}}
	return p
}

// setPlan starts with p: nothing to undo, not dirty.
func (b *Board) setPlan(p *plan.Plan) {
	b.plan, b.saved, b.undo, b.redo, b.rig = p, p, nil, nil, ""
	if len(p.Rigs) > 0 {
		b.rig = p.Rigs[0].ID
	}
	b.selection, b.shown, b.gesture, b.question = nil, nil, nil, nil
	b.hand, b.boxes, b.ways, b.measured = nil, nil, nil, collected{}
	b.tool, b.cross, b.typed, b.figure, b.fitted = newTool(ToolSelect), nil, "", "", false
	b.changed()
}

// Replace puts another plan on the board, as after opening a file. What was
// there cannot be undone to.
func (b *Board) Replace(p *plan.Plan) error {
	if err := plan.Validate(p); err != nil {
		return fmt.Errorf("board: %w", err)
	}
	b.setPlan(p)
	return nil
}

// edit makes next the plan, as one undo step called name ("Move Tree 1"). A
// plan that says the same is no edit. One that could not be saved is refused:
// the plan stays, the error says why and is reported to the person.
func (b *Board) edit(name string, next *plan.Plan) error {
	if next == b.plan || reflect.DeepEqual(next, b.plan) {
		return nil
	}
	next = plan.KeepPhotos(b.plan, plan.KeepNames(b.plan, next))
	if err := plan.Validate(withoutOldSurvey(b.plan, next)); err != nil {
		b.say(b.scene.words.Refusal(err))
		return err
	}
	putStep(b, name)
	b.take(next)
	return nil
}

// putStep puts how things are on the undo list, before they change.
func putStep(b *Board, name string) {
	b.undo, b.redo = append(b.undo, step{b.plan, b.rig, name, b.measured}), nil
}

// take makes p the plan and drops from the state what is no longer in it.
func (b *Board) take(p *plan.Plan) {
	b.plan, b.shown, b.ways = p, nil, nil
	if _, ok := p.Rig(b.rig); !ok {
		b.rig = ""
		if len(p.Rigs) > 0 {
			b.rig = p.Rigs[0].ID
		}
	}
	x := b.at()
	b.selection = slices.DeleteFunc(slices.Clone(b.selection), func(id plan.ID) bool { return x.Kind(id) == plan.NoThing && !b.aside(id) })
	if q := b.question; q != nil && x.Kind(q.Thing) == plan.NoThing && !b.aside(q.Thing) {
		b.question = nil
	}
	b.changed()
}

// stepTo moves one step between the two lists.
func (b *Board) stepTo(from, to *[]step, label string) {
	if t, ok := b.tool.(*pointsTool); ok && len(t.points) > 0 { // nothing is done with it yet
		b.question = nil
		b.cancel()
		return
	}
	b.cancel()
	n := len(*from)
	if n == 0 {
		return
	}
	s := (*from)[n-1]
	*from = (*from)[:n-1]
	*to = append(*to, step{b.plan, b.rig, s.name, b.measured})
	b.rig, b.measured = s.rig, s.measured
	b.question = nil
	b.take(s.plan)
	b.say(b.label(label, part.Text("what", s.name)))
}

// Undo takes back the last edit; nothing if there is none.
func (b *Board) Undo() { b.stepTo(&b.undo, &b.redo, "undone") }

// Redo does again what was taken back last; nothing if there is none.
func (b *Board) Redo() { b.stepTo(&b.redo, &b.undo, "redone") }

// UndoName is what Undo would take back, empty if nothing.
func (b *Board) UndoName() string { return last(b.undo) }

// RedoName is what Redo would do again, empty if nothing.
func (b *Board) RedoName() string { return last(b.redo) }

func last(list []step) string {
	if len(list) == 0 {
		return ""
	}
	return list[len(list)-1].name
}

// Dirty reports whether the plan differs from the one last stored. Undoing back to
// it makes the board clean again.
func (b *Board) Dirty() bool { return b.plan != b.saved }

// MarkSaved says that the plan as it is now was stored. The undo list stays.
func (b *Board) MarkSaved() {
	b.saved = b.plan
	b.changed()
}

// Plan is the plan as it is, without the preview of a gesture.
func (b *Board) Plan() *plan.Plan { return b.plan }

// Shown is the plan as it is shown: with the preview of the gesture in
// progress, else the plan itself.
func (b *Board) Shown() *plan.Plan {
	if b.shown != nil {
		return b.shown
	}
	return b.plan
}

// Rig is the rig shown; empty if the plan shown has none.
func (b *Board) Rig() plan.ID { return b.rigOf(b.Shown()) }

// Answer is the answer for the whole pull of what is shown, preview included. It is
// found once for each plan and rig.
func (b *Board) Answer() *solver.Assessment { return b.Pull().Assessment }

// Pull is that answer with its moments.
func (b *Board) Pull() *travel.Answer { return b.whole(b.Shown()) }

// Unanswered is what [Board.Answer] would have to assess first: a caller may do
// it elsewhere and hand it to [Board.TakeAnswer]. A nil plan: the answer is at
// hand.
func (b *Board) Unanswered() (*plan.Plan, plan.ID) {
	p := b.Shown()
	rig := b.rigOf(p)
	if answerAt(b.pulls, p, rig) >= 0 {
		return nil, ""
	}
	return p, rig
}

// TakeAnswer keeps what [travel.Assess] said of a plan and rig, as if the board
// had asked it.
func (b *Board) TakeAnswer(p *plan.Plan, rig plan.ID, a *travel.Answer) {
	if p != nil && a != nil && answerAt(b.pulls, p, rig) < 0 {
		keepAnswer(&b.pulls, answered[*travel.Answer]{p, rig, a})
	}
}

// Selection is what is selected, in the order it was picked.
func (b *Board) Selection() []plan.ID { return slices.Clone(b.selection) }

// Select selects things; ids of nothing are passed over.
func (b *Board) Select(ids ...plan.ID) {
	x := b.at()
	b.selection, b.onWay, b.ofPart = nil, nil, ""
	for _, id := range ids {
		if (x.Kind(id) != plan.NoThing || b.aside(id)) && !slices.Contains(b.selection, id) {
			b.selection = append(b.selection, id)
		}
	}
	b.changed()
}

// SelectOf selects the thing that a part of the answer belongs to. Delete and Cut then
// take nothing, if the thing has more parts than that one: it would go whole.
func (b *Board) SelectOf(id string) {
	if p, ok := b.Answer().Part(id); ok {
		b.Select(p.Thing)
		b.ofPart = id
	}
}

// keepsWhole says that a thing is not taken out of which a part alone is selected; false:
// nothing is selected so.
func (b *Board) keepsWhole() bool {
	if b.ofPart == "" || !slices.ContainsFunc(b.Answer().Parts, func(p part.Part) bool {
		return p.ID != b.ofPart && slices.Contains(b.selection, p.Thing)
	}) {
		return false
	}
	b.say(b.label("delete-part", part.Text("thing", b.name(b.selection[0]))))
	return true
}

// Tool is the tool that is armed.
func (b *Board) Tool() Tool { return b.tool.its().id }

// View is where the picture looks.
func (b *Board) View() draw.View { return b.view }

// SetView moves the picture.
func (b *Board) SetView(v draw.View) {
	b.view, b.fitted = v, true
	b.changed()
}

// Words is the language and units the board speaks in.
func (b *Board) Words() *words.Words { return b.words }

// SetWords changes language or units.
func (b *Board) SetWords(w *words.Words) {
	if w != nil {
		b.words = w
		b.changed()
	}
}

// Generation counts changes of anything that is seen: a caller that has drawn
// the same generation need not draw again.
func (b *Board) Generation() uint64 { return b.generation }

func (b *Board) changed() { b.generation++ }

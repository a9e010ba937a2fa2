package board_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/canvas/draw"
	"kedge/solver/plan"
	"kedge/solver/seeded"
)

func pinsOf(h *hand) []plan.Pin {
	if r, ok := h.b.Plan().Rig(h.b.Rig()); ok && r.Incident != nil {
		return r.Incident.Pins
	}
	return nil
}

func markOf(h *hand, letter plan.ID) draw.PinMark {
	r, _ := h.b.Plan().Rig(h.b.Rig())
	for _, m := range draw.Pins(plan.NewIndex(h.b.Plan(), r), h.b.Answer(), h.b.View().PerM) {
		if m.Pin.ID == letter {
			return m
		}
	}
	require.FailNow(h.t, "no pin", letter)
	return draw.PinMark{}
}

// headOf is where the head of a pin is, in metres.
func headOf(h *hand, letter plan.ID) (x, y float64) {
	m, k := markOf(h, letter), h.b.View().PerM
	return m.Over.X + m.Beside/k, m.Over.Y + draw.PinStemPx/k
}

// whereIs is where Tab of the evidence tool finds a thing.
func whereIs(h *hand, id plan.ID) plan.Point {
	for range 60 {
		if g := h.b.Overlay().Ghost; g != nil && g.Pin != nil && g.Pin.Pin.Thing == id && h.b.Overlay().Cross != nil {
			return *h.b.Overlay().Cross
		}
		h.keys("<Tab>")
	}
	require.FailNow(h.t, "Tab", "does not reach %s", id)
	return plan.Point{}
}

// Evidence pinned with pointer and digits is what the keys alone pin, byte for byte;
// each answer is one undo step, and undone one by one the plan is as it was.
func TestEvidenceByPointerAndByKeys(t *testing.T) {
	p, k := sit(t, seeded.Example(t, "redirect")), sit(t, seeded.Example(t, "redirect"))
	before := p.bytes()
	p.keys("f")
	require.Equal(t, board.ToolPin, p.b.Tool())
	tree := p.b.Plan().Site.Anchors[0]
	p.click(tree.At.X, tree.At.Y)
	require.Len(t, pinsOf(p), 1)
	assert.Equal(t, plan.Pin{ID: "A", Thing: tree.ID, Kind: plan.PinMoved}, pinsOf(p)[0])
	assert.Equal(t, plan.TrustAssumed, pinsOf(p)[0].Trusted(), "nobody has said anything: it weighs nothing")
	assert.Equal(t, []plan.ID{plan.PinRef("A")}, p.b.Selection())
	require.NotNil(t, p.b.Question())
	assert.Equal(t, []string{"anchor moved", "found broken", "found whole", "broke first", "look of the break", "seen before the pull", "photograph of a tag"}, p.b.Question().Numbered())
	p.keys("3")
	assert.Equal(t, plan.PinWhole, pinsOf(p)[0].Kind)
	assert.Equal(t, []string{"observed", "told", "assumed"}, p.b.Question().Numbered())
	p.keys("1", "the instructor", "<Enter>")
	assert.Nil(t, p.b.Question())
	p.click(14, 3) // a place: the line as a whole
	p.keys("1", "18 to 22", "<Enter>", "2", "<Enter>")
	assert.Equal(t, 4+3, undoSteps(p.b), "placed, found whole, observed, the instructor; placed, its tension, told: its kind was the first offered")

	k.keys("f")
	whereIs(k, tree.ID)
	k.keys("<Enter>", "3", "1", "the instructor", "<Enter>")
	k.keys("14;3", "<Enter>", "<Enter>", "1", "18 to 22", "<Enter>", "2", "<Enter>")
	assert.Equal(t, p.bytes(), k.bytes())
	q := pinsOf(k)[1]
	assert.InDelta(t, 18e3, float64(q.Low), 1e-9)
	assert.InDelta(t, 22e3, float64(q.High), 1e-9)
	assert.Equal(t, plan.KnownTold, q.Known)
	for range undoSteps(p.b) {
		p.b.Undo()
	}
	assert.Equal(t, before, p.bytes())
}

// Whoever leaves the questions before saying how a piece of evidence is known has pinned
// nothing: the plan, the undo list and what is stored are as before. Once that is said Esc
// keeps it, and Enter without an answer keeps it as not said.
func TestEvidenceThatIsLeftIsNotPinned(t *testing.T) {
	h := sit(t, seeded.Example(t, "redirect"))
	tree := h.b.Plan().Site.Anchors[0]
	before := h.bytes()
	h.keys("f")
	for _, left := range [][]string{{"<Escape>"}, {"1", "<Escape>"}, {"1", "0.2", "<Enter>", "<Escape>"}} {
		h.click(tree.At.X, tree.At.Y)
		require.Len(t, pinsOf(h), 1)
		h.keys(left...)
		assert.Empty(t, pinsOf(h), left)
		assert.Nil(t, h.b.Question())
		assert.Equal(t, before, h.bytes())
		assert.Zero(t, undoSteps(h.b))
		assert.False(t, h.b.Dirty())
		assert.Equal(t, board.ToolPin, h.b.Tool(), "the next one can be pinned")
	}
	h.click(tree.At.X, tree.At.Y)
	h.keys("2", "2", "<Escape>")
	require.Len(t, pinsOf(h), 1)
	assert.Equal(t, plan.KnownTold, pinsOf(h)[0].Known)
	h.click(14, 3)
	h.keys("<Enter>", "<Enter>", "<Enter>", "<Enter>")
	require.Len(t, pinsOf(h), 2)
	assert.Empty(t, pinsOf(h)[1].Known)
}

// A pin at its thing follows it; dragged away it stays where it is let go, about the
// same thing, and dragged back it follows again.
func TestPinIsMoved(t *testing.T) {
	h := sit(t, seeded.Example(t, "redirect"))
	tree := h.b.Plan().Site.Anchors[0]
	h.keys("f")
	h.click(tree.At.X, tree.At.Y)
	h.keys("2", "1", "<Escape>", "<Escape>", "<Escape>")
	require.Nil(t, pinsOf(h)[0].At)
	n := undoSteps(h.b)
	h.b.Select(plan.PinRef("A"))
	x, y := headOf(h, "A")
	h.drag([2]float64{x, y}, [2]float64{x + 3, y + 1}, [2]float64{x + 4, y + 2})
	require.NotNil(t, pinsOf(h)[0].At)
	assert.Equal(t, plan.Point{X: tree.At.X + 4, Y: tree.At.Y + 2}, *pinsOf(h)[0].At)
	assert.Equal(t, tree.ID, pinsOf(h)[0].Thing)
	assert.Equal(t, n+1, undoSteps(h.b), "one step")
	h.b.Select(plan.PinRef("A")) // counting steps went back and forth
	h.keys("<ArrowRight>", "<ArrowRight>")
	assert.Equal(t, plan.Point{X: tree.At.X + 5, Y: tree.At.Y + 2}, *pinsOf(h)[0].At)
	assert.Equal(t, n+2, undoSteps(h.b))
	h.b.Select(plan.PinRef("A"))
	x, y = headOf(h, "A")
	h.drag([2]float64{x, y}, [2]float64{x - 3, y}, [2]float64{x - 5, y - 2})
	assert.Nil(t, pinsOf(h)[0].At, "it is at its thing again")
	h.keys("<ArrowUp>") // and the keys take it off again
	assert.Equal(t, plan.Point{X: tree.At.X, Y: tree.At.Y + 0.5}, *pinsOf(h)[0].At)
}

// Dragged from a thing, the mark lies where it is let go.
func TestEvidenceIsDraggedFromItsThing(t *testing.T) {
	h := sit(t, seeded.Example(t, "redirect"))
	tree := h.b.Plan().Site.Anchors[1]
	h.keys("f")
	h.drag([2]float64{tree.At.X, tree.At.Y}, [2]float64{tree.At.X + 1, tree.At.Y}, [2]float64{tree.At.X + 2, tree.At.Y - 3})
	require.Len(t, pinsOf(h), 1)
	assert.Equal(t, tree.ID, pinsOf(h)[0].Thing)
	require.NotNil(t, pinsOf(h)[0].At)
	assert.InDelta(t, tree.At.X+2, pinsOf(h)[0].At.X, 0.3)
	h.keys("1")
	assert.Contains(t, h.b.Question().Label, "3.6\u00a0m as drawn") // √(2² + 3²)
	assert.Empty(t, h.b.Question().Text, "nobody has measured it yet")
	assert.Equal(t, 1, undoSteps(h.b))
	assert.NotNil(t, markOf(h, "A").Of, "a thread leads to its thing")
}

// What is taken out of the rig leaves its evidence, where the thing lay; that is said,
// and the next thing of that kind is not what the evidence is about.
func TestEvidenceOfWhatIsDeletedStays(t *testing.T) {
	h := sit(t, seeded.Example(t, "redirect"))
	r, _ := h.b.Plan().Rig(h.b.Rig())
	sling := r.Slings[0].ID
	h.keys("f")
	at := whereIs(h, sling)
	h.keys("<Enter>", "1", "1", "<Escape>", "<Escape>", "<Escape>", "<Escape>")
	require.Equal(t, sling, pinsOf(h)[0].Thing)
	n := undoSteps(h.b)
	h.b.Select(sling)
	h.keys("<Delete>")
	require.Len(t, pinsOf(h), 1)
	assert.Contains(t, h.b.Prompt(), "kept, and weighs nothing from now on: Evidence A")
	q := pinsOf(h)[0]
	assert.Equal(t, sling, q.Thing)
	require.NotNil(t, q.At)
	assert.InDelta(t, at.X, q.At.X, 0.1)
	assert.True(t, markOf(h, "A").Gone)
	assert.NotEqual(t, sling, plan.NewID(h.b.Plan(), plan.PrefixSling))
	h.b.Select(plan.PinRef("A"))
	h.b.Handle(board.PointerLeave{})
	h.keys("<Shift>")
	assert.Contains(t, h.b.Prompt(), "no longer in the rig")
	h.keys("<Delete>")
	assert.Empty(t, pinsOf(h))
	r, _ = h.b.Plan().Rig(h.b.Rig())
	assert.Nil(t, r.Incident, "nothing is left of an incident")
	assert.Empty(t, h.b.Selection())
	require.Equal(t, n+2, undoSteps(h.b), "each deletion is one step")
	h.b.Undo()
	require.Len(t, pinsOf(h), 1)
	h.b.Undo()
	assert.Nil(t, pinsOf(h)[0].At)
	assert.Contains(t, h.bytes(), `"about": "`+string(sling)+`"`)
}

// What cannot be taken is said in a sentence, and the plan stays; evidence is not copied.
func TestEvidenceRefused(t *testing.T) {
	h := sit(t, seeded.Example(t, "redirect"))
	h.keys("f")
	h.click(14, 3)
	h.keys("<Enter>", "<Enter>", "<Enter>", "<Enter>")
	before := h.bytes()
	for given, member := range map[string]string{"0": "trust", "0.4": "trust", "1.2": "trust", "22 to 18": "low_n", "found": "kind", "-3": "low_n"} {
		require.Error(t, h.b.Set(plan.PinRef("A"), member, given), "%s %s", member, given)
		assert.NotEmpty(t, h.b.Prompt())
		assert.NotContains(t, h.b.Prompt(), "/rigs")
		assert.Equal(t, before, h.bytes())
	}
	h.b.Select(plan.PinRef("A"))
	h.do("duplicate")
	assert.Equal(t, "Evidence is not copied: twice the same counts once.", h.b.Prompt())
	assert.Equal(t, before, h.bytes())
	h.do("lock")
	h.do("hide")
	assert.Equal(t, before, h.bytes())

	p := h.b.Plan()
	for range plan.MaxPins - 1 {
		r, _ := p.Rig("R1")
		p = plan.WithPin(p, 0, plan.Pin{ID: r.Incident.NextPin(), Kind: plan.PinTension})
	}
	h = sit(t, p)
	h.keys("f")
	h.click(14, 3)
	assert.Contains(t, h.b.Prompt(), "more than 64 pieces of evidence")
	assert.Len(t, pinsOf(h), plan.MaxPins)
}

// A pin lies over what it is about and is met first; Tab finds it too; its head alone is
// what the pointer takes.
func TestPinIsFound(t *testing.T) {
	h := sit(t, seeded.Example(t, "redirect"))
	tree := h.b.Plan().Site.Anchors[0]
	h.keys("f")
	h.click(tree.At.X, tree.At.Y)
	h.keys("1", "<Enter>", "1", "<Escape>")
	h.keys("f")
	h.click(tree.At.X, tree.At.Y)
	h.keys("1", "<Enter>", "1", "<Escape>", "<Escape>")
	require.Len(t, pinsOf(h), 2)
	a, b := markOf(h, "A"), markOf(h, "B")
	assert.Equal(t, a.Tip, b.Tip)
	assert.InDelta(t, 2*draw.PinHeadPx, b.Beside-a.Beside, 5, "side by side")
	for _, letter := range []plan.ID{"A", "B"} {
		h.click(headOf(h, letter))
		assert.Equal(t, []plan.ID{plan.PinRef(letter)}, h.b.Selection())
	}
	h.click(tree.At.X, tree.At.Y)
	assert.Equal(t, []plan.ID{tree.ID}, h.b.Selection())
	h.tabSelect(plan.PinRef("B"))
	assert.True(t, strings.HasPrefix(h.b.Prompt(), "B  anchor moved: Tree"), h.b.Prompt())
}

package board

import (
	"kedge/canvas/draw"
	"kedge/solver/plan"
)

// pointer is where the pointer (or the keyboard's crosshair) is.
type pointer struct {
	x, y float64    // pixels
	at   plan.Point // the place in the plan
	mods Mods
	on   bool      // over the board
	port plan.Port // the hook-on point Tab went to; zero: none
	fix  *fixing   // the number typed; nil: none
	keys bool      // driven by the keyboard: nothing is snapped that the keys did not ask for
}

// outcome is what letting go at a place would do. It is shown while the pointer
// moves and taken when it is let go, so the two cannot differ.
type outcome struct {
	plan     *plan.Plan   // nil: nothing would change
	held     *plan.Plan   // shown instead of the plan while it lasts, and never taken; nil: none
	name     string       // of the undo step
	selected []plan.ID    // selected afterwards; nil: as before
	ask      *Question    // the question that is open afterwards
	report   string       // said afterwards
	then     func(*Board) // further state of the tool, after the edit

	ghost   *draw.Ghost
	rubber  []plan.Point
	refused string // word where the rubber is refused
	from    int    // index in rubber from which it is refused
	guides  []draw.Guide
	texts   []draw.FreeText
	ports   []draw.PortMark
	arcs    []draw.ReachArc
	moved   *[2]plan.Point
	way     []plan.Point // legs of an exit path
	handles []draw.Handle
	hand    *handed // a tag put elsewhere by hand
	prompt  string  // status line while it lasts; empty: the tool's own
	preview bool    // loads shown are those of a preview
	places  []draw.PlaceMark
	dim     bool // the keep-out is darker than else
}

// gesture is a button held down.
type gesture struct {
	from    pointer
	far     bool                    // moved far enough to be a drag
	dragged []plan.ID               // drawn on the moving layer
	outcome func(p pointer) outcome // of letting go at p
	frame   bool                    // a selection frame
	pan     bool                    // the picture is moved
	tap     func(*Board)            // let go without having moved; nil: the outcome at its start
	missed  func(*Board, pointer)   // let go where nothing would change; nil: the outcome's report
	fix     fixable                 // what a number typed meanwhile fixes

	lastX, lastY float64 // of a pan
}

// dragPx is how far the pointer moves, in pixels, before a press is a drag: a
// hand on a button trembles by a pixel or two. (ours)
const dragPx = 4

// cancel drops the gesture, what was collected and what was typed. It tells
// whether there was anything to drop.
func (b *Board) cancel() bool {
	was := b.gesture != nil || b.tool.its().collecting() || b.typed != "" || b.turning || b.hang != nil || b.ways != nil || b.onWay != nil
	b.tool.its().drop()
	b.gesture, b.shown, b.typed, b.figure, b.turning, b.hang = nil, nil, "", "", false, nil
	b.ways, b.onWay = nil, nil
	b.out = outcome{}
	b.changed()
	return was
}

// show previews an outcome.
func (b *Board) show(o outcome) {
	o.plan = plan.KeepNames(b.plan, o.plan)
	b.out, b.shown = o, o.plan
	if o.plan == nil {
		b.shown = o.held
	}
	b.changed()
}

// commit takes an outcome as one undo step.
func (b *Board) commit(o outcome) {
	b.gesture, b.shown, b.figure, b.out, b.ways = nil, nil, "", outcome{}, nil
	if o.plan != nil {
		if b.edit(o.name, o.plan) != nil {
			return
		}
	}
	if o.selected != nil {
		b.Select(o.selected...)
	}
	if o.then != nil {
		o.then(b)
	}
	if o.ask != nil {
		b.question = o.ask
	}
	if o.report != "" {
		b.say(o.report)
	}
	b.changed()
}

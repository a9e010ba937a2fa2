package board

import "kedge/solver/plan"

// tool is what the pointer and the keys do while it is armed. It keeps what was
// collected with clicks. What it would do at a place it tells as an outcome:
// that is shown while the pointer moves and taken when it is let go.
type tool interface {
	its() *common
	// start is what arming it does beyond showing nothing.
	start(b *Board)
	// again is its letter pressed once more: the next kind of what it places.
	again(sc *scene)
	// prompt is the status line while it is armed and nothing else is to be said.
	prompt(sc *scene) string
	// aim is what a click at p would do.
	aim(sc *scene, p pointer) outcome
	// press begins the gesture of a press at p; nil: the press was all of it.
	press(b *Board, p pointer, clicks int) *gesture
	// fixable is what a number typed between two clicks fixes.
	fixable(sc *scene) fixable
	// stops are the places Tab goes to; false: from thing to thing.
	stops(sc *scene) ([]stop, bool)
	// end finishes what was collected.
	end(b *Board)
}

// stop is a place that Tab takes the crosshair to.
type stop struct {
	at   plan.Point
	port plan.Port // the hook-on point there; zero: none
}

// common is what all tools have: what was collected, and what a tool does that
// says nothing else, which is to set one thing down with each click.
type common struct {
	id     Tool
	goesOn bool // what it goes on with is shown again at once after a click

	points []plan.Point // corners of an outline, points of a measure
	path   []plan.Port  // points of a line
	on     plan.Port    // of a sling: what it goes round
}

// pointed is a tool that collects points one by one.
type pointed interface {
	its() *common
	add(*Board, pointer)
	next(*scene, pointer) outcome // what letting go of a dragged edge does
	end(*Board)
}

// pressPoint is a press of a tool that collects points: a click adds one, two end
// it. Dragged from one that is there, the edge ends where it is let go; what is
// dragged from the first is for the tool to say.
func pressPoint(b *Board, t pointed, p pointer, clicks int, first func() (fixable, func(q pointer) outcome)) *gesture {
	g := &gesture{from: p, tap: func(b *Board) { t.add(b, p) }}
	switch points := t.its().points; {
	case len(points) > 0 && clicks >= 2:
		t.end(b)
		return nil
	case len(points) > 0:
		g.fix, g.missed = fixFrom(points), t.add
		g.outcome = func(q pointer) outcome { return t.next(b.scene, q) }
	default:
		g.fix, g.outcome = first()
	}
	return g
}

func (c *common) its() *common { return c }

// collecting reports whether anything was collected.
func (c *common) collecting() bool {
	return len(c.points) > 0 || len(c.path) > 0 || !c.on.IsZero()
}

// drop forgets what was collected.
func (c *common) drop() { c.points, c.path, c.on = nil, nil, plan.Port{} }

// back forgets what was collected last.
func (c *common) back() {
	switch {
	case len(c.points) > 1:
		c.points = c.points[:len(c.points)-1]
	case len(c.path) > 1:
		c.path = c.path[:len(c.path)-1]
	default:
		c.drop()
	}
}

func (c *common) start(b *Board)              { b.hover(b.here()) }
func (c *common) again(*scene)                {}
func (c *common) prompt(sc *scene) string     { return sc.label("prompt-" + string(c.id) + "-tool") }
func (c *common) fixable(*scene) fixable      { return fixable{} }
func (c *common) stops(*scene) ([]stop, bool) { return nil, false }
func (c *common) end(*Board)                  {}
func (c *common) aim(*scene, pointer) outcome { return outcome{} }
func (c *common) press(b *Board, p pointer, _ int) *gesture {
	t := b.tool
	return &gesture{from: p, outcome: func(q pointer) outcome { return t.aim(b.scene, q) }, tap: func(b *Board) {
		o := t.aim(b.scene, p)
		b.commit(o)
		if o.plan == nil && o.prompt != "" {
			b.say(o.prompt)
		}
	}}
}

// stopsAt are the hook-on points that are wanted.
func stopsAt(sc *scene, want func(spot) bool) []stop {
	var list []stop
	for _, s := range sc.spots() {
		if want(s) {
			list = append(list, stop{s.at, s.port})
		}
	}
	return list
}

// anySpot wants every hook-on point.
func anySpot(spot) bool { return true }

// toolKinds are the tools in the order of the rail, with their letters; those
// without one are armed by commands.
var toolKinds = []struct {
	id     Tool
	letter rune
	goesOn bool
	make   func(common) tool
}{
	{ToolSelect, 0, false, func(c common) tool { return &selectTool{c} }},
	{ToolVehicle, 'v', false, func(c common) tool { return &vehicleTool{common: c} }},
	{ToolAnchor, 'a', false, func(c common) tool { return &anchorTool{common: c} }},
	{ToolBlock, 'b', false, func(c common) tool { return &blockTool{c} }},
	{ToolSling, 's', true, func(c common) tool { return &slingTool{c} }},
	{ToolLine, 'l', true, func(c common) tool { return &lineTool{c} }},
	{ToolDamper, 'd', false, func(c common) tool { return &damperTool{c} }},
	{ToolObstacle, 'o', true, func(c common) tool { return &obstacleTool{c} }},
	{ToolPerson, 'p', false, func(c common) tool { return &personTool{common: c} }},
	{ToolGround, 'g', false, func(c common) tool { return &groundTool{c} }},
	{ToolTurn, 't', true, func(c common) tool { return &turnTool{c} }},
	{ToolMeasure, 'm', true, func(c common) tool { return &measureTool{c} }},
	{ToolNote, 'n', false, func(c common) tool { return &noteTool{c} }},
	{ToolPin, 'f', false, func(c common) tool { return &pinTool{c} }},
	{ToolStand, 0, true, func(c common) tool { return &standTool{common: c} }},
	{ToolPictureMove, 0, false, func(c common) tool { return &pictureTool{c} }},
	{ToolPictureScale, 0, false, func(c common) tool { return &pictureTool{c} }},
	{ToolPictureTurn, 0, false, func(c common) tool { return &pictureTool{c} }},
	{ToolPicturePoints, 0, false, func(c common) tool { return &pointsTool{c} }},
}

// newTool is a tool that has collected nothing; the select tool if there is
// none of that name.
func newTool(id Tool) tool {
	for _, k := range toolKinds {
		if k.id == id {
			return k.make(common{id: id, goesOn: k.goesOn})
		}
	}
	return newTool(ToolSelect)
}

// Tools lists the tools in the order of the rail.
func Tools() []Tool {
	list := []Tool{ToolSelect}
	for _, k := range toolKinds {
		if k.letter != 0 {
			list = append(list, k.id)
		}
	}
	return list
}

// letterOf is the letter that arms a tool as menus show it; empty: none does.
func letterOf(id Tool) string {
	for _, k := range toolKinds {
		if k.id == id && k.letter != 0 {
			return string(k.letter - 'a' + 'A')
		}
	}
	return ""
}

// toolOf is the tool a letter arms.
func toolOf(r rune) (Tool, bool) {
	for _, k := range toolKinds {
		if k.letter == r && r != 0 {
			return k.id, true
		}
	}
	return ToolSelect, false
}

package window

import (
	"fmt"
	"slices"

	"kedge/canvas/panel"
	"kedge/canvas/pen"
	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// cardDrawing is a card of the findings being drawn.
type cardDrawing struct {
	*findingsPanel
	d        *panel.Drawing
	words    *words.Words
	card     words.Card
	findings []part.Finding
	names    func(plan.ID) string
	flagged  string
	can      map[string]string // why remedies cannot be done, by their keys
	missing  func(words.CardRow) *missing
	entering fieldAt
	why      map[string][]string // what the findings rest on whose rows are unfolded, by their keys
}

// cardItem is a paragraph of a card.
type cardItem struct {
	lines   []string
	style   pen.TextStyle
	finding int // that is pressed and pointed at there; -1: none
	in      float64
	missing *missing
	fault   []string // why what is typed into it is refused
	high    float64
}

// draw draws the card: its title, a row a finding where there are several, what to do.
// A row is pressed and pointed at as a card of one finding is; of what is missing a row
// is typed into.
func (c *cardDrawing) draw(number int) {
	d := c.d
	said := c.words.Card(c.card, c.findings, c.names)
	x, wide := d.Px(10), d.W-d.Px(22)
	tx, head := x+d.Px(12), d.Px(22)
	room := x + wide - tx - d.Px(8)
	items := c.items(number, said, room)
	high := head + d.Px(10)
	for _, i := range items {
		high += i.high
	}
	buttons := c.cardButtons(c.card, c.findings, c.names)
	if len(buttons) > 0 {
		high += d.ButtonHigh() + d.Px(5)
	}
	y := d.Y
	edge, thick := d.Shades.Edge, 1.0
	if slices.ContainsFunc(c.card.Of, c.pointed) {
		edge, thick = d.Shades.Pick, 2
	}
	d.Box(x, y, wide, high, 4, d.Shades.Card, edge, thick)
	bar, _ := d.Shades.Level(c.card.Level)
	d.Fill(x+1, y+1, d.Px(4), high-2, bar)
	d.Badge(tx, y+d.Px(5)+head/2, c.card.Level, c.words.Level(c.card.Level), 0)
	if len(said.Rows) == 0 {
		c.hit(d, c.findings[c.card.Of[0]], x, y, wide, high)
	}
	ty := y + d.Px(5) + head
	hit := map[int]bool{}
	for k, i := range items {
		if i.finding >= 0 && !hit[i.finding] {
			hit[i.finding] = true
			high := i.high
			for _, next := range items[k+1:] {
				if next.finding != i.finding || next.missing != nil {
					break
				}
				high += next.high
			}
			if c.pointed(i.finding) {
				d.Fill(tx-d.Px(4), ty, room+d.Px(8), high, d.Shades.Hover)
			}
			c.hit(d, c.findings[i.finding], tx-d.Px(4), ty, c.rowRoom(d, i.missing, room)+d.Px(8), high)
		}
		c.drawItem(&i, tx, ty, room)
		ty += i.high
	}
	drawButtons(d, buttons, tx, ty+d.Px(3), room, c.can)
	d.Y = y + high + d.Px(6)
}

// items are the paragraphs of the card, the title first.
func (c *cardDrawing) items(number int, said words.CardText, room float64) []cardItem {
	d := c.d
	head, row, rest := panel.Coloured(d.Mid(), d.Shades.Ink), panel.Coloured(d.Small(), d.Shades.Ink), d.Small()
	head.Bold = c.card.Level == part.Danger
	item := func(text string, s pen.TextStyle, finding int, m *missing) cardItem {
		i := cardItem{lines: panel.Wrap(text, s, c.rowRoom(d, m, room)), style: s, finding: finding, missing: m}
		i.high = float64(len(i.lines)) * panel.LineHigh(s)
		if m != nil {
			i.high = max(i.high, d.Px(24)) + d.Px(4)
			if f := m.fault(c.entering); f != "" {
				i.fault = panel.Wrap(f, panel.Bold(row), room)
				i.high += float64(len(i.fault)) * panel.LineHigh(row)
			}
		}
		return i
	}
	title := -1
	if len(said.Rows) > 0 && said.Rows[0].Finding == c.card.Of[0] && !c.card.Asks() { // it is pressed with the row below it
		title = c.card.Of[0]
	}
	all := []cardItem{item(fmt.Sprintf("%d · %s", number, said.Title), head, title, nil)}
	for i, r := range said.Rows {
		all = append(all, item(r.Text, row, r.Finding, c.missing(r)))
		if i == len(said.Rows)-1 || said.Rows[i+1].Finding != r.Finding {
			all = c.unfold(all, r.Finding, room)
		}
	}
	for _, s := range said.Dos {
		all = append(all, item(s, rest, -1, nil))
	}
	if len(said.Rows) == 0 {
		all = c.unfold(all, c.card.Of[0], room)
	}
	return all
}

// unfold adds what a finding rests on, if its row is unfolded.
func (c *cardDrawing) unfold(all []cardItem, finding int, room float64) []cardItem {
	s := c.d.Small()
	for _, l := range c.why[c.findings[finding].Key()] {
		in := c.d.Px(10) + c.d.Indent(l)
		i := cardItem{lines: panel.Wrap(l, s, room-in), style: s, finding: -1, in: in}
		i.high = float64(len(i.lines))*panel.LineHigh(s) + 2
		all = append(all, i)
	}
	return all
}

func (c *cardDrawing) drawItem(i *cardItem, x, y, room float64) {
	d := c.d
	for _, l := range i.lines {
		d.Text(x+i.in, y+panel.LineHigh(i.style)/2, l, i.style, 0)
		y += panel.LineHigh(i.style)
	}
	if i.missing == nil {
		return
	}
	top := y - float64(len(i.lines))*panel.LineHigh(i.style)
	c.drawMissing(d, i.missing, x+room, top)
	y = max(y, top+d.Px(26))
	for _, l := range i.fault {
		d.Text(x, y+panel.LineHigh(i.style)/2, l, panel.Bold(panel.Coloured(i.style, d.Shades.ZoneRedText)), 0)
		y += panel.LineHigh(i.style)
	}
}

// pointed reports whether a finding is pointed at, here or in the picture.
func (c *cardDrawing) pointed(finding int) bool {
	key := c.findings[finding].Key()
	return c.flagged == key || c.d.Hover == "finding "+key
}

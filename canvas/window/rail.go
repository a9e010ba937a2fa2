package window

import (
	"image/color"
	"strings"

	"github.com/golang/geo/r2"

	"kedge/canvas/board"
	"kedge/canvas/panel"
	"kedge/canvas/pen"
)

// snapRail draws the tools, with the letter that arms each.
func (fr *frame) snapRail() func(*panel.Drawing) {
	armed, icons := fr.w.board.Tool(), fr.w.shell.iconsOnly()
	tools := board.Tools()
	names, hints := make([]string, len(tools)), make([]string, len(tools))
	for i, t := range tools {
		names[i] = fr.w.label("tool-" + toolName(t))
		hints[i] = fr.w.words().Hint(strings.TrimSpace(names[i]+"  "+strings.ToUpper(toolLetter(t))), toolName(t))
	}
	return func(d *panel.Drawing) {
		d.Fill(0, 0, d.W, d.H, d.Shades.Bar)
		high := min(d.H/float64(len(tools)), d.Px(56))
		words := !icons && high >= d.Px(44)
		y := d.Px(2)
		for i, t := range tools {
			if t == board.ToolObstacle || t == board.ToolTurn {
				d.Stroke(d.Px(10), y+0.5, d.W-d.Px(10), y+0.5, 1, d.Shades.GridBold)
			}
			id := "tool " + toolName(t)
			switch {
			case t == armed:
				d.Box(d.Px(5), y+2, d.W-d.Px(10), high-4, 5, d.Shades.Card, d.Shades.Ink, 1.2)
			case d.Hover == id:
				d.Box(d.Px(5), y+2, d.W-d.Px(10), high-4, 5, d.Shades.Hover, color.NRGBA{}, 0)
			}
			cy := y + high/2
			if words {
				cy = y + high*0.36
			}
			drawIcon(d, t, d.W/2, cy, min(d.Px(24), high*0.55))
			letter := strings.ToUpper(toolLetter(t))
			if words {
				t := panel.Coloured(d.Small(), d.Shades.Ink)
				t.Size -= 0.5
				d.Middle(d.W/2, y+high-d.Px(11), panel.Cut(names[i], t, d.W-4), t)
			}
			if letter != "" {
				s := panel.Coloured(d.Small(), d.Shades.Quiet)
				s.Size -= 1.5
				d.Right(d.W-d.Px(7), y+d.Px(11), letter, s)
			}
			d.Hit(panel.Hit{ID: id, X0: 0, Y0: y, X1: d.W, Y1: y + high,
				Press: func() {
					fr.w.board.Handle(board.Command{ID: "tool." + toolName(t)})
					fr.w.focusBoard()
				},
				Over: fr.w.hint(hints[i])})
			y += high
		}
	}
}

func toolName(t board.Tool) string {
	if t == board.ToolSelect {
		return "select"
	}
	return string(t)
}

func toolLetter(t board.Tool) string {
	if t == board.ToolSelect {
		return ""
	}
	return string(t)[:1]
}

// icon is where a tool's sign is drawn: about x, y in units of a 24th of its size.
type icon struct {
	d                  *panel.Drawing
	p                  *pen.Path
	shades             *panel.Shades
	x, y, u            float64
	ink, solid, filled pen.Style
}

func (i *icon) at(x, y float64) r2.Point { return r2.Point{X: i.x + x*i.u, Y: i.y + y*i.u} }

// draw inks the path begun, and begins another.
func (i *icon) draw(s pen.Style) {
	i.d.Pen.Path(i.p, &s)
	i.p.Reset()
}

// drawIcon draws a tool's sign about x, y in a square of size s.
func drawIcon(d *panel.Drawing, t board.Tool, x, y, s float64) {
	i := icon{d: d, p: &d.Path, shades: &d.Shades, x: x, y: y, u: s / 24, solid: pen.Style{Fill: d.Shades.Ink}}
	i.ink = pen.Style{Stroke: d.Shades.Ink, Width: 1.7 * i.u, Cap: pen.RoundCap, Join: pen.RoundJoin}
	i.filled = i.ink
	i.filled.Fill = d.Shades.Body
	i.p.Reset()
	if draw := icons[t]; draw != nil {
		draw(&i)
	}
}

// icons are the signs of the tools.
var icons = map[board.Tool]func(*icon){
	board.ToolSelect: func(i *icon) {
		i.p.Polygon(i.at(-5, -10), i.at(-5, 7), i.at(-1, 3.5), i.at(2, 10), i.at(4.6, 8.8), i.at(1.8, 2.6), i.at(7, 2))
		i.draw(i.filled)
	},
	board.ToolVehicle: func(i *icon) { // from above, nose to the right
		i.p.RoundRect(i.x-11*i.u, i.y-5.5*i.u, 22*i.u, 11*i.u, 2.5*i.u)
		i.draw(i.filled)
		i.p.Polygon(i.at(2, -4), i.at(5.5, -3), i.at(5.5, 3), i.at(2, 4))
		i.draw(pen.Style{Fill: i.shades.Glass, Stroke: i.shades.Ink, Width: i.u})
		for _, q := range [...][2]float64{{-7.5, -6.6}, {4, -6.6}, {-7.5, 6.6}, {4, 6.6}} {
			i.p.RoundRect(i.x+(q[0]-2)*i.u, i.y+(q[1]-1.2)*i.u, 5*i.u, 2.4*i.u, i.u)
		}
		i.draw(i.solid)
	},
	board.ToolAnchor: func(i *icon) { // a trunk sawn through, and the two legs of a sling to a ring
		for _, r := range [...]float64{6, 3.6, 1.2} {
			i.p.Circle(i.x-4.5*i.u, i.y, r*i.u)
			if r == 6 {
				i.draw(pen.Style{Fill: i.shades.Wood, Stroke: i.shades.Ink, Width: 1.7 * i.u})
				continue
			}
			i.draw(pen.Style{Stroke: i.shades.Ink, Width: i.u})
		}
		i.p.MoveTo(i.x+8*i.u, i.y-1.6*i.u)
		i.p.LineTo(i.x-3*i.u, i.y-7.6*i.u)
		i.p.MoveTo(i.x+8*i.u, i.y+1.6*i.u)
		i.p.LineTo(i.x-3*i.u, i.y+7.6*i.u)
		i.draw(pen.Style{Stroke: i.shades.Ink, Width: 2 * i.u, Cap: pen.RoundCap})
		i.p.Circle(i.x+9.2*i.u, i.y, 2.1*i.u)
		i.draw(i.ink)
	},
	board.ToolBlock: func(i *icon) { // a cheek plate with a line through it
		i.p.MoveTo(i.x-11*i.u, i.y+8*i.u)
		i.p.LineTo(i.x-6*i.u, i.y+1*i.u)
		i.p.Arc(i.x, i.y, 6.5*i.u, 170, -160)
		i.p.LineTo(i.x+11*i.u, i.y+8*i.u)
		i.draw(pen.Style{Stroke: i.shades.Quiet, Width: 2.4 * i.u, Join: pen.RoundJoin})
		i.p.Polygon(i.at(-5, -8.5), i.at(5, -8.5), i.at(8, 1), i.at(0, 8), i.at(-8, 1))
		i.draw(i.filled)
		i.p.Circle(i.x, i.y-0.5*i.u, 2.4*i.u)
		i.draw(i.ink)
	},
	board.ToolSling: func(i *icon) { // an eye at each end
		i.p.MoveTo(i.x-3*i.u, i.y)
		i.p.CubeTo(i.x-5*i.u, i.y-5*i.u, i.x-11*i.u, i.y-4*i.u, i.x-11*i.u, i.y)
		i.p.CubeTo(i.x-11*i.u, i.y+4*i.u, i.x-5*i.u, i.y+5*i.u, i.x-3*i.u, i.y)
		i.p.LineTo(i.x+4*i.u, i.y)
		i.p.CubeTo(i.x+6*i.u, i.y-4*i.u, i.x+11*i.u, i.y-3*i.u, i.x+11*i.u, i.y)
		i.p.CubeTo(i.x+11*i.u, i.y+3*i.u, i.x+6*i.u, i.y+4*i.u, i.x+4*i.u, i.y)
		i.draw(i.ink)
	},
	board.ToolLine: func(i *icon) {
		i.p.Polyline(i.at(-10, 7), i.at(1, -6), i.at(10, 7))
		i.draw(pen.Style{Stroke: i.shades.Ink, Width: 2.4 * i.u, Cap: pen.RoundCap, Join: pen.RoundJoin})
	},
	board.ToolDamper: func(i *icon) { // a blanket over a line
		i.p.Line(i.x-11*i.u, i.y, i.x+11*i.u, i.y)
		i.draw(pen.Style{Stroke: i.shades.Ink, Width: 2.2 * i.u})
		i.p.RoundRect(i.x-5*i.u, i.y-6*i.u, 10*i.u, 12*i.u, 2*i.u)
		i.draw(i.filled)
	},
	board.ToolObstacle: func(i *icon) {
		i.p.Polygon(i.at(-9, -2), i.at(-3, -9), i.at(7, -6), i.at(10, 3), i.at(3, 9), i.at(-7, 7))
		i.draw(pen.Style{Fill: i.shades.Stone, Stroke: i.shades.Ink, Width: 1.7 * i.u, Join: pen.RoundJoin, Hatch: pen.Hatch{Colour: i.shades.Quiet, Spacing: 4 * i.u, Width: 1.1 * i.u, Dots: true}})
	},
	board.ToolPerson: func(i *icon) { // head and shoulders
		i.p.Circle(i.x, i.y-5*i.u, 4*i.u)
		i.draw(i.filled)
		i.p.MoveTo(i.x-8*i.u, i.y+9*i.u)
		i.p.CubeTo(i.x-8*i.u, i.y-1*i.u, i.x+8*i.u, i.y-1*i.u, i.x+8*i.u, i.y+9*i.u)
		i.p.Close()
		i.draw(i.filled)
	},
	board.ToolGround: func(i *icon) {
		i.p.Polyline(i.at(10, 7), i.at(-10, 7), i.at(10, -6))
		i.p.LineTo(i.x+10*i.u, i.y+7*i.u)
		i.draw(i.ink)
	},
	board.ToolTurn: func(i *icon) { // round a point, clockwise
		i.p.Arc(i.x, i.y, 8*i.u, 170, -210)
		i.draw(i.ink)
		i.p.Polygon(i.at(3, 8.7), i.at(9.2, 7.7), i.at(3, 2.5))
		i.draw(i.solid)
		i.p.Circle(i.x, i.y, 2*i.u)
		i.draw(i.solid)
	},
	board.ToolMeasure: func(i *icon) {
		i.p.Line(i.x-10*i.u, i.y, i.x+10*i.u, i.y)
		i.p.Line(i.x-10*i.u, i.y-5*i.u, i.x-10*i.u, i.y+5*i.u)
		i.p.Line(i.x+10*i.u, i.y-5*i.u, i.x+10*i.u, i.y+5*i.u)
		i.draw(i.ink)
	},
	board.ToolPin: func(i *icon) { // a label on a stem
		i.p.Line(i.x, i.y+10*i.u, i.x, i.y)
		i.draw(i.ink)
		i.p.Polygon(i.at(-3.5, -10), i.at(3.5, -10), i.at(7, -6.5), i.at(7, 3), i.at(-7, 3), i.at(-7, -6.5))
		i.draw(i.filled)
		i.p.Polyline(i.at(-2.8, 0.5), i.at(0, -7), i.at(2.8, 0.5))
		i.p.Line(i.x-1.6*i.u, i.y-2.2*i.u, i.x+1.6*i.u, i.y-2.2*i.u)
		i.draw(pen.Style{Stroke: i.shades.Ink, Width: 1.3 * i.u})
	},
	board.ToolNote: func(i *icon) {
		i.p.Polygon(i.at(-9, -8), i.at(9, -8), i.at(9, 4), i.at(-1, 4), i.at(-5, 9), i.at(-5, 4), i.at(-9, 4))
		i.draw(i.filled)
	},
}

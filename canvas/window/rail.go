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
	names := make([]string, len(tools))
	for i, t := range tools {
		names[i] = fr.w.label("tool-" + toolName(t))
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
			name := names[i]
			d.Hit(panel.Hit{ID: id, X0: 0, Y0: y, X1: d.W, Y1: y + high,
				Press: func() {
					fr.w.board.Handle(board.Command{ID: "tool." + toolName(t)})
					fr.w.focusBoard()
				},
				Over: fr.w.hint(strings.TrimSpace(name + "  " + letter))})
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

// drawIcon draws a tool's sign about x, y in a square of size s.
func drawIcon(d *panel.Drawing, t board.Tool, x, y, s float64) {
	u := s / 24
	at := func(px, py float64) r2.Point { return r2.Point{X: x + px*u, Y: y + py*u} }
	ink := pen.Style{Stroke: d.Shades.Ink, Width: 1.7 * u, Cap: pen.RoundCap, Join: pen.RoundJoin}
	solid := pen.Style{Fill: d.Shades.Ink}
	p := &d.Path
	p.Reset()
	draw := func(st pen.Style) { d.Pen.Path(p, &st); p.Reset() }
	filled := ink
	filled.Fill = d.Shades.Body
	switch t {
	case board.ToolSelect:
		p.Polygon(at(-5, -10), at(-5, 7), at(-1, 3.5), at(2, 10), at(4.6, 8.8), at(1.8, 2.6), at(7, 2))
		draw(filled)
	case board.ToolVehicle: // from above, nose to the right
		p.RoundRect(x-11*u, y-5.5*u, 22*u, 11*u, 2.5*u)
		draw(filled)
		p.Polygon(at(2, -4), at(5.5, -3), at(5.5, 3), at(2, 4))
		draw(pen.Style{Fill: d.Shades.Glass, Stroke: d.Shades.Ink, Width: u})
		for _, q := range [...][2]float64{{-7.5, -6.6}, {4, -6.6}, {-7.5, 6.6}, {4, 6.6}} {
			p.RoundRect(x+(q[0]-2)*u, y+(q[1]-1.2)*u, 5*u, 2.4*u, u)
		}
		draw(solid)
	case board.ToolAnchor: // a trunk section with a strap
		p.Circle(x, y-3*u, 6.5*u)
		draw(pen.Style{Fill: d.Shades.Wood, Stroke: d.Shades.Ink, Width: 1.7 * u})
		p.Circle(x, y-3*u, 2.6*u)
		draw(pen.Style{Stroke: d.Shades.Ink, Width: u})
		p.MoveTo(x-8.6*u, y-3*u)
		p.Arc(x, y-3*u, 8.6*u, 180, -180)
		p.LineTo(x+1*u, y+10*u)
		p.MoveTo(x-8.6*u, y-3*u)
		p.LineTo(x-1*u, y+10*u)
		draw(pen.Style{Stroke: d.Shades.Ink, Width: 2.2 * u, Cap: pen.RoundCap, Join: pen.RoundJoin})
	case board.ToolBlock: // a cheek plate with a line through it
		p.MoveTo(x-11*u, y+8*u)
		p.LineTo(x-6*u, y+1*u)
		p.Arc(x, y, 6.5*u, 170, -160)
		p.LineTo(x+11*u, y+8*u)
		draw(pen.Style{Stroke: d.Shades.Quiet, Width: 2.4 * u, Join: pen.RoundJoin})
		p.Polygon(at(-5, -8.5), at(5, -8.5), at(8, 1), at(0, 8), at(-8, 1))
		draw(filled)
		p.Circle(x, y-0.5*u, 2.4*u)
		draw(ink)
	case board.ToolSling: // an eye at each end
		p.MoveTo(x-3*u, y)
		p.CubeTo(x-5*u, y-5*u, x-11*u, y-4*u, x-11*u, y)
		p.CubeTo(x-11*u, y+4*u, x-5*u, y+5*u, x-3*u, y)
		p.LineTo(x+4*u, y)
		p.CubeTo(x+6*u, y-4*u, x+11*u, y-3*u, x+11*u, y)
		p.CubeTo(x+11*u, y+3*u, x+6*u, y+4*u, x+4*u, y)
		draw(ink)
	case board.ToolLine:
		p.Polyline(at(-10, 7), at(1, -6), at(10, 7))
		draw(pen.Style{Stroke: d.Shades.Ink, Width: 2.4 * u, Cap: pen.RoundCap, Join: pen.RoundJoin})
	case board.ToolDamper: // a blanket over a line
		p.Line(x-11*u, y, x+11*u, y)
		draw(pen.Style{Stroke: d.Shades.Ink, Width: 2.2 * u})
		p.RoundRect(x-5*u, y-6*u, 10*u, 12*u, 2*u)
		draw(filled)
	case board.ToolObstacle:
		p.Polygon(at(-9, -2), at(-3, -9), at(7, -6), at(10, 3), at(3, 9), at(-7, 7))
		draw(pen.Style{Fill: d.Shades.Stone, Stroke: d.Shades.Ink, Width: 1.7 * u, Join: pen.RoundJoin, Hatch: pen.Hatch{Colour: d.Shades.Quiet, Spacing: 4 * u, Width: 1.1 * u, Dots: true}})
	case board.ToolPerson: // head and shoulders
		p.Circle(x, y-5*u, 4*u)
		draw(filled)
		p.MoveTo(x-8*u, y+9*u)
		p.CubeTo(x-8*u, y-1*u, x+8*u, y-1*u, x+8*u, y+9*u)
		p.Close()
		draw(filled)
	case board.ToolGround:
		p.Polyline(at(10, 7), at(-10, 7), at(10, -6))
		p.LineTo(x+10*u, y+7*u)
		draw(ink)
	case board.ToolTurn: // round a point, clockwise
		p.Arc(x, y, 8*u, 170, -210)
		draw(ink)
		p.Polygon(at(3, 8.7), at(9.2, 7.7), at(3, 2.5))
		draw(solid)
		p.Circle(x, y, 2*u)
		draw(solid)
	case board.ToolMeasure:
		p.Line(x-10*u, y, x+10*u, y)
		p.Line(x-10*u, y-5*u, x-10*u, y+5*u)
		p.Line(x+10*u, y-5*u, x+10*u, y+5*u)
		draw(ink)
	case board.ToolNote:
		p.Polygon(at(-9, -8), at(9, -8), at(9, 4), at(-1, 4), at(-5, 9), at(-5, 4), at(-9, 4))
		draw(filled)
	}
}

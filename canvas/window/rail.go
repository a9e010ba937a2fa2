package window

import (
	"image/color"
	"strings"

	"github.com/golang/geo/r2"

	"kedge/canvas/board"
	"kedge/canvas/pen"
)

// snapRail draws the tools, with the letter that arms each.
func (w *Window) snapRail() func(*ink) {
	armed, icons := w.board.Tool(), w.iconsOnly()
	tools := board.Tools()
	names := make([]string, len(tools))
	for i, t := range tools {
		names[i] = w.label("tool-" + toolName(t))
	}
	return func(k *ink) {
		k.fill(0, 0, k.w, k.h, k.c.Bar)
		high := min(k.h/float64(len(tools)), k.px(56))
		words := !icons && high >= k.px(44)
		y := k.px(2)
		for i, t := range tools {
			if t == board.ToolObstacle || t == board.ToolMeasure {
				k.stroke(k.px(10), y+0.5, k.w-k.px(10), y+0.5, 1, k.c.GridBold)
			}
			id := "tool " + toolName(t)
			switch {
			case t == armed:
				k.box(k.px(5), y+2, k.w-k.px(10), high-4, 5, k.c.Card, k.c.Ink, 1.2)
			case k.hover == id:
				k.box(k.px(5), y+2, k.w-k.px(10), high-4, 5, k.c.Hover, color.NRGBA{}, 0)
			}
			cy := y + high/2
			if words {
				cy = y + high*0.36
			}
			k.icon(t, k.w/2, cy, min(k.px(24), high*0.55))
			letter := strings.ToUpper(toolLetter(t))
			if words {
				t := in(k.small(), k.c.Ink)
				t.Size -= 0.5
				k.middle(k.w/2, y+high-k.px(11), cut(names[i], t, k.w-4), t)
			}
			if letter != "" {
				s := in(k.small(), k.c.Quiet)
				s.Size -= 1.5
				k.right(k.w-k.px(7), y+k.px(11), letter, s)
			}
			name := names[i]
			k.hit(hit{id: id, x0: 0, y0: y, x1: k.w, y1: y + high,
				press: func() {
					w.board.Handle(board.Command{ID: "tool." + toolName(t)})
					w.focusBoard()
				},
				over: w.hint(strings.TrimSpace(name + "  " + letter))})
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

// icon draws a tool's sign about x, y in a square of size s.
func (k *ink) icon(t board.Tool, x, y, s float64) {
	u := s / 24
	at := func(px, py float64) r2.Point { return r2.Point{X: x + px*u, Y: y + py*u} }
	ink := pen.Style{Stroke: k.c.Ink, Width: 1.7 * u, Cap: pen.RoundCap, Join: pen.RoundJoin}
	solid := pen.Style{Fill: k.c.Ink}
	p := &k.path
	p.Reset()
	draw := func(st pen.Style) { k.Pen.Path(p, &st); p.Reset() }
	filled := ink
	filled.Fill = k.c.Body
	switch t {
	case board.ToolSelect:
		p.Polygon(at(-5, -10), at(-5, 7), at(-1, 3.5), at(2, 10), at(4.6, 8.8), at(1.8, 2.6), at(7, 2))
		draw(filled)
	case board.ToolVehicle: // from above, nose to the right
		p.RoundRect(x-11*u, y-5.5*u, 22*u, 11*u, 2.5*u)
		draw(filled)
		p.Polygon(at(2, -4), at(5.5, -3), at(5.5, 3), at(2, 4))
		draw(pen.Style{Fill: k.c.Glass, Stroke: k.c.Ink, Width: u})
		for _, q := range [...][2]float64{{-7.5, -6.6}, {4, -6.6}, {-7.5, 6.6}, {4, 6.6}} {
			p.RoundRect(x+(q[0]-2)*u, y+(q[1]-1.2)*u, 5*u, 2.4*u, u)
		}
		draw(solid)
	case board.ToolAnchor: // a trunk section with a strap
		p.Circle(x, y-3*u, 6.5*u)
		draw(pen.Style{Fill: k.c.Wood, Stroke: k.c.Ink, Width: 1.7 * u})
		p.Circle(x, y-3*u, 2.6*u)
		draw(pen.Style{Stroke: k.c.Ink, Width: u})
		p.MoveTo(x-8.6*u, y-3*u)
		p.Arc(x, y-3*u, 8.6*u, 180, -180)
		p.LineTo(x+1*u, y+10*u)
		p.MoveTo(x-8.6*u, y-3*u)
		p.LineTo(x-1*u, y+10*u)
		draw(pen.Style{Stroke: k.c.Ink, Width: 2.2 * u, Cap: pen.RoundCap, Join: pen.RoundJoin})
	case board.ToolBlock: // a cheek plate with a line through it
		p.MoveTo(x-11*u, y+8*u)
		p.LineTo(x-6*u, y+1*u)
		p.Arc(x, y, 6.5*u, 170, -160)
		p.LineTo(x+11*u, y+8*u)
		draw(pen.Style{Stroke: k.c.Quiet, Width: 2.4 * u, Join: pen.RoundJoin})
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
		draw(pen.Style{Stroke: k.c.Ink, Width: 2.4 * u, Cap: pen.RoundCap, Join: pen.RoundJoin})
	case board.ToolDamper: // a blanket over a line
		p.Line(x-11*u, y, x+11*u, y)
		draw(pen.Style{Stroke: k.c.Ink, Width: 2.2 * u})
		p.RoundRect(x-5*u, y-6*u, 10*u, 12*u, 2*u)
		draw(filled)
	case board.ToolObstacle:
		p.Polygon(at(-9, -2), at(-3, -9), at(7, -6), at(10, 3), at(3, 9), at(-7, 7))
		draw(pen.Style{Fill: k.c.Stone, Stroke: k.c.Ink, Width: 1.7 * u, Join: pen.RoundJoin, Hatch: pen.Hatch{Colour: k.c.Quiet, Spacing: 4 * u, Width: 1.1 * u, Dots: true}})
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

package sheet

import (
	"image/color"
	"strings"

	"kedge/canvas/pen"
)

// TextCap is the least height of a capital letter on a page, mm. (ISO 3098-1:
// the smallest nominal size for drawings that are copied and reduced)
const TextCap = 2.5

// Sizes of letters, mm of the em. The face's capitals are 0.714 of it.
const (
	textEm  = 3.52 // capitals 2.51 mm
	headEm  = 4.6
	titleEm = 6.0

	lead     = 4.7 // from line to line of text
	headLead = 6.2
	pad      = 1.6 // between a rule and the letters beside it
)

// Widths of lines, mm. (ISO 128-2)
const (
	lineFrame = 0.7
	lineThick = 0.5
	lineRule  = 0.35
	lineHair  = 0.18
)

var (
	ink   = color.NRGBA{A: 255}
	grey  = color.NRGBA{R: 0x3C, G: 0x3C, B: 0x3C, A: 255}
	faint = color.NRGBA{R: 0xB4, G: 0xB4, B: 0xB4, A: 255}
	paper = color.NRGBA{R: 255, G: 255, B: 255, A: 255}
)

func letters(em float64, bold bool) *pen.TextStyle {
	return &pen.TextStyle{Size: em, Bold: bold, Colour: ink}
}

func width(text string, t *pen.TextStyle) float64 {
	w, _, _ := pen.Measure(text, t)
	return w
}

// wrap breaks a text into lines no wider than w. A word that is wider stands
// on a line of its own, cut where it must be.
func wrap(text string, t *pen.TextStyle, w float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Split(text, " ") { // non-breaking spaces hold
		next := word
		if line != "" {
			next = line + " " + word
		}
		if width(next, t) <= w {
			line = next
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for line = word; width(line, t) > w; {
			head, rest := cut(line, t, w)
			if rest == "" {
				break
			}
			lines = append(lines, head)
			line = rest
		}
	}
	return append(lines, line)
}

// cut takes as many letters off the front of a word as fit into w, at least
// one if it has any.
func cut(word string, t *pen.TextStyle, w float64) (head, rest string) {
	runes := []rune(word)
	n := min(1, len(runes))
	for n < len(runes) && width(string(runes[:n+1]), t) <= w {
		n++
	}
	return string(runes[:n]), string(runes[n:])
}

// fitted is the text, cut with an ellipsis if it is wider than w.
func fitted(text string, t *pen.TextStyle, w float64) string { return pen.Fitted(text, t, w) }

func write(p pen.Pen, x, y float64, text string, t *pen.TextStyle) {
	p.Text(x, y+pen.CapHeight(t)/2, text, t)
}

func rule(p pen.Pen, x0, y0, x1, y1, w float64) { ruled(p, x0, y0, x1, y1, w, ink) }

func boxed(p pen.Pen, x, y, w, h float64, s *pen.Style) {
	var q pen.Path
	q.Rect(x, y, w, h)
	p.Path(&q, s)
}

// rgb is a colour without alpha, for marks that must not shine through.
func rgb(r, g, b uint8) color.NRGBA { return color.NRGBA{R: r, G: g, B: b, A: 255} }

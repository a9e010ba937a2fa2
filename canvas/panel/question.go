package panel

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Answer is one way to answer a question.
type Answer struct {
	Word string
	Do   func() // nil: nothing
}

// Question has to be answered before anything else is done.
type Question struct {
	Pane    *Pane
	Answers []Answer
	pop     *widget.PopUp
	closed  func()
}

// How wide a question is at desk, a page to be read by as much more, and what
// is left free beside and below it, logical pixels. (ours)
const (
	askWide = 520
	askPage = 1.4
	askFree = 40
)

// Column parts a line to be read into a bold word and what is said of it; a line that
// ends with it is a head.
const Column = "\t"

// columnShare is how much of a page's room the words of such lines have.
const columnShare = 0.24

// Ask shows a question with its answers and gives it the keys; Escape takes the
// last answer. Lines are to be read between the two. After closed what was
// answered is done, then everything is drawn anew.
func Ask(host Host, on fyne.Canvas, said string, lines []string, answers []Answer, closed func()) *Question {
	q := &Question{Answers: answers, closed: closed}
	p := NewPane(host, "question", true, func() func(*Drawing) {
		return func(d *Drawing) { q.draw(d, said, lines) }
	})
	q.Pane, p.Alone = p, true
	wide := float32(askWide * host.Style().Text)
	if lines != nil {
		wide *= askPage
	}
	if most := on.Size().Width - askFree; wide > most && most > 100 {
		wide = most
	}
	scroll := container.NewVScroll(p)
	p.Reveal = func(y0, y1 float32) { scroll.ScrollToOffset(fyne.NewPos(0, max(0, y1-scroll.Size().Height))) }
	fit := func() {
		high := p.Tall
		if most := on.Size().Height - 1.5*askFree; high > most && most > 100 {
			high = most
		}
		scroll.SetMinSize(fyne.NewSize(wide, max(high, 40)))
	}
	fit()
	q.pop = widget.NewModalPopUp(scroll, on)
	p.OnTall = func() { fit(); q.pop.Resize(q.pop.MinSize()) }
	p.Escape = func() { q.answer(len(answers) - 1) }
	q.pop.Show()
	p.Resize(fyne.NewSize(wide, 10))
	p.Update()
	p.Focus = "answer 0"
	on.Focus(p)
	return q
}

func (q *Question) draw(d *Drawing, said string, lines []string) {
	d.Fill(0, 0, d.W, 4000, d.Shades.Panel)
	x, room := d.Px(20), d.W-d.Px(40)
	d.Y = d.Para(x, d.Px(16), room, said, Bold(d.Big())) + d.Px(6)
	for _, l := range lines {
		left, right, row := strings.Cut(l, Column)
		switch {
		case !row:
			d.Y = d.Para(x, d.Y, room, l, d.Mid()) + d.Px(2)
		case right == "": // a head
			d.Y = d.Para(x, d.Y+d.Px(8), room, left, Bold(d.Mid())) + d.Px(2)
		default:
			y := d.Y
			foot := d.Para(x, y, columnShare*room-d.Px(10), left, Bold(d.Mid()))
			d.Y = max(foot, d.Para(x+columnShare*room, y, (1-columnShare)*room, right, d.Mid())) + d.Px(2)
		}
	}
	d.Y += d.Px(10)
	for i, a := range q.Answers {
		x += d.Button(x, d.Y, "answer "+strconv.Itoa(i), a.Word, i == 0, func() { q.answer(i) }, "") + d.Px(10)
	}
	d.Y += d.ButtonHigh() + d.Px(8)
}

// answer closes the question and does what was answered.
func (q *Question) answer(i int) {
	q.pop.Hide()
	q.closed()
	if a := q.Answers[i]; a.Do != nil {
		a.Do()
	}
	q.Pane.host.Refresh()
}

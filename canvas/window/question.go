package window

import (
	"strconv"

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
	Pane    *pane
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

// Ask shows a question with its answers and gives it the keys; Escape takes the
// last answer. Lines are to be read between the two. After closed what was
// answered is done, then everything is drawn anew.
func Ask(host Host, on fyne.Canvas, said string, lines []string, answers []Answer, closed func()) *Question {
	q := &Question{Answers: answers, closed: closed}
	p := newPane(host, "question", true, func() func(*ink) {
		return func(k *ink) { q.draw(k, said, lines) }
	})
	q.Pane, p.own = p, true
	wide := float32(askWide * host.Style().Text)
	if lines != nil {
		wide *= askPage
	}
	if most := on.Size().Width - askFree; wide > most && most > 100 {
		wide = most
	}
	scroll := container.NewVScroll(p)
	p.reveal = func(y0, y1 float32) { scroll.ScrollToOffset(fyne.NewPos(0, max(0, y1-scroll.Size().Height))) }
	fit := func() {
		high := p.tall
		if most := on.Size().Height - 1.5*askFree; high > most && most > 100 {
			high = most
		}
		scroll.SetMinSize(fyne.NewSize(wide, max(high, 40)))
	}
	fit()
	q.pop = widget.NewModalPopUp(scroll, on)
	p.onTall = func() { fit(); q.pop.Resize(q.pop.MinSize()) }
	p.escape = func() { q.answer(len(answers) - 1) }
	q.pop.Show()
	p.Resize(fyne.NewSize(wide, 10))
	p.update()
	p.focus = "answer 0"
	on.Focus(p)
	return q
}

func (q *Question) draw(k *ink, said string, lines []string) {
	k.fill(0, 0, k.w, 4000, k.c.Panel)
	x, room := k.px(20), k.w-k.px(40)
	k.y = k.para(x, k.px(16), room, said, bold(k.big())) + k.px(6)
	for _, l := range lines {
		k.y = k.para(x, k.y, room, l, k.mid()) + k.px(2)
	}
	k.y += k.px(10)
	for i, a := range q.Answers {
		x += k.button(x, k.y, "answer "+strconv.Itoa(i), a.Word, i == 0, func() { q.answer(i) }, "") + k.px(10)
	}
	k.y += k.buttonHigh() + k.px(8)
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

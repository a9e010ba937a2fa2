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
	Entry   *Entry // what is typed before it is answered; nil: nothing is
	pop     *widget.PopUp
	on      fyne.Canvas
	closed  func()
	taken   func(typed string) // what was typed
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
	q := &Question{Answers: answers, on: on, closed: closed}
	p := NewPane(host, "question", true, func() func(*Drawing) {
		typed := q.Entry != nil
		return func(d *Drawing) { q.draw(d, said, lines, typed) }
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

// typedID is what the entry of a question is laid over.
const typedID = "typed"

// Type has a line typed between what is to be read and the answers; taken gets it before
// what is answered is done. Enter takes the first answer.
func (q *Question) Type(hint, text string, taken func(string)) {
	q.Entry = NewEntry(hint, func(k fyne.KeyName) bool {
		switch k {
		case fyne.KeyEscape:
			q.Pane.Escape()
		case fyne.KeyTab:
			q.on.Focus(q.Pane)
		default:
			return false
		}
		return true
	})
	q.Entry.SetText(text)
	q.Entry.OnSubmitted = func(string) { q.answer(0) }
	q.taken = taken
	q.Pane.Update()
	q.Pane.Lay(q.Entry, typedID, func() {})
	q.on.Focus(q.Entry)
}

func (q *Question) draw(d *Drawing, said string, lines []string, typed bool) {
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
	if typed {
		high := d.Px(34)
		d.Hit(Hit{ID: typedID, Idle: true, X0: x, Y0: d.Y, X1: x + room, Y1: d.Y + high, Press: func() { q.on.Focus(q.Entry) }})
		d.Y += high + d.Px(10)
	}
	for i, a := range q.Answers {
		x += d.Button(x, d.Y, "answer "+strconv.Itoa(i), a.Word, i == 0, func() { q.answer(i) }, "") + d.Px(10)
	}
	d.Y += d.ButtonHigh() + d.Px(8)
}

// answer closes the question and does what was answered.
func (q *Question) answer(i int) {
	q.pop.Hide()
	q.closed()
	if q.taken != nil {
		q.taken(q.Entry.Text)
	}
	if a := q.Answers[i]; a.Do != nil {
		a.Do()
	}
	q.Pane.host.Refresh()
}

package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// answer is one way to answer a question.
type answer struct {
	word string
	do   func() // nil: nothing
}

// question is a question that has to be answered before anything else: only
// what could lose work asks like that.
type question struct {
	pop  *widget.PopUp
	pane *pane
	text string
	list []answer
	tail []string // more lines, of a page to be read
}

// askWide is how wide a question is at desk.
const askWide = 520

// ask shows a question with its answers; Escape takes the last one.
func (w *Window) ask(said string, answers []answer) { w.page(said, nil, answers) }

// page shows lines to be read and answers below them.
func (w *Window) page(said string, lines []string, answers []answer) {
	q := &question{text: said, list: answers, tail: lines}
	p := newPane(w.host, "question", true, func() func(*ink) {
		return func(k *ink) {
			k.fill(0, 0, k.w, 4000, k.c.Panel)
			x, room := k.px(20), k.w-k.px(40)
			k.y = k.para(x, k.px(16), room, q.text, bold(k.big())) + k.px(6)
			for _, l := range q.tail {
				k.y = k.para(x, k.y, room, l, k.mid()) + k.px(2)
			}
			k.y += k.px(10)
			for i, a := range q.list {
				x += k.button(x, k.y, "answer "+itoa(i), a.word, i == 0, func() { w.answerIt(q, i) }, "") + k.px(10)
			}
			k.y += k.buttonHigh() + k.px(8)
		}
	})
	q.pane, p.own = p, true
	wide := float32(askWide * w.textScale())
	if lines != nil {
		wide *= 1.4
	}
	if most := w.win.Canvas().Size().Width - 40; wide > most && most > 100 {
		wide = most
	}
	high := func() float32 {
		most := w.win.Canvas().Size().Height - 60
		if p.tall > most && most > 100 {
			return most
		}
		return p.tall
	}
	scroll := container.NewVScroll(p)
	p.reveal = func(y0, y1 float32) { scroll.ScrollToOffset(fyne.NewPos(0, max(0, y1-scroll.Size().Height))) }
	frame := container.New(&sized{wide: wide, high: high}, scroll)
	q.pop = widget.NewModalPopUp(frame, w.win.Canvas())
	p.onTall = func() { frame.Refresh(); q.pop.Resize(q.pop.MinSize()) }
	p.escape = func() { w.answerIt(q, len(q.list)-1) }
	q.pop.Show()
	p.Resize(fyne.NewSize(wide, 10))
	p.update()
	p.focus = "answer 0"
	w.win.Canvas().Focus(p)
	w.asking = q
}

// answerIt closes the question and does what was answered.
func (w *Window) answerIt(q *question, i int) {
	if w.asking == q {
		w.asking = nil
	}
	q.pop.Hide()
	w.focusBoard()
	if a := q.list[i]; a.do != nil {
		a.do()
	}
	w.refresh()
}

// busy tells that a question has to be answered first: commands wait.
func (w *Window) busy() bool { return w.asking != nil || w.choosing != nil }

// sized lays one object out in a given size.
type sized struct {
	wide float32
	high func() float32
}

func (s *sized) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(s.wide, max(s.high(), 40))
}
func (s *sized) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(size)
}

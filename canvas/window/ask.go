package window

import "kedge/canvas/panel"

// ask shows a question with its answers; Escape takes the last one. Only what
// could lose work asks like that.
func (w *Window) ask(said string, answers []panel.Answer) { w.page(said, nil, answers) }

// page shows lines to be read and answers below them.
func (w *Window) page(said string, lines []string, answers []panel.Answer) {
	w.asking = panel.Ask(w.host, w.win.Canvas(), said, lines, answers, func() {
		w.asking = nil
		w.focusBoard()
	})
}

// busy reports whether a question has to be answered first: commands wait.
func (w *Window) busy() bool { return w.asking != nil || w.choosing != nil || w.finding != nil }

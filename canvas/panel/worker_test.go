package panel

import (
	"sync"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
)

// While a job is being done, of those that come in under one name only the
// newest is done, and the newest of every name is.
func TestWorkerDoesTheNewest(t *testing.T) {
	test.NewTempApp(t)
	w := NewWorker(nil, fyne.Do)
	defer w.Close()
	var mu sync.Mutex
	var done []string
	begun, hold, all := make(chan bool), make(chan bool), make(chan bool)
	note := func(s string) func() func() {
		return func() func() {
			mu.Lock()
			defer mu.Unlock()
			done = append(done, s)
			return nil
		}
	}
	w.Do("first", func() func() { close(begun); <-hold; return nil })
	<-begun
	for _, s := range []string{"loads 1", "loads 2", "loads 3"} {
		w.Do("loads", note(s))
	}
	w.Do(Urgent, note("board 1"))
	w.Do(Urgent, note("board 2"))
	w.Do("last", func() func() { close(all); return nil })
	close(hold)
	<-all
	mu.Lock()
	defer mu.Unlock()
	assert.Equal(t, []string{"board 2", "loads 3"}, done, "the board goes first")
}

// What a job returns is done after it, by the interface.
func TestWorkerShowsWhatWasDrawn(t *testing.T) {
	test.NewTempApp(t) // whose goroutine shows
	w := NewWorker(nil, fyne.Do)
	defer w.Close()
	var order []string
	shown := make(chan []string, 1)
	w.Do("x", func() func() {
		order = append(order, "drawn")
		return func() { shown <- append(order, "shown") }
	})
	assert.Equal(t, []string{"drawn", "shown"}, <-shown)
}

func TestWorkerTakesNothingOnceClosed(t *testing.T) {
	w := NewWorker(nil, fyne.Do)
	w.Close()
	w.Do("x", func() func() { t.Error("a closed worker works"); return nil })
	w.Close()
}

// A job that panics is told of on the interface goroutine, and the next is done.
func TestWorkerOutlivesAJobThatPanics(t *testing.T) {
	test.NewTempApp(t)
	why := make(chan any, 1)
	w := NewWorker(func(x any) { why <- x }, fyne.Do)
	defer w.Close()
	w.Do("x", func() func() { panic("broken on purpose") })
	assert.Equal(t, "broken on purpose", <-why)
	done := make(chan bool)
	w.Do("x", func() func() { close(done); return nil })
	<-done
}

package panel

import (
	"runtime/debug"
	"slices"
	"sync"
)

// Worker draws pictures away from the interface goroutine. Jobs have a name;
// of several waiting under one name only the newest is done, and the newest of
// every name is always done.
type Worker interface {
	// Do takes a job: draw runs on the worker, what it returns runs on the
	// interface goroutine. Either may be nil.
	Do(name string, draw func() (show func()))
	// Close ends the worker; jobs that wait are dropped.
	Close()
}

// background is a worker with one goroutine and a mailbox with one place a
// name.
type background struct {
	mu    sync.Mutex
	wake  *sync.Cond
	order []string
	jobs  map[string]func() func()
	last  string // the job done last
	ended bool
	broke func(why any)
	onUI  func(do func())
}

// Urgent is the job that goes before all others, but not twice in a row: the
// picture under the pointer.
const Urgent = "board"

// NewWorker starts a worker with a goroutine of its own. A job that panics
// leaves its stack on standard error and ends neither worker nor program: broke
// runs on the interface goroutine with the reason instead. onUI has something
// done on that goroutine, as [fyne.Do] has.
func NewWorker(broke func(why any), onUI func(do func())) Worker {
	w := &background{jobs: map[string]func() func(){}, broke: broke, onUI: onUI}
	w.wake = sync.NewCond(&w.mu)
	go w.run()
	return w
}

func (w *background) Do(name string, draw func() func()) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.ended {
		return
	}
	if _, waits := w.jobs[name]; !waits {
		w.order = append(w.order, name)
	}
	w.jobs[name] = draw
	w.wake.Signal()
}

func (w *background) Close() {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.ended, w.order = true, nil
	clear(w.jobs)
	w.wake.Signal()
}

func (w *background) run() {
	for {
		w.mu.Lock()
		for len(w.order) == 0 && !w.ended {
			w.wake.Wait()
		}
		if w.ended {
			w.mu.Unlock()
			return
		}
		i := max(slices.Index(w.order, Urgent), 0)
		if w.last == Urgent {
			i = 0
		}
		name := w.order[i]
		w.order = slices.Delete(w.order, i, i+1)
		w.last = name
		job := w.jobs[name]
		delete(w.jobs, name)
		w.mu.Unlock()
		if show := w.try(job); show != nil {
			w.onUI(show)
		}
	}
}

// try does a job, and if it panics gives what tells of that.
func (w *background) try(job func() func()) (show func()) {
	defer func() {
		if why := recover(); why != nil {
			debug.PrintStack()
			show = func() { w.broke(why) }
		}
	}()
	return job()
}

package window

import (
	"context"
	"errors"
	"image/color"
	"math"
	"runtime/debug"
	"sync/atomic"
	"time"

	"kedge/canvas/panel"
)

// longJob is work on the slow worker that the person can see go on, and stop.
type longJob struct {
	name   string
	said   string // what is going on
	since  time.Time
	stop   context.CancelFunc
	tenths atomic.Int32 // done, of ten; tells the status line only what it can show
	share  atomic.Uint64
}

// longWork is the work that goes on now.
type longWork struct {
	w     *Window
	going *longJob // nil: none
}

// shownAfter is how long work goes on before anything is said of it: what is
// done in a moment would only flicker. (ours)
const shownAfter = 150 * time.Millisecond

// shown is the work whose progress is to be seen, nil if there is none.
func (lw *longWork) shown() *longJob {
	if j := lw.going; j != nil && lw.w.opt.now().Sub(j.since) >= shownAfter {
		return j
	}
	return nil
}

// do does work away from the interface goroutine and shows how far it is in
// the status line, with a button that stops it; Escape does too. Work tells its
// progress, looks at ctx between steps, and returns what is to be done on the
// interface goroutine when it is whole. Work of the same name that still goes on
// is stopped.
func (lw *longWork) do(name, said string, work func(ctx context.Context, progress func(done, total int)) (show func(), err error), failed func(error)) {
	if j := lw.going; j != nil && j.name == name {
		j.stop()
	}
	ctx, stop := context.WithCancel(context.Background())
	j := &longJob{name: name, said: said, since: lw.w.opt.now(), stop: stop}
	lw.going = j
	tell := func() { lw.w.onUI(lw.w.frame.status.Update) }
	if lw.w.opt.Worker == nil { // a worker lent to the window goes by its own time
		time.AfterFunc(shownAfter, tell)
	}
	progress := func(done, total int) {
		if total <= 0 {
			return
		}
		share := min(float64(done)/float64(total), 1)
		j.share.Store(math.Float64bits(share))
		if t := int32(share * 10); j.tenths.Swap(t) != t {
			tell()
		}
	}
	lw.w.slow.Do(name, func() func() {
		show, err := whole(func() (func(), error) { return work(ctx, progress) }) // what was done to its end was done, stopped or not
		return func() {
			stop()
			newest := lw.going == j
			if newest {
				lw.going = nil
			}
			switch {
			case err == nil:
				show()
			case errors.Is(err, context.Canceled):
				if newest {
					lw.w.say(lw.w.label("long-stopped"))
				}
			default:
				failed(err)
			}
			lw.w.frame.status.Update()
		}
	})
}

// whole does work; if it panics its stack goes to standard error and it is
// refused.
func whole(work func() (func(), error)) (show func(), err error) {
	defer func() {
		if why := recover(); why != nil {
			debug.PrintStack()
			show, err = nil, broken(why)
		}
	}()
	return work()
}

// stop stops the work that goes on; false if there is none.
func (lw *longWork) stop() bool {
	if lw.going == nil {
		return false
	}
	lw.going.stop()
	if p := lw.w.printer.now; p != nil && lw.going.name == "booklet" { // the pages shown are of another plan or other choices
		p.booklet, p.fault = nil, lw.w.label("long-stopped")
	}
	return true
}

// drawProgress draws how far the work is, and the button that stops it.
func (lw *longWork) drawProgress(d *panel.Drawing, said string, share float64) {
	t := d.Mid()
	x := d.Px(12)
	d.Text(x, d.H/2, said, t, d.W*0.5)
	x += min(panel.Width(said, t), d.W*0.5) + d.Px(12)
	bar, high := d.Px(160), d.Px(10)
	d.Box(x, d.H/2-high/2, bar, high, 2, color.NRGBA{}, d.Shades.Ink, 1)
	d.Fill(x, d.H/2-high/2, bar*share, high, d.Shades.Ink)
	x += bar + d.Px(12)
	d.Button(x, d.H/2-d.ButtonHigh()/2, "stop", lw.w.label("long-stop"), false, func() { lw.stop() }, "")
}

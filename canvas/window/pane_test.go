package window

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"kedge/canvas/panel"
)

// late is a worker that keeps its jobs until it is told to do them, so that
// several can be given before the first is done.
type late struct{ jobs []func() func() }

func (l *late) Do(_ string, draw func() func()) { l.jobs = append(l.jobs, draw) }
func (l *late) Close()                          {}

func (l *late) all() {
	for len(l.jobs) > 0 { // what is shown may ask for more
		job := l.jobs[0]
		l.jobs = l.jobs[1:]
		if show := job(); show != nil {
			show()
		}
	}
}

// A panel that changes and changes back before the worker comes to it shows
// what it shows last: the picture of the second state is not left standing.
func TestAPanelThatChangesBackIsDrawnBack(t *testing.T) {
	s := sitAt(t, 900, 600, "")
	word := "first"
	p := panel.NewPane(s.host, "trial", false, func() func(*panel.Drawing) {
		said := word
		return func(d *panel.Drawing) { d.Text(10, 20, said, d.Mid(), 180) }
	})
	pixels := func() []byte {
		require.NotNil(t, p.Surface.Front)
		return append([]byte(nil), p.Surface.Front.Pix...)
	}
	p.Resize(fyne.NewSize(200, 40))
	want := pixels()

	w := &late{}
	s.Window.worker = w
	for _, word = range []string{"second", "first"} {
		p.Update()
	}
	w.all()
	s.Window.worker = inline{}
	require.Equal(t, want, pixels())
	require.Equal(t, image.Pt(0, 0), p.Surface.Front.Rect.Min)
}

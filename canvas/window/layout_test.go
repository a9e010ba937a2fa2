package window

import (
	"bytes"
	"image/color"
	"image/png"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/panel"
	"kedge/canvas/pen"
)

func TestSmallWindows(t *testing.T) {
	for _, c := range []struct {
		name           string
		w, h           float32
		tabbed, edge   bool
		icons          bool
		boardW, boardH float32
	}{
		{"large", 1440, 900, false, false, false, boardLeastW, boardLeastH},
		{"a little less", 1230, 800, false, false, false, boardLeastW, boardLeastH},
		{"under 1200 wide: tabs", 1190, 800, true, false, false, boardLeastW, boardLeastH},
		{"under 1100 wide: an edge", 1090, 800, true, true, false, boardLeastW, boardLeastH},
		{"under 760 high: icons", 1440, 750, false, false, true, boardLeastW, boardLeastH},
		{"the least that is promised", 1024, 640, true, true, true, boardLeastW, boardLeastH},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := sitAt(t, c.w, c.h, example(t, "redirect"))
			tabbed, edge := s.shell.narrow()
			assert.Equal(t, c.tabbed, tabbed)
			assert.Equal(t, c.edge, edge)
			assert.Equal(t, c.icons, s.shell.iconsOnly())
			assert.GreaterOrEqual(t, s.view.Size().Width, c.boardW)
			assert.GreaterOrEqual(t, s.view.Size().Height, c.boardH)
			assert.True(t, s.frame.verdict.Visible())
			verdict := strings.Join(s.frame.verdict.Record.Texts(), " ")
			_, _, text, _ := s.words().Verdict(s.answer(), s.names())
			assert.Contains(t, verdict, text, "the verdict is never cut")
			if edge {
				assert.False(t, s.findings.pane.Scroll.Visible())
				s.click(s.frame.edge, "loads")
				assert.True(t, s.loads.pane.Scroll.Visible())
				assert.GreaterOrEqual(t, s.loads.pane.Scroll.Position().Y, s.frame.verdict.Position().Y+s.frame.verdict.Size().Height, "over the board, not over the verdict")
				s.keys("<Escape>")
				assert.False(t, s.loads.pane.Scroll.Visible())
			}
		})
	}
}

func TestNothingIsCutOff(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 1440, Height: 900}, {Width: 1190, Height: 800}, {Width: 1024, Height: 640}} {
		for _, field := range []bool{false, true} {
			s := sitAt(t, size.Width, size.Height, example(t, "redirect"))
			if field {
				s.commands.run("field")
			}
			s.board.Select(s.board.Plan().Casualty().ID)
			s.shell.open = true
			for _, id := range append(s.frame.panelsOfSide(), panelOutcome) {
				s.shell.choice = id
				s.refresh()
				s.inside(size, field)
			}
			s.commands.run("print")
			s.click(s.printer.list, "sheet exercise")
			s.inside(size, field)
			s.printer.close()
			s.commands.run("keys")
			s.within(s.asking.Pane, size, field)
			s.keys("<Escape>")
		}
	}
}

func (s *seat) inside(size fyne.Size, field bool) {
	for _, p := range s.panes {
		if p.Shown() && p != s.printer.page {
			s.within(p, size, field)
		}
	}
}

func (s *seat) within(p *panel.Pane, size fyne.Size, field bool) {
	for i := range p.Record.Marks {
		m := &p.Record.Marks[i]
		if m.Text == "" {
			continue
		}
		w := panel.Width(m.Text, m.Type)
		x0, x1 := m.X, m.X+w
		switch m.Type.Anchor {
		case pen.Middle:
			x0, x1 = m.X-w/2, m.X+w/2
		case pen.End:
			x0, x1 = m.X-w, m.X
		}
		assert.GreaterOrEqual(s.t, x0, -0.5, "%v field %v, %s: %q", size, field, p.Name, m.Text)
		assert.LessOrEqual(s.t, x1, float64(p.Size().Width)+0.5, "%v field %v, %s: %q", size, field, p.Name, m.Text)
		if !p.Grows {
			assert.LessOrEqual(s.t, m.Y, float64(p.Size().Height)+0.5, "%v field %v, %s: %q", size, field, p.Name, m.Text)
		}
	}
}

func TestPanelsAreMadeWider(t *testing.T) {
	home := t.TempDir()
	s := sitIn(t, home, 1440, 900, example(t, "redirect"))
	pull := func(s *seat, d *panel.Divider, dx, dy float32) {
		e := &fyne.DragEvent{}
		e.Position = fyne.NewPos(d.Size().Width/2+dx, d.Size().Height/2+dy)
		d.Dragged(e)
		d.DragEnd()
	}
	was := s.loads.pane.Scroll.Size()
	board := s.view.Size().Width
	pull(s, s.shell.dividers[0], -100, 0)
	assert.InDelta(t, float64(was.Width)+100, float64(s.loads.pane.Scroll.Size().Width), 8)
	assert.InDelta(t, float64(board)-100, float64(s.view.Size().Width), 8)
	assert.Equal(t, s.loads.pane.Scroll.Size().Width, s.loads.pane.Size().Width, "the panel fills its room")
	pull(s, s.shell.dividers[0], -1400, 0)
	assert.GreaterOrEqual(t, s.view.Size().Width, float32(boardLeastW-20))
	tall := s.loads.pane.Scroll.Size().Height
	pull(s, s.shell.dividers[2], 0, -100)
	assert.InDelta(t, float64(tall)+100, float64(s.loads.pane.Scroll.Size().Height), 8)
	s.board.Select(s.board.Plan().Casualty().ID)
	s.refresh()
	high := s.details.pane.Scroll.Size().Height
	pull(s, s.shell.dividers[1], 0, -80)
	assert.InDelta(t, float64(high)+80, float64(s.details.pane.Scroll.Size().Height), 8)
	pull(s, s.shell.dividers[1], 0, -5000)
	assert.Positive(t, s.findings.pane.Scroll.Size().Height)
	assert.Positive(t, s.loads.pane.Scroll.Size().Height)

	again := sitIn(t, home, 1440, 900, "")
	assert.Equal(t, s.prefs.Panels, again.prefs.Panels)
	s.shell.dividers[0].DoubleTapped(nil)
	assert.InDelta(t, float64(was.Width), float64(s.loads.pane.Scroll.Size().Width), 1)
}

func TestWindowHasAnIcon(t *testing.T) {
	r := windowIcon()
	require.NotNil(t, r)
	img, err := png.Decode(bytes.NewReader(r.Content()))
	require.NoError(t, err)
	assert.Equal(t, iconPx, img.Bounds().Dx())
	seen := map[color.Color]bool{}
	for x := range iconPx {
		seen[img.At(x, iconPx/2)] = true
	}
	assert.Greater(t, len(seen), 3, "something is drawn across its middle")
}

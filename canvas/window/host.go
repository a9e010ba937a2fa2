package window

import (
	"image"

	"fyne.io/fyne/v2"

	"kedge/canvas/panel"
	"kedge/canvas/pen"
)

// host is the window as its panes know it.
type host struct {
	w      *Window
	raster *pen.Raster // of the worker alone
}

// Style implements panel.Host.
func (h *host) Style() panel.Style {
	return panel.Style{Shades: h.w.shades, Text: h.w.textScale(), Pixels: h.w.scale(), Record: h.w.opt.Record}
}

// Do implements panel.Host.
func (h *host) Do(name string, draw func() func()) { h.w.worker.Do(name, draw) }

// Raster implements panel.Host.
func (h *host) Raster(img *image.RGBA, scale float64) *pen.Raster {
	if h.raster == nil {
		h.raster = pen.NewRaster(img, scale)
	}
	h.raster.Target(img, scale, 0, 0)
	return h.raster
}

// Say implements panel.Host.
func (h *host) Say(s string) { h.w.say(s) }

// Pressed implements panel.Host.
func (h *host) Pressed() {
	h.w.acted()
	h.w.details.closeEntry()
}

// Refresh implements panel.Host.
func (h *host) Refresh() { h.w.refresh() }

// Grown implements panel.Host.
func (h *host) Grown() { h.w.shell.arrange() }

// Key implements panel.Host: Tab goes on to the next region, Escape back to the
// board, and what is named works everywhere.
func (h *host) Key(name fyne.KeyName, by int) {
	switch {
	case name == fyne.KeyTab:
		h.w.nextRegion(by)
	case name == fyne.KeyEscape:
		h.w.shell.leavePanel()
	case !h.w.busy():
		h.w.commands.namedKey(name)
	}
}

// Shortcut implements panel.Host.
func (h *host) Shortcut(s fyne.Shortcut) { h.w.commands.shortcut(s) }

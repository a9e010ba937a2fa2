package window

import (
	"bytes"
	"image"

	"fyne.io/fyne/v2"

	"kedge/canvas/board"
	"kedge/canvas/draw"
	"kedge/canvas/panel"
	"kedge/canvas/pen"
)

// iconPx is the size of the window's icon; desktops make it smaller.
const iconPx = 128

// windowIcon is the window's icon: the block of the tool rail on paper. Nil if it
// cannot be drawn: the desktop then shows its own.
func windowIcon() fyne.Resource {
	img := image.NewRGBA(image.Rect(0, 0, iconPx, iconPx))
	r := pen.NewRaster(img, 1)
	c := panel.ShadesOf(draw.Look{})
	d := &panel.Drawing{Pen: r, Shades: c, Scale: 1, W: iconPx, H: iconPx}
	d.Box(4, 4, iconPx-8, iconPx-8, 20, c.Paper, c.Ink, 5)
	drawIcon(d, board.ToolBlock, iconPx/2, iconPx/2, 100)
	if r.Flush() != nil {
		return nil
	}
	var file bytes.Buffer
	if pen.WritePNG(&file, img, 96) != nil {
		return nil
	}
	return fyne.NewStaticResource("kedge.png", file.Bytes())
}

// Package pen is the one way anything is drawn: paths, texts and pictures go
// through the Pen interface, and a raster image, a PDF page, an SVG page or a
// list of primitives comes out.
//
// # Axes, units, angles
//
// x runs right, y runs down, on every pen. One unit is what the pen says: a
// pixel for a Raster of scale 1, a millimetre for PDF, SVG and a Raster whose
// scale is dpi/25.4. Angles are degrees, counter-clockwise as seen, from +x, so
// 90 points up the page although y points down. Inside the package coordinates
// are plain float64 in pen units.
//
// # One font, one measure
//
// Screen, PDF and SVG use the same embedded face, made of Noto Sans: its Latin,
// Greek and Cyrillic ranges, completed with the symbols it lacks (see Symbols). Widths are sums of the font's advances without kerning, so Measure
// is right for every pen.
//
// # Limits
//
// Fills are non-zero. A raster adds signed areas, so parts of one path wound in
// opposite directions cancel where they overlap: unite self-overlapping
// outlines before filling them. A path with a NaN or infinite coordinate is not
// drawn at all and the pen's Err says so. Texts are one line, left to right.
//
//	img := image.NewRGBA(image.Rect(0, 0, 200, 100))
//	r := pen.NewRaster(img, 1)
//	var p pen.Path
//	p.Circle(100, 50, 30)
//	r.Path(&p, &pen.Style{Stroke: color.NRGBA{A: 255}, Width: 2})
//	r.Text(100, 50, "41.8 kN", &pen.TextStyle{Size: 13, Colour: color.NRGBA{A: 255}})
//	err := r.Flush()
package pen

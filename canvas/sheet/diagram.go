package sheet

import (
	"math"

	"github.com/golang/geo/r2"
	"github.com/golang/geo/r3"

	"kedge/canvas/draw"
	"kedge/canvas/pen"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// A logical pixel of the drawing on paper, mm, so that the letter on a person's
// sign has [TextCap], and how much larger its texts are so that the smallest
// have it too.
const (
	pxMM      = 0.3
	smallPx   = 11 // the drawing's smallest letters
	textScale = textEm / (smallPx * pxMM)
)

// Room for labels round what is drawn, mm.
const (
	sideRoom = 14.0
	topRoom  = 8.0
	leastBox = 30.0 // a drawing is never smaller
	overlap  = 10.0 // of two tiles
)

// everyZone hides all zones.
func everyZone() map[string]bool {
	all := make(map[string]bool, len(part.ZoneKinds))
	for _, k := range part.ZoneKinds {
		all[string(k)] = true
	}
	return all
}

// extent is what has to be on a drawing, metres of the plan.
type extent struct{ r2.Rect }

func (e extent) w() float64         { return e.X.Length() }
func (e extent) h() float64         { return e.Y.Length() }
func (e extent) middle() plan.Point { return plan.Point(e.Center()) }

func (m *maker) extent() (extent, error) {
	box := draw.Bounds(m.p, m.a)
	if box.IsEmpty() {
		return extent{}, &trouble{ErrEmpty, m.label("why-empty")}
	}
	return extent{box}, nil
}

// fit is the largest scale at which the extent with its labels fits into a box.
func (e extent) fit(w, h float64) (n float64, ok bool) {
	return largestScale(e.w(), e.h(), w-2*sideRoom, h-2*topRoom)
}

// paperW and paperH are what the drawing takes on paper with its labels, mm.
func (e extent) paperW(n float64) float64 { return e.w()*mmPerM/n + 2*sideRoom }
func (e extent) paperH(n float64) float64 { return e.h()*mmPerM/n + 2*topRoom }

// lies reports whether the drawing at 1 : n lies in a box.
func (e extent) lies(n, w, h float64) bool { return e.paperW(n) <= w && e.paperH(n) <= h }

func (m *maker) tooLarge(e extent) error {
	return &trouble{ErrTooLarge, m.label("why-too-large", part.Length("width", e.w()), part.Length("height", e.h()))}
}

// plain is the answer without findings, zones and people's places: for drawings
// that are about the rig alone.
func plain(a *solver.Assessment) *solver.Assessment {
	c := *a
	c.Findings, c.Zones, c.People = nil, nil, nil
	return &c
}

// picture draws the plan into a box of a page at 1 : n.
func (m *maker) picture(g *Page, x, y, w, h, n float64, middle plan.Point, show draw.Show) *draw.Labels {
	show.HideUnderlay = show.HideUnderlay || m.scout
	labels := &draw.Labels{}
	s := &draw.Scene{Plan: m.p, Rig: m.rig, Answer: m.a, Words: m.w, Labels: labels, Show: show,
		Look: m.look(),
		View: draw.View{Middle: middle, PerM: mmPerM / n, W: w, H: h, X0: x, Y0: y, UnitsPerPx: pxMM}}
	m.draw(g, s)
	boxed(&g.marks, x, y, w, h, &pen.Style{Stroke: ink, Width: lineHair})
	g.Scale = n
	g.taken(y + h)
	for _, b := range labels.Boxes {
		if b.Part != "" {
			g.Figures = append(g.Figures, Figure{Part: b.Part, X0: b.Box.X.Lo, Y0: b.Box.Y.Lo, X1: b.Box.X.Hi, Y1: b.Box.Y.Hi, Blank: show.Blank[b.Part]})
		}
	}
	place := func(name string, v r3.Vector) {
		px, py := s.View.ToPen(plan.Point{X: v.X, Y: v.Y})
		if px >= x && px <= x+w && py >= y && py <= y+h {
			g.Places = append(g.Places, Place{name, px, py})
		}
	}
	if v := solver.CasualtyOf(m.p, m.rig); v != nil {
		if way, ok := v.WayOut(); ok {
			e, n := plan.Heading(way)
			place("way out/a", r3.Vector{X: v.At.X, Y: v.At.Y})
			place("way out/b", r3.Vector{X: v.At.X + e*float64(v.Length), Y: v.At.Y + n*float64(v.Length)})
		}
	}
	for i := range m.p.Site.Vehicles { // tail and nose: the direction of its length
		v := &m.p.Site.Vehicles[i]
		e, n := plan.Heading(v.Bearing)
		half := float64(v.Length) / 2
		place(string(v.ID)+"/tail", r3.Vector{X: v.At.X - e*half, Y: v.At.Y - n*half})
		place(string(v.ID)+"/nose", r3.Vector{X: v.At.X + e*half, Y: v.At.Y + n*half})
	}
	for i := range m.a.Stretches {
		st := &m.a.Stretches[i]
		place(st.Part+"/a", st.A)
		place(st.Part+"/b", st.B)
	}
	return labels
}

// look is how drawings look on the paper.
func (m *maker) look() draw.Look {
	return draw.Look{Print: true, Color: m.o.Colour, TextScale: textScale}
}

// draw draws a scene; the picture to trace is decoded for the first of a
// booklet.
func (m *maker) draw(g *Page, s *draw.Scene) {
	s.Labels.SharePicture(&m.traced)
	draw.Draw(&g.marks, s)
	m.traced.SharePicture(s.Labels)
}

// diagram is the drawing alone, as large as the page or over several.
func (m *maker) diagram(k Kind) error {
	e, err := m.extent()
	if err != nil {
		return err
	}
	show := draw.Show{HideGrid: true, ZonesApart: m.o.ZonesApart}
	if k == Diagram {
		show.HideZones = everyZone()
	}
	f, err := m.flow(k, m.kindName(k))
	if err != nil {
		return err
	}
	if err := f.verdict(); err != nil {
		return err
	}
	f.gap(1.5)
	w, h := f.w(), f.left()
	n, ok := m.o.Scale, true
	if n == 0 {
		if n, ok = e.fit(w, h); !ok {
			return m.tooLarge(e)
		}
	}
	if e.lies(n, w, h) {
		m.picture(f.g, f.x(), f.y, w, h, n, e.middle(), show)
		return nil
	}
	return m.tiles(f, e, n, e.paperW(n), e.paperH(n), show)
}

// maxTiles bounds the pages of one drawing. (ours)
const maxTiles = 64

// tiles draws over several pages that overlap, the north-western first.
func (m *maker) tiles(f *flow, e extent, n, needW, needH float64, show draw.Show) error {
	w, h := f.w(), f.left()-lead
	across := int(math.Ceil((needW - overlap) / (w - overlap)))
	down := int(math.Ceil((needH - overlap) / (h - overlap)))
	if across*down > maxTiles {
		return &trouble{ErrTooLarge, m.label("why-tiles", part.Text("scale", scaleText(n)), part.Count("pages", across*down), part.Count("most", maxTiles))}
	}
	for j := range down {
		for i := range across {
			if i+j > 0 {
				if err := f.next(); err != nil {
					return err
				}
			}
			at := m.label("tile", part.Count("n", j*across+i+1), part.Count("of", across*down), part.Count("row", j+1), part.Count("column", i+1))
			f.y = f.g.body.bottom() - h - lead
			if err := f.para(at, 0); err != nil {
				return err
			}
			f.y = f.g.body.bottom() - h
			step := func(k, of int, room, need float64) float64 { // offset of a tile's middle from the whole's
				return (float64(k) - float64(of-1)/2) * (room - overlap)
			}
			middle := e.middle()
			middle.X += step(i, across, w, needW) * n / mmPerM
			middle.Y -= step(j, down, h, needH) * n / mmPerM
			m.picture(f.g, f.x(), f.y, w, h, n, middle, show)
		}
	}
	return nil
}

// frameTooLarge says that frames are not tiled.
func (m *maker) frameTooLarge(e extent, n float64) error {
	return &trouble{ErrTooLarge, m.label("why-frame", part.Length("width", e.w()), part.Length("height", e.h()), part.Text("scale", scaleText(n)))}
}

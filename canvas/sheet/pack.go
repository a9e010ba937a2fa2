package sheet

import "kedge/canvas/pen"

// packGap is between two sheets on one page, mm. (ours)
const packGap = 6.0

// packed are pages of which short sheets of text share one: a sheet goes below that
// before it, or beside it, if all of its page finds room there. The order stays.
func packed(pages []*Page) []*Page {
	type handout struct {
		key     bool
		variant int
	}
	last := map[handout]*Page{}
	var kept []*Page
	for _, g := range pages {
		h := handout{g.Key, g.Variant}
		if host := last[h]; host != nil && host.takes(g) {
			continue
		}
		last[h] = g
		kept = append(kept, g)
	}
	return kept
}

// takes draws the matter of the next page on this one if there is room for it. Two
// scales, and room to work, keep a page of their own.
func (g *Page) takes(next *Page) bool {
	if g.Kind == Exercise || next.Kind == Exercise || next.Scale > 0 && g.Scale > 0 || next.W != g.W || next.H != g.H {
		return false
	}
	high := [2]float64{next.ends[0] - next.body.y, next.ends[1] - next.body.y}
	shift := (g.body.w + columnGap) / 2
	if next.columned() && high[1] == 0 { // half a page wide
		for c, end := range g.ends {
			top := end + packGap
			if end == g.body.y {
				top = end // nothing is above it
			}
			if top+high[0] <= g.body.bottom() {
				g.draw(next, float64(c)*shift, top-next.body.y)
				g.ends[c] = top + high[0]
				return true
			}
		}
		return false
	}
	top := max(g.ends[0], g.ends[1]) + packGap
	if top+max(high[0], high[1]) > g.body.bottom() {
		return false
	}
	g.draw(next, 0, top-next.body.y)
	g.ends = [2]float64{top + high[0], top + high[1]}
	return true
}

// columned reports whether the page was set in columns.
func (g *Page) columned() bool { return g.cols > 1 }

// draw draws the matter of another page on this one, moved.
func (g *Page) draw(next *Page, dx, dy float64) {
	for _, x := range next.Figures {
		x.X0, x.X1, x.Y0, x.Y1 = x.X0+dx, x.X1+dx, x.Y0+dy, x.Y1+dy
		g.Figures = append(g.Figures, x)
	}
	for _, at := range next.Places {
		g.Places = append(g.Places, Place{at.Name, at.X + dx, at.Y + dy})
	}
	g.Scale = max(g.Scale, next.Scale)
	next.Draw(pen.At(&g.marks, 1, dx, dy))
	g.Also = append(append(g.Also, Also{next.Kind, next.Name, next.Level}), next.Also...)
}

package draw

import (
	"math"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
	"kedge/solver/plan"
)

// maxSurveyNames is how many survey points in view still show their names.
const maxSurveyNames = 40

// surveyRadius is half the size of a survey point's cross, pixels.
const surveyRadius = 3

func (d *drawing) survey() {
	s := d.s.Plan.Site.Survey
	if s == nil || d.s.Show.HideSurvey {
		return
	}
	r := d.sy(surveyRadius)
	d.surveyDiscs(s)
	d.path.Reset()
	cells := d.newCells(2 * r)
	for i := range s.Points {
		q := d.at(plan.Point{X: s.Points[i].X, Y: s.Points[i].Y})
		if !d.inView(q, r) || !cells.take(q) {
			continue
		}
		d.path.Line(q.X-r, q.Y, q.X+r, q.Y)
		d.path.Line(q.X, q.Y-r, q.X, q.Y+r)
	}
	d.stroke(d.c.Quiet, 1.2)
	for _, e := range d.surveyNames() {
		d.write(e.at.X, e.at.Y, e.text, d.text.small, false, d.c.Quiet, e.anchor)
	}
}

// surveyDiscs draws how well survey points are known that can be told apart.
func (d *drawing) surveyDiscs(s *plan.Survey) {
	var h plan.Head
	cells := d.newCells(d.sy(2 * surveyRadius))
	for i := range s.Points {
		q := &s.Points[i]
		at := plan.Point{X: q.X, Y: q.Y}
		if p := d.at(at); q.Doubt > 0 && d.m(float64(q.Doubt)) > d.sy(surveyRadius) && d.inView(p, d.m(float64(q.Doubt))) && cells.take(p) {
			h.Doubts = h.WithPlaceDoubt(at, q.Doubt)
			d.disc(&h, at)
		}
	}
}

// cells thin what is drawn in great numbers: of what falls into one square of
// the picture only the first is drawn. Zoomed in, all are.
type cells struct {
	x0, y0, size float64
	wide, high   int
	taken        []uint64
}

// newCells parts the picture into squares of a size in pen units.
func (d *brush) newCells(size float64) cells {
	v := &d.view
	c := cells{x0: v.X0 - size, y0: v.Y0 - size, size: size}
	c.wide, c.high = int(math.Ceil(v.W/size))+2, int(math.Ceil(v.H/size))+2
	c.taken = make([]uint64, (c.wide*c.high+63)/64)
	return c
}

// take reports whether a place lies in a square that was free, and takes it.
func (c *cells) take(p r2.Point) bool {
	x, y := int((p.X-c.x0)/c.size), int((p.Y-c.y0)/c.size)
	if x < 0 || y < 0 || x >= c.wide || y >= c.high {
		return false
	}
	i := y*c.wide + x
	was := c.taken[i/64]
	c.taken[i/64] = was | 1<<(i%64)
	return c.taken[i/64] != was
}

// surveyNames are the names of survey points in view; none if there are many.
func (d *drawing) surveyNames() []edgeText {
	s := d.s.Plan.Site.Survey
	if s == nil || d.s.Show.HideSurvey || d.s.Show.HideNames {
		return nil
	}
	r := d.sy(3)
	var out []edgeText
	seen := 0
	for i := range s.Points {
		q := d.at(plan.Point{X: s.Points[i].X, Y: s.Points[i].Y})
		if !d.inView(q, r) {
			continue
		}
		if seen++; seen > maxSurveyNames {
			return nil
		}
		if s.Points[i].Name != "" {
			out = append(out, edgeText{r2.Point{X: q.X + r*1.6, Y: q.Y - r*1.6}, s.Points[i].Name, pen.Start})
		}
	}
	return out
}

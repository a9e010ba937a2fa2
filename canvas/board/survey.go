package board

import (
	"errors"
	"math"
	"slices"
	"strings"

	"kedge/canvas/form"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// Measured is what was read from a file of places measured on the ground.
type Measured struct {
	Name     string        // of the file
	Survey   *plan.Survey  // all points, with their origin; nil: there are none
	OnGlobe  bool          // they come from latitude and longitude: the origin counts
	Outlines []MeasuredWay // lines and areas
}

// MeasuredWay is a line or an area of a file.
type MeasuredWay struct {
	Name    string
	Corners []plan.Point
	Closed  bool
	Doubt   quantity.Length // of its corner that is known least; 0: not said
}

// MeasuredUse is what measured places become in the plan.
type MeasuredUse string

// The uses.
const (
	MeasuredPoints    MeasuredUse = "points"    // survey points, to draw over
	MeasuredAnchors   MeasuredUse = "anchors"   // a tree at each
	MeasuredObstacles MeasuredUse = "obstacles" // outlines of obstacles
	MeasuredEach      MeasuredUse = "each"      // areas obstacles, points called after a tree trees, the others survey points
)

// MeasuredUses lists the uses in the order they are offered.
func MeasuredUses() []MeasuredUse {
	return []MeasuredUse{MeasuredPoints, MeasuredAnchors, MeasuredObstacles, MeasuredEach}
}

// Most things that one file may become. (ours: more would be the trees of a
// whole wood, none of them chosen)
const (
	maxMeasuredAnchors   = 500
	maxMeasuredObstacles = 100
)

// nearZeroM: heights are taken as counted from a peg of one's own, where 0 is a
// height like any other, if some lie this near to 0; else 0 is what a file says
// of a point that has none. (ours)
const nearZeroM = 30

// errMeasured is measured places that cannot become what was asked for.
var errMeasured = errors.New("board: measured places not taken")

// Taking is what measured places would become.
type Taking struct {
	Plan  *plan.Plan // with them; nil: it cannot be done
	Name  string     // of the undo step
	Why   string     // why it cannot be done; empty: it can
	Notes []string   // what is to be known of it, as sentences
	IDs   []plan.ID  // selected afterwards
}

// Take is the plan with measured places in it, for a preview; with rises, what
// stands on the ground gets the heights of its points. [Board.TakeMeasured] does
// the same for good.
func (b *Board) Take(m Measured, use MeasuredUse, rises bool) Taking {
	switch use {
	case MeasuredPoints:
		return takePoints(b.scene, m)
	case MeasuredAnchors:
		return takeAnchors(b.scene, m, rises)
	case MeasuredObstacles:
		return takeObstacles(b.scene, m)
	case MeasuredEach:
		return takeEach(b.scene, m, rises)
	}
	return Taking{}
}

// TakeMeasured puts measured places into the plan as one undo step. The error
// says why it cannot be done; the person is told.
func (b *Board) TakeMeasured(m Measured, use MeasuredUse, rises bool) error {
	b.cancel()
	t := b.Take(m, use, rises)
	if t.Plan == nil {
		b.say(t.Why)
		return fault{t.Why, errMeasured}
	}
	if err := b.edit(t.Name, t.Plan); err != nil {
		return err
	}
	b.question, b.tool = nil, newTool(ToolSelect)
	b.Select(t.IDs...)
	b.say(t.Name + ".")
	return nil
}

func notTaken(sc *scene, label string, values ...part.Value) Taking {
	return Taking{Why: sc.label(label, values...)}
}

// takePoints adds survey points: to those there are if both lie about one
// origin, else in their place.
func takePoints(sc *scene, m Measured) Taking {
	if m.Survey == nil || len(m.Survey.Points) == 0 {
		return notTaken(sc, "measured-no-points")
	}
	s, old := *m.Survey, sc.plan.Site.Survey
	t := Taking{Name: sc.label("edit-survey", part.Text("name", m.Name), part.Count("count", len(s.Points))), IDs: []plan.ID{form.ThingSurvey}}
	switch {
	case old == nil || len(old.Points) == 0:
	case m.OnGlobe && s.LatDeg == old.LatDeg && s.LonDeg == old.LonDeg:
		if n := len(old.Points) + len(s.Points); n > plan.MaxSurveyPoints {
			return notTaken(sc, "measured-too-many", part.Count("count", n))
		}
		s.Points = slices.Concat(old.Points, s.Points)
		s.Source = old.Source + " " + s.Source
		s.Extra = old.Extra
		t.Notes = append(t.Notes, sc.label("measured-added", part.Count("count", len(old.Points))))
	default:
		t.Notes = append(t.Notes, sc.label("measured-replaces", part.Count("count", len(old.Points))))
	}
	p := *sc.plan
	p.Site.Survey = &s
	t.Plan = &p
	return t
}

// takeAnchors puts a tree at each point; of a file that names some points, at
// those: the others are a track.
func takeAnchors(sc *scene, m Measured, rises bool) Taking {
	if m.Survey == nil || len(m.Survey.Points) == 0 {
		return notTaken(sc, "measured-no-points")
	}
	var t Taking
	list := m.Survey.Points
	named := slices.DeleteFunc(slices.Clone(list), func(q plan.SurveyPoint) bool { return q.Name == "" })
	if left := len(list) - len(named); len(named) > 0 && left > 0 {
		list = named
		t.Notes = append(t.Notes, sc.label("measured-unnamed", part.Count("count", left)))
	}
	if len(list) > maxMeasuredAnchors {
		return notTaken(sc, "measured-many-anchors", part.Count("count", len(list)), part.Count("most", maxMeasuredAnchors))
	}
	d := sc.draft(false)
	keepOrigin(d, m)
	rise, notes := risesOf(sc, list, rises)
	t.Notes = append(t.Notes, notes...)
	for i, q := range list {
		a := newAnchor(plan.AnchorTree)
		a.ID, a.Name = plan.NewID(d.Plan, plan.PrefixTree), q.Name
		a.At, a.Rise = rounded(plan.Point{X: q.X, Y: q.Y}, fineM/10), rise(i)
		a.Doubts = a.WithPlaceDoubt(a.At, q.Doubt)
		d.Site.Anchors = append(d.Site.Anchors, a)
		t.IDs = append(t.IDs, a.ID)
	}
	t.Notes = append(t.Notes, sc.label("measured-tree-unknown"))
	t.Plan, t.Name = d.Plan, sc.label("edit-measured-anchors", part.Count("count", len(list)), part.Text("name", m.Name))
	return t
}

// takeObstacles makes the areas of the file obstacles; of a file without one,
// its only line, or its points in their order.
func takeObstacles(sc *scene, m Measured) Taking {
	var t Taking
	ways := slices.DeleteFunc(slices.Clone(m.Outlines), func(w MeasuredWay) bool { return !w.Closed })
	switch {
	case len(ways) > 0:
	case len(m.Outlines) == 1:
		ways = m.Outlines
		t.Notes = append(t.Notes, sc.label("measured-closed"))
	case m.Survey != nil && len(m.Outlines) == 0:
		w := MeasuredWay{}
		for _, q := range m.Survey.Points {
			w.Corners, w.Doubt = append(w.Corners, plan.Point{X: q.X, Y: q.Y}), max(w.Doubt, q.Doubt)
		}
		ways = []MeasuredWay{w}
		t.Notes = append(t.Notes, sc.label("measured-in-order"))
	}
	switch {
	case len(ways) == 0:
		return notTaken(sc, "measured-no-outline")
	case len(ways) > maxMeasuredObstacles:
		return notTaken(sc, "measured-many-obstacles", part.Count("count", len(ways)), part.Count("most", maxMeasuredObstacles))
	}
	d := sc.draft(false)
	keepOrigin(d, m)
	for i, w := range ways {
		o := plan.Obstacle{Outline: make([]plan.Point, 0, len(w.Corners))}
		for _, c := range w.Corners {
			c = rounded(c, fineM/10)
			if n := len(o.Outline); n == 0 || o.Outline[n-1] != c {
				o.Outline = append(o.Outline, c)
			}
		}
		for n := len(o.Outline); n > 1 && o.Outline[n-1] == o.Outline[0]; n-- {
			o.Outline = o.Outline[:n-1]
		}
		if why := plan.OutlineFault(o.Outline); why != nil {
			if len(ways) > 1 {
				return notTaken(sc, "measured-outline-of", part.Count("number", i+1), part.Text("why", sc.words.Refusal(why)))
			}
			return notTaken(sc, "outline-refused", part.Text("why", sc.words.Refusal(why)))
		}
		o.Doubts = o.WithPlaceDoubt(plan.Centroid(o.Outline), w.Doubt)
		o.ID, o.Name, o.Presets = plan.NewID(d.Plan, plan.PrefixObstacle), w.Name, []string{"height_m"}
		d.Site.Obstacles = append(d.Site.Obstacles, o)
		t.IDs = append(t.IDs, o.ID)
	}
	t.Notes = append(t.Notes, sc.label("measured-height-line"))
	t.Plan, t.Name = d.Plan, sc.label("edit-measured-obstacles", part.Count("count", len(ways)), part.Text("name", m.Name))
	return t
}

// takeEach takes each feature of a file as what its geometry and its name say it is.
func takeEach(sc *scene, m Measured, rises bool) Taking {
	out := Taking{Plan: sc.plan, Name: sc.label("edit-measured-each", part.Text("name", m.Name)), Notes: []string{sc.label("measured-each")}}
	add := func(take func(*scene) Taking) {
		if out.Why != "" {
			return
		}
		t := take(sc.with(out.Plan))
		out.Plan, out.Why, out.Notes, out.IDs = t.Plan, t.Why, append(out.Notes, t.Notes...), append(out.IDs, t.IDs...)
	}
	if slices.ContainsFunc(m.Outlines, func(w MeasuredWay) bool { return w.Closed }) {
		add(func(sc *scene) Taking { return takeObstacles(sc, m) })
	}
	trees, others := m, m
	if m.Survey != nil {
		t, o := *m.Survey, *m.Survey
		t.Points, o.Points = nil, nil
		for _, q := range m.Survey.Points {
			to := &o.Points
			if treeNamed(sc, q.Name) {
				to = &t.Points
			}
			*to = append(*to, q)
		}
		trees.Survey, others.Survey = &t, &o
		if len(t.Points) > 0 {
			add(func(sc *scene) Taking { return takeAnchors(sc, trees, rises) })
		}
		if len(o.Points) > 0 {
			add(func(sc *scene) Taking { return takePoints(sc, others) })
		}
	}
	if out.Why == "" && out.Plan == sc.plan {
		return notTaken(sc, "measured-no-points")
	}
	return out
}

// treeNamed reports whether a name calls something a tree, in English or the words'
// own language.
func treeNamed(sc *scene, name string) bool {
	name = strings.ToLower(name)
	return strings.Contains(name, "tree") || strings.Contains(name, strings.ToLower(sc.label("kind-tree")))
}

// keepOrigin keeps the origin of places that come from the globe, so that the
// next file is laid on the same plane.
func keepOrigin(d plan.Draft, m Measured) {
	if m.OnGlobe && m.Survey != nil && d.Site.Survey == nil {
		d.Site.Survey = &plan.Survey{Source: m.Survey.Source, LatDeg: m.Survey.LatDeg, LonDeg: m.Survey.LonDeg, Points: []plan.SurveyPoint{}}
	}
}

// risesOf is how far each point stands above the ground plane, which is taken
// to pass through the lowest of them, and what is to be known of it. Without
// heights, or if they do not count, all stand on the plane.
//
//	rise = (z - z lowest) - (plane there - plane at the lowest)
func risesOf(sc *scene, list []plan.SurveyPoint, counted bool) (rise func(i int) quantity.Length, notes []string) {
	flat := func(int) quantity.Length { return 0 }
	heights, near := 0, false
	for _, q := range list {
		if q.Z != 0 {
			heights++
			near = near || math.Abs(float64(q.Z)) <= nearZeroM
		}
	}
	if heights == 0 {
		return flat, []string{sc.label("measured-no-heights")}
	}
	if !counted {
		return flat, []string{sc.label("measured-heights-left")}
	}
	ground, err := terrain.NewGround(sc.plan.Site.Ground)
	if err != nil {
		return flat, []string{sc.words.Refusal(err)}
	}
	has := func(q plan.SurveyPoint) bool { return q.Z != 0 || near }
	var low plan.SurveyPoint
	found, none := false, 0
	for _, q := range list {
		switch {
		case !has(q):
			none++
		case !found || q.Z < low.Z:
			low, found = q, true
		}
	}
	notes = append(notes, sc.label("measured-heights", part.Length("height", low.Z)))
	if none > 0 {
		notes = append(notes, sc.label("measured-some-heights", part.Count("count", none)))
	}
	zero := ground.Z(low.X, low.Y)
	return func(i int) quantity.Length {
		q := list[i]
		if !has(q) {
			return 0
		}
		return quantity.Length(stepped(float64(q.Z-low.Z)-(ground.Z(q.X, q.Y)-zero), fineM))
	}, notes
}

// removingSurvey is the edit that takes the survey away.
func removingSurvey(sc *scene) outcome {
	if sc.plan.Site.Survey == nil {
		return outcome{report: sc.label("nothing-to-delete")}
	}
	p := *sc.plan
	p.Site.Survey = nil
	return outcome{plan: &p, name: sc.label("edit-remove-survey"), selected: []plan.ID{}}
}

// surveyCommands are those of the survey.
func surveyCommands() []command {
	has := func(b *Board) bool { return b.plan.Site.Survey != nil }
	return []command{
		{"survey.select", "do-survey-select", "", has, "no-survey", func(b *Board) { b.Select(form.ThingSurvey) }},
		{"survey.remove", "do-survey-remove", "", has, "no-survey", func(b *Board) { b.commit(removingSurvey(b.scene)) }},
	}
}

// withoutOldSurvey is next without its survey if that is p's: of a plan that was
// checked, a hundred thousand points need not be checked again with every edit.
func withoutOldSurvey(p, next *plan.Plan) *plan.Plan {
	if next.Site.Survey == nil || next.Site.Survey != p.Site.Survey {
		return next
	}
	q := *next
	q.Site.Survey = nil
	return &q
}

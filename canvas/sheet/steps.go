package sheet

import (
	"math"
	"slices"
	"strings"

	"kedge/canvas/draw"
	"kedge/canvas/pen"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// heads are the heads of everything of a plan and one of its rigs, to be read
// or, of copies, written.
func heads(s *plan.Site, r *plan.Rig) []*plan.Head {
	var all []*plan.Head
	for i := range s.Vehicles {
		all = append(all, &s.Vehicles[i].Head)
	}
	for i := range s.Anchors {
		all = append(all, &s.Anchors[i].Head)
	}
	for i := range s.Obstacles {
		all = append(all, &s.Obstacles[i].Head)
	}
	for i := range s.People {
		all = append(all, &s.People[i].Head)
	}
	for i := range s.Notes {
		all = append(all, &s.Notes[i].Head)
	}
	for i := range s.Measures {
		all = append(all, &s.Measures[i].Head)
	}
	for i := range r.Slings {
		all = append(all, &r.Slings[i].Head)
	}
	for i := range r.Shackles {
		all = append(all, &r.Shackles[i].Head)
	}
	for i := range r.Blocks {
		all = append(all, &r.Blocks[i].Head)
	}
	for i := range r.Lines {
		all = append(all, &r.Lines[i].Head)
	}
	for i := range r.Dampers {
		all = append(all, &r.Dampers[i].Head)
	}
	return all
}

// frames are the steps of the rig with their captions. A plan in which nobody
// entered a step is taken in the order in which it is rigged: straps, blocks
// and shackles, tie-backs, hold-backs, lines, dampers.
func (m *maker) frames() (p *plan.Plan, captions []string) {
	most := 0
	for _, h := range heads(&m.p.Site, m.r) {
		most = max(most, h.Step)
	}
	if most == 0 {
		return m.ownFrames()
	}
	captions = make([]string, most+1)
	captions[0] = m.label("step-site")
	for n := 0; n <= most; n++ {
		var said []string
		for _, h := range heads(&m.p.Site, m.r) {
			if h.Step != n || h.Caption == "" && n == 0 {
				continue
			}
			s := h.Caption
			if s == "" {
				s = m.thing(h.ID)
			}
			if !slices.Contains(said, s) {
				said = append(said, s)
			}
		}
		if len(said) > 0 {
			captions[n] = strings.Join(said, " · ")
		}
	}
	return m.p, captions
}

// stepUse is the use a line or sling is rigged with: a word that is not known
// counts as a hold-back, as for the solver.
func stepUse(use string) string {
	if use == plan.UsePull || use == plan.UseTieBack {
		return use
	}
	return plan.UseHoldBack
}

func (m *maker) ownFrames() (*plan.Plan, []string) {
	i := m.p.RigIndex(m.rig)
	captions := []string{m.label("step-site")}
	if i < 0 {
		return m.p, captions
	}
	r := m.p.Rigs[i]
	step := 0
	group := func(id string, heads []*plan.Head) {
		if len(heads) == 0 {
			return
		}
		step++
		var names []string
		for _, h := range heads {
			h.Step = step
			names = append(names, m.thing(h.ID))
		}
		captions = append(captions, m.label(id, part.Text("things", m.w.List(names))))
	}
	r.Slings, r.Shackles, r.Blocks = slices.Clone(r.Slings), slices.Clone(r.Shackles), slices.Clone(r.Blocks)
	r.Lines, r.Dampers = slices.Clone(r.Lines), slices.Clone(r.Dampers)
	var blocks, dampers []*plan.Head
	slings, lines := map[string][]*plan.Head{}, map[string][]*plan.Head{} // by their use
	for k := range r.Slings {
		use := stepUse(r.Slings[k].Use)
		slings[use] = append(slings[use], &r.Slings[k].Head)
	}
	for k := range r.Shackles {
		blocks = append(blocks, &r.Shackles[k].Head)
	}
	for k := range r.Blocks {
		blocks = append(blocks, &r.Blocks[k].Head)
	}
	for k := range r.Lines {
		use := stepUse(r.Lines[k].Use)
		lines[use] = append(lines[use], &r.Lines[k].Head)
	}
	for k := range r.Dampers {
		dampers = append(dampers, &r.Dampers[k].Head)
	}
	group("step-slings", slings[plan.UsePull])
	group("step-blocks", blocks)
	for _, use := range []string{plan.UseTieBack, plan.UseHoldBack} {
		group("step-"+use, append(lines[use], slings[use]...))
	}
	group("step-lines", lines[plan.UsePull])
	group("step-dampers", dampers)
	return plan.WithRig(m.p, i, r), captions
}

// captionLines is the room for a caption under a frame.
const captionLines = 2

// barRoomMM is room at the foot of a frame for the bar of its scale, mm. (ours)
const barRoomMM = 5.0

// captionIn is how far a caption stands behind its number, mm.
const captionIn = 8.0

// steps draws the rig step by step, the frames of one scale.
func (m *maker) steps() error {
	e, err := m.extent()
	if err != nil {
		return err
	}
	p, captions := m.frames()
	f, _, err := m.card(Steps)
	if err != nil {
		return err
	}
	f.gap(1.5)
	across, down := 1, 2
	if m.o.Landscape {
		across, down = 2, 1
	}
	const gap = 5.0
	w := (f.w() - float64(across-1)*gap) / float64(across)
	h := (f.left() - float64(down-1)*gap) / float64(down)
	ph := h - captionLines*lead - 3
	n, ok := m.o.Scale, true
	if n == 0 {
		if n, ok = e.fit(w, ph-barRoomMM); !ok {
			return m.tooLarge(e)
		}
	} else if e.w()*mmPerM/n > w || e.h()*mmPerM/n > ph {
		return m.frameTooLarge(e, n)
	}
	whole, names := m.p, m.names
	answer := m.a
	defer func() { m.p, m.a, m.names = whole, answer, names }()
	m.p, m.a = p, plain(solver.Assess(p, m.rig))
	middle := e.middle()
	middle.Y -= barRoomMM / 2 * n / mmPerM
	top := f.y
	for i, caption := range captions {
		if i > 0 && i%(across*down) == 0 {
			if err := f.next(); err != nil {
				return err
			}
			top = f.y
		}
		k := i % (across * down)
		x := f.x() + float64(k%across)*(w+gap)
		y := top + float64(k/across)*(h+gap)
		show := draw.Show{HideGrid: true, HideTags: true, HideZones: everyZone(), UpToStep: i, Emphasis: i}
		if i == 0 { // zero shows everything: before the first step there is the site alone
			m.siteFrame(f.g, x, y, w, ph, n, middle)
		} else {
			m.picture(f.g, x, y, w, ph, n, middle, show)
		}
		frameCaption(f.g, x, y+ph+2, w, itoa(i), caption, captionLines)
	}
	f.y = f.g.body.bottom()
	return nil
}

// frameCaption sets the number of a frame and what is done in it, in so many lines at
// most.
func frameCaption(g *Page, x, y, w float64, number, caption string, most int) {
	t := letters(textEm, false)
	write(&g.marks, x, y+lead/2, number, letters(headEm, true))
	lines := wrap(caption, t, w-captionIn)
	if len(lines) > most {
		lines = lines[:most]
		lines[most-1] = fitted(lines[most-1]+" …", t, w-captionIn)
	}
	for j, s := range lines {
		write(&g.marks, x+captionIn, y+(float64(j)+0.5)*lead, s, t)
	}
}

// siteFrame draws the site without a rig.
func (m *maker) siteFrame(g *Page, x, y, w, h, n float64, middle plan.Point) {
	s := &draw.Scene{Plan: m.p, Words: m.w, Labels: &draw.Labels{}, Show: draw.Show{HideGrid: true, HideUnderlay: m.scout},
		Look: m.look(),
		View: draw.View{Middle: middle, PerM: mmPerM / n, W: w, H: h, X0: x, Y0: y, UnitsPerPx: pxMM}}
	m.draw(g, s)
	boxed(&g.marks, x, y, w, h, &pen.Style{Stroke: ink, Width: lineHair})
	g.Scale = math.Max(n, g.Scale)
	g.taken(y + h)
}

package draw

import (
	"slices"

	"github.com/golang/geo/r2"

	"kedge/canvas/label"
	"kedge/canvas/pen"
	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Tags beyond this many make the parts under half of their limit shrink to a
// bare number. (ours)
const (
	manyTags   = 8
	shrinkFrom = 0.5
)

// tags notes a tag for every part that has something to say.
func (d *drawing) tags() {
	if d.a == nil || d.s.Show.HideTags || d.o.Dim { // places are looked for, not loads
		return
	}
	flagged := d.flaggedParts()
	var tags []caption
	for i := range d.stretches {
		if x, ok := d.stretchTag(&d.stretches[i], i, flagged); ok {
			tags = append(tags, x)
		}
	}
	for i := range d.a.Parts {
		if x, ok := d.partTag(&d.a.Parts[i], flagged); ok {
			tags = append(tags, x)
		}
	}
	groups := d.gather(tags)
	tags = tags[:0]
	for i := range groups {
		tags = append(tags, groups[i].tag)
	}
	last := &d.labels.mem.last
	if !d.labels.mem.Hold || d.labels.mem.places.Empty() { // while something is held tags keep their manner
		last.many, last.tight = d.manyTags(tags), d.crowded(tags)
	}
	for _, g := range groups {
		x, p := g.tag, g.parts[0]
		tight := last.tight && (p.Status == part.Within || p.Status == part.Near)
		small := last.many && p.Known() && p.Status == part.Within && p.Most() < shrinkFrom && !slices.Contains(flagged, p.ID)
		line := d.shorter(&x, p)
		switch {
		case x.unfolded != nil:
			x.short = append(x.short, form{lines: x.unfolded, frame: x.frame})
			x.Hover, x.From = true, len(x.short)
		case !tight && !small || d.o.Preview:
		case x.part == d.o.HoverPart:
			x.Hover = true
		case small:
			x.From = len(x.short)
		default:
			x.From = line // the Loads table has the shares
		}
		d.labels.add(x)
	}
}

// shorter notes what a tag shrinks to: its first line, that without the name of
// the part, to which the leader goes, then the load alone in the frame of its
// state, without one where that is within. It says which form is one line.
func (d *drawing) shorter(x *caption, p *part.Part) (oneLine int) {
	if x.tail != "" {
		x.short = append(x.short, form{lines: x.lines, frame: x.frame})
	}
	if len(x.lines) > 1 {
		first := x.lines[0]
		if len(x.parts) > 1 && p.Status == part.Over { // its lines said so, part by part
			first.text += " · " + d.w.Label("draw-over")
		}
		x.short = append(x.short, form{lines: []textLine{first}, frame: x.frame, nameless: len(x.parts) > 1})
		oneLine = len(x.short)
	}
	if len(x.parts) > 1 { // its first line names nothing already
		x.short = append(x.short, d.bareLoad(x, p))
		return oneLine
	}
	if d.s.Show.Blank[x.part] || !p.Move.Known || p.Status == part.Slack {
		return oneLine
	}
	if p.Kind != part.KindBlock && p.Kind != part.KindAnchor && !x.IsLine {
		nameless := *x
		d.dress(&nameless, p, "", "")
		x.short = append(x.short, form{lines: nameless.lines[:1], frame: x.frame, nameless: true})
		oneLine = len(x.short)
	}
	x.short = append(x.short, d.bareLoad(x, p))
	return oneLine
}

// bareLoad is the load alone, in the frame of its state.
func (d *drawing) bareLoad(x *caption, p *part.Part) form {
	number := quantity.FormatForce(p.Told().Force, d.w.System(), quantity.AsLoad).Number
	line, frame := textLine{number, d.text.mid, true, d.c.Ink}, x.frame
	switch {
	case p.Status == part.Within && p.Known():
		frame, line.bold = bare, false
	case p.Status == part.Over:
		line.text = "▲ " + number
	}
	return form{lines: []textLine{line}, frame: frame, nameless: !x.IsLine}
}

// manyTags reports whether there are so many tags that those of parts far from their
// limit shrink. What is only there because it is pointed at does not count.
func (d *brush) manyTags(tags []caption) bool {
	n := 0
	for i := range tags {
		if !tags[i].Hover {
			n++
		}
	}
	return n > manyTags
}

// crowdedShare is the share of the picture that tags may take before they drop
// their second lines. (ours)
const crowdedShare = 0.17

func (d *brush) crowded(tags []caption) bool {
	area := 0.0
	for i := range tags {
		if !tags[i].Hover {
			w, h := d.size(tags[i].lines, tags[i].tail, tags[i].frame, tags[i].blank)
			area += w * h
		}
	}
	return area > crowdedShare*d.view.W*d.view.H
}

// flaggedParts are the parts that a DANGER or WARNING is about.
func (d *drawing) flaggedParts() []string {
	var out []string
	for i := range d.a.Findings {
		if f := &d.a.Findings[i]; f.Level >= part.Warning {
			out = append(out, f.Parts...)
		}
	}
	return out
}

// stretchTag is the tag of a stretch, which speaks for the winch too if the
// line starts there.
func (d *drawing) stretchTag(s *drawnStretch, i int, flagged []string) (caption, bool) {
	p := s.state
	if p == nil {
		return caption{}, false
	}
	x := caption{Wish: label.Wish{Key: "tag " + s.partID, Rank: label.OfStretch, Thing: s.line.ID, IsLine: true, Clear: d.lw(lineWidth/2) + d.px(4), Must: true, Lead: true}, part: p.ID}
	end, from, to, bears := s.reach()
	x.A, x.B = s.a, end
	if s.look == refusedPattern || p.Status == part.NotComputed || p.Status == part.NotUnderstood {
		if bears && !s.beyond {
			x.A, x.B = from, to
			c := s.contact[0]
			x.frame = dashBox
			x.Rank = label.Flagged
			length := func(name string, x quantity.Length) part.Value {
				return part.Length(name, x)
			}
			x.lines = d.tagLines(d.w.Label("bears-for", length("length", quantity.Length(s.lengthM)), length("contact", c.Length), part.Text("thing", d.name(c.Obstacle))),
				d.w.Label("not-computed"))
			return d.visible(x)
		}
		if s.beyond || i > 0 && d.stretches[i-1].line == s.line {
			return caption{}, false // one line says it once
		}
		x.frame = dashBox
		x.lines = d.tagLines(d.w.Status(p.Status), d.w.Length(quantity.Length(s.lengthM)))
		return d.visible(x)
	}
	what := d.w.Label("draw-line-limit")
	if p.Kind == part.KindWinch {
		what = d.w.PartName(p, d.names)
	}
	d.dress(&x, p, "", what)
	switch {
	case p.Status == part.Over:
		x.Rank = label.Over
	case slices.Contains(flagged, p.ID) || slices.Contains(flagged, s.partID):
		x.Rank = label.Flagged
	}
	return d.visible(x)
}

// visible cuts a line's tag to what of the line is in the picture.
func (d *brush) visible(x caption) (caption, bool) {
	t0, t1, ok := pen.Cut(d.view.box(), x.A, x.B)
	if !ok {
		return x, false
	}
	x.A, x.B = pen.Mix(x.A, x.B, t0), pen.Mix(x.A, x.B, t1)
	return x, true
}

// partTag is the tag of a part that is no stretch. Blocks and anchors always
// have one; the others when there is something to say of them.
func (d *drawing) partTag(p *part.Part, flagged []string) (caption, bool) {
	if p.Kind == part.KindStretch || !d.isShown(p.Thing) {
		return caption{}, false
	}
	isFlagged := slices.Contains(flagged, p.ID)
	loud := p.Status == part.Near || p.Status == part.Over
	always, pointed := p.Kind == part.KindBlock || p.Kind == part.KindAnchor, false
	switch {
	case p.Status == part.Refused, p.Status == part.NotComputed && !p.Stall.Known:
		return caption{}, false // the line's own tag says so, and the verdict
	case p.Kind == part.KindWinch:
		return caption{}, false // the tag of its line speaks for it
	case always, loud, p.Status == part.NoLimit && p.Kind != part.KindFairlead, isFlagged, d.s.Show.Blank[p.ID], d.s.Show.Figures[p.ID]:
	case p.ID == d.o.HoverPart:
		pointed = true
	default:
		return caption{}, false
	}
	at, ok := d.partPlace(p)
	if !ok || !d.inView(at, 0) {
		return caption{}, false
	}
	x := caption{Wish: label.Wish{Key: "tag " + p.ID, Rank: label.Other, Thing: p.Thing, At: at, Clear: d.partClear(p), Must: true, Lead: true, Hover: pointed}, part: p.ID}
	switch {
	case p.Status == part.Over:
		x.Rank = label.Over
	case isFlagged:
		x.Rank = label.Flagged
	case always:
		x.Rank = label.OfBlock
	}
	for i := range d.tips {
		if t := &d.tips[i]; t.part == p {
			x.At, x.Toward, x.Clear = t.to, t.to.Sub(t.from).Normalize(), d.px(5)
		}
	}
	d.dress(&x, p, d.w.PartName(p, d.names), "")
	return x, true
}

// partClear is how far a tag keeps from its part.
func (d *drawing) partClear(p *part.Part) float64 {
	if a := d.ix.Anchor(p.Thing); a != nil {
		return d.anchorRadius(a) + d.px(8)
	}
	if v := d.ix.Vehicle(p.Thing); v != nil && (p.Kind == part.KindSlide || p.Kind == part.KindTip) {
		return d.vehicleClear(v)
	}
	return d.sy(14)
}

// vehicleClear is how far labels keep from the middle of a vehicle.
func (d *brush) vehicleClear(v *plan.Vehicle) float64 {
	b := d.bodyOf(v)
	return b.width/2 + d.px(10)
}

// dress puts a part's figures and the frame of its state on a label.
//
//	41.8 kN on Block 1 · near
//	83 % of winch, layer 2
func (d *drawing) dress(x *caption, p *part.Part, on, of string) {
	x.hot = p.ID == d.o.HoverPart
	load := d.w.Load(p.Told().Force)
	if d.s.Show.Blank[p.ID] {
		load = d.w.Label("draw-blank", part.Text("unit", d.w.System().Force().String()))
	} else if !p.Move.Known {
		if !p.Stall.Known {
			x.frame, x.lines = dashBox, d.tagLines(d.w.Status(p.Status), "")
			return
		}
		load = d.w.Label("pull-at-stall", part.Force("load", p.Stall.Force))
	}
	first, second := d.tagText(p, load, on, of)
	switch {
	case d.s.Show.Blank[p.ID]:
		x.frame, second, x.blank = thinBox, "", true
	case p.Status == part.Over:
		x.frame = d.overFrame(p)
		first = "▲ " + first + " · " + d.w.Label("draw-over")
	case p.Status == part.Near:
		x.frame = barBox
		first += " · " + d.w.Label("draw-near")
	case p.Status == part.NoLimit:
		x.frame, second = markBox, d.w.Status(p.Status)
	case p.Status == part.Undecided:
		x.frame = markBox
		first += " · " + d.w.Status(p.Status)
	case p.Status == part.Slack:
		x.frame, first, second = greyBox, d.w.Status(p.Status), ""
	case p.Status == part.Within:
		x.frame = thinBox
	default:
		x.frame, second = dashBox, d.w.Status(p.Status)
	}
	x.lines = d.tagLines(first, second)
	if p.Status == part.Slack {
		x.lines[0].colour, x.lines[0].bold = d.c.Quiet, false
	}
	if d.o.Preview {
		if second != "" {
			x.lines[1].text += " · " + d.w.Label("preview")
		} else {
			x.lines = append(x.lines, textLine{d.w.Label("preview"), d.text.mid, false, d.c.Ink})
		}
	}
}

// tagText is what a tag says in its two lines: the load on what, and the share
// of what limit.
func (d *drawing) tagText(p *part.Part, load, on, of string) (first, second string) {
	first = load
	if at := d.atTravel(p); at != "" && !d.s.Show.Blank[p.ID] {
		first = d.w.Label("draw-at", part.Text("load", load), part.Text("travel", at))
		load = first
	}
	if on != "" {
		first = d.w.Label("force-on", part.Text("load", load), part.Text("part", on))
	}
	if p.ByLoosening() && !d.s.Show.Blank[p.ID] {
		first = d.w.Label("to-break-loose", part.Text("what", first))
	}
	if p.Known() {
		second = d.w.UsedOf(p) + " " + d.w.Label("draw-of", part.Text("what", of))
		if of == "" {
			second = d.w.Label("of-limit", part.Text("used", d.w.UsedOf(p)))
		}
		if p.Looser() && !p.ByLoosening() {
			second = d.w.Label("to-break-loose", part.Text("what", second))
		}
	}
	if p.Kind == part.KindSlide && p.Limit.Known {
		second += ", " + d.w.Label("draw-holds", part.Number("limit", part.UnitLimit, p.Limit.Force))
	}
	return first, second
}

func (d *brush) tagLines(first, second string) []textLine {
	lines := []textLine{{first, d.text.big, true, d.c.Ink}}
	if second != "" {
		lines = append(lines, textLine{second, d.text.mid, false, d.c.Ink})
	}
	return lines
}

// flagLabels note a numbered triangle at the first thing of every DANGER and
// WARNING. Its number is that of the finding's card.
func (d *drawing) flagLabels() {
	if d.a == nil {
		return
	}
	cards := words.Cards(d.a.Findings)
	hot := -1
	if d.o.Flagged != "" {
		hot = words.CardNumber(cards, slices.IndexFunc(d.a.Findings, func(f part.Finding) bool { return f.Key() == d.o.Flagged }))
	}
	type place struct {
		card int
		at   plan.ID
	}
	flagged := map[place]bool{}
	for i := range d.a.Findings {
		f := &d.a.Findings[i]
		if f.Level < part.Warning {
			continue
		}
		card := words.CardNumber(cards, i)
		if len(f.Things) > 0 { // one flag says all of a card about a thing
			if p := (place{card, f.Things[0]}); flagged[p] {
				continue
			} else {
				flagged[p] = true
			}
		}
		at, clear, ok := d.flagPlace(f)
		onLine := d.flagStretch(f)
		if onLine == nil && (!ok || !d.inView(at, 0)) {
			continue
		}
		fill, on := d.c.Level(f.Level)
		x := caption{Wish: label.Wish{Key: "flag " + f.Key(), Rank: label.Flag, At: at, Clear: clear,
			Toward: r2.Point{X: 0.8, Y: -0.6}.Normalize(), Must: true, Lead: true}, frame: flagBox, level: fill, on: on, number: i + 1, hot: card == hot}
		if len(f.Things) > 0 {
			x.Thing = f.Things[0]
		}
		if s := onLine; s != nil {
			end, _, _, _ := s.reach()
			x.IsLine, x.A, x.B, x.Clear = true, pen.Mix(s.a, end, 0.1), pen.Mix(s.a, end, 0.4), d.lw(lineWidth/2)+d.px(3)
			if x, ok = d.visible(x); !ok {
				continue
			}
		}
		x.lines = []textLine{{figure(float64(card)), d.text.mid, true, on}}
		d.labels.add(x)
	}
}

// flagStretch is the stretch that a finding flags, nil if it flags something
// else.
func (d *drawing) flagStretch(f *part.Finding) *drawnStretch {
	for _, id := range f.Parts {
		for i := range d.stretches {
			if s := &d.stretches[i]; s.partID == id && !s.beyond && (len(f.Things) == 0 || s.line.ID == f.Things[0]) {
				return s
			}
		}
	}
	return nil
}

// flagPlace is where a finding's flag stands: at its first thing that is
// drawn, or at its first part.
func (d *drawing) flagPlace(f *part.Finding) (at r2.Point, clear float64, ok bool) {
	for _, id := range f.Parts {
		p := d.part(id)
		if p == nil || !d.isShown(p.Thing) {
			continue
		}
		if len(f.Things) > 0 && p.Thing != f.Things[0] {
			continue
		}
		if at, ok := d.partPlace(p); ok {
			return at, d.partClear(p), true
		}
	}
	for _, id := range f.Things {
		if !d.isShown(id) {
			continue
		}
		if at, ok := d.thingPlace(id); ok {
			return at, d.thingClear(id), true
		}
	}
	return at, 0, false
}

// thingClear is how far labels keep from the middle of a thing.
func (d *drawing) thingClear(id plan.ID) float64 {
	switch d.ix.Kind(id) {
	case plan.ThingVehicle:
		return d.vehicleClear(d.ix.Vehicle(id))
	case plan.ThingAnchor:
		return d.anchorRadius(d.ix.Anchor(id)) + d.px(4)
	case plan.ThingPerson:
		return d.personRadius() * 1.25
	case plan.ThingBlock:
		return d.sheaveRadius(d.ix.Block(id)) * 1.6
	}
	return d.sy(12)
}

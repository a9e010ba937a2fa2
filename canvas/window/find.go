package window

import (
	"cmp"
	"slices"

	"kedge/canvas/panel"
	"kedge/canvas/words"
	"kedge/solver/plan"
)

// mostFound is how many rows are listed.
const mostFound = 60

// sought is an offer with the texts that it is found by.
type sought struct {
	panel.Offer
	text string
}

// find asks what somebody looks for: an item of the plan, a finding, a command or a
// word of the trade.
func (w *Window) find() {
	if w.finder == nil {
		finder, err := words.NewFinder()
		if err != nil {
			w.refused(err)
			return
		}
		w.finder = finder
	}
	all := w.findable()
	w.finding = panel.Find(w.host, w.win.Canvas(), panel.Finding{
		Hint: w.label("find-hint"), None: w.label("find-none"), Cannot: w.say,
		Offers: func(typed string) []panel.Offer { return nearest(all, w.finder.Seek(typed)) },
		Closed: func() { w.finding = nil; w.focusBoard() },
	})
}

// nearest are the offers that hold what is sought, the nearest first and else in
// their order.
func nearest(all []sought, s words.Sought) (found []panel.Offer) {
	far := map[string]int{}
	for _, o := range all {
		name, inName := s.In(o.Name)
		whole, ok := s.In(o.text)
		if !ok {
			continue
		}
		if whole += words.Farthest; inName { // a name before all else that is said of it
			whole = min(whole, name)
		}
		far[o.ID] = whole
		found = append(found, o.Offer)
	}
	slices.SortStableFunc(found, func(a, b panel.Offer) int { return cmp.Compare(far[a.ID], far[b.ID]) })
	return found[:min(len(found), mostFound)]
}

// findable is all that can be found.
func (w *Window) findable() []sought {
	return slices.Concat(w.findCommands(), w.findItems(), w.findFindings(), w.findWords())
}

// findCommands are the commands and examples; one that cannot be done says why.
func (w *Window) findCommands() (all []sought) {
	ids := make([]string, 0, 100)
	for _, c := range w.commands.own {
		ids = append(ids, c.id)
	}
	for _, e := range w.board.Commands() {
		ids = append(ids, e.ID)
	}
	for _, id := range ids {
		c, ok := w.commands.find(id)
		if !ok || id == "find" || c.label == "" {
			continue
		}
		sort := w.label("find-command")
		if c.shortcut != "" {
			sort = w.menus.keyNames(c.shortcut) + " · " + sort
		}
		all = append(all, sought{panel.Offer{ID: "command " + id, Name: c.label, Sort: sort, Why: c.why, Take: func() { w.commands.run(id) }}, c.label})
	}
	for _, name := range exampleNames() {
		label := w.exampleTitle(name)
		all = append(all, sought{panel.Offer{ID: "example " + name, Name: label, Sort: w.label("find-example"), Take: func() {
			w.file.guard(func() { w.file.openExample(name) })
		}}, label + " " + w.label("do-examples")})
	}
	return all
}

// findItems are the items of the site and of the rig shown.
func (w *Window) findItems() (all []sought) {
	p, names := w.board.Plan(), w.names()
	r, _ := p.Rig(w.board.Rig())
	sorts := w.sorts(p, r)
	plan.EachHead(p, r, func(h *plan.Head) {
		id, sort := h.ID, sorts[h.ID]
		all = append(all, sought{panel.Offer{ID: "item " + string(id), Name: names(id), Sort: sort, Take: func() {
			w.board.Select(id)
			w.reveal(id)
			w.shell.showPanel("details")
		}}, names(id) + " " + sort})
	})
	return all
}

// sorts are what sort of thing each item is.
func (w *Window) sorts(p *plan.Plan, r *plan.Rig) map[plan.ID]string {
	all := map[plan.ID]string{}
	for i := range p.Site.Vehicles {
		all[p.Site.Vehicles[i].ID] = w.label("kind-of-vehicle")
	}
	if v := p.Casualty(); v != nil {
		all[v.ID] = w.label("kind-casualty")
	}
	for i := range p.Site.Anchors {
		a := &p.Site.Anchors[i]
		all[a.ID] = w.label("kind-of-anchor")
		if kind := "kind-" + string(a.Kind); w.words().HasLabel(kind) {
			all[a.ID] = w.label(kind)
		}
	}
	for i := range p.Site.Obstacles {
		all[p.Site.Obstacles[i].ID] = w.label("kind-of-obstacle")
	}
	for i := range p.Site.People {
		all[p.Site.People[i].ID] = w.label("kind-of-person")
		if role := "role-" + p.Site.People[i].Role; w.words().HasLabel(role) {
			all[p.Site.People[i].ID] = w.label(role)
		}
	}
	if r == nil {
		return all
	}
	for i := range r.Lines {
		all[r.Lines[i].ID] = w.label("kind-of-line")
	}
	for i := range r.Blocks {
		all[r.Blocks[i].ID] = w.label("kind-of-block")
	}
	for i := range r.Slings {
		all[r.Slings[i].ID] = w.label("kind-of-sling")
	}
	for i := range r.Shackles {
		all[r.Shackles[i].ID] = w.label("kind-of-shackle")
	}
	for i := range r.Dampers {
		all[r.Dampers[i].ID] = w.label("kind-of-damper")
	}
	return all
}

// findFindings are the findings, with their levels and what to do.
func (w *Window) findFindings() (all []sought) {
	a := w.answer()
	naming := w.words().Naming(a, w.names())
	for i := range a.Findings {
		f := a.Findings[i]
		what, do := w.words().Finding(f, naming)
		all = append(all, sought{panel.Offer{ID: "finding " + f.Key(), Name: what, Sort: w.words().Level(f.Level), Below: do, Take: func() {
			w.shell.showPanel("findings")
			w.findings.goTo(f)
		}}, what + " " + do})
	}
	return all
}

// findWords are the words of the trade.
func (w *Window) findWords() (all []sought) {
	for _, e := range w.words().Glossary() {
		below := w.words().Hint(e.Is, e.ID)
		all = append(all, sought{panel.Offer{ID: "word " + e.ID, Name: e.Name, Sort: w.label("find-word"), Below: below, Take: func() {
			w.page(e.Name, []string{below}, []panel.Answer{{Word: w.label("do-close")}})
		}}, e.Name + " " + below})
	}
	return all
}

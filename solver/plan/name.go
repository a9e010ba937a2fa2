package plan

import (
	"slices"
	"strconv"
	"strings"
)

// Names are the names of all things of p and its rig r as a person reads them;
// r may be nil. A thing's own name stands; one without is called by its kind and
// number, "Tree 2", "Sling 1": the number it keeps, or else the next in file
// order. Names and numbers that are taken are passed over. The vehicle to be
// moved is "Casualty", another with a winch "Winch vehicle", numbered if there
// are several. The map
// has every id of the site and of r.
func Names(p *Plan, r *Rig) map[ID]string {
	n := namer{names: map[ID]string{}, taken: map[string]bool{}, count: map[string]int{}}
	eachCalled(p, r, func(h *Head, _ string) {
		if h.Name != "" {
			n.names[h.ID], n.taken[h.Name] = h.Name, true
		}
	})
	eachCalled(p, r, func(h *Head, word string) {
		if h.Name == "" && h.Number > 0 {
			n.keep(h, word)
		}
	})
	// The third vehicle is Vehicle 3.
	for i := range p.Site.Vehicles {
		n.at = append(n.at, p.Site.Vehicles[i].ID)
	}
	eachCalled(p, r, func(h *Head, word string) {
		if h.Name == "" {
			n.give(h, word)
		}
	})
	s := &p.Site
	for i := range s.Unknown {
		n.give(&Head{ID: s.Unknown[i].ID}, "Unknown thing #")
	}
	if r != nil {
		for i := range r.Unknown {
			n.give(&Head{ID: r.Unknown[i].ID}, "Unknown thing #")
		}
	}
	return n.names
}

// EachHead visits the heads of the things of the site and of r, which may be nil,
// in file order. Things of an unknown kind have none.
func EachHead(p *Plan, r *Rig, visit func(h *Head)) {
	eachCalled(p, r, func(h *Head, _ string) { visit(h) })
}

// eachCalled visits the things of the site and of r, which may be nil, in file
// order, each with the word it is called by; one that ends in # gets a number.
func eachCalled(p *Plan, r *Rig, visit func(h *Head, word string)) {
	s := &p.Site
	casualties, winches := 0, 0
	for i := range s.Vehicles {
		switch v := &s.Vehicles[i]; {
		case v.Stuck != nil:
			casualties++
		case v.Winch != nil:
			winches++
		}
	}
	for i := range s.Vehicles {
		v := &s.Vehicles[i]
		switch {
		case v.Stuck != nil && casualties == 1:
			visit(&v.Head, "Casualty")
		case v.Stuck != nil:
			visit(&v.Head, "Casualty #")
		case v.Winch != nil && winches == 1:
			visit(&v.Head, "Winch vehicle")
		case v.Winch != nil:
			visit(&v.Head, "Winch vehicle #")
		default:
			visit(&v.Head, "Vehicle #")
		}
	}
	for i := range s.Anchors {
		visit(&s.Anchors[i].Head, anchorWord(s.Anchors[i].Kind)+" #")
	}
	for i := range s.Obstacles {
		visit(&s.Obstacles[i].Head, capital(s.Obstacles[i].Kind, "Obstacle")+" #")
	}
	for i := range s.People {
		visit(&s.People[i].Head, capital(s.People[i].Role, "Person")+" #")
	}
	for i := range s.Notes {
		visit(&s.Notes[i].Head, "Note #")
	}
	for i := range s.Measures {
		visit(&s.Measures[i].Head, "Measure #")
	}
	if r == nil {
		return
	}
	for i := range r.Lines {
		visit(&r.Lines[i].Head, "Line #")
	}
	for i := range r.Blocks {
		visit(&r.Blocks[i].Head, blockWord(r.Blocks[i].Kind)+" #")
	}
	for i := range r.Slings {
		visit(&r.Slings[i].Head, "Sling #")
	}
	for i := range r.Shackles {
		visit(&r.Shackles[i].Head, "Shackle #")
	}
	for i := range r.Dampers {
		visit(&r.Dampers[i].Head, "Damper #")
	}
}

// namer gives out names; each but the numbers it was asked to pass over.
type namer struct {
	names map[ID]string
	taken map[string]bool
	count map[string]int
	at    []ID // vehicles in file order
}

// keep names a thing by the number it keeps, if nothing else has that name.
func (n *namer) keep(h *Head, word string) {
	name := numbered(stemOf(word), h.Number)
	if !n.taken[name] {
		n.names[h.ID], n.taken[name] = name, true
	}
}

// give names a thing after word; a word that ends in # gets a number, the next
// after those of the things before it. One that has its name keeps it.
func (n *namer) give(h *Head, word string) {
	stem := stemOf(word)
	if stem == "Vehicle" {
		if i := slices.Index(n.at, h.ID); i >= 0 {
			n.count[stem] = max(n.count[stem], i)
		}
	}
	if name, ok := n.names[h.ID]; ok {
		if name == numbered(stem, h.Number) {
			n.count[stem] = max(n.count[stem], h.Number)
		}
		return
	}
	name := stem
	for stem != word || n.taken[name] {
		n.count[stem]++
		name = numbered(stem, n.count[stem])
		if !n.taken[name] {
			break
		}
	}
	n.names[h.ID], n.taken[name] = name, true
}

// stemOf is a word without the # that asks for a number.
func stemOf(word string) string { return strings.TrimSuffix(word, " #") }

func numbered(stem string, n int) string { return stem + " " + strconv.Itoa(n) }

func anchorWord(kind string) string {
	if kind == "" {
		return "Anchor"
	}
	return capital(kind, "Anchor")
}

func blockWord(kind string) string {
	if kind == BlockRing {
		return "Ring"
	}
	return "Block"
}

// capital is the word with its first letter, if an ASCII one, in upper case;
// other if there is no word.
func capital(word, other string) string {
	if word == "" {
		return other
	}
	if c := word[0]; 'a' <= c && c <= 'z' {
		return string(c-'a'+'A') + word[1:]
	}
	return word
}

// RigName is the name of the rig at place i as its tab shows it: its own, or
// "Rig 2" after the number it keeps or else after its place, passing over names
// that are taken. Empty if there is no such rig.
func RigName(p *Plan, i int) string {
	if i < 0 || i >= len(p.Rigs) {
		return ""
	}
	if n := p.Rigs[i].Name; n != "" {
		return n
	}
	n := namer{names: map[ID]string{}, taken: map[string]bool{}, count: map[string]int{}}
	for k := range p.Rigs {
		if h := &p.Rigs[k].Head; h.Name != "" {
			n.taken[h.Name] = true
		}
	}
	for k := range p.Rigs {
		if h := &p.Rigs[k].Head; h.Name == "" && h.Number > 0 {
			n.keep(h, rigWord)
		}
	}
	for k := range p.Rigs[:i+1] {
		h := &p.Rigs[k].Head
		n.count["Rig"] = max(n.count["Rig"], k) // the third rig is Rig 3
		if h.Name == "" {
			n.give(h, rigWord)
		}
	}
	return n.names[p.Rigs[i].ID]
}

const rigWord = "Rig #"

// PointName is the name of a hook-on point of v: its own, or after where it
// sits, "front right point". The winch's fairlead is "fairlead".
func PointName(v *Vehicle, point ID) string {
	if point == PortWinch {
		return "fairlead"
	}
	q := v.RecoveryPoint(point)
	switch {
	case q == nil:
		return string(point)
	case q.Name != "":
		return q.Name
	}
	where := ""
	switch {
	case q.Ahead > 0:
		where = "front "
	case q.Ahead < 0:
		where = "rear "
	}
	switch {
	case q.Left.Or(0) > 0:
		where += "left "
	case q.Left.Or(0) < 0:
		where += "right "
	}
	return where + "point"
}

package plan

import "strconv"

// Names are the names of all things of p and its rig r as a person reads them;
// r may be nil. A thing's own name stands; one without is called by its kind and
// number in file order, "Tree 2", "Sling 1", passing over names that are taken.
// The vehicle to be moved is "Casualty", the only other one with a winch "Winch
// vehicle". The map has every id of the site and of r.
func Names(p *Plan, r *Rig) map[ID]string {
	n := namer{names: map[ID]string{}, taken: map[string]bool{}, count: map[string]int{}}
	s := &p.Site
	heads := func(visit func(h *Head, word string)) {
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
			n.count["Vehicle"] = max(n.count["Vehicle"], i) // the third vehicle is Vehicle 3
			switch {
			case v.Stuck != nil && casualties == 1:
				visit(&v.Head, "Casualty")
			case v.Stuck != nil:
				visit(&v.Head, "Casualty #")
			case v.Winch != nil && winches == 1:
				visit(&v.Head, "Winch vehicle")
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
	heads(func(h *Head, _ string) {
		if h.Name != "" {
			n.names[h.ID], n.taken[h.Name] = h.Name, true
		}
	})
	clear(n.count)
	heads(func(h *Head, word string) {
		if h.Name == "" {
			n.give(h.ID, word)
		}
	})
	for i := range s.Unknown {
		n.give(s.Unknown[i].ID, "Unknown thing #")
	}
	if r != nil {
		for i := range r.Unknown {
			n.give(r.Unknown[i].ID, "Unknown thing #")
		}
	}
	return n.names
}

// namer gives out names; each but the numbers it was asked to pass over.
type namer struct {
	names map[ID]string
	taken map[string]bool
	count map[string]int
}

// give names id after word; a word that ends in # gets a number.
func (n *namer) give(id ID, word string) {
	stem, numbered := word, false
	if word[len(word)-1] == '#' {
		stem, numbered = word[:len(word)-2], true
	}
	name := stem
	for numbered || n.taken[name] {
		n.count[stem]++
		name = stem + " " + strconv.Itoa(n.count[stem])
		if !n.taken[name] {
			break
		}
	}
	n.names[id], n.taken[name] = name, true
}

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
// "Rig 2" after its place. Empty if there is no such rig.
func RigName(p *Plan, i int) string {
	if i < 0 || i >= len(p.Rigs) {
		return ""
	}
	if n := p.Rigs[i].Name; n != "" {
		return n
	}
	return "Rig " + strconv.Itoa(i+1)
}

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
	case q.Left > 0:
		where += "left "
	case q.Left < 0:
		where += "right "
	}
	return where + "point"
}

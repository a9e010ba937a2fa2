package plan

import (
	"maps"
	"slices"
	"strconv"
	"strings"
)

// KeepNames is next, an edit of before, with numbers put to things that are
// named after their kind so that each is still called what it was: with Tree 1
// taken out, or given a name of its own, or turned into a rated point, Tree 3 is
// Tree 3. Neither plan is changed; next itself comes back if there is nothing to
// put down. A thing whose word changes is numbered anew under it.
func KeepNames(before, next *Plan) *Plan {
	if before == nil || next == nil || before == next {
		return next
	}
	for range keepRounds {
		q := keepOnce(before, next)
		if q == next {
			return q
		}
		next = q
	}
	return next
}

// keepRounds bounds how often numbers are looked at again: a number put down may
// take one that a thing further on had by its place.
const keepRounds = 4

func keepOnce(before, next *Plan) *Plan {
	q := next
	if !sameCalled(before, nil, next, nil) {
		put := kept(Names(before, nil), Names(next, nil), before, nil, next, nil)
		if len(put) > 0 {
			q = withNumbers(q, put)
		}
	}
	for i := range next.Rigs {
		was, ok := before.Rig(next.Rigs[i].ID)
		if !ok || sameCalled(before, was, next, &next.Rigs[i]) {
			continue
		}
		r := &next.Rigs[i]
		put := kept(Names(before, was), Names(next, r), before, was, next, r)
		own := map[ID]bool{}
		eachRig(r, func(_ string, _ int, id ID, _ Slot) { own[id] = true })
		maps.DeleteFunc(put, func(id ID, _ int) bool { return !own[id] })
		if len(put) > 0 {
			q = WithRig(q, i, withRigNumbers(q.Rigs[i], put))
		}
	}
	if sameHeads(before.Rigs, next.Rigs, func(x, y *Rig) bool { return sameHead(&x.Head, &y.Head) }) {
		return q
	}
	for i := range next.Rigs {
		h := &next.Rigs[i].Head
		k := before.RigIndex(h.ID)
		if k < 0 || h.Name != "" || before.Rigs[k].Name != "" {
			continue
		}
		if was := RigName(before, k); was != RigName(next, i) {
			r := q.Rigs[i]
			r.Number = numberOf(was)
			q = WithRig(q, i, r)
		}
	}
	return q
}

// sameCalled tells at little cost that an edit changes no name: the things have
// what names are made of in the same order. It is asked on every frame of a drag.
func sameCalled(p *Plan, r *Rig, q *Plan, s *Rig) bool {
	a, b := &p.Site, &q.Site
	return sameHeads(a.Vehicles, b.Vehicles, func(x, y *Vehicle) bool {
		return sameHead(&x.Head, &y.Head) && (x.Stuck == nil) == (y.Stuck == nil) && (x.Winch == nil) == (y.Winch == nil)
	}) &&
		sameHeads(a.Anchors, b.Anchors, func(x, y *Anchor) bool { return sameHead(&x.Head, &y.Head) && x.Kind == y.Kind }) &&
		sameHeads(a.Obstacles, b.Obstacles, func(x, y *Obstacle) bool { return sameHead(&x.Head, &y.Head) && x.Kind == y.Kind }) &&
		sameHeads(a.People, b.People, func(x, y *Person) bool { return sameHead(&x.Head, &y.Head) && x.Role == y.Role }) &&
		sameHeads(a.Notes, b.Notes, func(x, y *Note) bool { return sameHead(&x.Head, &y.Head) }) &&
		sameHeads(a.Measures, b.Measures, func(x, y *Measure) bool { return sameHead(&x.Head, &y.Head) }) &&
		(r == nil || s == nil || sameParts(r, s))
}

func sameParts(r, s *Rig) bool {
	return sameHeads(r.Lines, s.Lines, func(x, y *Line) bool { return sameHead(&x.Head, &y.Head) }) &&
		sameHeads(r.Blocks, s.Blocks, func(x, y *Block) bool { return sameHead(&x.Head, &y.Head) && x.Kind == y.Kind }) &&
		sameHeads(r.Slings, s.Slings, func(x, y *Sling) bool { return sameHead(&x.Head, &y.Head) }) &&
		sameHeads(r.Shackles, s.Shackles, func(x, y *Shackle) bool { return sameHead(&x.Head, &y.Head) }) &&
		sameHeads(r.Dampers, s.Dampers, func(x, y *Damper) bool { return sameHead(&x.Head, &y.Head) })
}

func sameHeads[T any](a, b []T, same func(x, y *T) bool) bool {
	if len(a) != len(b) {
		return false
	}
	if len(a) == 0 || &a[0] == &b[0] {
		return true
	}
	for i := range a {
		if !same(&a[i], &b[i]) {
			return false
		}
	}
	return true
}

func sameHead(x, y *Head) bool { return x.ID == y.ID && x.Name == y.Name && x.Number == y.Number }

// kept are the numbers to put down: of things named after the same word before
// and after, whose number would change; and 0 for those that kept one under
// another word.
func kept(was, is map[ID]string, p *Plan, r *Rig, q *Plan, s *Rig) map[ID]int {
	stems := map[ID]string{}
	eachCalled(p, r, func(h *Head, word string) {
		if h.Name == "" {
			stems[h.ID] = stemOf(word)
		}
	})
	put := map[ID]int{}
	eachCalled(q, s, func(h *Head, word string) {
		stem, ok := stems[h.ID]
		switch {
		case !ok || h.Name != "":
			return
		case stem != stemOf(word):
			if h.Number > 0 {
				put[h.ID] = 0
			}
			return
		case was[h.ID] == is[h.ID]:
			return
		}
		if n := numberOf(was[h.ID]); n > 0 && n != h.Number {
			put[h.ID] = n
		}
	})
	return put
}

// numberOf is the number a name ends in, 0 if it ends in none.
func numberOf(name string) int {
	n, err := strconv.Atoi(name[strings.LastIndexByte(name, ' ')+1:])
	if err != nil || n < 0 || n > int(boundCount.high) {
		return 0
	}
	return n
}

// withNumbers is p with numbers put to things of its site.
func withNumbers(p *Plan, put map[ID]int) *Plan {
	q := *p
	s := &q.Site
	s.Vehicles = numberedIn(s.Vehicles, put, func(x *Vehicle) *Head { return &x.Head })
	s.Anchors = numberedIn(s.Anchors, put, func(x *Anchor) *Head { return &x.Head })
	s.Obstacles = numberedIn(s.Obstacles, put, func(x *Obstacle) *Head { return &x.Head })
	s.People = numberedIn(s.People, put, func(x *Person) *Head { return &x.Head })
	s.Notes = numberedIn(s.Notes, put, func(x *Note) *Head { return &x.Head })
	s.Measures = numberedIn(s.Measures, put, func(x *Measure) *Head { return &x.Head })
	return &q
}

// withRigNumbers is r with numbers put to its parts.
func withRigNumbers(r Rig, put map[ID]int) Rig {
	r.Lines = numberedIn(r.Lines, put, func(x *Line) *Head { return &x.Head })
	r.Blocks = numberedIn(r.Blocks, put, func(x *Block) *Head { return &x.Head })
	r.Slings = numberedIn(r.Slings, put, func(x *Sling) *Head { return &x.Head })
	r.Shackles = numberedIn(r.Shackles, put, func(x *Shackle) *Head { return &x.Head })
	r.Dampers = numberedIn(r.Dampers, put, func(x *Damper) *Head { return &x.Head })
	return r
}

// numberedIn is a list with numbers put to those of put; the list itself if it
// has none of them.
func numberedIn[T any](list []T, put map[ID]int, head func(*T) *Head) []T {
	out := list
	for i := range list {
		if n, ok := put[head(&list[i]).ID]; ok {
			if &out[0] == &list[0] {
				out = slices.Clone(list)
			}
			head(&out[i]).Number = n
		}
	}
	return out
}

package zone

import (
	"slices"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// sweptM, metres of travel, is over how much of it one hull is laid: a longer one
// covers more ground than is ever in the zone. (ours; at 1 m the area is by less
// than 1 % too large, and never too small)
const sweptM = 1.0

// track is one zone as it moves with the travel: of a kind, of a thing, the
// n-th of these.
type track struct {
	kind  part.ZoneKind
	thing plan.ID
	n     int
}

// Swept are the zones of a whole travel from those at its moments: the ground that
// is in a zone at any of them or between two that follow one another, joined for
// each kind and thing. atM are the places of the moments, metres, rising. A zone
// that stays as it is comes back as it is. Where an outline turns inwards the ground
// in the bend counts as inside while it moves: the hull is too much, never too little,
// and stands out by up to twice leanM more.
func Swept(atM []float64, moments [][]part.Zone) []part.Zone {
	if len(moments) == 1 {
		return moments[0]
	}
	var order []track
	of := map[track][]*part.Zone{} // of each moment; nil: it is not there
	for m, zones := range moments {
		count := map[track]int{}
		for i := range zones {
			t := track{kind: zones[i].Kind, thing: zones[i].Thing}
			t.n, count[t] = count[t], count[t]+1
			if of[t] == nil {
				of[t] = make([]*part.Zone, len(moments))
				order = append(order, t)
			}
			of[t][m] = &zones[i]
		}
	}
	var out []part.Zone
	joined := map[track]bool{}
	for _, t := range order {
		whole := track{kind: t.kind, thing: t.thing}
		if joined[whole] {
			continue
		}
		joined[whole] = true
		var pieces [][]plan.Point
		head := part.Zone{Kind: t.kind, Thing: t.thing}
		still := true
		for n := 0; ; n++ {
			tr := of[track{t.kind, t.thing, n}]
			if tr == nil {
				break
			}
			ps, same := sweep(atM, tr)
			still = still && same
			for _, z := range tr {
				if z != nil {
					head.Fact, head.Radius = z.Fact, max(head.Radius, z.Radius)
				}
			}
			pieces = append(pieces, ps...)
		}
		if !still {
			pieces = join(pieces)
		}
		for _, p := range pieces {
			z := head
			z.Outline = p
			out = append(out, z)
		}
	}
	return out
}

// sweep are the outlines that cover a zone at its moments and between them; still:
// it is the same at all of them.
func sweep(atM []float64, tr []*part.Zone) (pieces [][]plan.Point, still bool) {
	still = !slices.Contains(tr, nil)
	for i := 1; i < len(tr) && still; i++ {
		still = slices.Equal(tr[i].Outline, tr[0].Outline)
	}
	if still {
		return [][]plan.Point{tr[0].Outline}, true
	}
	var run []stretch // hulls that follow one another
	for from := 0; from < len(tr); {
		if tr[from] == nil {
			from++
			continue
		}
		all := slices.Clone(tr[from].Outline)
		to := from
		for to+1 < len(tr) && tr[to+1] != nil && (to == from || atM[to+1]-atM[from] <= sweptM) {
			to++
			all = append(all, tr[to].Outline...)
		}
		if h := lean(terrain.Hull(all)); h != nil {
			run = append(run, stretch{h, terrain.Area(h), from, to})
		}
		from = max(to, from+1)
		if to == len(tr)-1 {
			break
		}
	}
	for _, s := range longer(run, tr) {
		pieces = append(pieces, lean(s.hull))
	}
	return pieces, false
}

// stretch is the hull of a zone between two moments.
type stretch struct {
	hull     []plan.Point
	areaM2   float64
	from, to int
}

// excess is the share by which a hull over two stretches may cover more ground than
// the two do. (ours: nobody sees it, and fewer pieces are joined sooner)
const excess = 0.002

// longer are stretches joined two by two, as long as the hull over both covers hardly
// more: what moves straight on and does not turn becomes one.
func longer(run []stretch, tr []*part.Zone) []stretch {
	for {
		var next []stretch
		for i := 0; i < len(run); i++ {
			a := run[i]
			if i+1 == len(run) || run[i+1].from != a.to {
				next = append(next, a)
				continue
			}
			b := run[i+1]
			h := terrain.Hull(slices.Concat(a.hull, b.hull))
			area := terrain.Area(h)
			if both := a.areaM2 + b.areaM2 - terrain.Area(tr[a.to].Outline); h == nil || area > both*(1+excess) {
				next = append(next, a)
				continue
			}
			next = append(next, stretch{h, area, a.from, b.to})
			i++
		}
		if len(next) == len(run) {
			return next
		}
		run = next
	}
}

// join unites outlines two by two, neighbours first: an order of magnitude quicker
// than one after the other. A hole counts as inside. Outlines that cannot be
// joined stay as they are.
func join(pieces [][]plan.Point) [][]plan.Point {
	level := make([][][]plan.Point, len(pieces))
	for i, p := range pieces {
		level[i] = [][]plan.Point{p}
	}
	for len(level) > 1 {
		var next [][][]plan.Point
		for i := 0; i+1 < len(level); i += 2 {
			u, err := terrain.Union(slices.Concat(level[i], level[i+1]))
			if err != nil {
				return pieces
			}
			next = append(next, u)
		}
		if len(level)%2 == 1 {
			next = append(next, level[len(level)-1])
		}
		level = next
	}
	if len(level) == 0 {
		return nil
	}
	return level[0]
}

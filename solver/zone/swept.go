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
// that stays as it is comes back as it is. Where an outline turns inwards only
// the moments themselves are joined.
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
	for from := 0; from < len(tr); {
		if tr[from] == nil {
			from++
			continue
		}
		if !terrain.Convex(tr[from].Outline) {
			pieces = append(pieces, tr[from].Outline)
			from++
			continue
		}
		all := slices.Clone(tr[from].Outline)
		to := from
		for to+1 < len(tr) && tr[to+1] != nil && terrain.Convex(tr[to+1].Outline) && (to == from || atM[to+1]-atM[from] <= sweptM) {
			to++
			all = append(all, tr[to].Outline...)
		}
		if h := terrain.Hull(all); h != nil {
			pieces = append(pieces, h)
		}
		from = max(to, from+1)
		if to == len(tr)-1 {
			break
		}
	}
	return pieces, false
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

package zone

import (
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// DampedLine is a line with the weights laid over it. FlyA of a stretch tells
// that its end nearer the winch is the likelier to fly; else the far one is.
type DampedLine struct {
	ID        plan.ID
	Stretches []Stretch
	FlyA      []bool        // shorter or nil: false
	Joins     []plan.Join   // places from the hauling end, metres along the line
	Dampers   []plan.Damper // those of any line; others are left out
}

// Damping is where dampers belong: the share along a stretch from its hauling
// end at which one should lie, a third from the end likelier to fly.
type Damping struct {
	Stretch int
	Share   float64
}

// Dampers says where a line lacks its dampers: one on every stretch, one on
// each side of a join. Missing is a notice; a damper never shrinks a zone.
func Dampers(l DampedLine, found *[]part.Finding) []Damping {
	near := facts.DamperJoinNear.Value()
	lacks := make([]Damping, 0, len(l.Stretches))
	parts := make([]string, 0, len(l.Stretches))
	var at float64
	starts := make([]float64, len(l.Stretches)+1)
	for i, s := range l.Stretches {
		starts[i] = at
		at += dist(s.A, s.B)
		has := false
		for _, d := range l.Dampers {
			has = has || d.Line == l.ID && d.Stretch == i
		}
		if has {
			continue
		}
		share := 1 - facts.DamperPlace.Value()
		if i < len(l.FlyA) && l.FlyA[i] {
			share = facts.DamperPlace.Value()
		}
		lacks = append(lacks, Damping{i, share})
		parts = append(parts, s.Part)
	}
	starts[len(l.Stretches)] = at
	if found != nil && len(lacks) > 0 {
		s := l.Stretches[lacks[0].Stretch]
		f := raise(found, "damper-missing", part.Notice, []plan.ID{l.ID},
			part.Count("missing", len(lacks)), part.Count("of", len(l.Stretches)),
			part.Length("from", lacks[0].Share*dist(s.A, s.B)))
		f.Parts, f.Remedies = parts, make([]part.Remedy, 0, len(lacks))
		for _, k := range lacks {
			f.Remedies = append(f.Remedies, part.Remedy{Do: "add-damper", Thing: l.ID,
				Value: part.Number(l.Stretches[k.Stretch].Part, part.UnitShare, k.Share)})
		}
	}
	for _, j := range l.Joins {
		x := float64(j.At)
		if !finite(x) || !(x > 0) || x >= at {
			continue // on the drum, or past the end of the path
		}
		before, after := false, false
		for _, d := range l.Dampers {
			if d.Line != l.ID || d.Stretch < 0 || d.Stretch >= len(l.Stretches) {
				continue
			}
			p := starts[d.Stretch] + d.Share*(starts[d.Stretch+1]-starts[d.Stretch])
			before = before || p <= x && x-p <= near
			after = after || p >= x && p-x <= near
		}
		if found != nil && !(before && after) {
			raise(found, "damper-at-join", part.Notice, []plan.ID{l.ID}, part.Length("join", x), part.Length("near", near))
		}
	}
	return lacks
}

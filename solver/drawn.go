package solver

import (
	"slices"

	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// speakAsDrawn adds what the other rules find where a rig is refused for want of
// the length of a sling alone: with the sling as long as it is drawn, its loads
// are not known, but who stands where, what a line meets and what gives way on
// the drawing is said all the same.
func (a *concluding) speakAsDrawn() {
	if a.whyNot != "sling-length-unknown" || !a.refused {
		return
	}
	q, rig := *a.g.p, *a.g.r
	rig.Slings = slices.Clone(rig.Slings)
	for i := range a.g.slings {
		if s := &rig.Slings[i]; !(s.Length > 0) && !a.g.restrains[s.ID] {
			s.Length = a.drawnLength(&a.g.slings[i])
		}
	}
	at := q.RigIndex(rig.ID)
	if at < 0 {
		return
	}
	b := assess(plan.WithRig(&q, at, rig), rig.ID, "", nil).out
	for _, f := range b.Findings {
		if f.Level >= part.Caution && !slices.ContainsFunc(a.out.Findings, func(g part.Finding) bool { return g.Key() == f.Key() }) {
			a.find(f)
		}
	}
}

// drawnLength is how long a sling is that holds its end where it is drawn, at
// least a hand's breadth.
func (a *laying) drawnLength(rs *riggedSling) quantity.Length {
	if rs.from < 0 || rs.to < 0 {
		return leastDrawn
	}
	from, to := a.at(rs.from), a.at(rs.to)
	to.Z = from.Z // how high it will hang is not drawn
	reach := lengthOf(from, to)
	if b := a.g.things.Block(rs.sling.Holds.Thing); b != nil {
		reach -= b.HeadLength
	}
	if reach = max(reach, leastDrawn); !rs.onTrunk || !(rs.radius > 0) {
		return reach
	}
	hitch := Hitch(rs.sling, true)
	low, high := quantity.Length(0), 8*(rs.radius+reach) // twice round and there and back
	for range 40 {
		l := (low + high) / 2
		if r := gear.SlingRound(rs.radius, l, hitch); r.Closes && r.Reach >= reach {
			high = l
		} else {
			low = l
		}
	}
	return high
}

// leastDrawn is the shortest sling that anybody uses, metres (ours).
const leastDrawn quantity.Length = 0.1

package gear

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Bend is what a stretch turns round at one of its ends. The zero value is no
// bend.
type Bend struct {
	Thing    plan.ID          // the block or ring, for findings
	Turn     quantity.Degrees // how far the line turns there; 0: it goes straight on
	Diameter quantity.Length  // of the sheave's tread, ring or edge; 0: not known
	Member   string           // the thing's member that has it; empty: none has
}

// leastTurn, degrees: under it a line is not bent. The loss hardly depends on
// the angle, even small bends count (handbook, bend.wire-c); this only keeps
// rounding of the equilibrium from being a bend.
const leastTurn = 0.5

// bent reports whether the line is bent there.
func (b Bend) bent() bool { return !(float64(b.Turn) < leastTurn) }

// bendKeeps is the share of its strength that a line keeps at a bend of ratio D/d,
// sheave over line diameter: wire 1 − 0.5/√(D/d), fibre by steps, nothing in
// between. ok is false below the table (D/d under 1), for chain, for an unknown
// material and for a ratio that cannot be.
//
// Source: IMCA M 179 as adopted in 0027/ND (wire); common practice (fibre).
func bendKeeps(material string, ratio float64) (facts.Figure, bool) {
	if !(ratio >= 1) {
		return facts.Figure{}, false
	}
	switch {
	case material == plan.MaterialWire:
		f := facts.BendWireC.Conservative()
		f.X = 1 - f.X/math.Sqrt(ratio)
		return f, true
	case material == plan.MaterialHMPE:
		return stepped(facts.Must(facts.BendHMPE), facts.BendHMPE.Table(), ratio)
	case synthetic(material):
		return stepped(facts.Must(facts.BendFibre), facts.BendFibre.Table(), ratio)
	}
	return facts.Figure{}, false
}

// stepped reads a floor table; beyond its last key the last value stays, for a
// larger sheave bends no more.
func stepped(row *facts.Row, head facts.Figure, ratio float64) (facts.Figure, bool) {
	const lastKey = 1000 // of the bend tables
	x, ok := row.Step(math.Min(ratio, lastKey))
	head.X = x
	return head, ok
}

// worstBend is the lower of the shares kept at the two ends of a stretch. A
// sheave whose diameter is not known counts as no thicker than the line, and
// so does a line of unknown diameter; whether the line can bend there at all is
// then not decided. ok is false where it cannot.
func worstBend(l *plan.Line, bends [2]Bend, where at, found *[]part.Finding) (worst facts.Figure, any, ok bool) {
	worst.X = 1
	for _, bend := range bends {
		if !bend.bent() {
			continue
		}
		any = true
		ratio := 1.0
		switch d, line := float64(bend.Diameter), float64(l.Diameter); {
		case !positive(d) || !positive(line):
			about := bend.Thing
			if !positive(line) {
				about = l.ID
			}
			raise(found, "bend-unknown", part.Notice, at{thing: about}, &part.Remedy{Do: "type-diameter", Thing: about})
			if !positive(line) {
				part.NotDecided(found, "bend-too-sharp", l.ID, member(l.ID, "diameter_m"))
			}
			if !positive(d) && bend.Member != "" {
				part.NotDecided(found, "bend-too-sharp", l.ID, member(bend.Thing, bend.Member))
			}
		default:
			ratio = d / line
		}
		share, known := bendKeeps(l.Material, ratio)
		if !known {
			raise(found, "bend-too-sharp", part.Danger, where, nil,
				part.Number("ratio", part.UnitNone, ratio))
			with(found, bend.Thing)
			return facts.Figure{}, true, false
		}
		if share.X < worst.X {
			worst = share
		}
	}
	return worst, any, true
}

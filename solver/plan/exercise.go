package plan

import "github.com/go-json-experiment/json/jsontext"

// Exercise is what the printed exercise of a rig asks, and of whom. It changes no
// figure: a reader that does not know it overlooks nothing dangerous.
type Exercise struct {
	Questions []string       `json:"questions,omitempty"` // as the command line writes them, "load:B1"; none: the usual ones
	Blanks    []string       `json:"blanks,omitempty"`    // ids of parts whose figures are left blank on the drawing
	Variants  int            `json:"variants,omitzero"`   // 0 and 1: the plan itself
	Vary      string         `json:"vary,omitzero"`       // what differs from variant to variant, "mass=20%,place=1.5"; empty: the usual
	Names     []string       `json:"names,omitempty"`     // of a class, one a variant
	Extra     jsontext.Value `json:",embed"`
}

// WithExercise is p with x as the exercise of the rig at i; nil takes it away.
func WithExercise(p *Plan, i int, x *Exercise) *Plan {
	if i < 0 || i >= len(p.Rigs) {
		return p
	}
	r := p.Rigs[i]
	r.Exercise = x
	return WithRig(p, i, r)
}

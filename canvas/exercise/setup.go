package exercise

import (
	"math"
	"reflect"
	"strconv"
	"strings"

	"kedge/solver/plan"
)

// Setup is what an exercise asks, and of whom, as it is kept in the plan. The zero
// value asks the usual questions of the plan itself.
type Setup struct {
	Questions []Question
	Blanks    []string // ids of parts
	Variants  int      // 0 and 1: the plan itself
	Vary      Vary     // zero: the usual
	Names     []string // of a class, one a variant
}

// SetupOf is that of a rig; the error, [ErrOption], is that of a question or range
// that this version does not know.
func SetupOf(p *plan.Plan, rig plan.ID) (Setup, error) {
	r, ok := p.Rig(rig)
	if !ok || r.Exercise == nil {
		return Setup{}, nil
	}
	x := r.Exercise
	s := Setup{Blanks: x.Blanks, Variants: x.Variants, Names: x.Names}
	for _, text := range x.Questions {
		q, err := ParseQuestion(text)
		if err != nil {
			return Setup{}, err
		}
		s.Questions = append(s.Questions, q)
	}
	if x.Vary != "" {
		v, err := ParseVary(x.Vary)
		if err != nil {
			return Setup{}, err
		}
		s.Vary = v
	}
	return s, nil
}

// Kept is the setup as a rig keeps it, with the members of old that are not known;
// nil if there is nothing to keep.
func (s Setup) Kept(old *plan.Exercise) *plan.Exercise {
	x := plan.Exercise{Blanks: s.Blanks, Names: s.Names}
	if s.Variants > 1 {
		x.Variants = s.Variants
	}
	for _, q := range s.Questions {
		x.Questions = append(x.Questions, q.String())
	}
	if !s.Vary.IsZero() && !reflect.DeepEqual(s.Vary, UsualVary()) {
		x.Vary = s.Vary.String()
	}
	if old != nil {
		x.Extra = old.Extra
	}
	if len(x.Questions)+len(x.Blanks)+len(x.Names)+len(x.Extra) == 0 && x.Variants == 0 && x.Vary == "" {
		return nil
	}
	return &x
}

// String is the question as the command line writes it and [ParseQuestion] reads it.
func (q Question) String() string {
	switch {
	case q.Kind == AskWhatIf:
		return string(q.Kind) + ":" + string(q.Rig) + ":" + q.Part
	case q.Part != "":
		return string(q.Kind) + ":" + q.Part
	}
	return string(q.Kind)
}

// String is what varies as the command line writes it and [ParseVary] reads it.
func (v Vary) String() string {
	var all []string
	add := func(name string, x float64, unit string) {
		if x != 0 {
			all = append(all, name+"="+strconv.FormatFloat(x, 'g', -1, 64)+unit)
		}
	}
	share := func(name string, x float64) {
		if percent := math.Round(x*1e12) / 1e10; percent/100 == x {
			add(name, percent, "%")
		} else {
			add(name, x, "") // of no round percentage each digit counts
		}
	}
	share("mass", v.MassShare)
	add("place", v.PlaceM, "")
	share("trunks", v.Trunks)
	add("turn", v.TurnDeg, "")
	if len(v.Lengths) > 0 {
		each := make([]string, len(v.Lengths))
		for i, l := range v.Lengths {
			each[i] = strconv.FormatFloat(float64(l), 'g', -1, 64)
		}
		all = append(all, "slings="+strings.Join(each, "/"))
	}
	return strings.Join(all, ",")
}

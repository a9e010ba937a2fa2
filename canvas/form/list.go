package form

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// What parts the figures of one line of a list.
const listSign = ";"

// showList is a list as it would be typed, one entry a line.
func showList(v reflect.Value, sys quantity.System) string {
	var lines []string
	switch list := v.Interface().(type) {
	case []plan.Point:
		for _, p := range list {
			lines = append(lines, unitLength.typed(p.X, sys)+" "+listSign+" "+unitLength.typed(p.Y, sys))
		}
	case []plan.PicturePoint:
		for _, q := range list {
			lines = append(lines, showPair(q, sys))
		}
	case []plan.Join:
		for _, j := range list {
			lines = append(lines, showJoin(j, sys))
		}
	case []plan.Stage:
		for _, g := range list {
			lines = append(lines, showStage(g, sys))
		}
	case []plan.Port:
		for _, p := range list {
			lines = append(lines, p.String())
		}
	case []string:
		lines = list
	}
	return strings.Join(lines, "\n")
}

func showJoin(j plan.Join, sys quantity.System) string {
	s := unitLength.typed(float64(j.At), sys)
	if j.Kind != "" || j.Mass != 0 {
		s += " " + listSign + " " + j.Kind
	}
	if j.Mass != 0 {
		s += " " + listSign + " " + unitMass.typed(float64(j.Mass), sys)
	}
	return s
}

func showStage(g plan.Stage, sys quantity.System) string {
	s := unitLength.typed(float64(g.After), sys) + " " + listSign + " " + g.Depth
	if g.Surface != "" {
		s += " " + listSign + " " + g.Surface
	}
	return s
}

// list puts a list typed one entry a line; blank lines are passed over. Entries
// that say what stands in their place already stay as they are.
func (e *editor) list(to reflect.Value, m member, given string) error {
	var lines []string
	for l := range strings.Lines(given) {
		if l = strings.TrimSpace(l); l != "" {
			lines = append(lines, l)
		}
	}
	if strings.Join(lines, "\n") == showList(to, e.sys) {
		return nil
	}
	var err error
	switch was := to.Interface().(type) {
	case []plan.Point:
		err = setLines(to, was, lines, e.point)
	case []plan.PicturePoint:
		err = setLines(to, was, lines, e.pair)
	case []plan.Join:
		err = setLines(to, was, lines, e.join)
	case []plan.Stage:
		err = setLines(to, was, lines, e.stage)
	case []plan.Port:
		ports := e.choices(m)
		err = setLines(to, was, lines, func(l string, old plan.Port) (plan.Port, error) {
			if l == old.String() {
				return old, nil
			}
			s, err := matchChoice(l, ports, false)
			return portOf(s), err
		})
	case []string:
		knots := e.choices(m)
		err = setLines(to, was, lines, func(l string, old string) (string, error) {
			if l == old {
				return old, nil
			}
			return matchChoice(l, knots, false)
		})
	default:
		err = fmt.Errorf("%w: %q", ErrNoMember, m.path)
	}
	return err
}

func (e *editor) choices(m member) []Choice {
	c := teller{p: e.p, rig: e.rig, thing: e.t, w: e.w, names: e.w.Names(e.p, e.rig)}
	return c.choices(m)
}

func setLines[T any](to reflect.Value, was []T, lines []string, read func(line string, old T) (T, error)) error {
	var list []T
	for i, l := range lines {
		var old T
		if i < len(was) {
			old = was[i]
		}
		x, err := read(l, old)
		if err != nil {
			return err
		}
		list = append(list, x)
	}
	to.Set(reflect.ValueOf(list))
	return nil
}

// point reads "16.5 ; 6.5".
func (e *editor) point(line string, old plan.Point) (plan.Point, error) {
	x, y, ok := strings.Cut(line, listSign)
	if !ok || strings.Contains(y, listSign) {
		return old, refusedText(line, quantity.NotNumber, noPoint, "16.5 ; 6.5")
	}
	if err := e.figure(&old.X, x, unitLength, true); err != nil {
		return old, err
	}
	return old, e.figure(&old.Y, y, unitLength, true)
}

// join reads "12.5 ; shackle ; 0.9": where from the winch, what, its mass.
func (e *editor) join(line string, old plan.Join) (plan.Join, error) {
	parts := strings.Split(line, listSign)
	if len(parts) > 3 {
		return old, refusedText(line, quantity.NotNumber, noJoin, "12.5 ; shackle ; 0.9")
	}
	if err := e.figure((*float64)(&old.At), parts[0], unitLength, false); err != nil {
		return old, err
	}
	parts = append(slices.Clone(parts), "", "")
	if kind := strings.TrimSpace(parts[1]); kind != old.Kind {
		old.Kind = kind
	}
	if strings.TrimSpace(parts[2]) == "" {
		old.Mass = 0
		return old, nil
	}
	return old, e.figure((*float64)(&old.Mass), parts[2], unitMass, false)
}

// stage reads "2 ; none ; roll.gravel-firm": from where along the way, how deep it
// lies there, on what.
func (e *editor) stage(line string, old plan.Stage) (plan.Stage, error) {
	parts := strings.Split(line, listSign)
	if len(parts) < 2 || len(parts) > 3 {
		return old, refusedText(line, quantity.NotNumber, noStage, "2 ; none")
	}
	if err := e.figure((*float64)(&old.After), parts[0], unitLength, false); err != nil {
		return old, err
	}
	parts = append(parts, "")
	for i, to := range []*string{&old.Depth, &old.Surface} {
		given := strings.TrimSpace(parts[i+1])
		if given == *to {
			continue
		}
		if *to = ""; given == "" {
			continue
		}
		var err error
		if *to, err = matchChoice(given, e.choices(aChoice("", [...]string{"depth", "surface"}[i])), false); err != nil {
			return old, err
		}
	}
	return old, nil
}

// figure puts a single figure, unless it is the same as it was shown.
func (e *editor) figure(to *float64, given string, u unit, signed bool) error {
	given = strings.TrimSpace(given)
	if given == u.typed(*to, e.sys) {
		return nil
	}
	x, err := u.read(given, e.sys, signed, false)
	if err == nil {
		*to = x.value
	}
	return err
}

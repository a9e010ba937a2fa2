package statics

import (
	"errors"
	"fmt"
	"math"

	"github.com/golang/geo/r3"
)

// ErrRig is wrapped by every error of Rig.Validate.
var ErrRig = errors.New("statics: not a rig")

type faultKind uint8

const (
	faultNone faultKind = iota
	faultPointPos
	faultPointKind
	faultPointBody
	faultBody
	faultPathShort
	faultPathPoint
	faultPathSame
	faultSheaveCount
	faultSheave
	faultTension
	faultLength
	faultCompliance
	faultSlingPoint
	faultSlingLength
	faultSlingStiffness
	faultLoad
)

// fault is what is wrong with a rig: kept small so that checking allocates nothing.
type fault struct {
	kind faultKind
	i, j int
}

// Validate reports the first thing that makes the rig unfit to solve, nil if
// none. The error wraps ErrRig and names the thing by its index.
func (r *Rig) Validate() error {
	f := r.check()
	var s string
	switch f.kind {
	case faultNone:
		return nil
	case faultPointPos:
		s = fmt.Sprintf("point %d: place is not finite", f.i)
	case faultPointKind:
		s = fmt.Sprintf("point %d: unknown kind", f.i)
	case faultPointBody:
		s = fmt.Sprintf("point %d: no such body", f.i)
	case faultBody:
		s = fmt.Sprintf("body %d: reference or motion is not finite", f.i)
	case faultPathShort:
		s = fmt.Sprintf("line %d: path has fewer than two points", f.i)
	case faultPathPoint:
		s = fmt.Sprintf("line %d: path entry %d is no point", f.i, f.j)
	case faultPathSame:
		s = fmt.Sprintf("line %d: path entries %d and %d are the same point", f.i, f.j-1, f.j)
	case faultSheaveCount:
		s = fmt.Sprintf("line %d: need one sheave for each inner point", f.i)
	case faultSheave:
		s = fmt.Sprintf("line %d: sheave %d: efficiency not in (0, 1], friction negative or model unknown", f.i, f.j)
	case faultTension:
		s = fmt.Sprintf("line %d: tension is negative or not finite", f.i)
	case faultLength:
		s = fmt.Sprintf("line %d: length is negative or not finite", f.i)
	case faultCompliance:
		s = fmt.Sprintf("line %d: compliance is negative or not finite", f.i)
	case faultSlingPoint:
		s = fmt.Sprintf("sling %d: needs two different points", f.i)
	case faultSlingLength:
		s = fmt.Sprintf("sling %d: length is negative, not finite, or zero as drawn", f.i)
	case faultSlingStiffness:
		s = fmt.Sprintf("sling %d: stiffness is negative or not a number", f.i)
	case faultLoad:
		s = fmt.Sprintf("load %d: needs a free point and a finite force", f.i)
	}
	return fmt.Errorf("%w: %s", ErrRig, s)
}

func finite(x float64) bool { return x-x == 0 }

func finite3(v r3.Vector) bool { return finite(v.X) && finite(v.Y) && finite(v.Z) }

// amount reports whether x is finite and not negative.
func amount(x float64) bool { return x >= 0 && x <= math.MaxFloat64 }

func (s *Sheave) sound() bool {
	switch s.Model {
	case ByWrap, Constant:
		return s.Eta > 0 && s.Eta <= 1
	case Ring:
		return amount(s.Mu)
	}
	return false
}

func (r *Rig) check() fault {
	for i := range r.Points {
		p := &r.Points[i]
		switch {
		case !finite3(p.Pos):
			return fault{faultPointPos, i, 0}
		case p.Kind > OnBody:
			return fault{faultPointKind, i, 0}
		case p.Kind == OnBody && (p.Body < 0 || p.Body >= len(r.Bodies)):
			return fault{faultPointBody, i, 0}
		}
	}
	for i := range r.Bodies {
		if !finite3(r.Bodies[i].RefM) || !finite3(r.Bodies[i].Motion) || !finite(r.Bodies[i].TurnPerM) {
			return fault{faultBody, i, 0}
		}
	}
	for i := range r.Lines {
		if f := r.checkLine(i); f.kind != faultNone {
			return f
		}
	}
	for i := range r.Slings {
		s := &r.Slings[i]
		switch {
		case uint(s.A) >= uint(len(r.Points)) || uint(s.B) >= uint(len(r.Points)) || s.A == s.B:
			return fault{faultSlingPoint, i, 0}
		case !amount(s.LengthM) || (s.LengthM == 0 && r.Points[s.A].Pos == r.Points[s.B].Pos):
			return fault{faultSlingLength, i, 0}
		case !(s.StiffnessNPerM >= 0):
			return fault{faultSlingStiffness, i, 0}
		}
	}
	for i := range r.Loads {
		l := &r.Loads[i]
		if uint(l.Point) >= uint(len(r.Points)) || r.Points[l.Point].Kind != Free || !finite3(l.ForceN) {
			return fault{faultLoad, i, 0}
		}
	}
	return fault{}
}

func (r *Rig) checkLine(i int) fault {
	l := &r.Lines[i]
	if len(l.Path) < 2 {
		return fault{faultPathShort, i, 0}
	}
	for j, p := range l.Path {
		if uint(p) >= uint(len(r.Points)) {
			return fault{faultPathPoint, i, j}
		}
		if j > 0 && p == l.Path[j-1] {
			return fault{faultPathSame, i, j}
		}
	}
	if len(l.Sheaves) != len(l.Path)-2 {
		return fault{faultSheaveCount, i, 0}
	}
	for j := range l.Sheaves {
		if !l.Sheaves[j].sound() {
			return fault{faultSheave, i, j}
		}
	}
	switch {
	case l.Drum && !amount(l.TensionN):
		return fault{faultTension, i, 0}
	case !amount(l.LengthM):
		return fault{faultLength, i, 0}
	case !amount(l.ComplianceMPerN):
		return fault{faultCompliance, i, 0}
	}
	return fault{}
}

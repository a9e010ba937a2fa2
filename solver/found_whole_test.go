package solver_test

import (
	"fmt"
	"reflect"
	"sync/atomic"
	"testing"

	"github.com/golang/geo/r3"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// A found plan is one that a file can hold, and its answer is sound.
func TestFoundPlansCanBeStored(t *testing.T) {
	eachFound(t, func(f *foundOne) {
		data, err := plan.FormatPlan(f.p)
		if err == nil {
			_, err = plan.ParsePlan(data)
		}
		if err != nil {
			t.Errorf("seed %d: %v", f.seed, err)
		}
		if fault := unsound(f.a); fault != "" {
			t.Errorf("seed %d: %s", f.seed, fault)
		}
	})
}

// A member that this version does not know never leaves an answer settled, on
// whatever thing it stands.
func TestFoundUnknownMemberNeverSettles(t *testing.T) {
	eachFound(t, func(f *foundOne) {
		if f.a.Verdict() != solver.Settled {
			return
		}
		q := copied(f.p)
		all := extras(reflect.ValueOf(&q.Site).Elem(), "site")
		all = append(all, extras(reflect.ValueOf(&q.Rigs[0]).Elem(), "rig")...)
		for i, x := range all {
			if skips(f.seed, i) {
				continue
			}
			x.raw.SetBytes([]byte(`{"nobody_knows":1}`))
			if b := solver.Assess(q, "R1"); b.Verdict() == solver.Settled {
				t.Errorf("seed %d: settled with an unknown member of %s", f.seed, x.where)
			}
			x.raw.SetZero()
		}
	})
}

// unknownIn is where a thing keeps members that are not known.
type unknownIn struct {
	raw   reflect.Value
	where string
}

// extras are all such places of a plan, its parts and things.
func extras(v reflect.Value, where string) (all []unknownIn) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			return extras(v.Elem(), where)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Field(i)
			if v.Type().Field(i).Name == "Extra" {
				all = append(all, unknownIn{f, where})
			} else {
				all = append(all, extras(f, where+"."+v.Type().Field(i).Name)...)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			all = append(all, extras(v.Index(i), fmt.Sprintf("%s[%d]", where, i))...)
		}
	}
	return all
}

// Where a loaded part lies is inside a drawn zone of what may fly there, or
// people are told that zones are missing.
func TestFoundLoadHasAZone(t *testing.T) {
	eachFound(t, func(f *foundOne) {
		a := f.a
		if a.ZonesPartly() {
			for i := range a.People {
				if !a.People[i].Partly {
					t.Errorf("seed %d: %s is not told that zones are missing", f.seed, a.People[i].Person)
				}
			}
			return
		}
		for i := range a.Parts {
			p := &a.Parts[i]
			if p.Status == part.Slack || !(p.Move.Known && p.Move.Force > 0) && !(p.Stall.Known && p.Stall.Force > 0) {
				continue
			}
			for _, at := range placesOf(f.p, a, p) {
				if !flies(a, at) {
					t.Errorf("seed %d: %s carries %v and has no zone at %v", f.seed, p.ID, p.Move.Force, at)
				}
			}
		}
	})
}

// placesOf are where a part lies, seen from above: none of a vehicle's.
func placesOf(p *plan.Plan, a *solver.Assessment, q *part.Part) (at []plan.Point) {
	add := func(v r3.Vector) { at = append(at, plan.Point{X: v.X, Y: v.Y}) }
	switch q.Kind {
	case part.KindStretch:
		for i := range a.Stretches {
			if s := &a.Stretches[i]; s.Part == q.ID {
				add(s.A.Add(s.B).Mul(0.5))
			}
		}
	case part.KindSling:
		for i := range a.Slings {
			if s := &a.Slings[i]; s.Sling == q.Thing {
				add(s.Centre.Add(s.Apex).Mul(0.5))
			}
		}
	case part.KindBlock, part.KindShackle:
		for i := range a.Nodes {
			if n := &a.Nodes[i]; n.Thing == q.Thing {
				add(n.At)
			}
		}
	case part.KindAnchor:
		if t, ok := p.Anchor(q.Thing); ok {
			at = append(at, t.At)
		}
	}
	return at
}

// flies reports whether a place is inside a zone of what parts or lets go.
func flies(a *solver.Assessment, at plan.Point) bool {
	for i := range a.Zones {
		z := &a.Zones[i]
		switch z.Kind {
		case part.ZoneRecoil, part.ZoneBight, part.ZoneRelease:
			if surrounds(z.Outline, at) {
				return true
			}
		}
	}
	return false
}

// surrounds reports whether a place is inside an outline: an odd number of its edges lie
// east of it.
func surrounds(outline []plan.Point, at plan.Point) (in bool) {
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a.Y > at.Y) != (b.Y > at.Y) && at.X < a.X+(at.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

// What draws on the ground draws as much back: the loads on all anchors, points
// and winches cancel at each pull. Added anew from the parts of plans in which
// each part takes its load from one balance: no end of friction is worse than the
// other, no leg or chain is computed with more than its share, and nothing is
// tied or held back.
func TestFoundWorldBalances(t *testing.T) {
	var tried atomic.Int64
	eachFound(t, func(f *foundOne) {
		a := f.a
		if a.Status != part.Within || !f.plain() {
			return
		}
		for name, load := range map[string]func(*part.Part) part.Load{
			"to move":        func(p *part.Part) part.Load { return p.Move },
			"to break loose": func(p *part.Part) part.Load { return p.Loosen },
			"at stall":       func(p *part.Part) part.Load { return p.Stall },
		} {
			var sum r3.Vector
			most := 0.0
			for i := range a.Parts {
				switch p := &a.Parts[i]; p.Kind {
				case part.KindAnchor, part.KindPoint, part.KindWinch:
					if l := load(p); l.Known {
						sum, most = sum.Add(l.Vec), max(most, l.Vec.Norm())
					}
				}
			}
			if sum.Norm() > 1e-6*most {
				t.Errorf("seed %d, %s: %v N are left of %v", f.seed, name, sum, most)
			}
		}
		tried.Add(1)
	})
	if n := int(tried.Load()); n < len(foundAll())/20 {
		t.Errorf("only %d plans were added up", n)
	}
}

// plain reports whether each load of a plan is of one balance alone.
func (f *found) plain() bool {
	if len(f.aside) > 0 || len(f.r.Lines) > 1 {
		return false
	}
	for i := range f.r.Blocks {
		if b := &f.r.Blocks[i]; b.Kind == plan.BlockRing || !(b.Efficiency > 0) {
			return false
		}
	}
	for i := range f.r.Slings {
		if f.leg(f.r.Slings[i].ID) {
			return false
		}
	}
	return true
}

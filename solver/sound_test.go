package solver_test

import (
	"fmt"
	"os"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
)

// Properties of any assessment whatever the plan: no panic, no figure that is
// no number, nothing within a limit that nobody knows.

// unsound says what is wrong with an assessment; empty for nothing.
func unsound(a *solver.Assessment) string {
	if path := seeded.NotANumber(*a); path != "" {
		return path + " is no number"
	}
	complete := len(a.Parts) > 0
	for i := range a.Parts {
		p := &a.Parts[i]
		most := max(p.Used, p.UsedToLoosen())
		within := p.Status == part.Within || p.Status == part.Near || p.Status == part.Over
		switch {
		case within && !p.Known() && !(p.Status == part.Over && p.Limit.Known): // a limit of zero is one
			return fmt.Sprintf("%s is %v of a limit nobody knows", p.ID, p.Status)
		case within && !(p.Used >= 0):
			return fmt.Sprintf("%s is used %v", p.ID, p.Used)
		case p.Status == part.Within && !(most < part.NearShare), p.Status == part.Near && !(most < 1), p.Status == part.Over && most < 1:
			return fmt.Sprintf("%s is %v at %v", p.ID, p.Status, most)
		case p.Limit.Known && !(p.Limit.Force > 0 || p.Limit.Force == 0 && p.Status != part.Within && p.Status != part.Near):
			return fmt.Sprintf("%s has a limit of %v", p.ID, p.Limit.Force)
		case p.Limit.Known && p.Limit.Force > mostHoldN && (p.Kind == part.KindSlide || p.Kind == part.KindTip || p.Ultimate.Known && p.Ultimate.High > mostHoldN && p.Kind == part.KindAnchor):
			return fmt.Sprintf("%s holds %v: no line is made for that", p.ID, p.Limit.Force)
		case p.Limit.Known && p.Limit.Basis == "":
			return fmt.Sprintf("%s has a limit on no basis", p.ID)
		case p.Ultimate.Known && !(p.Ultimate.Low <= p.Ultimate.Likely && p.Ultimate.Likely <= p.Ultimate.High):
			return fmt.Sprintf("%s gives at %v", p.ID, p.Ultimate)
		case a.Status == part.Refused && (p.Move.Known || p.Stall.Known):
			return fmt.Sprintf("%s has a load in a refused rig", p.ID)
		}
		complete = complete && (within || p.Status == part.Slack || p.Kind == part.KindFairlead)
	}
	if a.Complete && (!complete || !a.Move.Known || a.Status != part.Within) {
		return "complete, but not all of it is computed"
	}
	return ""
}

// mostHoldN, newtons, is more than any vehicle or anchor of a plan holds: twenty
// times what winch lines are made for. (ours)
const mostHoldN = 1e7

// withoutRating are the things of a plan that nobody rated, by part id.
func withoutRating(p *plan.Plan) map[string]bool {
	none := map[string]bool{}
	r := &p.Rigs[0]
	for i := range r.Blocks {
		none[string(r.Blocks[i].ID)] = !r.Blocks[i].Rating.Known()
	}
	for i := range r.Slings {
		none[string(r.Slings[i].ID)] = !r.Slings[i].Rating.Known()
	}
	for i := range r.Shackles {
		none[string(r.Shackles[i].ID)] = !r.Shackles[i].Rating.Known()
	}
	for i := range r.Lines {
		for k := range r.Lines[i].Path {
			none[fmt.Sprintf("%s/%d", r.Lines[i].ID, k+1)] = !r.Lines[i].Rating.Known()
		}
	}
	for i := range p.Site.Vehicles {
		v := &p.Site.Vehicles[i]
		for k := range v.Recovery {
			none[plan.Port{Thing: v.ID, Point: v.Recovery[k].ID}.String()] = !v.Recovery[k].Rating.Known()
		}
		none[string(v.ID)+"/winch"] = v.Winch == nil || !(v.Winch.LinePull > 0)
	}
	return none
}

// anyMixture draws up to four of the findings' changes, one over the other.
func anyMixture(t *rapid.T) *plan.Plan {
	all := allCases()
	p := basePlan()
	for i := range rapid.IntRange(1, 4).Draw(t, "changes") {
		c := all[rapid.IntRange(0, len(all)-1).Draw(t, fmt.Sprint("case", i))]
		apply := c.raise
		if rapid.Bool().Draw(t, fmt.Sprint("clear", i)) {
			apply = c.clear
		}
		if apply == nil {
			continue
		}
		if !applied(p, apply) {
			t.Skip("the changes do not go together")
		}
	}
	data, err := plan.FormatPlan(p)
	if err != nil {
		t.Skip("the changes do not go together")
	}
	if p, err = plan.ParsePlan(data); err != nil {
		t.Skip("the changes do not go together")
	}
	return p
}

// applied makes a change; false where an earlier one took away what it is of.
func applied(p *plan.Plan, c change) (ok bool) {
	defer func() { ok = recover() == nil }()
	c(p)
	return true
}

// Findings together: whatever comes together, the answer is sound, each finding
// is one of the rules', and nothing without a rating is within one.
func TestAnyMixtureIsSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyMixture(t)
		a := solver.Assess(p, "R1")
		if fault := unsound(a); fault != "" {
			t.Fatal(fault)
		}
		checkFindings(t, p, a)
		for id, none := range withoutRating(p) {
			if q, ok := a.Part(id); ok && none && q.Limit.Known {
				t.Fatalf("%s has a limit of %v and no rating", id, q.Limit.Force)
			}
		}
		for i := range a.Parts {
			if _, err := solver.Explain(p, "R1", a.Parts[i].ID); err != nil {
				t.Fatal(err)
			}
		}
	})
}

// A tag that is read as breaking strength instead of a working limit never
// raises a limit, of that thing or any other.
func TestBreakingNeverRaisesALimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyMixture(t)
		data, _ := plan.FormatPlan(p)
		q, _ := plan.ParsePlan(data)
		ratings := ratingsOf(q)
		was := make([]plan.RatingBasis, len(ratings))
		for i, r := range ratings {
			was[i] = r.Basis
			if r.Basis == plan.BasisWorking {
				r.Basis = plan.BasisBreaking
			}
		}
		if slices.IndexFunc(was, func(b plan.RatingBasis) bool { return b == plan.BasisWorking }) < 0 {
			t.Skip("no working tag")
		}
		before, after := solver.Assess(p, "R1"), solver.Assess(q, "R1")
		for i := range after.Parts {
			x := &after.Parts[i]
			y, ok := before.Part(x.ID)
			if !ok || !x.Limit.Known {
				continue
			}
			if !y.Limit.Known || x.Limit.Force > y.Limit.Force*(1+1e-9) {
				t.Fatalf("%s: %v as working, %v as breaking", x.ID, y.Limit, x.Limit)
			}
		}
	})
}

// ratingsOf are all ratings of a plan.
func ratingsOf(p *plan.Plan) (all []*plan.Rating) {
	for i := range p.Site.Anchors {
		all = append(all, &p.Site.Anchors[i].Rating)
	}
	for i := range p.Site.Vehicles {
		for k := range p.Site.Vehicles[i].Recovery {
			all = append(all, &p.Site.Vehicles[i].Recovery[k].Rating)
		}
	}
	r := &p.Rigs[0]
	for i := range r.Lines {
		all = append(all, &r.Lines[i].Rating)
	}
	for i := range r.Blocks {
		all = append(all, &r.Blocks[i].Rating)
	}
	for i := range r.Slings {
		all = append(all, &r.Slings[i].Rating)
	}
	for i := range r.Shackles {
		all = append(all, &r.Shackles[i].Rating)
	}
	return all
}

// A strap twice as high never raises the limit of its tree, and a shorter sling
// never lowers the worse leg, per newton on the sling.
func TestHigherAndShorterAreNeverBetter(t *testing.T) {
	loadExample(t)
	rapid.Check(t, func(t *rapid.T) {
		p := anyRig(t)
		q := *p
		r := q.Rigs[0]
		r.Slings = slices.Clone(r.Slings)
		shorter := rapid.Float64Range(0.3, 1).Draw(t, "shorter")
		for i := range r.Slings {
			p.Rigs[0].Slings[i].Height = quantity.Length(rapid.Float64Range(0.1, 3).Draw(t, "height"))
			r.Slings[i].Height = 2 * p.Rigs[0].Slings[i].Height
			r.Slings[i].Length *= quantity.Length(shorter)
		}
		q.Rigs = []plan.Rig{r}
		low, high := solver.Assess(p, "R1"), solver.Assess(&q, "R1")
		if low.Status == part.Refused || high.Status == part.Refused {
			t.Skip("a refused rig shows no limits")
		}
		for i := range p.Site.Anchors {
			id := string(p.Site.Anchors[i].ID)
			a, okA := low.Part(id)
			b, okB := high.Part(id)
			if !okA || !okB || !a.Limit.Known {
				t.Fatalf("%s has no limit", id)
			}
			if b.Limit.Known && b.Limit.Force > a.Limit.Force {
				t.Fatalf("%s: %v at twice the height, %v below", id, b.Limit.Force, a.Limit.Force)
			}
		}
		for i := range r.Slings {
			id := string(r.Slings[i].ID)
			a, b := legShare(low, id), legShare(high, id)
			if a > 0 && b > 0 && b < a*(1-1e-9) {
				t.Fatalf("%s: %v of its load in the worse leg, %v when shorter", id, a, b)
			}
		}
	})
}

// legShare is the worse leg over the force on its sling; 0: not computed.
func legShare(a *solver.Assessment, id string) float64 {
	p, ok := a.Part(id)
	if !ok || !p.Move.Known || !(p.Move.Force > 0) {
		return 0
	}
	for _, v := range p.Values {
		if v.Name == "leg" {
			return v.X / float64(p.Move.Force)
		}
	}
	return 0
}

// Ground that falls more steeply the way the casualty goes never lowers what the
// hold-back must be good for.
func TestSteeperDownhillNeverLowersTheHoldBack(t *testing.T) {
	needs := func(slope, mass float64) float64 {
		p := basePlan()
		do(sloped(quantity.Degrees(slope), 90), laden(quantity.Mass(mass)))(p)
		most := 0.0
		a := solver.Assess(p, "R1")
		for i := range a.Findings {
			for _, v := range a.Findings[i].Values {
				if a.Findings[i].ID == "downhill-pull" && v.Name == "back" {
					most = max(most, v.X)
				}
			}
		}
		return most
	}
	rapid.Check(t, func(t *rapid.T) {
		mass := rapid.Float64Range(300, 9000).Draw(t, "mass")
		a := rapid.Float64Range(0, 30).Draw(t, "slope")
		b := rapid.Float64Range(a, 30).Draw(t, "steeper")
		gentle, steep := needs(a, mass), needs(b, mass)
		if steep < gentle*(1-1e-12) {
			t.Fatalf("%v at %v°, %v at %v°", gentle, a, steep, b)
		}
		if b > 2 && steep == 0 { // firm gravel rolls from 0.012, 0.69°
			t.Fatalf("nothing asked for at %v°", b)
		}
	})
}

// FuzzAssess assesses every rig of whatever plan.
func FuzzAssess(f *testing.F) {
	f.Add(stored(f, nil, basePlan().Title))
	for _, c := range allCases() {
		f.Add(c.raises(f))
	}
	data, err := os.ReadFile("../testdata/v1/everything.kedge")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(data)
	seeded.Fuzz(f, func(t *testing.T, p *plan.Plan) {
		for i := range p.Rigs {
			a := solver.Assess(p, p.Rigs[i].ID)
			if fault := unsound(a); fault != "" {
				t.Fatal(fault)
			}
			things := len(p.Site.Vehicles) + len(p.Site.Anchors) + len(p.Site.Obstacles) + len(p.Site.People) + len(a.Parts)
			if len(a.Findings) > 100*(1+things*things) {
				t.Fatalf("%d findings of %d things", len(a.Findings), things)
			}
			for k := range a.Parts {
				if k < 3 {
					_, _ = solver.Explain(p, p.Rigs[i].ID, a.Parts[k].ID)
				}
			}
		}
	})
}

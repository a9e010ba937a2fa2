package effort

import (
	"math"

	"github.com/golang/geo/r3"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Pull is a force on a vehicle where it acts, in the vehicle's axes: ahead,
// left, up, newtons. The place counts from the middle of the footprint, on the
// ground.
type Pull struct {
	Force         r3.Vector
	LeftM         float64
	HeightM       float64
	HeightUnknown bool // HeightM stands in for a height that nobody measured
}

// TipIn is a vehicle pulled across, on ground that may fall across: what lines
// put on it to move the casualty, to break it loose and at stall. A pull that
// is not known is nil.
type TipIn struct {
	Vehicle             *plan.Vehicle
	Move, Loosen, Stall []Pull
	FallLeftDeg         float64     // of the ground toward its left
	FallAheadDeg        float64     // toward its nose, sign of no matter
	Lacks               []part.Lack // what the plan lacks to tell the slope
	HeightLacks         []part.Lack // and the heights that are unknown
	Sunk                bool        // a wheel is sunk, or stands against a step
	Anchor              bool        // it serves as an anchor
}

// TipResult is how near a vehicle is to tipping over its left or right wheels.
type TipResult struct {
	Known         bool
	Share         float64        // overturning over righting, to move; +Inf if nothing rights it
	Loosen, Stall float64        // the same at the other pulls; 0: not known
	Rest          float64        // the same without any line
	About         [2]float64     // the greatest share at any pull over its left wheels, and over its right
	Side          quantity.Force // across it, to move
	SideLoosen    quantity.Force
	SideStall     quantity.Force
	Limit         quantity.Force // side force that brings the share to its warning; 0 or less: past it without any line
	Ultimate      quantity.Force // side force that tips it
	Sided         bool           // there is a side force, so Limit and Ultimate mean something
	Preset        bool           // on a height of its centre of gravity nobody measured
}

// Tipping weighs the moments about both wheel lines; the worse one counts.
//
//	over     = F_y·h_p + W·sin β_lat·h_cg
//	righting = W·cos β·t/2 − V·lever, with a wheel sunk 0.8 of t/2
//	limit    : F_y·h_p = share·righting − W·sin β_lat·h_cg
//
// The lever of what a line lifts is from its own point to that wheel line; it
// grows with the side force. What the slope turns is there without a line and
// is not scaled. Over half a warning, over three quarters a danger, to move and
// to break loose. At stall a caution over three quarters, past all of it a
// warning, for an anchor vehicle a danger: see [PullerHold] on stall. (ours)
func Tipping(in TipIn, derivation *part.Derivation, found *[]part.Finding) (res TipResult) {
	v := in.Vehicle
	if v == nil || !finite(in.FallLeftDeg, in.FallAheadDeg, float64(v.Track), float64(v.CGHeight)) {
		return res
	}
	for _, ps := range [...][]Pull{in.Move, in.Loosen, in.Stall} {
		for i := range ps {
			if p := &ps[i]; !finite(p.Force.X, p.Force.Y, p.Force.Z, p.LeftM, p.HeightM) {
				return res
			}
		}
	}
	part.NotDecided(found, ruleTips, "", in.Lacks...)
	t := tipping{in: in}
	if t.idle() {
		return TipResult{Known: true}
	}
	if !weighed(v) {
		part.NotDecided(found, ruleTips, v.ID, part.Lack{Thing: v.ID, Member: "mass_kg"})
	}
	if !(v.Track > 0) {
		part.NotDecided(found, ruleTips, v.ID, part.Lack{Thing: v.ID, Member: "track_m"})
	}
	if !weighed(v) || !(v.Track > 0) { // then each height may matter
		part.NotDecided(found, ruleTips, v.ID, in.HeightLacks...)
		return res
	}
	t.weigh()
	t.cg = float64(v.CGHeight)
	if !(t.cg > 0) {
		t.cg, res.Preset = cgHeight(v, high), true
	}
	move, loosen, stall, rest := t.judge(in.Move), t.judge(in.Loosen), t.judge(in.Stall), t.judge(nil)
	res.Known = true
	for _, m := range [...]*verdict{&move, &loosen, &stall, &rest} {
		for side := range m.about {
			res.About[side] = max(res.About[side], m.about[side].share())
		}
	}
	res.Share, res.Loosen, res.Stall, res.Rest = move.share, loosen.share, stall.share, rest.share
	res.Side, res.SideLoosen, res.SideStall = quantity.Force(abs(move.across)), quantity.Force(abs(loosen.across)), quantity.Force(abs(stall.across))
	warning := facts.TipWarning.Value()
	for _, m := range [...]*verdict{&move, &loosen, &stall} {
		if m.across != 0 {
			res.Sided = true
			if res.Limit, res.Ultimate = t.limit(m, warning), t.limit(m, 1); !Unbounded(res.Limit) {
				break
			}
		}
	}
	if derivation.On() {
		t.record(&res, &move, derivation)
	}
	if found != nil {
		t.advise(&res, found)
	}
	return res
}

// ruleTips is the finding that a rule about tipping sideways raises.
const ruleTips = "tips-sideways"

// tipping is one computation.
type tipping struct {
	in         TipIn
	weight     float64
	sinL, flat float64
	half       float64 // of the track, as counted
	cg         float64 // height of the centre of gravity
}

func (t *tipping) weigh() {
	v := t.in.Vehicle
	t.weight = float64((v.Mass + v.Load).Weight())
	t.sinL = sinDeg(t.in.FallLeftDeg)
	t.flat = flatness(t.sinL, sinDeg(t.in.FallAheadDeg))
	t.half = float64(v.Track) / 2
	if t.in.Sunk {
		t.half *= facts.TipSunkTrack.Value()
	}
}

// idle reports whether nothing pulls across and the ground does not fall across.
func (t *tipping) idle() bool {
	if t.in.FallLeftDeg != 0 {
		return false
	}
	for _, ps := range [...][]Pull{t.in.Move, t.in.Loosen, t.in.Stall} {
		least := nothing(ps)
		for i := range ps {
			if abs(ps[i].Force.Y) > least || abs(ps[i].Force.Z) > least {
				return false
			}
		}
	}
	return true
}

// nothing is the force, newtons, up to which one is none: a millionth of the
// largest on the vehicle, far above what the statics leaves unbalanced.
func nothing(ps []Pull) float64 {
	most := 0.0
	for i := range ps {
		most = max(most, ps[i].Force.Norm())
	}
	return noneShare * most
}

// noneShare, no unit: see nothing. (ours)
const noneShare = 1e-6

// verdict is what one pull does to a vehicle.
type verdict struct {
	across float64    // side force, positive left
	about  [2]balance // the left wheel line, the right one
	share  float64    // of the worse one
}

// balance is what turns a vehicle over one wheel line and what rights it, N·m.
type balance struct {
	toward       float64 // +1 over the left wheels, -1 over the right
	moment, lift float64 // of the lines
	slope        float64
	over, right  float64
}

func (b *balance) share() float64 {
	if !(b.right > 0) {
		return math.Inf(1)
	}
	return max(0, b.over/b.right)
}

// worse is the side it tips to.
func (d *verdict) worse() *balance {
	if d.about[1].share() > d.about[0].share() {
		return &d.about[1]
	}
	return &d.about[0]
}

// judge weighs both sides; no pulls: the vehicle by itself.
func (t *tipping) judge(ps []Pull) (d verdict) {
	least := nothing(ps)
	for i := range ps {
		if f := ps[i].Force.Y; abs(f) > least {
			d.across += f
		}
	}
	for k, toward := range [2]float64{1, -1} {
		b := balance{toward: toward, slope: toward * t.weight * t.sinL * t.cg}
		for i := range ps {
			p := &ps[i]
			if f := p.Force.Y; abs(f) > least {
				b.moment += toward * f * max(0, p.HeightM)
			}
			if f := p.Force.Z; abs(f) > least {
				b.lift += f * (t.half - toward*p.LeftM)
			}
		}
		b.over, b.right = b.moment+b.slope, t.weight*t.flat*t.half-b.lift
		d.about[k] = b
	}
	d.share = d.worse().share()
	return d
}

// limit is the side force that brings a share of what rights it to bear, all
// lines growing alike: the lesser one of both sides.
//
//	F·(h_p + share·V·lever/F) = share·W·cos β·t/2 − W·sin β_lat·h_cg
//
// It is never more than where a line lifts all that rights it.
func (t *tipping) limit(d *verdict, share float64) quantity.Force {
	least := float64(unboundedN)
	for i := range d.about {
		b := &d.about[i]
		left, grows := share*t.weight*t.flat*t.half-b.slope, (b.moment+share*b.lift)/abs(d.across)
		if b.lift > 0 { // there nothing of its weight is left on the other wheels
			least = min(least, t.weight*t.flat*t.half*abs(d.across)/b.lift)
		}
		switch {
		case left <= 0: // past it without any line
			least = min(least, left/max(abs(grows), leastArmM))
		case grows > 0:
			least = min(least, left/grows)
		}
	}
	return quantity.Force(least)
}

// leastArmM, metres: a line on the ground turns nothing over.
const leastArmM = 1e-3

// advise raises how near it is to tipping, and what cannot be decided.
func (t *tipping) advise(res *TipResult, found *[]part.Finding) {
	id, warning, danger := t.in.Vehicle.ID, facts.TipWarning.Value(), facts.TipDanger.Value()
	tell := func(rule string, l part.Level, x, limit float64) {
		raise(found, rule, l, id, share("share", min(x, shareShown)), share("limit", limit))
	}
	worst := max(res.Share, res.Loosen)
	switch { // by itself, or at least worse than by itself
	case res.Rest > danger:
		tell("tips-by-itself", part.Danger, res.Rest, danger)
		return
	case worst > danger:
		tell(ruleTips, part.Danger, worst, danger)
	case res.Rest > warning:
		tell("tips-by-itself", part.Warning, res.Rest, warning)
	case worst > warning:
		tell(ruleTips, part.Warning, worst, warning)
	}
	if worst = max(worst, res.Rest); worst > danger {
		return
	}
	switch {
	case res.Stall > 1 && t.in.Anchor:
		tell("tips-at-stall", part.Danger, res.Stall, 1)
	case res.Stall > 1:
		tell("tips-at-stall", part.Warning, res.Stall, 1)
	case res.Stall > danger:
		tell("tips-at-stall", part.Caution, res.Stall, danger)
	}
	if worst <= warning {
		t.roof(found)
	}
}

// roof tells that heights nobody measured might bring it past the warning: no
// line and no centre of gravity is higher than the vehicle itself.
func (t *tipping) roof(found *[]part.Finding) {
	v := t.in.Vehicle
	top := float64(v.Height)
	past := func() bool {
		return !(top > 0) || !(max(t.judge(t.in.Move).share, t.judge(t.in.Loosen).share, t.judge(nil).share) <= facts.TipWarning.Value())
	}
	raised := func(ps []Pull) []Pull {
		up := make([]Pull, len(ps))
		for i, p := range ps {
			if up[i] = p; p.HeightUnknown {
				up[i].HeightM = max(p.HeightM, top)
			}
		}
		return up
	}
	if len(t.in.HeightLacks) > 0 {
		t.in.Move, t.in.Loosen = raised(t.in.Move), raised(t.in.Loosen)
		if past() {
			part.NotDecided(found, ruleTips, v.ID, t.in.HeightLacks...)
		}
	}
	if !(v.CGHeight > 0) {
		if t.cg = max(t.cg, top); past() {
			part.NotDecided(found, ruleTips, v.ID, part.Lack{Thing: v.ID, Member: "cg_height_m"})
		}
	}
}

func (t *tipping) record(res *TipResult, d *verdict, derivation *part.Derivation) {
	v, b := t.in.Vehicle, d.worse()
	weight := computed(part.Force("weight", t.weight))
	derivation.Add("puller-weight", part.Force("weight", t.weight), typedOr(mass("mass", float64(v.Mass)), v.Presets, "mass_kg"),
		typedOr(mass("load", float64(v.Load)), v.Presets, "load_kg"), fromFact(number("g", quantity.Gravity), facts.GravityStandard))
	if t.in.FallLeftDeg != 0 || t.in.FallAheadDeg != 0 {
		derivation.Add("slope-flat", number("flat", t.flat), computed(angle("ahead", t.in.FallAheadDeg)), computed(angle("left", t.in.FallLeftDeg)))
	}
	derivation.Add("tip-slope", moment("slope", b.slope), weight, computed(angle("fall", b.toward*t.in.FallLeftDeg)), typedOr(part.Length("cg", t.cg), v.Presets, "cg_height_m"))
	var lines float64
	for i := range t.in.Move {
		p, from := &t.in.Move[i], lines
		if least := nothing(t.in.Move); !(abs(p.Force.Y) > least) {
			continue
		}
		lines += b.toward * p.Force.Y * max(0, p.HeightM)
		derivation.Add("tip-line", moment("lines", lines), computed(moment("before", from)), computed(part.Force("side", b.toward*p.Force.Y)), computed(part.Length("height", max(0, p.HeightM))))
	}
	derivation.Add("tip-over", moment("over", b.over), computed(moment("lines", b.moment)), computed(moment("slope", b.slope)))
	half := computed(part.Length("half", t.half))
	sunk := 1.0
	if t.in.Sunk {
		sunk = facts.TipSunkTrack.Value()
	}
	derivation.Add("tip-half", part.Length("half", t.half), typedOr(part.Length("track", v.Track), v.Presets, "track_m"), fromFact(factor("sunk", sunk), facts.TipSunkTrack))
	var lift float64
	for i := range t.in.Move {
		p, from := &t.in.Move[i], lift
		if least := nothing(t.in.Move); !(abs(p.Force.Z) > least) {
			continue
		}
		lift += p.Force.Z * (t.half - b.toward*p.LeftM)
		derivation.Add("tip-lift", moment("lift", lift), computed(moment("before", from)), computed(part.Force("up", p.Force.Z)), computed(part.Length("lever", t.half-b.toward*p.LeftM)))
	}
	whole := t.weight * t.flat * t.half
	derivation.Add("tip-rights", moment("whole", whole), weight, computed(number("flat", t.flat)), half)
	derivation.Add("tip-righting", moment("righting", b.right), computed(moment("whole", whole)), computed(moment("lift", b.lift)))
	derivation.Add("tip-share", share("tipping", res.Share), computed(moment("over", b.over)), computed(moment("righting", b.right)))
	if d.across != 0 {
		t.recordLimit(res, d, derivation)
	}
}

// recordLimit writes the side force at which the share is that of the warning.
func (t *tipping) recordLimit(res *TipResult, d *verdict, derivation *part.Derivation) {
	limit, whole := float64(res.Limit), t.weight*t.flat*t.half
	side := computed(part.Force("side", abs(d.across)))
	for i := range d.about {
		b := &d.about[i]
		left, grows := facts.TipWarning.Value()*whole-b.slope, (b.moment+facts.TipWarning.Value()*b.lift)/abs(d.across)
		switch {
		case b.lift > 0 && whole*abs(d.across)/b.lift == limit:
			derivation.Add("tip-lifts", holds("limit", limit), computed(moment("whole", whole)), side, computed(moment("lift", b.lift)))
		case left <= 0 && left/max(abs(grows), leastArmM) == limit, left > 0 && left/grows == limit:
			warning := fromFact(number("share", facts.TipWarning.Value()), facts.TipWarning)
			derivation.Add("tip-arm", part.Length("arm", grows), computed(moment("lines", b.moment)), warning, computed(moment("lift", b.lift)), side)
			derivation.Add("tip-limit", holds("limit", limit), warning, computed(moment("whole", whole)), computed(moment("slope", b.slope)), computed(part.Length("arm", max(abs(grows), leastArmM))))
		default:
			continue
		}
		return
	}
}

// shareShown is the most a share is said to be: where nothing rights a vehicle
// the share is infinite, and that is no number for a sentence. A vehicle that
// is pulled a hundred times as hard as tips it is no nearer to standing.
const shareShown = 99.99

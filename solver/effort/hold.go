package effort

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// LineEnd is a line (or strap) where it acts on a vehicle. PerTension is the
// force on the vehicle for each newton of winch line tension, in the vehicle's
// axes: ahead, left, up. The place counts from the middle of the footprint, on
// the ground.
type LineEnd struct {
	PerTension             part.Vec
	AheadM, LeftM, HeightM float64
}

// InVehicle turns a vector of the site (east, north, up) into the axes of a
// vehicle with that bearing: ahead, left, up. On a slope turn it into the
// ground plane first.
func InVehicle(bearing quantity.Degrees, v part.Vec) part.Vec {
	s, c := math.Sin(bearing.Radians()), math.Cos(bearing.Radians())
	return part.Vec{v[0]*s + v[1]*c, -v[0]*c + v[1]*s, v[2]}
}

// HoldIn is a vehicle that has to stand still while lines pull on it: the
// puller, or one used as an anchor.
type HoldIn struct {
	Vehicle      *plan.Vehicle
	Ground       *plan.Ground
	Ends         []LineEnd // every line end on it, as shares of the winch line tension
	FallAheadDeg float64   // of the ground toward its nose
	FallLeftDeg  float64   // of the ground toward its left
	TensionN     float64   // of the winch line, at the pull to be judged
	TensionKnown bool
	TiedBack     bool // a tie-back is in the plan: it is reckoned for all, grip for nothing
	OwnWinch     bool // the casualty pulls itself: that it moves is the purpose
}

// HoldResult is the winch line tension at which the vehicle starts to move.
// The zero value is "not computed".
type HoldResult struct {
	Hold     part.Range
	Turns    bool           // at the low end it turns rather than slides
	Front    quantity.Force // load on the front axle at the tension judged
	Rear     quantity.Force // load on the rear axle
	Loads    bool           // Front and Rear are known
	ByItself bool           // it moves without any pull, by its slope
	Chocked  quantity.Force // low hold with all wheels chocked; 0: not computed
	Preset   bool           // rests on a centre of gravity nobody measured
}

// PullerHold finds the least line tension that moves a standing vehicle, low,
// likely and high, together with the axle loads that tension makes. Pulls along
// its middle have a closed form; any other goes through the limit surface of
// its four contacts, yaw included.
//
//	straight, rear brake, front winch: T = μ·W·b/(wb + μ·h)
//
// Only locked wheels hold along: those of the parking brake (up to 0.2 of the
// weight unless the brake is known; at the high end grip alone), chocked ones,
// all on the foot brake if a driver is said to stay on it. Left in gear counts
// at the likely end for the rear axle, at the high end for all. (ours)
func PullerHold(in HoldIn, sum *part.Sum, found *[]part.Finding) (res HoldResult) {
	v := in.Vehicle
	if v == nil || !finite(in.FallAheadDeg, in.FallLeftDeg) || len(in.Ends) == 0 {
		return res
	}
	for i := range in.Ends {
		e := &in.Ends[i]
		if !finite(e.PerTension[0], e.PerTension[1], e.PerTension[2], e.AheadM, e.LeftM, e.HeightM) {
			return res
		}
	}
	n := book()
	if !(v.Mass > 0) || !(v.Load >= 0) || !finite(float64(v.Mass+v.Load)) {
		if found != nil {
			raise(found, "mass-not-known", part.Warning, v.ID)
		}
		return res
	}
	oddMass(found, v.ID, float64(v.Mass+v.Load))
	if _, ok := stand(v, 0.5, 0); !ok {
		if found != nil {
			raise(found, "wheelbase-not-known", part.Caution, v.ID)
		}
		return res
	}
	b := brace{in: in, n: n, mu: gripOf(v, in.Ground, n, found)}
	b.sum()
	t, twist, ok := b.hold()
	if !ok {
		if found != nil {
			raise(found, "hold-not-computed", part.Warning, v.ID)
		}
		return res
	}
	res.Hold = rangeOf(t)
	res.Preset = b.preset
	res.ByItself = b.rests
	res.Turns = abs(twist[2])*float64(v.Wheelbase)/2 > math.Hypot(twist[0], twist[1])
	b.axles(&res)
	if in.TensionKnown && in.TensionN >= float64(res.Hold.Low) {
		if x, ok := b.end(low, locking{front: true, rear: true}, giving{}); ok {
			res.Chocked = quantity.Force(x.tensionN)
		}
	}
	if sum.On() {
		b.record(&res, sum)
	}
	if found != nil {
		b.advise(&res, found)
	}
	return res
}

// Capacity is the hold as a limit: the low end itself for a puller (moving is
// what is to be found), a third of it for a vehicle that serves as an anchor.
func (r *HoldResult) Capacity(anchor bool) part.Capacity {
	if !r.Hold.Known {
		return part.Capacity{}
	}
	c := part.Capacity{Ultimate: r.Hold, Note: "slides"}
	c.Limit = part.Limit{Known: true, Force: r.Hold.Low, Basis: "hold, low", Factor: 1, Surety: part.SuretyOurs, Preset: r.Preset}
	if anchor {
		f := book().holdFactor
		c.Limit.Force, c.Limit.Basis, c.Limit.Factor = quantity.Force(float64(r.Hold.Low)/f), "hold ÷ 3", f
	}
	return c
}

// locking forces axles to count as locked by chocks.
type locking struct{ front, rear bool }

// brace is one reckoning of a standing vehicle.
type brace struct {
	in     HoldIn
	n      *numbers
	mu     triple
	preset bool
	rests  bool // moves without any pull at the low end

	weight           float64
	flat, sinX, sinY float64
	f                part.Vec // sum of the ends per tension
	yaw              float64  // their moment about the middle, per tension
	pitch            float64  // Σ fx·h − fz·(x − x_rear) without the rear's place: see axle
	lift             float64  // Σ fz·x
}

func (b *brace) sum() {
	v := b.in.Vehicle
	b.weight = float64((v.Mass + v.Load).Weight())
	b.sinX, b.sinY = sinDeg(b.in.FallAheadDeg), sinDeg(b.in.FallLeftDeg)
	b.flat = flatness(b.sinX, b.sinY)
	for i := range b.in.Ends {
		e := &b.in.Ends[i]
		b.f = b.f.Add(e.PerTension)
		b.yaw += e.AheadM*e.PerTension[1] - e.LeftM*e.PerTension[0]
		b.pitch += e.PerTension[0] * e.HeightM
		b.lift += e.PerTension[2] * e.AheadM
	}
}

// axle loads as a + b·T, front and rear.
//
//	N_f·wb = W·cos β·(x_cg − x_r) + W·sin a·h_cg + T·Σ(f_x·h − f_z·(x − x_r))
func (b *brace) loads(s *stance) (fa, fb, ra, rb float64) {
	wb := s.frontM - s.rearM
	fa = (b.weight*b.flat*(s.cgM-s.rearM) + b.weight*b.sinX*s.cgHeight) / wb
	fb = (b.pitch - (b.lift - b.f[2]*s.rearM)) / wb
	return fa, fb, b.weight*b.flat - fa, -b.f[2] - fb
}

// locked tells which axles are locked at an end of the range, and by what:
// free (by chocks or a foot: grip alone limits them) or brake (the parking
// brake's own strength limits them too).
func (b *brace) locked(end int, by locking) (freeF, freeR, brakeF, brakeR bool, capN float64) {
	v := b.in.Vehicle
	freeF = by.front || v.FootBrake || v.Chocks == plan.ChocksFront || v.Chocks == plan.ChocksAll
	freeR = by.rear || v.FootBrake || v.Chocks == plan.ChocksRear || v.Chocks == plan.ChocksAll
	if v.InGear {
		freeR = freeR || end >= likely
		freeF = freeF || end == high
	}
	switch v.Brake {
	case plan.BrakeNone:
	case plan.BrakeFront:
		brakeF = true
	case plan.BrakeAll:
		brakeF, brakeR = true, true
	default: // rear, and not known: rear only
		brakeR = true
	}
	brakeF, brakeR = brakeF && !freeF, brakeR && !freeR
	capN = math.Inf(1)
	if f := float64(v.BrakeForce); f > 0 && finite(f) {
		capN = f
	} else if end < high {
		capN = b.n.brake * b.weight
	}
	return freeF, freeR, brakeF, brakeR, capN
}

// hold is the least tension at each end of the range.
func (b *brace) hold() (t triple, twist [3]float64, ok bool) {
	var x giving
	for e := range t {
		x.tensionN *= b.mu[e] / b.mu[max(0, e-1)]
		if x, ok = b.end(e, locking{}, x); !ok {
			return t, x.twist, false
		}
		if e == low {
			twist = x.twist
			b.rests = x.tensionN == 0 && abs(b.sinX)+abs(b.sinY) > restShare
		}
		t[e] = x.tensionN
	}
	// A wider grip never holds less, save for the last bit.
	t[likely] = max(t[likely], t[low])
	t[high] = max(t[high], t[likely])
	return t, twist, true
}

// end is the least tension at one end of the range. Where the centre of gravity
// is a preset, the worse or the better of its range counts.
func (b *brace) end(end int, by locking, guess giving) (f giving, ok bool) {
	lo, hi := b.n.cgShare[likely], b.n.cgShare[likely]
	if end != likely {
		lo, hi = b.n.cgShare[low], b.n.cgShare[high]
	}
	height := b.n.cgHeight[2-end]
	s, _ := stand(b.in.Vehicle, lo, height)
	f, ok = b.least(end, &s, by, guess)
	if !ok || !s.cgPreset {
		return f, ok
	}
	b.preset = true
	if lo == hi {
		return f, ok
	}
	s, _ = stand(b.in.Vehicle, hi, height)
	g, ok := b.least(end, &s, by, f)
	if ok && (end == low && g.tensionN < f.tensionN || end == high && g.tensionN > f.tensionN) {
		return g, true
	}
	return f, ok
}

// least is the tension at one end. The brake's own strength and grip are two
// limits of the same axle, the smaller one counts: so does the smaller tension.
func (b *brace) least(end int, s *stance, by locking, guess giving) (giving, bool) {
	mu := b.mu[end]
	freeF, freeR, brakeF, brakeR, capN := b.locked(end, by)
	locked := [2]bool{freeF || brakeF, freeR || brakeR}
	none := [2]float64{-1, -1}
	if math.IsInf(capN, 1) || !(brakeF || brakeR) {
		return b.give(mu, s, locked, none, guess)
	}
	caps := none
	fa, fb, ra, rb := b.loads(s)
	switch {
	case brakeF && brakeR: // shared by the weight they carry at rest
		k := max(0, fa) / max(max(0, fa)+max(0, ra), 1e-9)
		caps = [2]float64{capN * k, capN * (1 - k)}
	case brakeF:
		caps[0] = capN
	default:
		caps[1] = capN
	}
	// weaker tells that the brake is the smaller limit of every braked axle at a
	// tension; grip follows the load in a straight line.
	weaker := func(t float64) bool {
		return (caps[0] < 0 || caps[0] <= mu*(fa+fb*t)) && (caps[1] < 0 || caps[1] <= mu*(ra+rb*t))
	}
	f, ok := b.give(mu, s, locked, caps, guess)
	if !ok || weaker(0) && weaker(f.tensionN) {
		return f, ok
	}
	g, ok := b.give(mu, s, locked, none, f)
	if ok && g.tensionN < f.tensionN {
		return g, true
	}
	return f, ok
}

// give is the least tension for contacts whose axles are locked or roll freely;
// a cap of 0 or more takes the place of grip along for that axle.
func (b *brace) give(mu float64, s *stance, locked [2]bool, caps [2]float64, guess giving) (giving, bool) {
	fa, fb, ra, rb := b.loads(s)
	if b.straight() {
		t, twist, ok := b.along(mu, [2]float64{fa, ra}, [2]float64{fb, rb}, locked, caps)
		return giving{tensionN: t, twist: twist}, ok
	}
	var cs [mostContacts]contact
	for i, a := range [2][3]float64{{s.frontM, fa, fb}, {s.rearM, ra, rb}} {
		c := contact{xM: a[0], acrossA: mu * a[1] / 2, acrossB: mu * a[2] / 2}
		switch {
		case !locked[i]:
		case caps[i] >= 0:
			c.alongA = caps[i] / 2
		default:
			c.alongA, c.alongB = c.acrossA, c.acrossB
		}
		cs[2*i], cs[2*i+1] = c, c
		cs[2*i].yM, cs[2*i+1].yM = s.halfTrackM, -s.halfTrackM
	}
	rest := wrench{b.weight * b.sinX, b.weight * b.sinY, b.weight * b.sinY * s.cgM}
	return leastTension(cs[:], rest, wrench{b.f[0], b.f[1], b.yaw}, guess)
}

// straight: the pull and the fall lie along the vehicle's middle. The
// tolerances are shares of the pull, a hundredth of a degree. (ours)
func (b *brace) straight() bool {
	f := math.Hypot(b.f[0], b.f[1])
	return abs(b.f[1]) <= straightShare*f && abs(b.yaw) <= straightShare*f && abs(b.sinY) <= straightShare
}

const straightShare = 1.7e-4

// along is the closed form of a straight pull: demand f·T + W·sin a against
// grip that itself follows T.
func (b *brace) along(mu float64, a, bt [2]float64, locked [2]bool, caps [2]float64) (float64, [3]float64, bool) {
	var c0, c1 float64
	for i := range locked {
		switch {
		case !locked[i]:
		case caps[i] >= 0:
			c0 += caps[i]
		default:
			c0 += mu * a[i]
			c1 += mu * bt[i]
		}
	}
	f, w := b.f[0], b.weight*b.sinX
	if f < 0 {
		f, w = -f, -w
	}
	twist := [3]float64{1, 0, 0}
	if c0 <= w || c0 <= 0 {
		return 0, twist, true
	}
	t := float64(unboundedN) // pressed down faster than it drags: it never slides
	if f-c1 > 0 {
		t = min(t, (c0-w)/(f-c1))
	}
	for i := range a { // an axle that lifts moves it, whatever grips
		if bt[i] < 0 {
			t = min(t, max(0, -a[i]/bt[i]))
		}
	}
	return t, twist, true
}

// axles states the axle loads at the tension judged, else at the low hold.
func (b *brace) axles(res *HoldResult) {
	t := float64(res.Hold.Low)
	if b.in.TensionKnown && finite(b.in.TensionN) {
		t = b.in.TensionN
	}
	if t >= unboundedN {
		return
	}
	s, _ := stand(b.in.Vehicle, b.n.cgShare[likely], b.n.cgHeight[likely])
	fa, fb, ra, rb := b.loads(&s)
	res.Front, res.Rear, res.Loads = quantity.Force(fa+fb*t), quantity.Force(ra+rb*t), true
}

func (b *brace) record(res *HoldResult, sum *part.Sum) {
	v := b.in.Vehicle
	grip := v.Grip
	if grip == "" && b.in.Ground != nil {
		grip = b.in.Ground.Grip
	}
	sum.Add("puller-weight", force("weight", b.weight), typedOr(mass("mass", float64(v.Mass)), v.Presets, "mass_kg"), typedOr(mass("load", float64(v.Load)), v.Presets, "load_kg"))
	sum.Add("puller-axles", force("rear", float64(res.Rear)), computed(force("weight", b.weight)), typedOr(length("wheelbase", float64(v.Wheelbase)), v.Presets, "wheelbase_m"), computed(force("front", float64(res.Front))))
	sum.Add("puller-hold", holds("hold", float64(res.Hold.Low)), fromFact(factor("grip", b.mu[low]), facts.ID(grip)),
		fromFact(factor("brake", b.n.brake), facts.BrakeParking), computed(force("weight", b.weight)))
}

// advise raises what there is to say of a vehicle that may not hold.
func (b *brace) advise(res *HoldResult, found *[]part.Finding) {
	v := b.in.Vehicle
	if b.in.OwnWinch {
		return // it is meant to move
	}
	locked := v.FootBrake || v.InGear || v.Chocks != plan.ChocksNone
	switch {
	case v.Brake == plan.BrakeUnknown && !v.FootBrake && v.Chocks != plan.ChocksAll:
		raise(found, "brake-not-known", part.Notice, v.ID)
	case v.Brake == plan.BrakeNone && !locked:
		raise(found, "no-brake", part.Danger, v.ID)
	}
	if v.InGear && !v.FootBrake && v.Chocks != plan.ChocksAll {
		raise(found, "in-gear-not-counted", part.Notice, v.ID)
	}
	if res.Preset {
		raise(found, "centre-of-gravity-assumed", part.Notice, v.ID)
	}
	if res.ByItself && !(v.Brake == plan.BrakeNone && !locked) {
		raise(found, "vehicle-moves-by-itself", part.Danger, v.ID)
	}
	if !b.in.TensionKnown || !finite(b.in.TensionN) || !(b.in.TensionN > 0) {
		return
	}
	t := b.in.TensionN
	if res.Loads && (res.Front <= 0 || res.Rear <= 0) {
		axle := "rear"
		if res.Front <= 0 {
			axle = "front"
		}
		raise(found, "axle-lifts", part.Danger, v.ID, word("axle", axle), force("needs", t))
	}
	if b.in.TiedBack {
		return
	}
	used := t / float64(res.Hold.Low)
	switch {
	case !(used < 1):
		f := raise(found, "vehicle-slides", part.Danger, v.ID, force("needs", t), holds("holds", float64(res.Hold.Low)), force("tie", b.n.tieBack*t))
		if res.Turns {
			f.ID = "vehicle-turns"
		}
		f.Remedies = append(f.Remedies, part.Remedy{Do: "tie-back", Thing: v.ID, Value: force("good", b.n.tieBack*t)})
		if res.Chocked > 0 && t < float64(res.Chocked) && v.Chocks != plan.ChocksAll {
			f.Remedies = append(f.Remedies, part.Remedy{Do: "chock-all", Thing: v.ID, Value: holds("hold", float64(res.Chocked))})
		}
	case used >= part.NearShare:
		raise(found, "vehicle-near-sliding", part.Warning, v.ID, force("needs", t), holds("holds", float64(res.Hold.Low)), share("used", used), force("tie", b.n.tieBack*t))
	}
}

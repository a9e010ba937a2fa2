package effort

import (
	"math"

	"github.com/golang/geo/r3"

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
	PerTension             r3.Vector
	AheadM, LeftM, HeightM float64
}

// HoldIn is a vehicle that has to stand still while lines pull on it: the
// puller, or one used as an anchor. The three tensions are those of the winch
// line: to move the casualty, to break it loose, at stall; one that is not
// known is 0.
type HoldIn struct {
	Vehicle      *plan.Vehicle
	Ground       *plan.Ground
	Ends         []LineEnd    // every line end on it, as shares of the winch line tension
	Others       [2][]LineEnd // the same at other balances: what leaves it the least hold counts
	FallAheadDeg float64      // of the ground toward its nose
	FallLeftDeg  float64      // of the ground toward its left
	Lacks        []part.Lack  // what the plan lacks to tell the slope: the falls count as given, and nothing is decided
	HeightLacks  []part.Lack  // the same of the height of the ends
	TensionN     float64      // to move
	TensionKnown bool
	LoosenN      float64
	StallN       float64
	Anchor       bool // it serves as an anchor: its own winch is not in the pull
	TiedBack     bool // a tie-back is in the plan: it is assumed to take all, grip nothing
	OwnWinch     bool // the casualty pulls itself: that it moves is the purpose
}

// HoldResult is the winch line tension at which the vehicle starts to move.
// The zero value is "not computed".
type HoldResult struct {
	Hold    part.Range
	Turns   bool           // at the low end it turns rather than slides
	Front   quantity.Force // load on the front axle at the tension judged
	Rear    quantity.Force // load on the rear axle
	Loads   bool           // Front and Rear are known
	Chocked quantity.Force // low hold with all wheels chocked, for what findings offer; 0: not computed
	Preset  bool           // rests on a centre of gravity nobody measured
	AtMost  bool           // Hold is the most it may be: what its brake acts on is not known
}

// PullerHold finds the least line tension that moves a standing vehicle, low,
// likely and high, together with the axle loads that tension makes. Pulls along
// its middle have a closed form; any other goes through the limit surface of
// its four contacts, yaw included. Whether it stands at all without a pull is
// the matter of [Stands].
//
//	straight, rear brake, front winch: T = μ·W·b/(wb + μ·h)
//
// Only locked wheels hold along: those of the parking brake (up to 0.2 of the
// weight unless the brake is known; at the high end grip alone), chocked ones,
// all on the foot brake if a driver is said to stay on it. Left in gear counts
// at the likely end for the rear axle, at the high end for all. (ours)
//
// A brake of which nobody knows what it acts on holds all wheels at best: beyond
// that the vehicle slides for sure, below nothing is decided.
//
// A casualty that is to hold others has no hold: no rule knows how one that is
// stuck, or lies, gives.
//
// Grip at the low end is the row's own low figure; where that is a textbook's
// average, 0.8 of it: half of all ground grips less than the average. (ours)
func PullerHold(in HoldIn, derivation *part.Derivation, found *[]part.Finding) (res HoldResult) {
	v := in.Vehicle
	if v == nil || !finite(in.FallAheadDeg, in.FallLeftDeg) || !pulling(in.Ends) || v.Stuck != nil && !in.OwnWinch {
		return res
	}
	n := book()
	if brakeMatters(v) {
		if !in.OwnWinch {
			part.NotDecided(found, ruleSlides, v.ID, part.Lack{Thing: v.ID, Member: "brake"})
		}
		res.AtMost = true
		strong := *v
		strong.FootBrake = true
		in.Vehicle = &strong
	}
	known := in.known(found)
	if in.OwnWinch {
		found = nil // it is meant to move
	}
	b := brace{in: in, n: n}
	b.gripping(found)
	if !known {
		return res
	}
	t, twist, ok := b.weakest()
	if !ok {
		if found != nil {
			raise(found, "hold-not-computed", part.Warning, v.ID)
		}
		return res
	}
	res.Hold = rangeOf(t)
	res.Preset = b.preset
	res.Turns = abs(twist[2])*float64(v.Wheelbase)/2 > math.Hypot(twist[0], twist[1])
	b.axles(&res)
	if found != nil && in.most() >= float64(res.Hold.Low) {
		if x, ok := b.end(low, locking{front: true, rear: true}, giving{}); ok {
			res.Chocked = quantity.Force(x.tensionN)
		}
	}
	if derivation.On() {
		b.record(&res, derivation)
	}
	if found != nil {
		b.advise(&res, found)
	}
	return res
}

// pulling reports whether line ends pull on a vehicle, all with figures that can
// be.
func pulling(ends []LineEnd) bool {
	for i := range ends {
		e := &ends[i]
		if !finite(e.PerTension.X, e.PerTension.Y, e.PerTension.Z, e.AheadM, e.LeftM, e.HeightM) {
			return false
		}
	}
	return len(ends) > 0
}

// known reports whether what a hold cannot be computed without is known, and names
// each member that it lacks, and a mass that is odd.
func (in *HoldIn) known(found *[]part.Finding) (known bool) {
	v := in.Vehicle
	if known = weighed(v); known {
		oddMass(found, v)
	} else if found != nil {
		lacking(found, "mass-not-known", part.Warning, v.ID, "mass_kg")
	}
	if in.OwnWinch {
		found = nil
	}
	part.NotDecided(found, ruleSlides, "", in.Lacks...)
	part.NotDecided(found, ruleSlides, v.ID, in.HeightLacks...)
	if _, ok := stand(v, 0.5, 0); !ok {
		known = false
		part.NotDecided(found, ruleSlides, v.ID, part.Lack{Thing: v.ID, Member: "wheelbase_m"})
	}
	return known
}

// ruleSlides is the finding that a rule about what a vehicle holds raises.
const ruleSlides = "vehicle-slides"

// weighed reports whether a vehicle's mass is known.
func weighed(v *plan.Vehicle) bool {
	return v.Mass > 0 && v.Load >= 0 && finite(float64(v.Mass+v.Load))
}

// brakeMatters reports whether nobody knows what the parking brake acts on, and that
// it would hold something that nothing else holds already.
func brakeMatters(v *plan.Vehicle) bool {
	return !v.BrakeKnown() && !v.FootBrake && v.Chocks != plan.ChocksAll
}

// move is the tension to move, 0 if it is not known.
func (in *HoldIn) move() float64 {
	if !in.TensionKnown || !finite(in.TensionN) {
		return 0
	}
	return max(0, in.TensionN)
}

// most is the greatest of the three tensions.
func (in *HoldIn) most() float64 { return max(in.move(), in.LoosenN, in.StallN) }

// Capacity is the hold as a limit: the low end itself for a puller (moving is
// what is to be found), a third of it for a vehicle that serves as an anchor.
func (r *HoldResult) Capacity(anchor bool) part.Capacity {
	if !r.Hold.Known {
		return part.Capacity{}
	}
	c := part.Capacity{Ultimate: r.Hold, Note: "slides"}
	c.Limit = part.Limit{Known: true, Force: r.Hold.Low, Basis: "hold, low", Confidence: part.ConfidenceOurs, Preset: r.Preset, AtMost: r.AtMost}
	if anchor {
		f := facts.FactorPullingHold.Value()
		c.Limit.Force, c.Limit.Basis = quantity.Force(float64(r.Hold.Low)/f), "hold ÷ 3"
	}
	return c
}

// locking forces axles to count as locked by chocks.
type locking struct{ front, rear bool }

// brace is one computation of a standing vehicle.
type brace struct {
	in     HoldIn
	n      *numbers
	mu     triple
	grip   surface // the row it rests on; no id: nobody said what it stands on
	counts float64 // of the row's low end
	preset bool

	weight           float64
	flat, sinX, sinY float64
	f                r3.Vector // sum of the ends per tension
	yaw              float64   // their moment about the middle, per tension
	pitch            float64   // Σ fx·h − fz·(x − x_rear) without the rear's place: see axle
	lift             float64   // Σ fz·x

	low how // what the low end rests on
}

// gripping reads the grip under it, and what of the low end counts.
func (b *brace) gripping(found *[]part.Finding) {
	v := b.in.Vehicle
	b.mu, b.counts = gripOf(v, b.in.Ground, b.n, found), 1
	id := v.Grip
	if id == "" && b.in.Ground != nil {
		id = b.in.Ground.Grip
	}
	s, ok := find(b.n.grip, id)
	if !ok {
		return
	}
	if b.grip = s; s.v[low] == s.v[likely] {
		b.counts = facts.PullerGripLow.Value()
		b.mu[low] *= b.counts
	}
}

func (b *brace) sum() {
	v := b.in.Vehicle
	b.weight = float64((v.Mass + v.Load).Weight())
	b.sinX, b.sinY = sinDeg(b.in.FallAheadDeg), sinDeg(b.in.FallLeftDeg)
	b.flat = flatness(b.sinX, b.sinY)
	for i := range b.in.Ends {
		e := &b.in.Ends[i]
		b.f = b.f.Add(e.PerTension)
		b.yaw += e.AheadM*e.PerTension.Y - e.LeftM*e.PerTension.X
		b.pitch += e.PerTension.X * e.HeightM
		b.lift += e.PerTension.Z * e.AheadM
	}
}

// axle loads as a + b·T, front and rear.
//
//	N_f·wb = W·cos β·(x_cg − x_r) + W·sin a·h_cg + T·Σ(f_x·h − f_z·(x − x_r))
func (b *brace) loads(s *stance) (fa, fb, ra, rb float64) {
	wb := s.frontM - s.rearM
	fa = (b.weight*b.flat*(s.cgM-s.rearM) + b.weight*b.sinX*s.cgHeight) / wb
	fb = (b.pitch - (b.lift - b.f.Z*s.rearM)) / wb
	return fa, fb, b.weight*b.flat - fa, -b.f.Z - fb
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
	case plan.BrakeFront:
		brakeF = true
	case plan.BrakeAll:
		brakeF, brakeR = true, true
	case plan.BrakeRear:
		brakeR = true
	}
	brakeF, brakeR = brakeF && !freeF, brakeR && !freeR
	capN = math.Inf(1)
	if f := float64(v.BrakeForce); f > 0 && finite(f) {
		capN = f
	} else if end < high {
		capN = facts.BrakeParking.Value() * b.weight
	}
	return freeF, freeR, brakeF, brakeR, capN
}

// weakest is the hold at the balance that leaves it the least.
func (b *brace) weakest() (t triple, twist [3]float64, ok bool) {
	bare := *b
	b.sum()
	if t, twist, ok = b.hold(); !ok {
		return t, twist, false
	}
	for _, ends := range b.in.Others {
		if !pulling(ends) {
			continue
		}
		c := bare
		c.in.Ends = ends
		c.sum()
		if x, ok := c.end(low, locking{}, giving{}); !ok || !(x.tensionN < t[low]) {
			continue
		}
		if u, w, ok := c.hold(); ok {
			*b, t, twist = c, u, w
		}
	}
	return t, twist, true
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
			twist, b.low = x.twist, x.how
			b.low.twist = x.twist
		}
		t[e] = x.tensionN
	}
	// A wider grip never holds less, save for the last bit.
	t[likely] = max(t[likely], t[low])
	t[high] = max(t[high], t[likely])
	for e := likely; e <= high; e++ { // no end that no line reaches is told
		if Unbounded(quantity.Force(t[e])) {
			t[e] = t[e-1]
		}
	}
	return t, twist, true
}

// end is the least tension at one end of the range. Where the centre of gravity
// or its height is a preset, the worse or the better of its range counts.
func (b *brace) end(end int, by locking, guess giving) (f giving, ok bool) {
	v := b.in.Vehicle
	behind := [...]float64{b.n.cgBehind[min(end, 2-end)], b.n.cgBehind[max(end, 2-end)]}
	heights := [...]float64{cgHeight(v, 2-end), cgHeight(v, end)}
	sloping := !(v.CGHeight > 0) && (b.sinX != 0 || b.sinY != 0) // its height counts on a slope alone
	n, m := 1, 1
	if !(v.CGBehindFront > 0) && behind[0] != behind[1] {
		n = 2
	}
	if sloping && heights[0] != heights[1] { // which holds less hangs on which way that falls and on which wheels are locked
		m = 2
	}
	s, _ := stand(v, behind[0], heights[0])
	if f, ok = b.least(end, &s, by, guess); !ok {
		return f, false
	}
	b.preset = b.preset || sloping
	for i := 1; i < n*m; i++ {
		s, _ = stand(v, behind[i%n], heights[i/n])
		g, ok := b.least(end, &s, by, f)
		if !ok {
			continue
		}
		b.preset = b.preset || abs(g.tensionN-f.tensionN) > leastTensionTol*f.tensionN
		if end == low && g.tensionN < f.tensionN || end > likely && g.tensionN > f.tensionN {
			f = g
		}
	}
	return f, true
}

// least is the tension at one end. The brake's own strength and grip are two
// limits of each braked axle, of which the smaller one counts at every tension: so
// does the smallest tension of all their combinations.
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
	both := 0
	switch {
	case brakeF && brakeR: // shared by the weight they carry at rest
		k := max(0, fa) / max(max(0, fa)+max(0, ra), 1e-9)
		caps, both = [2]float64{capN * k, capN * (1 - k)}, 1
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
	others := [...][2]float64{none, {caps[0], -1}, {-1, caps[1]}} // one axle may slip while the brake of the other gives
	best := f
	for i := range others[:1+2*both] {
		g, ok := b.give(mu, s, locked, others[i], f)
		if !ok {
			return g, false
		}
		if g.tensionN < best.tensionN {
			best = g
		}
	}
	return best, true
}

// give is the least tension for contacts whose axles are locked or roll freely;
// a cap of 0 or more takes the place of grip along for that axle.
func (b *brace) give(mu float64, s *stance, locked [2]bool, caps [2]float64, guess giving) (giving, bool) {
	fa, fb, ra, rb := b.loads(s)
	if b.straight() {
		f, ok := b.along(mu, [2]float64{fa, ra}, [2]float64{fb, rb}, locked, caps)
		f.how = how{s: *s, locked: locked, caps: caps, straight: true}
		return f, ok
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
	f, ok := leastTension(cs[:], rest, wrench{b.f.X, b.f.Y, b.yaw}, guess)
	f.how = how{s: *s, locked: locked, caps: caps}
	return f, ok
}

// how is what a tension rests on, for its sum.
type how struct {
	s        stance
	locked   [2]bool
	caps     [2]float64 // what the brake's strength holds of each; under 0: grip is the smaller limit
	straight bool
	twist    [3]float64
}

// straight: the pull and the fall lie along the vehicle's middle. The
// tolerances are shares of the pull, a hundredth of a degree. (ours)
func (b *brace) straight() bool {
	f := math.Hypot(b.f.X, b.f.Y)
	return abs(b.f.Y) <= straightShare*f && abs(b.yaw) <= straightShare*f && abs(b.sinY) <= straightShare
}

const straightShare = 1.7e-4

// along is the closed form of a straight pull: demand f·T + W·sin a against
// grip that itself follows T.
func (b *brace) along(mu float64, a, bt [2]float64, locked [2]bool, caps [2]float64) (giving, bool) {
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
	f, w := b.f.X, b.weight*b.sinX
	if f < 0 {
		f, w = -f, -w
	}
	twist := [3]float64{1, 0, 0}
	if c0 <= w || c0 <= 0 {
		return giving{twist: twist}, true
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
	return giving{tensionN: t, twist: twist}, true
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
	front, rear := b.axlesAt(t)
	res.Front, res.Rear, res.Loads = quantity.Force(front), quantity.Force(rear), true
}

// axlesAt is the load on the front and on the rear axle at a tension, newtons;
// 0 or less: the vehicle pitches over the other one.
func (b *brace) axlesAt(t float64) (front, rear float64) {
	s, _ := stand(b.in.Vehicle, b.n.cgBehind[likely], cgHeight(b.in.Vehicle, likely))
	fa, fb, ra, rb := b.loads(&s)
	return fa + fb*t, ra + rb*t
}

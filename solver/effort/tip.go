package effort

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// TipIn is a vehicle pulled across, on ground that falls across. Signs: SideN
// and FallSideDeg positive toward the same side. UpN is what lines lift.
type TipIn struct {
	Vehicle     *plan.Vehicle
	SideN       float64
	HeightM     float64 // where the side force acts, above ground
	UpN         float64
	FallSideDeg float64
	FallLongDeg float64 // along the vehicle, sign of no matter
	Sunk        bool    // a wheel is sunk, or stands against a step
}

// TipResult is how near a vehicle is to tipping about its lower wheels.
type TipResult struct {
	Known    bool
	Share    float64 // overturning over righting; +Inf if nothing rights it
	Over     quantity.Moment
	Righting quantity.Moment
	Preset   bool // on a height of its centre of gravity nobody measured
}

// Tipping weighs the moments about the lower wheel line.
//
//	over     = F_y·h_p + W·sin β_lat·h_cg
//	righting = (W·cos β − V)·t/2, with a wheel sunk 0.8 of it
//
// Over half a warning, over three quarters a danger. (ours)
func Tipping(in TipIn, sum *part.Sum, found *[]part.Finding) (res TipResult) {
	v := in.Vehicle
	if v == nil {
		return res
	}
	if !finite(in.SideN, in.HeightM, in.UpN, in.FallSideDeg, in.FallLongDeg, float64(v.Mass), float64(v.Load), float64(v.Track), float64(v.CGHeight)) ||
		!(v.Mass > 0) || !(v.Track > 0) {
		if found != nil {
			raise(found, "tipping-not-computed", part.Caution, v.ID)
		}
		return res
	}
	n := book()
	h := float64(v.CGHeight)
	if !(h > 0) {
		h, res.Preset = n.cgHeight[high], true
	}
	w := float64((v.Mass + v.Load).Weight())
	sinS, sinL := sinDeg(in.FallSideDeg), sinDeg(in.FallLongDeg)
	half := float64(v.Track) / 2
	if in.Sunk {
		half *= n.sunkTrack
	}
	over := abs(in.SideN*in.HeightM + w*sinS*h)
	right := max(0, (w*flatness(sinS, sinL)-in.UpN)*half)
	res.Known, res.Over, res.Righting = true, quantity.Moment(over), quantity.Moment(right)
	res.Share = math.Inf(1)
	if right > 0 {
		res.Share = over / right
	} else if over == 0 && in.UpN == 0 {
		res.Share = 0
	}
	if sum.On() {
		sum.Add("tip-over", moment("over", over), computed(force("side", in.SideN)), computed(length("height", in.HeightM)), computed(force("weight", w)), computed(angle("fall", in.FallSideDeg)), typedOr(length("cg", h), v.Presets, "cg_height_m"))
		sum.Add("tip-righting", moment("righting", right), computed(force("weight", w)), computed(force("up", in.UpN)), computed(length("half", half)))
		sum.Add("tip-share", share("tipping", res.Share), fromFact(share("warning", n.tipWarn), facts.TipWarning), fromFact(share("danger", n.tipDanger), facts.TipDanger))
	}
	if found == nil {
		return res
	}
	switch {
	case res.Share > n.tipDanger:
		raise(found, "tips-sideways", part.Danger, v.ID, share("share", min(res.Share, shareShown)), share("limit", n.tipDanger))
	case res.Share > n.tipWarn:
		raise(found, "tips-sideways", part.Warning, v.ID, share("share", res.Share), share("limit", n.tipWarn))
	}
	return res
}

// shareShown is the most a share is said to be: where nothing rights a vehicle
// the share is infinite, and that is no number for a sentence. A vehicle that
// is pulled a hundred times as hard as tips it is no nearer to standing.
const shareShown = 99.99

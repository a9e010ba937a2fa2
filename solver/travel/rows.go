package travel

import (
	"math"
	"slices"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"

	"kedge/solver/statics"
)

// RowStatus says what a row carries.
type RowStatus uint8

const (
	// NotComputed: the place was not solved; no figures. The zero value.
	NotComputed RowStatus = iota
	// Computed: lengths and forces.
	Computed
	// Pushes: the line has no part along the motion, and no tension moves the body;
	// lengths, no forces.
	Pushes
)

// Row is a course at one place of its way. What is not known is NaN.
type Row struct {
	AtM         float64
	Status      RowStatus
	ResistanceN float64
	PullPerUnit float64 // along the motion for a tension of one; of a hold-back against it
	TensionN    float64 // at the drum
	PaidInM     float64
	OnDrumM     float64
	Layer       int     // 0: not known
	LayerPullN  float64 // of the winch on that layer
	WinchShare  float64
	OffWayDeg   float64
	OffHookDeg  float64
	Ref         r3.Vector
	HeadingDeg  float64
	Twist       [3]float64 // Free: for a metre of way, in the body's axes
	Wrench      [3]float64 // Free: for a tension of one, in the body's axes
	CasualtyN   r3.Vector
	Points      []r3.Vector
	Lines       []RowLine
	Slings      []statics.SlingResult
}

// RowLine is a line at one place: its stretches and what passes over each of its
// sheaves.
type RowLine struct {
	Stretches []statics.Stretch
	Loads     []r3.Vector // of the line on each block
	Ratios    []float64
}

// Rows computes a course at places of its way, metres.
func Rows(c *Course, atM []float64) ([]Row, error) {
	r, _, err := follow(c, nil)
	if err != nil {
		return nil, err
	}
	rows := make([]Row, len(atM))
	for i, sM := range atM {
		r.at(sM)
		rows[i] = r.row(sM)
	}
	return rows, nil
}

func (r *ride) row(sM float64) Row {
	nan := math.NaN()
	w := Row{AtM: sM, ResistanceN: nan, PullPerUnit: nan, TensionN: nan, PaidInM: nan, OnDrumM: nan, LayerPullN: nan,
		WinchShare: nan, OffWayDeg: nan, OffHookDeg: nan, HeadingDeg: nan}
	if !r.ok {
		return w
	}
	w.Status = Computed
	if r.tensionN != r.tensionN {
		w.Status = Pushes
	}
	w.PullPerUnit, w.TensionN, w.PaidInM, w.OnDrumM = r.gain, r.tensionN, r.paidInM, r.onDrumM
	w.Layer, w.LayerPullN, w.WinchShare = r.layer, r.layerPull, r.tensionN/r.layerPull
	w.ResistanceN = r.tensionN * r.gain
	if r.c.Motion.Kind != Free {
		w.ResistanceN = resistance(r.c.Resistance, sM)
	}
	w.OffWayDeg, w.OffHookDeg = r.offWayDeg(), r.offHookDeg()
	w.Ref, w.HeadingDeg = r.stance.ref, s1.Angle(math.Atan2(r.stance.heading.Y, r.stance.heading.X)).Degrees()
	w.CasualtyN = r.out.Bodies[0].ForceN.Mul(r.tensionN)
	if r.c.Motion.Kind == Free {
		yaw := r.c.Motion.HeadingRad + r.stance.turnRad
		way, f := turned(r.stance.way, -yaw), turned(r.out.Bodies[0].ForceN, -yaw)
		w.Twist = [3]float64{way.X, way.Y, r.stance.turnPerM}
		w.Wrench = [3]float64{f.X, f.Y, r.out.Bodies[0].MomentNm.Z}
	}
	for i := range r.out.Points {
		w.Points = append(w.Points, r.out.Points[i].Pos)
	}
	for i := range r.c.Rig.Lines {
		w.Lines = append(w.Lines, r.rowLine(i))
	}
	w.Slings = slices.Clone(r.out.Slings)
	for i := range w.Slings {
		w.Slings[i].TensionN *= r.tensionN
	}
	return w
}

func (r *ride) rowLine(line int) RowLine {
	var l RowLine
	for k := range len(r.c.Rig.Lines[line].Path) - 1 {
		s := *r.stretch(line, k)
		s.TensionN *= r.tensionN
		l.Stretches = append(l.Stretches, s)
	}
	for at := range r.c.Rig.Lines[line].Sheaves {
		l.Loads = append(l.Loads, r.load(line, at).Mul(r.tensionN))
		l.Ratios = append(l.Ratios, r.ratio(line, at))
	}
	return l
}

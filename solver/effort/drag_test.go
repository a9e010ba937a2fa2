package effort_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/solver/effort"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// skid lies deep: wheels 1.3 m before and behind its middle and 0.75 m aside, its
// weight as far behind the front axle as told.
func skid(cgBehindFront quantity.Length) *plan.Vehicle {
	return &plan.Vehicle{Head: plan.Head{ID: "V1"}, Mass: 2000, Length: 4.4, FrontOverhang: 0.9, Wheelbase: 2.6, Track: 1.5, CGBehindFront: cgBehindFront,
		Stuck: &plan.Stuck{Depth: plan.DepthBody}}
}

func TestWhatIsDragged(t *testing.T) {
	v := skid(1.3)
	assert.True(t, effort.Dragged(v))
	for name, still := range map[string]func(v *plan.Vehicle){
		"hub deep":          func(v *plan.Vehicle) { v.Stuck.Depth = plan.DepthHub },
		"three wheels":      func(v *plan.Vehicle) { v.Stuck.Depth, v.Stuck.LockedWheels = plan.DepthHub, 3 },
		"one axle braked":   func(v *plan.Vehicle) { v.Stuck.Depth, v.Brake = plan.DepthNone, plan.BrakeRear },
		"on its side":       func(v *plan.Vehicle) { v.Stuck.Overturned = true },
		"not to be pulled":  func(v *plan.Vehicle) { v.Stuck = nil },
		"in gear may roll":  func(v *plan.Vehicle) { v.Stuck.Depth, v.InGear = plan.DepthNone, true },
		"nobody said a jot": func(v *plan.Vehicle) { v.Stuck.Depth = plan.DepthUnknown },
	} {
		v := skid(1.3)
		still(v)
		assert.False(t, effort.Dragged(v), name)
	}
	for name, moves := range map[string]func(v *plan.Vehicle){
		"all wheels":   func(v *plan.Vehicle) { v.Stuck.Depth, v.Stuck.LockedWheels = plan.DepthNone, 4 },
		"all braked":   func(v *plan.Vehicle) { v.Stuck.Depth, v.Brake = plan.DepthNone, plan.BrakeAll },
		"a foot":       func(v *plan.Vehicle) { v.Stuck.Depth, v.FootBrake = plan.DepthNone, true },
		"all chocked":  func(v *plan.Vehicle) { v.Stuck.Depth, v.Chocks = plan.DepthNone, plan.ChocksAll },
		"on its belly": func(v *plan.Vehicle) { v.Stuck.Depth = plan.DepthChassis },
	} {
		v := skid(1.3)
		moves(v)
		assert.True(t, effort.Dragged(v), name)
	}
}

// What the wheels hold against the motion is as much a force and a moment as the pull
// at which it moves, whatever its size: the two are parallel. (balance, worked out
// here from the speeds of the wheels)
func TestADragBalances(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		cg := rapid.Float64Range(0.8, 1.8).Draw(r, "cg")
		toward := rapid.Float64Range(-math.Pi, math.Pi).Draw(r, "toward")
		at := [2]float64{rapid.Float64Range(-2.2, 2.2).Draw(r, "ahead"), rapid.Float64Range(-0.8, 0.8).Draw(r, "aside")}
		const n = 12e3
		pull := [3]float64{n * math.Cos(toward), n * math.Sin(toward)}
		pull[2] = at[0]*pull[1] - at[1]*pull[0]
		ahead, aside, turn, ok := effort.Drag(effort.DragIn{Vehicle: skid(quantity.Length(cg)), Pull: pull, ResistN: 9000})
		if !ok {
			return // on the spot
		}
		assert.InDelta(r, 1, math.Hypot(ahead, aside), 1e-9)
		var holds [3]float64
		for _, w := range [...][3]float64{{1.3, 0.75, 2.6 - cg}, {1.3, -0.75, 2.6 - cg}, {-1.3, 0.75, cg}, {-1.3, -0.75, cg}} {
			vx, vy := ahead-turn*w[1], aside+turn*w[0]
			speed := math.Hypot(vx, vy)
			if speed < 1e-3 {
				return // a wheel that stands holds whatever it must
			}
			fx, fy := w[2]*vx/speed, w[2]*vy/speed
			holds[0], holds[1], holds[2] = holds[0]+fx, holds[1]+fy, holds[2]+w[0]*fy-w[1]*fx
		}
		dot, a, b := 0.0, 0.0, 0.0
		for i := range holds {
			dot, a, b = dot+holds[i]*pull[i], a+holds[i]*holds[i], b+pull[i]*pull[i]
		}
		assert.InDelta(r, 1, dot/math.Sqrt(a*b), 1e-8)
	})
}

// With its weight in the middle and a pull through it, it goes where pull and slope
// drag it together, when the two are as much as what resists: on ground that falls by
// 10° to its left, pulled ahead, by asin(W·sin 10° / R) to the left. (closed form)
func TestADragSlidesDownTheSlope(t *testing.T) {
	const resistN = 9000
	weight := 2000 * quantity.Gravity
	ahead, aside, turn, ok := effort.Drag(effort.DragIn{Vehicle: skid(1.3), Pull: [3]float64{1, 0, 0}, ResistN: resistN, FallLeftDeg: 10})
	require.True(t, ok)
	assert.InDelta(t, weight*math.Sin(10*math.Pi/180)/resistN, aside, 1e-6)
	assert.Positive(t, ahead)
	assert.InDelta(t, 0, turn, 1e-6)
	laden := skid(1.3) // what it carries weighs as it does
	laden.Mass, laden.Load = 1700, 300
	_, same, _, ok := effort.Drag(effort.DragIn{Vehicle: laden, Pull: [3]float64{1, 0, 0}, ResistN: resistN, FallLeftDeg: 10})
	require.True(t, ok)
	assert.InDelta(t, aside, same, 1e-6)
}

func TestADragThatIsNotKnown(t *testing.T) {
	in := effort.DragIn{Vehicle: skid(1.3), Pull: [3]float64{1000, 200, 300}, ResistN: 9000}
	_, _, _, ok := effort.Drag(in)
	require.True(t, ok)
	for name, lacks := range map[string]func(in *effort.DragIn){
		"wheelbase":       func(in *effort.DragIn) { in.Vehicle.Wheelbase = 0 },
		"mass on a slope": func(in *effort.DragIn) { in.Vehicle.Mass, in.FallAheadDeg = 0, 3 },
		"resistance":      func(in *effort.DragIn) { in.ResistN = 0 },
		"no pull":         func(in *effort.DragIn) { in.Pull = [3]float64{} },
		"no number":       func(in *effort.DragIn) { in.Pull[2] = math.NaN() },
		"on the spot":     func(in *effort.DragIn) { in.Pull = [3]float64{0, 0, 1000} },
	} {
		in := effort.DragIn{Vehicle: skid(1.3), Pull: [3]float64{1000, 200, 300}, ResistN: 9000}
		lacks(&in)
		_, _, _, ok := effort.Drag(in)
		assert.False(t, ok, name)
	}
}

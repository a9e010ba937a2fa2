package effort

import (
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/quantity"
)

// CurrentIn is a vehicle in running water: Length is the side it shows at
// worst, Depth how deep its body stands in the current.
type CurrentIn struct {
	SpeedMS float64
	LengthM float64
	DepthM  float64
}

// Current is the push of running water on a body, newtons; ok is false if a
// figure is missing or not a number.
//
//	F = ½·ρ·C·A·v²,  C 1.1, A = length × depth (ours)
func Current(in CurrentIn, derivation *part.Derivation) (n quantity.Force, ok bool) {
	if !finite(in.SpeedMS, in.LengthM, in.DepthM) || !(in.SpeedMS > 0 && in.LengthM > 0 && in.DepthM > 0) {
		return 0, false
	}
	f := 0.5 * facts.WaterDensity.Value() * facts.WaterCurrentC.Value() * in.LengthM * in.DepthM * in.SpeedMS * in.SpeedMS
	if !finite(f) {
		return 0, false
	}
	if derivation.On() {
		derivation.Add("current-push", part.Force("current", f),
			fromFact(number("density", facts.WaterDensity.Value()), facts.WaterDensity), fromFact(factor("drag", facts.WaterCurrentC.Value()), facts.WaterCurrentC),
			typed(part.Length("length", in.LengthM)), typed(part.Length("depth", in.DepthM)), typed(speed("speed", in.SpeedMS)))
	}
	return quantity.Force(f), true
}

// water computes what a current adds. Its direction is not in the plan, so it
// may push along the way out as well as across. False: there is a current
// whose push nobody can state.
func (p *pull) water(res *ResistanceResult) bool {
	flows, known := p.stuck.WaterSpeed.Get()
	if !p.stuck.InWater && !known || known && flows == 0 {
		return true
	}
	v := p.in.Vehicle
	if !(flows > 0) {
		if p.found != nil {
			lacking(p.found, "current-not-known", part.Caution, p.id, "casualty.water_speed_m_per_s")
		}
		return true
	}
	depth := p.stuck.WaterDepth
	if !(depth > 0) {
		depth = v.Height
		if p.found != nil {
			f := lacking(p.found, "water-depth-not-known", part.Caution, p.id, "casualty.water_depth_on_body_m")
			f.Values = []part.Value{part.Length("depth", depth)}
		}
	}
	f, ok := Current(CurrentIn{float64(flows), float64(v.Length), float64(depth)}, nil)
	if !ok {
		if p.found != nil {
			f := raise(p.found, "current-not-computed", part.Warning, p.id)
			for _, l := range p.waterLacks() {
				l.Rule = f.ID
				f.Lacks = append(f.Lacks, l)
			}
		}
		return false
	}
	p.current = triple{0, float64(f), float64(f)}
	res.CurrentSide = rangeOf(p.current)
	if p.found != nil {
		raise(p.found, "current-pushes", part.Warning, p.id, part.Force("push", f), speed("speed", float64(flows)))
	}
	return true
}

// waterLacks is what a push of running water needs and does not have.
func (p *pull) waterLacks() (lacks []part.Lack) {
	if !(p.in.Vehicle.Length > 0) {
		lacks = append(lacks, part.Lack{Thing: p.id, Member: "length_m"})
	}
	if !(p.stuck.WaterDepth > 0) && !(p.in.Vehicle.Height > 0) {
		lacks = append(lacks, part.Lack{Thing: p.id, Member: "casualty.water_depth_on_body_m"})
	}
	return lacks
}

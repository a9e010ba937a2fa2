package plan

import (
	"reflect"
	"slices"
)

// vocabulary are the words that a member may hold, where this package says
// which there are. Members that hold the row id of a fact are not among them:
// whoever looks the row up says that there is none.
var vocabulary = map[reflect.Type]map[string][]string{
	reflect.TypeFor[Rating]():        {"basis": {string(BasisUnsaid), string(BasisWorking), string(BasisBreaking)}},
	reflect.TypeFor[Rig]():           {"basis": {"", BasisPulling, BasisLifting}},
	reflect.TypeFor[Anchor]():        {"kind": AnchorWords(), "health": {HealthUnknown, HealthAlive, HealthDoubtful, HealthDead, HealthRotten}},
	reflect.TypeFor[Person]():        {"role": {RoleOperator, RoleSpotter, RoleBystander, RoleDriver}},
	reflect.TypeFor[RecoveryPoint](): {"kind": {PointUnknown, PointRated, PointBowEye, PointHook, PointPintle, PointScrewEye, PointTowBall, PointTieDown, PointBar, PointAxle, PointSteering}},
	reflect.TypeFor[Vehicle]():       {"brake": {BrakeUnknown, BrakeNone, BrakeRear, BrakeFront, BrakeAll}, "chocks": {ChocksNone, ChocksFront, ChocksRear, ChocksAll}},
	reflect.TypeFor[Winch]():         {"drive": {"", "electric", "hydraulic", "mechanical"}, "control": {ControlUnknown, ControlWireless, ControlCable, ControlCab}},
	reflect.TypeFor[Stuck](): {"way": ways, "plan_on": {"", PlanHigh, PlanLikely, PlanLow},
		"depth": depths},
	reflect.TypeFor[Stage]():     {"depth": depths},
	reflect.TypeFor[Line]():      {"material": materials, "condition": conditions, "use": uses, "paid_out": {"", PaidOutFriction}},
	reflect.TypeFor[Sling]():     {"material": materials, "condition": conditions, "use": uses, "hitch": {HitchDefault, HitchBasket, HitchChoked, HitchStraight}, "standard": {"", "EN", "ASME"}},
	reflect.TypeFor[Block]():     {"kind": {BlockUnknown, BlockRoller, BlockPlain, BlockRing}, "rating_on": {RatedUnsaid, RatedHanger, RatedLine}},
	reflect.TypeFor[Connector](): {"kind": {ConnectorUnknown, ConnectorHook, ConnectorThimble, ConnectorSoft, ConnectorShackle}},
	reflect.TypeFor[Shackle]():   {"kind": {"", ShackleBow, ShackleDee, ShackleSoft}},
	reflect.TypeFor[Pin]():       {"kind": pinKinds, "known": {"", KnownObserved, KnownTold, KnownAssumed}, "break_look": looks},
	reflect.TypeFor[Prior]():     {"hypothesis": Weaknesses()},
}

var (
	ways       = []string{"", WayForward, WayReverse, WayFree}
	depths     = []string{DepthUnknown, DepthNone, DepthHub, DepthChassis, DepthBody}
	materials  = []string{"", MaterialWire, MaterialHMPE, MaterialNylon, MaterialPolyester, MaterialChain, MaterialFibre, MaterialKinetic, MaterialWeb, MaterialRound}
	conditions = []string{ConditionUnknown, ConditionNew, ConditionUsed, ConditionDoubtful, ConditionKinked}
	pinKinds   = []string{PinBroken, PinWhole, PinOff, PinFirst, PinLanding, PinResting, PinStalled, PinTension, PinLayer, PinMoved, PinSkid, PinRut, PinLook, PinTag, PinSeenBefore}
	looks      = []string{"", LookCut, LookWorn, LookHeat, LookKnot, LookOpened, LookTorn}
	uses       = []string{UsePull, UseTieBack, UseHoldBack}
)

// UnknownWords are the places, as JSON pointers in file order, of all words
// that this version does not know where it knows which there are: an anchor's
// kind, a state of brake, the basis of shares. A computation may not take such a
// word for another, and an answer from such a plan is incomplete. Unknown things are
// not listed: they are things of an unknown kind by themselves.
func UnknownWords(p *Plan) []string {
	if Understood(p) {
		return nil
	}
	var found []string
	schema().walk(nil, reflect.ValueOf(p).Elem(), func(n *node, f *field, path *place, v reflect.Value) {
		if f == nil {
			return
		}
		if known := vocabulary[n.typ][f.name]; known != nil && !slices.Contains(known, v.String()) {
			found = append(found, (&place{up: path, name: f.name}).String())
		}
	})
	return found
}

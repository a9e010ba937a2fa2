package gear

import (
	"math"
	"strings"
	"sync"

	"kedge/solver/facts"
	"kedge/solver/plan"
)

// ends are both ends of a row and what lies between.
type ends struct{ low, likely, high facts.Figure }

// keeps is a share of strength that an end fitting or a knot leaves.
type keeps struct {
	name string
	facts.Figure
}

// handbook is every figure the rules of this package read.
type handbook struct {
	plain, roller, sheaveLeast       facts.Figure
	ringHMPE, ringFibre, bare        facts.Figure
	ringHMPELow, ringFibreLow        facts.Figure
	bareLow                          facts.Figure
	bendWire                         facts.Figure
	bendHMPE, bendFibre              facts.Row
	bendHMPEFact, bendFibreFact      facts.Figure
	leastHMPE, leastFibre            facts.Figure
	new, used, wetNylon              facts.Figure
	knotHMPE, knotUnknown            facts.Figure
	ends, knots                      []keeps
	lowestEndWire, lowestEndFibre    facts.Figure
	meanNewLikely, meanNewHigh       facts.Figure
	lineFactor, lineLifting          facts.Figure
	blockFactor, blockLifting        facts.Figure
	gearFactor, rigLifting           facts.Figure
	slingBreaking, shackleBreaking   facts.Figure
	ultWebEN, ultWebUS               facts.Figure
	ultShackle, ultBlock, ultChain   facts.Figure
	ultWire, ultFibre, ultSling      facts.Figure
	hangerOfLine                     facts.Figure
	legShare                         facts.Figure
	basketEN                         facts.Row
	basketENFact                     facts.Figure
	parallelUS, verticalUS           facts.Figure
	basketUS                         [][]float64 // from horizontal, factor
	basketUSFact                     facts.Figure
	legLimit                         facts.Figure
	chokedWeb, chokedWebUS           facts.Figure
	chokedWire, chokedFibre          facts.Figure
	chokedChain                      facts.Figure
	chokeStep                        facts.Row
	chokeStepFact                    facts.Figure
	chokeFree                        facts.Figure
	wireBasketBend                   facts.Figure
	sidePull                         facts.Row
	sidePullFact                     facts.Figure
	included                         facts.Figure
	unmarkedShackle                  facts.Figure
	softEdge                         facts.Figure
	connector                        facts.Row
	connectorFact                    facts.Figure
	pointFull, pointWarning          facts.Figure
	pointScrew, pointShare           facts.Figure
	layerFloor                       facts.Figure
	stall, stallOdd                  ends
	drumLine, drumRatio, drumWraps   ends
	strengthWire, strengthHMPE       ends
	strengthNylon, strengthKinetic   ends
	strengthPolyester, strengthChain ends
	strengthWeb, strengthShackle     ends
	ratingBeyond                     facts.Figure
	strainWire, strainHMPE           ends
	strainNylon, strainPolyester     ends
	strainWeb, strainKinetic         ends
	stallCaution, stallWarning       facts.Figure
	stallDanger                      facts.Figure
	wrapsLeast                       facts.Figure
	wrapsWire, wrapsFibre            facts.Figure
	leadCaution, leadWarning         facts.Figure
	leadDanger, pileUp, pileWidth    facts.Figure
	fleetWarn, fleetFail             facts.Figure
	freeboard                        facts.Figure
	currentIdle, currentRated        facts.Figure
	voltage, speedNoLoad             facts.Figure
	speedCurve                       facts.Row
	speedCurveFact                   facts.Figure
	duty                             facts.Figure
	wireAELow, wireAE, wireAEHigh    facts.Figure
	hmpeAE, nylonAE                  facts.Figure
	exponentLinear, exponentNylon    facts.Figure
	exponentPolyester                facts.Figure
	wireMass, hmpeMass               facts.Figure
	polyesterMass, nylonMass         facts.Figure
	bridleLeg, twoWinches            facts.Figure
}

var book = sync.OnceValue(resolveBook)

func resolveBook() *handbook {
	b := &handbook{
		plain: facts.SheavePlain.Careful(), roller: facts.SheaveRoller.Careful(), sheaveLeast: facts.SheaveLossTextbook.Low(),
		ringHMPELow: facts.RingFrictionHMPE.Low(), ringFibreLow: facts.RingFrictionFibre.Low(), bareLow: facts.ContactTrunkRock.Low(),
		ringHMPE: facts.RingFrictionHMPE.Careful(), ringFibre: facts.RingFrictionFibre.Careful(),
		bare:     facts.ContactTrunkRock.Careful(),
		bendWire: facts.BendWireC.Careful(),
		bendHMPE: facts.Must(facts.BendHMPE), bendFibre: facts.Must(facts.BendFibre),
		bendHMPEFact: facts.BendHMPE.Table(), bendFibreFact: facts.BendFibre.Table(),
		leastHMPE: facts.SheaveHMPE8d.Careful(), leastFibre: facts.SheaveFibreD.Likely(),
		new: facts.ConditionNew.Careful(), used: facts.ConditionUsed.Careful(), wetNylon: facts.ConditionWetNylon.Careful(),
		knotHMPE: facts.KnotHMPE.Careful(), knotUnknown: facts.KnotUnknown.Careful(),
		meanNewLikely: facts.StrengthMeanNewRope.Likely(), meanNewHigh: facts.StrengthMeanNewRope.High(),
		lineFactor: facts.FactorPullingWinchLine.Careful(), lineLifting: facts.FactorLiftingLine.Careful(),
		blockFactor: facts.FactorPullingBlock.Careful(), blockLifting: facts.FactorLiftingBlock.Careful(),
		gearFactor: facts.FactorPullingAnchorGear.Careful(), rigLifting: facts.FactorLiftingRigging.Careful(),
		slingBreaking: facts.FactorPullingSlingBreaking.Careful(), shackleBreaking: facts.FactorPullingShackleBreaking.Careful(),
		ultWebEN: facts.FactorUltimateWebEN.Careful(), ultWebUS: facts.FactorUltimateWebUS.Careful(),
		ultShackle: facts.FactorUltimateShackle.Careful(), ultBlock: facts.FactorUltimateBlock.Careful(),
		ultChain: facts.FactorUltimateChain.Careful(), ultWire: facts.FactorUltimateWireSling.Careful(),
		ultFibre: facts.FactorUltimateFibreSling.Careful(), ultSling: facts.FactorUltimateSling.Careful(),
		hangerOfLine: facts.BlockHangerOfLine.Careful(),
		legShare:     facts.SlingBendShareFixed.Careful(),
		basketEN:     facts.Must(facts.SlingBasketEN), basketENFact: facts.SlingBasketEN.Table(),
		parallelUS: facts.SlingParallelUS.Careful(), verticalUS: facts.SlingBasketUSVertical.Careful(),
		basketUS: facts.Must(facts.SlingBasketUS).Cells(), basketUSFact: facts.SlingBasketUS.Table(),
		legLimit:  facts.SlingAngleLimit.Careful(),
		chokedWeb: facts.SlingChokedWeb.Careful(), chokedWebUS: facts.SlingChokedWebOlder.Careful(),
		chokedWire: facts.SlingChokedWire.Careful(), chokedFibre: facts.SlingChokedFibre.Careful(),
		chokedChain: facts.SlingChokedChainOlder.Careful(),
		chokeStep:   facts.Must(facts.SlingChokeAngle), chokeStepFact: facts.SlingChokeAngle.Table(),
		chokeFree:      facts.SlingChokeFree.Careful(),
		wireBasketBend: facts.SlingBasketBendMechanical.Careful(),
		sidePull:       facts.Must(facts.ShackleSidePull), sidePullFact: facts.ShackleSidePull.Table(),
		included: facts.ShackleIncludedAngle.Careful(), unmarkedShackle: facts.ShackleUnmarked.Careful(),
		softEdge:  facts.SoftShackleEdge.Careful(),
		connector: facts.Must(facts.ConnectorRating), connectorFact: facts.ConnectorRating.Table(),
		pointFull: facts.PointUnsaidFull.Careful(), pointWarning: facts.PointUnsaidWarning.Careful(),
		pointScrew: facts.PointScrewInEye.Careful(),
		layerFloor: lower(facts.WinchFullDrumFloor.Careful(), facts.WinchSmallDrumFloor.Careful()),
		stall:      rangeOf(facts.WinchStall), stallOdd: rangeOf(facts.WinchStallFactor),
		strengthWire: rangeOf(facts.StrengthWire), strengthHMPE: rangeOf(facts.HMPEBreak), strengthNylon: rangeOf(facts.StrengthNylon),
		strengthKinetic: rangeOf(facts.StrengthKinetic), strengthPolyester: rangeOf(facts.StrengthPolyester),
		strengthChain: rangeOf(facts.StrengthChain), strengthWeb: rangeOf(facts.StrengthWeb), strengthShackle: rangeOf(facts.StrengthShackle),
		ratingBeyond: facts.StrengthRatingBeyond.Careful(),
		strainWire:   rangeOf(facts.WireBreakStrain), strainHMPE: rangeOf(facts.HMPEBreakStrain), strainNylon: rangeOf(facts.NylonBreakStrainLaid),
		strainPolyester: rangeOf(facts.PolyesterBreakStrain), strainWeb: rangeOf(facts.PolyesterFibreBreakStrain),
		strainKinetic: rangeOf(facts.KineticBreakStrainRope),
		drumLine:      rangeOf(facts.DrumLineDiameter), drumRatio: rangeOf(facts.DrumRatio), drumWraps: rangeOf(facts.DrumWrapsALayer),
		stallCaution: facts.WinchStallCaution.Careful(), stallWarning: facts.WinchStallWarning.Careful(),
		stallDanger: facts.WinchStallDanger.Careful(),
		wrapsLeast:  facts.WinchWrapsPlatform.Likely(),
		wrapsWire:   facts.WinchWrapsSteel.Careful(), wrapsFibre: facts.WinchWrapsSynthetic.Careful(),
		leadCaution: facts.WinchFairleadCaution.Careful(), leadWarning: facts.WinchFairleadWarning.Careful(),
		leadDanger: facts.WinchFairleadDanger.Careful(), pileUp: facts.WinchPileUp.Careful(), pileWidth: facts.WinchPileUpWidth.Careful(),
		fleetWarn: facts.FleetPlain.Careful(), fleetFail: facts.FleetPlainNSW.Careful(),
		freeboard:   facts.DrumFreeboard.Careful(),
		currentIdle: facts.WinchCurrentIdle.Likely(), currentRated: facts.WinchCurrentRated.Careful(),
		voltage: facts.WinchVoltage.Likely(), speedNoLoad: facts.WinchSpeedNoload.Likely(),
		speedCurve: facts.Must(facts.WinchSpeedTypical), speedCurveFact: facts.WinchSpeedTypical.Table(),
		duty:      facts.WinchDuty.Careful(),
		wireAELow: facts.WireStiffness.Low(), wireAE: facts.WireStiffness.Likely(), wireAEHigh: facts.WireStiffness.High(),
		hmpeAE: facts.HMPEStiffness.Careful(), nylonAE: facts.NylonStiffnessLaid.Careful(),
		exponentLinear: facts.StiffeningLinear.Careful(), exponentNylon: facts.StiffeningNylon.Careful(),
		exponentPolyester: facts.StiffeningPolyester.Likely(),
		wireMass:          facts.WireMassIWRC.Careful(), hmpeMass: facts.HMPEMass.Careful(),
		polyesterMass: facts.PolyesterMass.Careful(), nylonMass: facts.NylonMass.Careful(),
		bridleLeg: facts.FactorFixedBridleLeg.Careful(), twoWinches: facts.FactorTwoWinches.Careful(),
	}
	b.pointShare = shareAt(b.sidePull, b.sidePullFact, (b.pointFull.X+b.pointWarning.X)/2)
	b.resolveKeeps()
	return b
}

// resolveKeeps lists end fittings and knots, and finds the lowest of each.
func (b *handbook) resolveKeeps() {
	for _, row := range facts.All() { // sorted by id
		id := string(row.ID)
		switch {
		case row.IsTable():
		case strings.HasPrefix(id, "end."):
			b.ends = append(b.ends, keeps{id, row.ID.Careful()})
		case strings.HasPrefix(id, "knot."):
			b.knots = append(b.knots, keeps{id, defaultOf(row).ID.Careful()})
		}
	}
	b.lowestEndWire = facts.Figure{X: math.Inf(1)}
	for _, e := range b.ends {
		if !strings.HasPrefix(e.name, "end.hmpe") && e.X < b.lowestEndWire.X {
			b.lowestEndWire = e.Figure
		}
	}
	b.lowestEndFibre = b.knotUnknown
}

// defaultOf is the default of a row's choice; the row itself if it has none.
func defaultOf(row facts.Row) facts.Row {
	if rows := facts.Alternatives(row.Choice); len(rows) > 0 {
		return rows[0]
	}
	return row
}

// lower is the lower of two facts.
func lower(a, b facts.Figure) facts.Figure {
	if b.X < a.X {
		return b
	}
	return a
}

func rangeOf(id facts.ID) ends { return ends{id.Low(), id.Likely(), id.High()} }

// shareAt is a step of a table as a fact.
func shareAt(row facts.Row, head facts.Figure, x float64) facts.Figure {
	head.X, _ = row.Step(x)
	return head
}

// end is the end fitting of a line by its row id, with or without "end.".
func (b *handbook) end(id string) (facts.Figure, bool) { return find(b.ends, "end.", id) }

// knot is a knot by its row id, with or without "knot.".
func (b *handbook) knot(id string) (facts.Figure, bool) { return find(b.knots, "knot.", id) }

func find(list []keeps, prefix, id string) (facts.Figure, bool) {
	id = strings.TrimPrefix(id, prefix)
	for i := range list {
		if list[i].name[len(prefix):] == id {
			return list[i].Figure, true
		}
	}
	return facts.Figure{}, false
}

// synthetic tells a rope of fibres from wire and chain.
func synthetic(material string) bool {
	switch material {
	case plan.MaterialHMPE, plan.MaterialNylon, plan.MaterialPolyester, plan.MaterialFibre, plan.MaterialKinetic:
		return true
	}
	return false
}

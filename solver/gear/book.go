package gear

import (
	"math"
	"strings"
	"sync"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// fact is a handbook figure, resolved once: its careful end in SI.
type fact struct {
	id     facts.ID
	x      float64
	surety part.Surety
}

// ends are both ends of a row and what lies between.
type ends struct{ low, likely, high fact }

// keeps is a share of strength that an end fitting or a knot leaves.
type keeps struct {
	name string
	fact
}

// handbook is every figure the rules of this package read.
type handbook struct {
	plain, roller, sheaveLeast       fact
	ringHMPE, ringFibre, bare        fact
	ringHMPELow, ringFibreLow        fact
	bareLow                          fact
	bendWire                         fact
	bendHMPE, bendFibre              facts.Row
	bendHMPEFact, bendFibreFact      fact
	leastHMPE, leastFibre            fact
	new, used, wetNylon              fact
	knotHMPE, knotUnknown            fact
	ends, knots                      []keeps
	lowestEndWire, lowestEndFibre    fact
	meanNewLikely, meanNewHigh       fact
	lineFactor, lineLifting          fact
	blockFactor, blockLifting        fact
	gearFactor, rigLifting           fact
	slingBreaking, shackleBreaking   fact
	ultWebEN, ultWebUS               fact
	ultShackle, ultBlock, ultChain   fact
	ultWire, ultFibre, ultSling      fact
	hangerOfLine                     fact
	legShare                         fact
	basketEN                         facts.Row
	basketENFact                     fact
	parallelUS, verticalUS           fact
	basketUS                         [][]float64 // from horizontal, factor
	basketUSFact                     fact
	legLimit                         fact
	chokedWeb, chokedWebUS           fact
	chokedWire, chokedFibre          fact
	chokedChain                      fact
	chokeStep                        facts.Row
	chokeStepFact                    fact
	chokeFree                        fact
	wireBasketBend                   fact
	sidePull                         facts.Row
	sidePullFact                     fact
	included                         fact
	unmarkedShackle                  fact
	softEdge                         fact
	connector                        facts.Row
	connectorFact                    fact
	pointFull, pointWarning          fact
	pointScrew, pointShare           fact
	layerFloor                       fact
	stall, stallOdd                  ends
	drumLine, drumRatio, drumWraps   ends
	strengthWire, strengthHMPE       ends
	strengthNylon, strengthKinetic   ends
	strengthPolyester, strengthChain ends
	strengthWeb, strengthShackle     ends
	ratingBeyond                     fact
	strainWire, strainHMPE           ends
	strainNylon, strainPolyester     ends
	strainWeb, strainKinetic         ends
	stallCaution, stallWarning       fact
	stallDanger                      fact
	wrapsWire, wrapsFibre            fact
	leadCaution, leadWarning         fact
	leadDanger, pileUp, pileWidth    fact
	fleetWarn, fleetFail             fact
	freeboard                        fact
	currentIdle, currentRated        fact
	voltage, speedNoLoad             fact
	speedCurve                       facts.Row
	speedCurveFact                   fact
	duty                             fact
	wireAELow, wireAE, wireAEHigh    fact
	hmpeAE, nylonAE                  fact
	exponentLinear, exponentNylon    fact
	exponentPolyester                fact
	wireMass, hmpeMass               fact
	polyesterMass, nylonMass         fact
	bridleLeg, twoWinches            fact
}

var book = sync.OnceValue(resolveBook)

func resolveBook() *handbook {
	b := &handbook{
		plain: careful(facts.SheavePlain), roller: careful(facts.SheaveRoller), sheaveLeast: low(facts.SheaveLossTextbook),
		ringHMPELow: low(facts.RingFrictionHMPE), ringFibreLow: low(facts.RingFrictionFibre), bareLow: low(facts.ContactTrunkRock),
		ringHMPE: careful(facts.RingFrictionHMPE), ringFibre: careful(facts.RingFrictionFibre),
		bare:     careful(facts.ContactTrunkRock),
		bendWire: careful(facts.BendWireC),
		bendHMPE: facts.Must(facts.BendHMPE), bendFibre: facts.Must(facts.BendFibre),
		bendHMPEFact: table(facts.BendHMPE), bendFibreFact: table(facts.BendFibre),
		leastHMPE: careful(facts.SheaveHMPE8d), leastFibre: likely(facts.SheaveFibreD),
		new: careful(facts.ConditionNew), used: careful(facts.ConditionUsed), wetNylon: careful(facts.ConditionWetNylon),
		knotHMPE: careful(facts.KnotHMPE), knotUnknown: careful(facts.KnotUnknown),
		meanNewLikely: likely(facts.StrengthMeanNewRope), meanNewHigh: high(facts.StrengthMeanNewRope),
		lineFactor: careful(facts.FactorPullingWinchLine), lineLifting: careful(facts.FactorLiftingLine),
		blockFactor: careful(facts.FactorPullingBlock), blockLifting: careful(facts.FactorLiftingBlock),
		gearFactor: careful(facts.FactorPullingAnchorGear), rigLifting: careful(facts.FactorLiftingRigging),
		slingBreaking: careful(facts.FactorPullingSlingBreaking), shackleBreaking: careful(facts.FactorPullingShackleBreaking),
		ultWebEN: careful(facts.FactorUltimateWebEN), ultWebUS: careful(facts.FactorUltimateWebUS),
		ultShackle: careful(facts.FactorUltimateShackle), ultBlock: careful(facts.FactorUltimateBlock),
		ultChain: careful(facts.FactorUltimateChain), ultWire: careful(facts.FactorUltimateWireSling),
		ultFibre: careful(facts.FactorUltimateFibreSling), ultSling: careful(facts.FactorUltimateSling),
		hangerOfLine: careful(facts.BlockHangerOfLine),
		legShare:     careful(facts.SlingBendShareFixed),
		basketEN:     facts.Must(facts.SlingBasketEN), basketENFact: table(facts.SlingBasketEN),
		parallelUS: careful(facts.SlingParallelUS), verticalUS: careful(facts.SlingBasketUSVertical),
		basketUS: facts.Must(facts.SlingBasketUS).Cells(), basketUSFact: table(facts.SlingBasketUS),
		legLimit:  careful(facts.SlingAngleLimit),
		chokedWeb: careful(facts.SlingChokedWeb), chokedWebUS: careful(facts.SlingChokedWebOlder),
		chokedWire: careful(facts.SlingChokedWire), chokedFibre: careful(facts.SlingChokedFibre),
		chokedChain: careful(facts.SlingChokedChainOlder),
		chokeStep:   facts.Must(facts.SlingChokeAngle), chokeStepFact: table(facts.SlingChokeAngle),
		chokeFree:      careful(facts.SlingChokeFree),
		wireBasketBend: careful(facts.SlingBasketBendMechanical),
		sidePull:       facts.Must(facts.ShackleSidePull), sidePullFact: table(facts.ShackleSidePull),
		included: careful(facts.ShackleIncludedAngle), unmarkedShackle: careful(facts.ShackleUnmarked),
		softEdge:  careful(facts.SoftShackleEdge),
		connector: facts.Must(facts.ConnectorRating), connectorFact: table(facts.ConnectorRating),
		pointFull: careful(facts.PointUnsaidFull), pointWarning: careful(facts.PointUnsaidWarning),
		pointScrew: careful(facts.PointScrewInEye),
		layerFloor: lower(careful(facts.WinchFullDrumFloor), careful("winch.small-drum-floor")),
		stall:      rangeOf(facts.WinchStall), stallOdd: rangeOf(facts.WinchStallFactor),
		strengthWire: rangeOf(facts.StrengthWire), strengthHMPE: rangeOf(facts.HMPEBreak), strengthNylon: rangeOf(facts.StrengthNylon),
		strengthKinetic: rangeOf(facts.StrengthKinetic), strengthPolyester: rangeOf(facts.StrengthPolyester),
		strengthChain: rangeOf(facts.StrengthChain), strengthWeb: rangeOf(facts.StrengthWeb), strengthShackle: rangeOf(facts.StrengthShackle),
		ratingBeyond: careful(facts.StrengthRatingBeyond),
		strainWire:   rangeOf(facts.WireBreakStrain), strainHMPE: rangeOf(facts.HMPEBreakStrain), strainNylon: rangeOf(facts.NylonBreakStrainLaid),
		strainPolyester: rangeOf(facts.PolyesterBreakStrain), strainWeb: rangeOf(facts.PolyesterFibreBreakStrain),
		strainKinetic: rangeOf(facts.KineticBreakStrainRope),
		drumLine:      rangeOf(facts.DrumLineDiameter), drumRatio: rangeOf(facts.DrumRatio), drumWraps: rangeOf(facts.DrumWrapsALayer),
		stallCaution: careful(facts.WinchStallCaution), stallWarning: careful(facts.WinchStallWarning),
		stallDanger: careful(facts.WinchStallDanger),
		wrapsWire:   careful(facts.WinchWrapsSteel), wrapsFibre: careful(facts.WinchWrapsSynthetic),
		leadCaution: careful(facts.WinchFairleadCaution), leadWarning: careful(facts.WinchFairleadWarning),
		leadDanger: careful(facts.WinchFairleadDanger), pileUp: careful(facts.WinchPileUp), pileWidth: careful(facts.WinchPileUpWidth),
		fleetWarn: careful(facts.FleetPlain), fleetFail: careful(facts.FleetPlainNSW),
		freeboard:   careful(facts.DrumFreeboard),
		currentIdle: likely(facts.WinchCurrentIdle), currentRated: careful(facts.WinchCurrentRated),
		voltage: likely(facts.WinchVoltage), speedNoLoad: likely(facts.WinchSpeedNoload),
		speedCurve: facts.Must(facts.WinchSpeedTypical), speedCurveFact: table(facts.WinchSpeedTypical),
		duty:      careful(facts.WinchDuty),
		wireAELow: low(facts.WireStiffness), wireAE: likely(facts.WireStiffness), wireAEHigh: high(facts.WireStiffness),
		hmpeAE: careful(facts.HMPEStiffness), nylonAE: careful(facts.NylonStiffnessLaid),
		exponentLinear: careful(facts.StiffeningLinear), exponentNylon: careful(facts.StiffeningNylon),
		exponentPolyester: likely(facts.StiffeningPolyester),
		wireMass:          careful(facts.WireMassIWRC), hmpeMass: careful(facts.HMPEMass),
		polyesterMass: careful(facts.PolyesterMass), nylonMass: careful(facts.NylonMass),
		bridleLeg: careful(facts.FactorFixedBridleLeg), twoWinches: careful(facts.FactorTwoWinches),
	}
	b.pointShare = shareAt(b.sidePull, b.sidePullFact, (b.pointFull.x+b.pointWarning.x)/2)
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
			b.ends = append(b.ends, keeps{id, careful(row.ID)})
		case strings.HasPrefix(id, "knot."):
			b.knots = append(b.knots, keeps{id, careful(defaultOf(row).ID)})
		}
	}
	b.lowestEndWire = fact{x: math.Inf(1)}
	for _, e := range b.ends {
		if !strings.HasPrefix(e.name, "end.hmpe") && e.x < b.lowestEndWire.x {
			b.lowestEndWire = e.fact
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
func lower(a, b fact) fact {
	if b.x < a.x {
		return b
	}
	return a
}

// careful reads a row's careful end; where no end is careful in every use the
// row is a single figure or the rule that reads it says which end it takes.
func careful(id facts.ID) fact {
	row := facts.Must(id)
	x, ok := row.CarefulValue()
	if !ok {
		x = row.Likely
	}
	return resolved(row, x)
}

func rangeOf(id facts.ID) ends { return ends{low(id), likely(id), high(id)} }

func low(id facts.ID) fact    { row := facts.Must(id); return resolved(row, row.Low) }
func likely(id facts.ID) fact { row := facts.Must(id); return resolved(row, row.Likely) }
func high(id facts.ID) fact   { row := facts.Must(id); return resolved(row, row.High) }

// table is the head of a table row; its figure is read by Step.
func table(id facts.ID) fact {
	row := facts.Must(id)
	return fact{id, math.NaN(), part.SuretyOf(string(row.Surety))}
}

func resolved(row facts.Row, x float64) fact {
	return fact{row.ID, x * row.ToSI(), part.SuretyOf(string(row.Surety))}
}

// shareAt is a step of a table as a fact.
func shareAt(row facts.Row, head fact, x float64) fact {
	head.x, _ = row.Step(x)
	return head
}

// end is the end fitting of a line by its row id, with or without "end.".
func (b *handbook) end(id string) (fact, bool) { return find(b.ends, "end.", id) }

// knot is a knot by its row id, with or without "knot.".
func (b *handbook) knot(id string) (fact, bool) { return find(b.knots, "knot.", id) }

func find(list []keeps, prefix, id string) (fact, bool) {
	id = strings.TrimPrefix(id, prefix)
	for i := range list {
		if list[i].name[len(prefix):] == id {
			return list[i].fact, true
		}
	}
	return fact{}, false
}

// synthetic tells a rope of fibres from wire and chain.
func synthetic(material string) bool {
	switch material {
	case plan.MaterialHMPE, plan.MaterialNylon, plan.MaterialPolyester, plan.MaterialFibre, plan.MaterialKinetic:
		return true
	}
	return false
}

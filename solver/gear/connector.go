package gear

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// ConnectorIn is the connector at an end of a line.
type ConnectorIn struct {
	Line *plan.Line
	Part string
}

// Connector is what the piece may be asked for that hooks a line on: its
// working tag, or breaking ÷ 5. Without a rating it is assumed, and said so: the
// working load that goes with the line's diameter by the table of connectors,
// of a kind that is not known the lowest there. Where the table does not reach
// it has no limit. It gives at its standard's factor over the working load: 5
// for shackles (EN 13889), 4 for hooks, thimbles and what is not known (EN
// 1677, as its chain).
func Connector(in ConnectorIn, derivation *part.Derivation, found *[]part.Finding) part.Capacity {
	c := in.Line.Connector
	where := at{thing: in.Line.ID, part: in.Part, below: "connector."}
	if c.Rating.Force == 0 {
		return assumedConnector(in, derivation, found)
	}
	r := connectorTag(in.Line, where, found)
	if !r.known {
		return part.Capacity{}
	}
	if positive(float64(in.Line.Diameter)) {
		beyondSize(ofConnector(in.Line), &r, where, found)
	}
	if r.working {
		limit := limited(r.forceN, "tag", r, part.ConfidenceTyped)
		if derivation.On() {
			derivation.Add("connector-limit", part.Number("limit", part.UnitLimit, limit.Force), typed("tag", part.UnitLimit, r.forceN, r.preset))
		}
		return part.Capacity{Limit: limit, Ultimate: tagUltimate(r.forceN, connectorFactor(c.Kind)), Note: "from the standard's factor, not tested"}
	}
	factor := facts.FactorPullingShackleBreaking.Conservative()
	limit := limited(r.forceN/factor.X, "shackle 5:1", r, factor.Confidence)
	if derivation.On() {
		derivation.Add("connector-limit-breaking", part.Number("limit", part.UnitLimit, limit.Force),
			typed("breaking", part.UnitLimit, r.forceN, r.preset), cited("factor", part.UnitNone, factor))
	}
	u := quantity.Force(r.forceN)
	return part.Capacity{Limit: limit, Ultimate: part.Range{Known: true, Low: u, Likely: u, High: u}, Note: "breaking strength as rigged"}
}

// assumedConnector is the capacity of one that nobody has rated. That is said of
// the line, once, however many of its ends it hooks on.
func assumedConnector(in ConnectorIn, derivation *part.Derivation, found *[]part.Finding) part.Capacity {
	l := in.Line
	f, ok := ConnectorRating(l.Connector.Kind, l.Diameter)
	if !ok {
		lacks := []part.Lack{{Thing: l.ID, Member: "connector.rating.force_n"}}
		if !positive(float64(l.Diameter)) {
			lacks = append(lacks, part.Lack{Thing: l.ID, Member: "diameter_m"})
		}
		part.NotDecided(found, "connector-assumed", l.ID, lacks...)
		return part.Capacity{}
	}
	raise(found, "connector-assumed", part.Notice, at{thing: l.ID}, &part.Remedy{Do: "type-connector", Thing: l.ID},
		part.Word("kind", ConnectorWord(l.Connector.Kind)),
		part.Length("line", l.Diameter), part.Number("limit", part.UnitLimit, f))
	row := facts.ConnectorRating.Table()
	row.X = float64(f)
	limit := limited(row.X, "connector assumed", rated{known: true, preset: true, confidence: row.Confidence}, row.Confidence)
	if derivation.On() {
		derivation.Add("connector-limit-assumed", part.Number("limit", part.UnitLimit, row.X), cited("assumed", part.UnitLimit, row),
			computed("line", part.UnitLength, float64(l.Diameter)))
	}
	return part.Capacity{Limit: limit, Ultimate: tagUltimate(row.X, connectorFactor(l.Connector.Kind)), Note: "from the standard's factor, not tested"}
}

// ConnectorRating is the working load assumed of a connector of a kind that
// nobody has rated, at the end of a line that thick; of a kind that is not known
// the lowest. ok is false where the table does not reach, or the line's diameter
// is not known.
func ConnectorRating(kind string, line quantity.Length) (f quantity.Force, ok bool) {
	kinds := connectorKinds[:]
	for i := range connectorKinds {
		if connectorKinds[i] == kind {
			kinds = connectorKinds[i : i+1]
		}
	}
	row := facts.Must(facts.ConnectorRating)
	const mmPerM = 1000
	least := math.Inf(1)
	for _, k := range kinds {
		x, ok := row.StepOf(k, float64(line)*mmPerM)
		if !ok {
			return 0, false
		}
		least = min(least, x*row.ToSI())
	}
	return quantity.Force(least), true
}

// connectorKinds are the kinds the table has a column for.
var connectorKinds = [...]string{plan.ConnectorHook, plan.ConnectorThimble, plan.ConnectorSoft, plan.ConnectorShackle}

// connectorWords are their word ids, with that of no kind that is known.
var connectorWords = map[string]string{
	plan.ConnectorUnknown: "connector-", plan.ConnectorHook: "connector-hook", plan.ConnectorThimble: "connector-thimble",
	plan.ConnectorSoft: "connector-soft shackle", plan.ConnectorShackle: "connector-shackle",
}

// ConnectorWord is the word id of a kind of connector.
func ConnectorWord(kind string) string {
	if word, ok := connectorWords[kind]; ok {
		return word
	}
	return connectorWords[plan.ConnectorUnknown]
}

func connectorFactor(kind string) facts.Figure {
	switch kind {
	case plan.ConnectorSoft, plan.ConnectorShackle:
		return facts.FactorUltimateShackle.Conservative()
	}
	return facts.FactorUltimateChain.Conservative()
}

// connectorTag reads the rating of a line's connector. What is wrong with it is
// mended there, and not at the rating of the line.
func connectorTag(l *plan.Line, where at, found *[]part.Finding) rated {
	var presets []string
	if isPreset(l.Presets, "connector.rating") {
		presets = []string{"rating"}
	}
	var own []part.Finding
	r := readRating(l.Connector.Rating, presets, where, &own)
	for i := range own {
		own[i].Remedies = []part.Remedy{{Do: "type-connector", Thing: l.ID}}
	}
	if found != nil {
		*found = append(*found, own...)
	}
	return r
}

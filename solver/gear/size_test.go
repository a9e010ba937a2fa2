package gear_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/facts"
	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// rated raises what there is to say of a piece's rating.
func ratedLine(material string, d quantity.Length, r plan.Rating) []part.Finding {
	l := hmpe()
	l.Material, l.Diameter, l.Rating = material, d, r
	var found []part.Finding
	gear.Stretch(gear.StretchIn{Line: l, OnWinch: true}, nil, &found)
	return found
}

func ratedSling(material string, width quantity.Length, r plan.Rating) []part.Finding {
	s := web()
	s.Material, s.Width, s.Rating = material, width, r
	var found []part.Finding
	gear.Sling(gear.SlingIn{Sling: s, Hitch: plan.HitchStraight}, nil, &found)
	return found
}

func ratedShackle(kind string, body quantity.Length, r plan.Rating) []part.Finding {
	s := bow()
	s.Kind, s.Body, s.Rating = kind, body, r
	var found []part.Finding
	gear.Shackle(gear.ShackleIn{Shackle: s}, nil, &found)
	return found
}

func ratedBlock(line quantity.Length, on string, r plan.Rating) []part.Finding {
	var found []part.Finding
	gear.Block(gear.BlockIn{Block: &plan.Block{Head: plan.Head{ID: "B1"}, Kind: plan.BlockRoller, LineMax: line, RatingOn: on, Rating: r}}, nil, &found)
	return found
}

// A block is asked for twice what the strongest rope carries that it takes, on its
// hanger: 0.9 d² of HMPE (from memory), breaking at 4 times its tag (ASME B30.26,
// from memory). Over 1.5 times that is doubted. (ours)
func TestBlockRatingBeyondItsLine(t *testing.T) {
	tons := func(x float64) plan.Rating { return working(x * 9.80665) }
	for _, tt := range []struct {
		name   string
		found  []part.Finding
		raised bool
	}{
		{"a block of 5 t for 12 mm", ratedBlock(0.012, plan.RatedHanger, tons(5)), false},
		{"pounds for kilograms", ratedBlock(0.012, plan.RatedHanger, tons(5*2.2046)), true},
		{"97 kN: 1.5 · 2 · 0.9 · 144 / 4 is 97.2", ratedBlock(0.012, plan.RatedHanger, working(97)), false},
		{"98 kN", ratedBlock(0.012, plan.RatedHanger, working(98)), true},
		{"49 kN on its line", ratedBlock(0.012, plan.RatedLine, working(49)), true},
		{"48 kN on its line", ratedBlock(0.012, plan.RatedLine, working(48)), false},
		{"breaking at 390 kN", ratedBlock(0.012, plan.RatedHanger, breaking(390)), true},
		{"breaking at 388 kN", ratedBlock(0.012, plan.RatedHanger, breaking(388)), false},
	} {
		documented(t, tt.found)
		_, raised := levelOf(tt.found, "block-rating-beyond")
		assert.Equal(t, tt.raised, raised, tt.name)
	}
	assert.Contains(t, lacksOf(ratedBlock(0, plan.RatedHanger, tons(5)), "block-rating-beyond"), "line_max_m")
}

// A hook or a point has no size in a plan; a hundred tons are doubted of any.
func TestOddRatings(t *testing.T) {
	for _, tt := range []struct {
		r      plan.Rating
		raised bool
	}{{working(999), false}, {working(1001), true}, {breaking(4999), false}, {breaking(5001), true}, {plan.Rating{Force: 1001 * kN}, true}, {plan.Rating{Force: 999 * kN}, false}} {
		l := hmpe()
		l.Connector = plan.Connector{Kind: plan.ConnectorHook, Rating: tt.r}
		var hook, point []part.Finding
		gear.Connector(gear.ConnectorIn{Line: l}, nil, &hook)
		gear.RecoveryPoint(gear.PointIn{Vehicle: "V1", Point: &plan.RecoveryPoint{ID: "front", Kind: plan.PointRated, Rating: tt.r}}, nil, &point)
		for what, found := range map[string][]part.Finding{"hook": hook, "point": point} {
			documented(t, found)
			_, raised := levelOf(found, "rating-odd")
			assert.Equal(t, tt.raised, raised, "%s %v", what, tt.r)
		}
	}
}

// A rating over 1.5 times what its material and size carry, and over the
// strongest made, is doubted [ours]; both figures are told.
func TestRatingBeyondItsSize(t *testing.T) {
	tons := func(x float64) plan.Rating { return working(x * 9.80665) }
	for _, tt := range []struct {
		name    string
		found   []part.Finding
		raised  bool
		carries float64 // kN, on the basis of the rating
		source  string
	}{
		{"10 mm HMPE of 134 kN", ratedLine(plan.MaterialHMPE, 0.010, breaking(134)), false, 0, "1.5 · 0.9 d² (memory) is 135"},
		{"10 mm HMPE of 136 kN", ratedLine(plan.MaterialHMPE, 0.010, breaking(136)), true, 90, "same"},
		{"10 mm HMPE of 95 MN", ratedLine(plan.MaterialHMPE, 0.010, breaking(95e3)), true, 90, "same"},
		{"10 mm HMPE, pounds for kilograms", ratedLine(plan.MaterialHMPE, 0.010, breaking(2.2046*90)), true, 90, "same"},
		{"its tag of 68 kN", ratedLine(plan.MaterialHMPE, 0.010, working(68)), true, 45, "half of breaking on a winch line's tag"},
		{"its tag of 67 kN", ratedLine(plan.MaterialHMPE, 0.010, working(67)), false, 0, "same"},
		{"136 kN, not said which", ratedLine(plan.MaterialHMPE, 0.010, plan.Rating{Force: 136 * kN}), true, 90, "counts as breaking"},
		{"10 mm wire of the strongest grade", ratedLine(plan.MaterialWire, 0.010, breaking(76.9)), false, 0, "EN 12385-4, grade 2160"},
		{"10 mm wire of 94 kN", ratedLine(plan.MaterialWire, 0.010, breaking(94)), false, 0, "1.5 · 63.0 kN of grade 1770 is 94.5"},
		{"10 mm wire of 95 kN", ratedLine(plan.MaterialWire, 0.010, breaking(95)), true, 63, "same"},
		{"1 in double-braid nylon", ratedLine(plan.MaterialNylon, 0.0254, breaking(149.5)), false, 0, "UFC 4-159-03: 33.6 kip"},
		{"1 in nylon of 160 kN", ratedLine(plan.MaterialNylon, 0.0254, breaking(160)), false, 0, "over 1.5 · 163 d², under the strongest of the table, 254 d²"},
		{"1 in nylon of 166 kN", ratedLine(plan.MaterialNylon, 0.0254, breaking(166)), true, 0.163 * 25.4 * 25.4, "strongest of the table, 2.5 in: 254 d²"},
		{"24 mm polyester of 9 t", ratedLine(plan.MaterialPolyester, 0.024, breaking(88.3)), false, 0, "OCIMF Table 6.5"},
		{"24 mm polyester of 20 t", ratedLine(plan.MaterialPolyester, 0.024, breaking(196)), true, 0.169 * 24 * 24, "same"},
		{"22 mm kinetic rope of 13 t", ratedLine(plan.MaterialKinetic, 0.022, breaking(127.5)), false, 0, "common practice"},
		{"8 mm chain sling, grade 80", ratedSling(plan.MaterialChain, 0.008, tons(2)), false, 0, "EN 818-4"},
		{"8 mm chain sling of 4.4 t", ratedSling(plan.MaterialChain, 0.008, tons(4.4)), true, 1.263 * 64 / 4, "1.263 d² breaking, a quarter on its tag"},
		{"90 mm web sling of 3 t", ratedSling(plan.MaterialWeb, 0.090, tons(3)), false, 0, "EN 1492-1: 1 t for 30 mm"},
		{"90 mm web sling of 7 t", ratedSling(plan.MaterialWeb, 0.090, tons(7)), true, 2.290 * 90 / 7, "7:1 on its tag, over four plies"},
		{"13 mm wire strop of 2 t", ratedSling(plan.MaterialWire, 0.013, tons(2)), false, 0, "EN 13414-1"},
		{"13 mm wire strop of 4.4 t", ratedSling(plan.MaterialWire, 0.013, tons(4.4)), true, 0.630 * 169 / 5, "5:1 on its tag"},
		{"19 mm shackle of 4.75 t", ratedShackle(plan.ShackleBow, 0.019, tons(4.75)), false, 0, "EN 13889"},
		{"19 mm alloy shackle of 7 t", ratedShackle(plan.ShackleDee, 0.019, tons(7)), false, 0, "from memory"},
		{"19 mm shackle, pounds for kilograms", ratedShackle(plan.ShackleBow, 0.019, tons(4.75*2.2046)), true, 0.645 * 361 / 5, "5:1 on its tag"},
		{"19 mm soft shackle", ratedShackle(plan.ShackleSoft, 0.019, tons(40)), false, 0, "no row"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			documented(t, tt.found)
			level, raised := levelOf(tt.found, "rating-beyond-size")
			require.Equal(t, tt.raised, raised, tt.source)
			if !raised {
				return
			}
			assert.Equal(t, part.Warning, level)
			inDelta(t, tt.carries*1e3, valueOf(t, tt.found, "rating-beyond-size", "carries"), 1e-6*tt.carries*1e3, tt.source)
			rating := valueOf(t, tt.found, "rating-beyond-size", "rating")
			inDelta(t, rating/(tt.carries*1e3), valueOf(t, tt.found, "rating-beyond-size", "times"), 1e-9)
		})
	}
}

// Without the size nobody can tell.
func TestRatingOfAnUnknownSize(t *testing.T) {
	for member, found := range map[string][]part.Finding{
		"diameter_m": ratedLine(plan.MaterialHMPE, 0, breaking(95e3)),
		"width_m":    ratedSling(plan.MaterialWeb, 0, working(4000)),
		"body_m":     ratedShackle(plan.ShackleBow, 0, working(4000)),
	} {
		_, raised := levelOf(found, "rating-beyond-size")
		assert.False(t, raised, member)
		assert.Contains(t, lacksOf(found, "rating-beyond-size"), member)
	}
	for what, found := range map[string][]part.Finding{
		"no rating":    ratedSling(plan.MaterialWeb, 0, plan.Rating{}),
		"round sling":  ratedSling(plan.MaterialRound, 0, working(4000)),
		"soft shackle": ratedShackle(plan.ShackleSoft, 0, working(4000)),
		"no kind":      ratedShackle("", 0, working(4000)),
	} {
		assert.Empty(t, lacksOf(found, "rating-beyond-size"), what)
	}
}

// No piece of the starter list is doubted.
func TestStarterGearIsNotDoubted(t *testing.T) {
	items, err := facts.StarterGear()
	require.NoError(t, err)
	pieces := 0
	for _, item := range items {
		var found []part.Finding
		switch {
		case item.Line != nil:
			gear.Stretch(gear.StretchIn{Line: item.Line}, nil, &found)
		case item.Sling != nil:
			gear.Sling(gear.SlingIn{Sling: item.Sling, Hitch: plan.HitchStraight}, nil, &found)
		case item.Shackle != nil:
			gear.Shackle(gear.ShackleIn{Shackle: item.Shackle}, nil, &found)
		default:
			continue
		}
		pieces++
		_, raised := levelOf(found, "rating-beyond-size")
		assert.False(t, raised, item.ID)
		assert.Empty(t, lacksOf(found, "rating-beyond-size"), item.ID)
	}
	assert.Greater(t, pieces, 12)
}

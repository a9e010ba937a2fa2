package sheet_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/sheet"
	"kedge/solver/plan"
	"kedge/solver/travel"
)

// The briefing card has the places where nobody stands yet, by the figures of the whole
// pull, from the winch vehicle; of a rig that is not computed it says that there is none.
func TestTheBriefingCardHasPlacesToStand(t *testing.T) {
	p := *example(t, "redirect")
	card := func() string {
		return strings.Join(strings.Fields(pagesOf(t, &p, "en", sheet.Briefing)), " ")
	}
	at := travel.Of(&p, "R1").Places(&p)
	require.NotEmpty(t, at.Spotters)
	from := p.Site.Vehicles[slices.IndexFunc(p.Site.Vehicles, func(v plan.Vehicle) bool { return v.Winch != nil })]
	lines := func(of []plan.Point) (all []string) {
		for _, q := range of {
			deg := int(math.Round(math.Mod(math.Atan2(q.X-from.At.X, q.Y-from.At.Y)*180/math.Pi+360, 360))) % 360
			all = append(all, fmt.Sprintf("(%03d°) of %s", deg, "Winch vehicle"), fmt.Sprintf("%.1f m", q.Dist(from.At)))
		}
		return all
	}
	text := card()
	assert.Contains(t, text, "Places where nobody stands yet")
	for _, s := range lines(slices.Concat(at.Operators, at.Spotters)) {
		assert.Contains(t, text, s)
	}
	p.Site.People = append(slices.Clone(p.Site.People), plan.Person{Head: plan.Head{ID: "P9"}, Role: plan.RoleSpotter, At: at.Spotters[0].Plus(0.4, 0)})
	_, after, _ := strings.Cut(card(), "Places where nobody stands yet")
	lacks(t, after, lines(at.Spotters[:1])[0], "somebody stands there")
	for _, s := range lines(at.Spotters[1:]) {
		assert.Contains(t, after, s)
	}

	p = *example(t, "straight") // its line bears on the boulder
	text = card()
	assert.Contains(t, text, "Not all zones are computed, so no place is offered to stand at")
	lacks(t, text, "Operator: ", "no place")
}

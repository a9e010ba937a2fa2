package sheet

import (
	"context"

	"kedge/solver/plan"
)

// LongSide reports whether the drawing of a plan comes out larger on paper that
// lies on its long side: the first page at a larger scale, at which labels have
// room. It leaves a scale of the caller's own alone.
func LongSide(p *plan.Plan, o Options) bool {
	if o.Scale != 0 {
		return o.Landscape
	}
	if len(o.Sheets) > 0 {
		o.Sheets = o.Sheets[:1]
	}
	o.Variants, o.Class, o.Progress = 1, nil, nil
	scale := func(landscape bool) float64 {
		o.Landscape = landscape
		b, err := made(context.Background(), p, o, true)
		if err != nil || len(b.Pages) == 0 {
			return 0
		}
		return b.Pages[0].Scale
	}
	upright, long := scale(false), scale(true)
	return long > 0 && (upright == 0 || long < upright)
}

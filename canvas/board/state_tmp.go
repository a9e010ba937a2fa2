package board

import "kedge/solver/plan"

type kinds struct{}
type clip struct{ things []plan.ID }

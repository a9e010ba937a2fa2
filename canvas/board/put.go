package board

import "kedge/solver/plan"

// Put makes next the plan, as one undo step called name: what is kept in a plan beside
// what is drawn. The error says why the plan cannot be that.
func (b *Board) Put(name string, next *plan.Plan) error {
	b.begin()
	b.cancel()
	return b.edit(name, next)
}

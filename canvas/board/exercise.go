package board

import "kedge/solver/plan"

// SetExercise keeps x as what the printed exercise of the rig shown asks, as one
// undo step; nil: the usual. The error says why the plan cannot have it.
func (b *Board) SetExercise(x *plan.Exercise) error {
	b.begin()
	b.cancel()
	return b.edit(b.scene.label("edit-exercise"), plan.WithExercise(b.plan, b.plan.RigIndex(b.rig), x))
}

package board

import (
	"slices"

	"kedge/solver/part"
	"kedge/solver/plan"
)

// AttachPhoto has a piece of evidence of the rig shown show a picture, as one undo step; one
// of a file that the plan holds already is that one. note is said behind; it may be empty.
// The error says why it cannot be; the person is told.
func AttachPhoto(b *Board, ref plan.ID, q plan.Photo, note string) error {
	pin := b.at().Pin(ref)
	if pin == nil {
		return fault{b.label("photo-no-pin"), errPicture}
	}
	if pictureSize(q.Bytes).X <= 0 {
		b.say(b.label("picture-none-in-it"))
		return errPicture
	}
	b.cancel()
	with := *b.plan
	had := with.Photo(q.Original)
	if had == nil || len(had.Bytes) == 0 {
		with.Photos = append(slices.DeleteFunc(slices.Clone(with.Photos), func(o plan.Photo) bool { return o.Original == q.Original }), q)
	}
	shows := *pin
	shows.Shows = q.Original
	name := b.label("edit-photo", part.Text("letter", string(pin.ID)))
	if err := b.edit(name, plan.WithPin(&with, with.RigIndex(b.rig), shows)); err != nil {
		return err
	}
	b.Select(ref)
	if note != "" {
		name += ". " + note
	}
	b.say(name)
	return nil
}

package store

import "kedge/solver/plan"

// TakePicture is what ReadPicture does with what a file holds.
func TakePicture(name string, data []byte) (Picture, error) {
	return takePicture(name, data, plan.MaxUnderlayBytes)
}

// Load is Store.Load from the machine's disk.
func Load(path string) (*plan.Plan, Stamp, error) { return New(Program).Load(path) }

// Save is Store.Save on the machine's disk.
func Save(path string, p *plan.Plan, prev Stamp) (Stamp, error) {
	return New(Program).Save(path, p, prev)
}

// Scaled is a picture at a smaller size.
var Scaled = scaled

// Folder is where the session keeps its snapshot.
func (x *Session) Folder() string { return x.folder }

// ExifTurn is the way up that a JPEG file tells.
var ExifTurn = exifTurn

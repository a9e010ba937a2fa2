// Package store is everything of Kedge that lies on a disk: plans, snapshots of
// plans that are being edited, the list of recent plans, preferences, the
// user's gear list, and pictures to trace.
//
// # How a file is written
//
// Every file is replaced whole: a new file beside the old one is written and
// synced, the old one gets a second name (the generation before, "moss.kedge~"),
// the new one takes its name, and the folder is synced. At every moment the name
// leads to a whole file, old or new. After Save has returned without an error
// the new one stays, power cut or not, as far as the disk keeps what it says it
// has synced. Any error leaves the old file under its name, with its bytes.
//
// A link is followed: its target is replaced, the link stays. The file's mode is
// kept; its owner, extended attributes and further hard links are not. On a disk
// without hard links the generation before is a copy. Leftovers of a process
// that was killed while it wrote are swept by a later save in that folder.
//
// # Two at one file
//
// Load and Save hand out a Stamp (size, time, hash). Save refuses with a
// *Changed if the file is not the one that stamp was taken of, and nothing is
// written; saving again with the stamp the error carries overwrites it. A Lock
// tells two windows of each other before that; it only informs. Between the last
// look at the file and the rename lies a moment in which another program's write is
// lost to the generation before or altogether; no portable file system offers
// better.
//
// # Errors
//
// Every error is a refusal, or a *Changed or *Busy that can be said as one: what
// happened, where, and what to do; errors.Is finds the sentinel. Nothing here panics, and
// no file of the user is deleted but the snapshots, locks and leftovers that
// this package made.
//
// The smallest use:
//
//	p, stamp, err := store.Load("moss.kedge")
//	stamp, err = store.Save("moss.kedge", p, stamp)
package store

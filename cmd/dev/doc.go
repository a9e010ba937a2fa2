// Dev gets a fresh machine from a checkout to a running board, and runs every
// check of the project. It presupposes Go and nothing else, and imports the
// standard library alone, so that it runs before anything has been fetched.
//
//	go run ./cmd/dev run      build Kedge and open the board on the example plan
//	go run ./cmd/dev test     run every check, with its seconds
//	go run ./cmd/dev fuzz 10m throw random inputs at each fuzz target
//	go run ./cmd/dev found N  try N plans as people rig them
//	go run ./cmd/dev kill     kill a process that saves, or the board, again and again
//	go run ./cmd/dev mutate P make changes that the tests of P should notice
//	go run ./cmd/dev fonts    make the embedded faces
//	go run ./cmd/dev look     take pictures of the window, or of a sheet
//
// What the machine lacks is looked up in one table (needs.go): how each thing
// is recognised and what its packages are called on each known system. Dev
// installs those packages as root, or through sudo after asking; where it can
// do neither it prints the list and stops with status 1.
//
// The limits of that: a thing is recognised by its program on PATH, by
// pkg-config, or by a file in a known folder; whether it works is seen only
// when it is used. Package names were tried on Debian 12; those of the other
// systems are from memory.
package main

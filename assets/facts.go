package assets

import (
	"embed"
	"io/fs"
)

//go:embed facts/*.toml
var factFiles embed.FS

//go:embed gear.toml
var gearList string

// Facts is the folder of handbook rows: TOML files of [[row]] tables.
// Package solver/facts decodes and validates them; nothing else reads them.
func Facts() fs.FS {
	sub, err := fs.Sub(factFiles, "facts")
	if err != nil { // cannot happen: the folder is embedded above
		return factFiles
	}
	return sub
}

// Gear is the starter gear list: TOML of [[item]] tables, generic items
// without makers. It is a fresh copy at each call.
func Gear() []byte { return []byte(gearList) }

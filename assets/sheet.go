package assets

import (
	"embed"
	"io/fs"
)

//go:embed sheet/*.toml
var sheetLists embed.FS

// SheetLists is the folder of lists that are printed as they stand, signals,
// order of work, kit: <language>-<list>.toml files, read by canvas/sheet alone.
func SheetLists() fs.FS {
	sub, err := fs.Sub(sheetLists, "sheet")
	if err != nil { // cannot happen: the folder is embedded above
		return sheetLists
	}
	return sub
}

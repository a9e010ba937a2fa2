package assets

import (
	"embed"
	"io/fs"
)

//go:embed words/*.toml
var wordFiles embed.FS

// Words is the folder of texts: <language>-<room>.toml files, read by
// canvas/words alone.
func Words() fs.FS {
	sub, err := fs.Sub(wordFiles, "words")
	if err != nil { // cannot happen: the folder is embedded above
		return wordFiles
	}
	return sub
}

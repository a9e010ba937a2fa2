package assets

import (
	"embed"
	"io/fs"
	"strings"
)

//go:embed help
var helpFiles embed.FS

//go:embed licences.txt
var licences string

// Licences are the modules that are linked into the programs, a line each with
// version and licence, and after an empty line the licences' texts. Made by a test
// of cmd/dev.
func Licences() (modules, texts string) {
	modules, texts, _ = strings.Cut(licences, "\n\n")
	return modules, texts
}

// Help is what the command line says of itself: <language>.txt with each command's
// page, read by cmd/kedge alone, and json.md, the one description of what --json
// prints, member by member.
func Help() fs.FS {
	sub, err := fs.Sub(helpFiles, "help")
	if err != nil { // cannot happen: the folder is embedded above
		return helpFiles
	}
	return sub
}

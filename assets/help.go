package assets

import (
	_ "embed"
	"strings"
)

//go:embed help/json.md
var jsonHelp string

//go:embed licences.txt
var licences string

// Licences are the modules that are linked into the programs, a line each with
// version and licence, and after an empty line the licences' texts. Made by a test
// of cmd/dev.
func Licences() (modules, texts string) {
	modules, texts, _ = strings.Cut(licences, "\n\n")
	return modules, texts
}

// JSONHelp describes what the command line prints with --json, member by
// member. It is the one description there is.
func JSONHelp() string { return jsonHelp }

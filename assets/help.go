package assets

import _ "embed"

//go:embed help/json.md
var jsonHelp string

// JSONHelp describes what the command line prints with --json, member by
// member. It is the one description there is.
func JSONHelp() string { return jsonHelp }

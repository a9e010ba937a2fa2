package assets

import (
	"embed"
	"io/fs"
)

//go:embed plans/*.kedge plans/incidents/*.kedge
var plans embed.FS

// Plans holds the example plans, one `.kedge` file each; in the folder incidents those of
// pulls that went wrong, with what was seen and told of them.
func Plans() fs.FS {
	sub, err := fs.Sub(plans, "plans")
	if err != nil { // "plans" is a constant path that go:embed has checked
		return plans
	}
	return sub
}

package main

import (
	"fmt"
	"strconv"
	"strings"
)

// The oldest Go that builds Kedge, the same as in go.mod.
const oldestGoMinor = 26

// tooOld is the sentence to stop with, or "" when the Go release named by
// version, as in runtime.Version, suffices. A version it cannot read (a
// private build) is let through: go.mod stops it too.
func tooOld(version string) string {
	_, digits, found := strings.Cut(version, "go1.")
	if !found {
		return ""
	}
	end := strings.IndexFunc(digits, func(r rune) bool { return r < '0' || r > '9' })
	if end >= 0 {
		digits = digits[:end]
	}
	minor, err := strconv.Atoi(digits)
	if err != nil || minor >= oldestGoMinor {
		return ""
	}
	return fmt.Sprintf("Kedge needs Go 1.%d or newer; this is Go 1.%d. A newer one is at go.dev/dl.", oldestGoMinor, minor)
}

package sheet_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/canvas/sheet"
	"kedge/solver/seeded"
)

// What the zones do not promise stands on the cards that people hold beside a line, and
// what failure loads rest on with the loads.
func TestNotesOfZonesAndFailureLoadsArePrinted(t *testing.T) {
	p := seeded.Example(t, "redirect")
	for kind, says := range map[sheet.Kind][]string{
		sheet.Legend:   {"Recoil is drawn by mooring practice", "Could fly further", "makes a zone smaller"},
		sheet.Briefing: {"Could fly further", "makes a zone smaller"},
		sheet.Loads:    {"What failure loads rest on", "the tree is pulled over first: Tree 1"},
	} {
		text := pagesOf(t, p, "en", kind)
		for _, s := range says {
			assert.Contains(t, text, s, string(kind))
		}
	}
}

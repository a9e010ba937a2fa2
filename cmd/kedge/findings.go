package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/quantity"
)

const findingsHead = `What Kedge may say of a rig: every finding there is, by the room that raises
it, with the levels it can have, what it says, what to do, and what it rests on.
Words in <angle brackets> stand for a name or a figure of the plan at hand.
`

// packageTitles are what the packages of the solver are about.
var packageTitles = map[string]string{
	"solver": "The rig",
	"effort": "What moves the casualty, and what holds the puller",
	"gear":   "Gear as rigged",
	"hold":   "Anchors",
	"zone":   "People and zones",
	"travel": "The whole pull",
}

// newFindingsHelp is the list of findings. It is made when it is asked for: it
// takes reading every text.
func newFindingsHelp() *cobra.Command {
	c := &cobra.Command{Use: "findings", Short: "Every finding of check: what it says, what to do, what it rests on"}
	c.SetHelpFunc(func(c *cobra.Command, _ []string) {
		text, err := findingsText()
		if err != nil {
			text = "The texts built into this program are damaged (" + err.Error() + "). Build it anew.\n"
		}
		c.Print(text)
	})
	return c
}

// findingsText is the list, from the rules and texts themselves.
func findingsText() (string, error) {
	w, err := words.New("en", quantity.Metric)
	if err != nil {
		return "", err
	}
	var b strings.Builder
	b.WriteString(findingsHead)
	for _, pkg := range solver.Rulebook() {
		fmt.Fprintf(&b, "\n%s\n", packageTitles[pkg.Package])
		for _, r := range pkg.Rules {
			levels := make([]string, len(r.Levels))
			for i, l := range r.Levels {
				levels[i] = l.String()
			}
			what, do := w.FindingPattern(r.ID)
			b.WriteString("\n" + r.ID + gap + strings.Join(levels, ", ") + "\n")
			b.WriteString(indent + "says: " + what + "\n")
			b.WriteString(indent + "do: " + do + "\n")
			b.WriteString(indent + "rests on: " + restsOn(r) + "\n")
		}
	}
	return b.String(), nil
}

// restsOn is the reason of a rule, and its row of the handbook.
func restsOn(r part.Rule) string {
	why := strings.ReplaceAll(r.Why, "[ours]", "(ours)")
	row, ok := facts.Get(facts.ID(r.Fact))
	if !ok {
		return why
	}
	source := fmt.Sprintf("%s (%s, %s)", row.Title, row.Source, row.Confidence)
	if why == "" {
		return source
	}
	return why + "; " + source
}

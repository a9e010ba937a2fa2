package solver_test

import (
	"fmt"
	"io/fs"
	"os"
	"strings"
	"sync"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/solver/facts"
	"kedge/solver/part"
)

const findingsDocument = "../docs/findings.md"

// texts is the English catalogue, as far as findings use it.
type texts struct {
	Finding map[string]struct{ What, Do string }
	Basis   map[string]string
	Note    map[string]string
	Word    map[string]string
	Label   map[string]string
}

// catalogue reads every English text once.
var catalogue = sync.OnceValue(func() *texts {
	names, err := fs.Glob(assets.Words(), "en-*.toml")
	if err != nil || len(names) == 0 {
		panic("no English texts")
	}
	all := &texts{Finding: map[string]struct{ What, Do string }{}, Basis: map[string]string{}, Note: map[string]string{}, Word: map[string]string{}, Label: map[string]string{}}
	for _, name := range names {
		var one texts
		if _, err := toml.DecodeFS(assets.Words(), name, &one); err != nil {
			panic(err)
		}
		for id, t := range one.Finding {
			all.Finding[id] = t
		}
		for to, from := range map[*map[string]string]map[string]string{&all.Basis: one.Basis, &all.Note: one.Note, &all.Word: one.Word, &all.Label: one.Label} {
			for id, t := range from {
				(*to)[id] = t
			}
		}
	}
	return all
})

// has tells whether a word has a text: among words, notes, bases, kinds of zone
// and labels. A place in a file is its own word; the empty word is silent, and
// [strange] is somebody's own.
func (c *texts) has(word string) bool {
	if word == "" || word[0] == '/' || word == strange {
		return true
	}
	for _, m := range []map[string]string{c.Word, c.Note, c.Basis, c.Label} {
		if m[word] != "" {
			return true
		}
	}
	return c.Label["zone-"+word] != ""
}

// document is docs/findings.md.
func document(t *testing.T) string {
	t.Helper()
	var b strings.Builder
	b.WriteString(`# What Kedge may say of a rig

Every finding there is, by the room that raises it: its id, how severe it can
be, what it says, what to do, and what it rests on. Words in *italics* stand for
a name or a figure of the plan at hand. For nearly every one ` + "`solver/findingcases_*_test.go`" + `
has a plan that raises it and one beside it that does not.

This page is written from the rules and texts themselves, by
` + "`go test ./solver -run Document -update`" + `.
`)
	for _, table := range tables {
		fmt.Fprintf(&b, "\n## %s\n\n| finding | level | says | do | rests on |\n|---|---|---|---|---|\n", table.room)
		for _, r := range table.rules {
			text, ok := catalogue().Finding[r.ID]
			require.True(t, ok, "%s has no text", r.ID)
			fmt.Fprintf(&b, "| `%s` | %s | %s | %s | %s |\n", r.ID, levelWords(r), cell(text.What), cell(text.Do), cell(restsOn(t, r)))
		}
	}
	return b.String()
}

func levelWords(r part.Rule) string {
	words := make([]string, len(r.Levels))
	for i, l := range r.Levels {
		words[i] = l.String()
	}
	return strings.Join(words, ", ")
}

// cell is a text as it stands in a table.
func cell(text string) string {
	text = slots.ReplaceAllStringFunc(text, func(slot string) string {
		m := slots.FindStringSubmatch(slot)
		if strings.HasPrefix(m[2], "|") {
			return m[3] // the word for several
		}
		return "*" + m[1] + "*"
	})
	return strings.ReplaceAll(text, "|", "\\|")
}

// restsOn is the reason of a rule, and its row of the handbook.
func restsOn(t *testing.T, r part.Rule) string {
	t.Helper()
	why := strings.NewReplacer("[ours]", "(ours)").Replace(r.Why)
	if r.Fact == "" {
		require.NotEmpty(t, why, "%s rests on nothing", r.ID)
		return why
	}
	row, ok := facts.Get(facts.ID(r.Fact))
	require.True(t, ok, "%s rests on %q, which is no fact", r.ID, r.Fact)
	source := fmt.Sprintf("%s (%s, %s)", row.Title, row.Source, row.Surety)
	if why == "" {
		return source
	}
	return why + "; " + source
}

// The document is what rules and texts say.
func TestFindingsDocument(t *testing.T) {
	want := document(t)
	if *update {
		require.NoError(t, os.WriteFile(findingsDocument, []byte(want), 0o644))
	}
	got, err := os.ReadFile(findingsDocument)
	require.NoError(t, err)
	require.Equal(t, want, string(got), "docs/findings.md is out of date: go test ./solver -run Document -update")
}

package main

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/words"
	"kedge/solver/quantity"
)

// Every refusal of the command line has its text, in every language, and no
// text is without its refusal.
func TestEveryRefusalHasItsText(t *testing.T) {
	require.NotEmpty(t, refusals)
	for _, lang := range words.Languages() {
		w, err := words.New(lang, quantity.Metric)
		require.NoError(t, err)
		for _, m := range w.Unsaid(refusals) {
			t.Errorf("%s: %s", lang, m)
		}
		said := slices.DeleteFunc(w.RefusalIDs(), func(id string) bool { return !strings.HasPrefix(id, "kedge-") })
		assert.Len(t, said, len(refusals), "%s: as many texts as refusals", lang)
	}
}

// What is refused is said in the language that the flags name, be they wrong
// otherwise.
func TestRefusalsInTheLanguage(t *testing.T) {
	for _, c := range []struct {
		args string
		want string
	}{
		{"check none.kedge --lang de", "none.kedge: es gibt keine solche Datei. Namen und Ordner prüfen."},
		{"--lang=de check none.kedge --frob", "unbekannter Schalter: --frob. Die Schalter zeigt `kedge check --help`."},
		{"ways x --take --lang=de", "„--lang=de“ ist kein Wert von --take. Die Schalter zeigt `kedge ways --help`."},
		{"ways x -z --lang de", "unbekannter Schalter: -z. Die Schalter zeigt `kedge ways --help`."},
		{"ways --lang=de x --rig", "--rig braucht einen Wert. Welchen, zeigt `kedge ways --help`."},
		{"check --lang de", "kedge check braucht den Namen eines Plans. Wie, zeigt `kedge check --help`."},
		{"check - --lang=de", "Standardeingabe: die Datei ist leer. Eine ältere Kopie nehmen oder einen neuen Plan beginnen."},
		{"check - --lang=xx", `there is no language "xx". Say de, en or en-US.`},
		{"facts --lang xx", `there is no language "xx". Say de, en or en-US.`},
		{"help --lang xx", `there is no language "xx". Say de, en or en-US.`},
		{"version --lang xx", `there is no language "xx". Say de, en or en-US.`},
		{"check -", "standard input: the file is empty. Take an older copy, or start a new plan."},
		{"frob --lang de", "einen Befehl „frob“ gibt es nicht. `kedge help` zählt sie auf."},
		{"frob", "there is no command \"frob\". `kedge help` lists them."},
	} {
		var out, errs strings.Builder
		assert.NotZero(t, run(strings.Fields(c.args), strings.NewReader(""), &out, &errs), c.args)
		assert.Equal(t, "kedge: "+c.want+"\n", errs.String(), c.args)
		assert.Empty(t, out.String())
	}
}

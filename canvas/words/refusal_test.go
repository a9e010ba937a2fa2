package words_test

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/exercise"
	"kedge/canvas/form"
	"kedge/canvas/sheet"
	"kedge/canvas/store"
	"kedge/canvas/survey"
	"kedge/canvas/words"
	"kedge/solver/facts"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/refusal"
)

// kindsOf are the kinds of refusal of every package that refuses. What only the
// command line and the window refuse is tested beside them.
var kindsOf = map[string][]refusal.Kind{
	"quantity": quantity.Refusals,
	"form":     form.Refusals,
	"facts":    facts.Refusals,
	"store":    store.Refusals,
	"sheet":    sheet.Refusals,
	"exercise": exercise.Refusals,
	"survey":   survey.Refusals,
	"plan":     plan.Refusals,
}

func in(t *testing.T, lang string) *words.Words {
	t.Helper()
	w, err := words.New(lang, quantity.Metric)
	require.NoError(t, err)
	return w
}

// Every refusal has its text, in every language, and no text is without its
// refusal.
func TestEveryRefusalHasItsText(t *testing.T) {
	for _, lang := range words.Languages() {
		w := in(t, lang)
		said := w.RefusalIDs()
		for pkg, kinds := range kindsOf {
			require.NotEmpty(t, kinds, pkg)
			for _, m := range w.Unsaid(kinds) {
				t.Errorf("%s: %s", lang, m)
			}
			for _, k := range kinds {
				assert.True(t, strings.HasPrefix(k.ID, pkg+"-"), "%s is not of %s", k.ID, pkg)
				said = slices.DeleteFunc(said, func(id string) bool { return id == k.ID })
			}
		}
		for _, id := range said {
			if !strings.HasPrefix(id, "kedge-") && !strings.HasPrefix(id, "window-") {
				t.Errorf("%s: nothing is refused by %q", lang, id)
			}
		}
	}
}

// What is typed is refused in the language: where the trouble is and what to
// write instead stand behind.
func TestTypedTextIsRefusedInTheLanguage(t *testing.T) {
	mass := func(text string) error { _, err := quantity.ParseMass(text, quantity.Metric); return err }
	for _, tt := range []struct {
		err    error
		en, de string
	}{
		{mass(""), "nothing is entered", "nichts eingegeben"},
		{mass("2,450"), "the separator before three digits may be a decimal or a thousands sign: write 2.45 or 2450",
			"das Zeichen vor drei Ziffern kann Dezimal- oder Tausenderzeichen sein: 2.45 oder 2450 eingeben"},
		{mass("2 kg x"), `nothing may follow the mass, at "x": take the rest out`, "Masse: dahinter darf nichts stehen bei „x“: den Rest herausnehmen"},
		{mass("2 m"), "m is not a unit of mass here: write kg, t, lb, short ton, long ton", "Masse: m ist hier keine Einheit: kg, t, lb, short ton, long ton schreiben"},
		{mass("2 ton"), "a ton may be 1000 kg (tonne), 2000 lb (short ton) or 2240 lb (long ton): write 2 t, 2 short ton or 2 long ton",
			"eine „ton“ kann 1000 kg (Tonne), 2000 lb (short ton) oder 2240 lb (long ton) sein: 2 t, 2 short ton oder 2 long ton eingeben"},
	} {
		assert.Equal(t, tt.en, in(t, "en").Refusal(tt.err))
		assert.Equal(t, tt.de, in(t, "de").Refusal(fmt.Errorf("form: %w", tt.err)), "wrapped")
	}
}

type spoken struct{ error }

func (spoken) Sentence() string { return "said already" }

func TestOtherErrorsAreFramed(t *testing.T) {
	for _, tt := range []struct {
		err    error
		en, de string
	}{
		{nil, "", ""},
		{&fs.PathError{Op: "write", Path: "/x", Err: syscall.ENOSPC}, "it did not work (no space left on device).", "es ist nicht gelungen (no space left on device)."},
		{errors.New("odd"), "it did not work (odd).", "es ist nicht gelungen (odd)."},
		{fmt.Errorf("x: %w", spoken{errors.New("y")}), "said already", "said already"},
	} {
		assert.Equal(t, tt.en, in(t, "en").Refusal(tt.err))
		assert.Equal(t, tt.de, in(t, "de").Refusal(tt.err))
	}
}

func TestValuesOfARefusal(t *testing.T) {
	w := in(t, "en")
	assert.Equal(t, "[x-no-such] x: /site: no-such n=3", w.Refusal(refusal.Of(nil, "x-no-such", "n").At("/site", 3)), "nothing vanishes")
	k := refusal.Of(nil, "quantity-unit-unknown", "at", "word", "measure", "known")
	assert.Equal(t, "f: a is not a unit of mass here: write [known]", w.Refusal(k.At("f", refusal.Spot(""), "a", refusal.Word("measure-mass"))))
}

// Each file in testdata/refused has its sentence beside it, in a .txt file of
// the same name: what is said is part of the format.
func TestRefusedFiles(t *testing.T) {
	files, err := filepath.Glob("../../testdata/refused/*.kedge")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	en, de := in(t, "en"), in(t, "de")
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		want, err := os.ReadFile(strings.TrimSuffix(file, ".kedge") + ".txt")
		require.NoError(t, err)
		_, err = plan.ParsePlan(data)
		require.Error(t, err, file)
		assert.Equal(t, strings.TrimSpace(string(want)), en.Refusal(err))
		assert.NotRegexp(t, `\[[a-z-]+\]|belongs|[Tt]ake|Correct`, de.Refusal(err), file)
	}
}

// What a plan is refused for names kinds of things: each has its word.
func TestEveryKindOfThingHasItsWord(t *testing.T) {
	for _, lang := range words.Languages() {
		for k := plan.ThingVehicle; k <= plan.ThingUnknown; k++ {
			id := "kind-of-" + strings.ReplaceAll(k.String(), " ", "-")
			assert.True(t, in(t, lang).HasLabel(id), "%s: %s", lang, id)
		}
	}
}

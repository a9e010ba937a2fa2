package words

import (
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/solver"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
)

// unsafeWords are the words that no text of a language says of a load or a
// person (never "safe", "OK", "clear"), by language.
var unsafeWords = map[string]*regexp.Regexp{
	"en-US": unsafeEnglish,
	"de":    regexp.MustCompile(`(?i)\b(sicher|sichere[rnms]?|unsicher|gefahrlos|ungefährlich|unbedenklich|okay|ok)\b|[✓✔☑✅]`),
}

// A language is complete: each text English has and no other, with the same
// placeholders.
func TestEachLanguageIsComplete(t *testing.T) {
	names := func(text string) []string {
		n := slotNames(text)
		slices.Sort(n)
		return slices.Compact(n)
	}
	others := slices.DeleteFunc(Languages(), func(l string) bool { return l == base })
	require.NotEmpty(t, others, "English and at least one more")
	for _, lang := range others {
		t.Run(lang, func(t *testing.T) {
			w, err := New(lang, quantity.Metric)
			require.NoError(t, err)
			for k, want := range w.base.texts {
				got, ok := w.own.texts[k]
				if assert.True(t, ok, "%v: lacks %q", k, want) {
					assert.Equal(t, names(want), names(got), "%v: the placeholders of %q", k, want)
				}
			}
			noted := map[string]bool{}
			for r := range facts.All() {
				if strings.HasPrefix(lang, base+"-") {
					break // the rows themselves are in English
				}
				assert.Contains(t, w.own.texts, key{factSection, string(r.ID), ""}, "handbook row %q", r.Title)
				if noted[r.Note] = true; r.Note != "" {
					assert.Contains(t, w.own.texts, key{remarkSection, r.Note, ""}, "note of %s", r.ID)
				}
			}
			whys := map[string]bool{}
			for _, p := range solver.Rulebook() {
				for _, r := range p.Rules {
					whys[r.ID] = r.Why != ""
					if r.Why != "" && !strings.HasPrefix(lang, base+"-") {
						assert.Contains(t, w.own.texts, key{whySection, r.ID, ""}, "what the rule rests on: %q", r.Why)
					}
				}
			}
			stories := storiesTold(t)
			if !strings.HasPrefix(lang, base+"-") {
				for text := range stories {
					assert.Contains(t, w.own.texts, key{storySection, text, ""}, "an example tells: %q", text)
				}
			}
			for k, text := range w.own.texts {
				if k.section == storySection {
					assert.True(t, stories[k.id], "no example tells: %q", k.id)
					continue
				}
				if k.section == whySection {
					assert.True(t, whys[k.id], "%v: there is no such rule, or it says nothing: %q", k, text)
					continue
				}
				if k.section == remarkSection {
					assert.True(t, noted[k.id], "no handbook row has this note: %q", k.id)
					continue
				}
				if k.section == factSection {
					_, ok := facts.Get(facts.ID(k.id))
					assert.True(t, ok, "%v: there is no such handbook row: %q", k, text)
					continue
				}
				assert.Contains(t, w.base.texts, k, "%v: English has none: %q", k, text)
			}
		})
	}
}

// storiesTold are the texts that the built-in incidents tell.
func storiesTold(t *testing.T) map[string]bool {
	t.Helper()
	told := map[string]bool{}
	list, err := fs.Glob(assets.Plans(), "incidents/*.kedge")
	require.NoError(t, err)
	require.NotEmpty(t, list)
	for _, name := range list {
		data, err := fs.ReadFile(assets.Plans(), name)
		require.NoError(t, err)
		p, err := plan.ParsePlan(data)
		require.NoError(t, err)
		for _, r := range p.Rigs {
			for _, s := range r.Slings {
				told[s.Name] = true
			}
			n := r.Incident
			for _, text := range []string{n.Account, n.Custody, n.Opinion, n.Truth} {
				told[text] = true
			}
			for _, q := range n.Pins {
				told[q.Source], told[q.Note] = true, true
			}
		}
	}
	delete(told, "")
	return told
}

// What may not be said in English may not be said in another language, which
// brings its own list of words.
func TestNoLanguageSaysSafe(t *testing.T) {
	for _, lang := range Languages() {
		if lang == base {
			continue // see TestNoTextSaysSafe
		}
		t.Run(lang, func(t *testing.T) {
			never := unsafeWords[lang]
			require.NotNil(t, never, "the words of this language are to be listed")
			w, err := New(lang, quantity.Metric)
			require.NoError(t, err)
			for k, text := range w.own.texts {
				if lang == "en-US" {
					text = withoutSlots(text)
				}
				assert.False(t, never.MatchString(text), "%v: %s", k, text)
			}
		})
	}
}

// Things that nobody named are called in the language of whoever reads.
func TestThingsAreCalledInTheLanguage(t *testing.T) {
	de, err := New("de", quantity.Metric)
	require.NoError(t, err)
	p := seeded.Example(t, "redirect")
	names := de.Names(p, p.Rigs[0].ID)
	assert.Equal(t, "Baum 1", names(p.Site.Anchors[0].ID))
	assert.Equal(t, "Havarist", names(p.Casualty().ID))
	en := english(t, quantity.Metric).Names(p, p.Rigs[0].ID)
	assert.Equal(t, "Tree 1", en(p.Site.Anchors[0].ID))
	assert.Equal(t, "GEFAHR", de.Level(part.Danger))
}

// americanSpelling is what is spelt otherwise in British English (from memory).
var americanSpelling = regexp.MustCompile(`(?i)\b(colors?|centers?|centered|gray|(centi|milli|kilo)?meters?|tires?|toward|counterclockwise|counter-clockwise|` +
	`neighbors?|neighboring|aluminum|molds?|plows?|catalogs?|fulfill|fibers?|caliber|maneuvers?|gotten|thru|` +
	`(travel|label|model|signal|cancel|level)(ed|ing)|` +
	`[a-z]*(al|an|at|er|im|in|is|or|og|ut|yl|ent|om|ic)iz(e|es|ed|ing|ation))\b`)

// English is British throughout: screen, sheets, help, handbook and README; what other
// people call a thing, which may be searched for, is as they spell it.
func TestEnglishIsBritish(t *testing.T) {
	check := func(where, text string) {
		assert.Equal(t, "", americanSpelling.FindString(text), "%s: %s", where, text)
	}
	for k, text := range english(t, quantity.Metric).base.texts {
		if k.section != searchSection && k.section != calledSection {
			check(k.String(), withoutSlots(text))
		}
	}
	for r := range facts.All() {
		check(string(r.ID), r.Title)
		check(string(r.ID), r.Note)
	}
	for _, text := range sheetTexts(t) {
		check("sheet", text)
	}
	for _, p := range solver.Rulebook() {
		for _, r := range p.Rules {
			check(r.ID, r.Why)
		}
	}
	for _, name := range []string{"en.txt", "json.md"} {
		data, err := fs.ReadFile(assets.Help(), name)
		require.NoError(t, err)
		for line := range strings.Lines(string(data)) {
			check(name, line)
		}
	}
	page, err := os.ReadFile(readmeFile)
	require.NoError(t, err)
	for line := range strings.Lines(string(page)) {
		check("README", line)
	}
	for _, wrong := range []string{"a gray line", "2.4 meters", "toward it", "it is labeled", "organized"} { // the list is alive
		assert.NotEmpty(t, americanSpelling.FindString(wrong), wrong)
	}
}

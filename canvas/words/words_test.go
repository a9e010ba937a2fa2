package words

import (
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/solver/part"
	"kedge/solver/quantity"
)

func english(t testing.TB, sys quantity.System) *Words {
	t.Helper()
	w, err := New("en", sys)
	require.NoError(t, err)
	return w
}

func folder(files map[string]string) fstest.MapFS {
	m := fstest.MapFS{}
	for name, text := range files {
		m[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return m
}

func TestBuiltInTextsAreRead(t *testing.T) {
	assert.Contains(t, Languages(), "en")
	w := english(t, quantity.Metric)
	assert.Equal(t, "en", w.Lang())
	assert.Equal(t, quantity.Metric, w.System())
	assert.NotEmpty(t, w.own.texts)
}

func TestEachFaultOfAFileIsRefusedAndNamed(t *testing.T) {
	for _, c := range []struct{ name, a, b, want string }{
		{"unknown section", "[findings.x]\nwhat='a'\ndo='b'", "", `words: en-a.toml: unknown key "findings.x"`},
		{"unknown key", "[finding.x]\nwhat='a'\ndo='b'\nwhy='c'", "", `words: en-a.toml: unknown key "finding.x.why"`},
		{"double", "[label]\nx='a'", "[label]\nx='a'", "words: en-b.toml: label/x is defined before"},
		{"double finding", "[finding.x]\nwhat='a'\ndo='b'", "[finding.x]\nwhat='a'\ndo='b'", "words: en-b.toml: finding/x/do is defined before"},
		{"empty", "[label]\nx=' '", "", "words: en-a.toml: label/x is empty"},
		{"no do", "[finding.x]\nwhat='a'", "", "words: en-a.toml: finding/x has not both what and do"},
		{"no do, plain", "[finding.x]\nwhat=\"a\"", "", "words: en-a.toml: finding/x has not both what and do"},
		{"neither", "[finding.x]", "", "words: en-a.toml: finding/x has not both what and do"},
		{"open brace", "[label]\nx='a {b'", "", "words: en-a.toml: label/x: a { without its }"},
		{"closing brace", "[label]\nx='a b}'", "", "words: en-a.toml: label/x: a } without its {"},
		{"nested", "[label]\nx='{a{b}}'", "", "words: en-a.toml: label/x: a { without its }"},
		{"empty slot", "[label]\nx='{}'", "", "words: en-a.toml: label/x: {} is no name: letters, digits, - and _ make one"},
		{"space", "[label]\nx='{a b}'", "", "words: en-a.toml: label/x: {a b} is no name: letters, digits, - and _ make one"},
		{"format", "[label]\nx='{a:red}'", "", `words: en-a.toml: label/x: {a:red}: there is no way to print called "red"`},
		{"syntax", "[label\n", "", "words: en-a.toml: line 2: "},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Read(folder(map[string]string{"en-a.toml": c.a, "en-b.toml": c.b}), "en", quantity.Metric)
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.want)
		})
	}
}

func TestALanguageThatIsNotThereIsRefusedWithThoseThatAre(t *testing.T) {
	_, err := Read(folder(map[string]string{"en-a.toml": "", "de-a.toml": ""}), "xx", quantity.Metric)
	assert.EqualError(t, err, `words: there is no language "xx"; there is: de, en`)
}

// A second language is files only; what it lacks is shown in English, what is
// nowhere by its id.
func TestASecondLanguageIsFilesOnly(t *testing.T) {
	files := folder(map[string]string{
		"en-a.toml": "[label]\nline='Line'\nblock='Block'\n[finding.near]\nwhat='{thing} is near {load}.'\ndo='Wait.'",
		"xx-a.toml": "[label]\nline='Enil'\n[finding.near]\nwhat='{load}: {thing} raen.'\ndo='Tiaw.'",
	})
	w, err := Read(files, "xx", quantity.Metric)
	require.NoError(t, err)
	assert.Equal(t, "Enil", w.Label("line"))
	assert.Equal(t, "Block", w.Label("block"), "what the language lacks")
	assert.Equal(t, "[sling]", w.Label("sling"), "what no language has")
	what, do := w.Finding(part.Finding{ID: "near", Things: ids("T1"), Values: []part.Value{force("load", 29300)}}, called("T1", "Tree 1"))
	assert.Equal(t, "29.3 kN: Tree 1 raen.", plain(what))
	assert.Equal(t, "Tiaw.", do)
}

func TestWhatHasNoTextShowsItsId(t *testing.T) {
	for _, w := range []*Words{english(t, quantity.Metric), {}} {
		assert.Equal(t, "[no-such]", w.Label("no-such"))
		assert.Equal(t, "[no-such]", w.Basis("no-such"))
		assert.Equal(t, "[no-such]", w.Note("no-such"))
		assert.Equal(t, "[no-such]", w.Remedy("no-such"))
		assert.Equal(t, "[no-such]", w.Word("no-such"))
		assert.Empty(t, w.Note(""), "no note is no note")
		what, do := w.Finding(part.Finding{ID: "no-such", Things: ids("T1"), Values: []part.Value{{Name: "n", Unit: part.UnitCount, X: 3}}}, called("T1", "Tree 1"))
		assert.Equal(t, "[no-such] Tree 1 n = 3", what)
		assert.Empty(t, do)
	}
	assert.Equal(t, "a [load]", fill("a {load}", func(slot) (string, bool) { return "", false }))
}

// No text says of a load or a person that it is safe (never "safe",
// "OK", "clear", no tick).
func TestNoTextSaysSafe(t *testing.T) {
	w := english(t, quantity.Metric)
	for k, text := range w.own.texts {
		text = withoutSlots(text)
		assert.False(t, unsafeEnglish.MatchString(text), "%s: %s", k, text)
	}
}

var unsafeEnglish = regexp.MustCompile(`(?i)\b(safe|safely|unsafe|ok|okay|clear)\b|[✓✔☑✅]`)

// withoutSlots is an English text without the names of its values, and without the
// one use of "clear" that is none of a load: a field's figure is taken out.
func withoutSlots(text string) string {
	for _, name := range slotNames(text) {
		text = regexp.MustCompile(`\{`+name+`[^}]*\}`).ReplaceAllString(text, "")
	}
	return strings.ReplaceAll(text, "Clear the", "")
}

// Every text that the code of this package asks for is there.
func TestEveryFixedTextIsThere(t *testing.T) {
	w := english(t, quantity.Metric)
	for l := part.Notice; l <= part.Danger; l++ {
		assert.Equal(t, l.String(), w.Level(l), "the signal words of ANSI Z535 are the English ones")
	}
	for s := part.NotComputed; s <= part.Within; s++ {
		assert.True(t, w.HasLabel("status-"+s.String()), "%s", s)
	}
	for _, k := range []part.ZoneKind{part.ZoneRecoil, part.ZoneBight, part.ZoneRelease, part.ZoneStandOff, part.ZoneTree, part.ZoneRollAway, part.ZoneSlide} {
		assert.True(t, w.HasLabel("zone-"+string(k)), "%s", k)
	}
	for _, id := range []string{"not-computed", "no-rating", "not-known", "nothing", "and", "verdict", "verdict-none", "verdict-nothing", "verdict-incomplete",
		"more", "planned-on", "chip", "range", "chance", "inside", "outside", "fairlead", "point-of", "part-stretch", "part-stretch-n", "part-winch",
		"part-winch-layer", "part-fairlead", "part-slide", "part-tip", "part-sling", "part-sling-leg", "part-held-tie-back", "part-held-tie-back-to", "part-held-hold-back", "part-held-hold-back-to", "part-end", "to-break-loose", "only-line", "only-winch",
		"mark-memory", "mark-common", "mark-preset", "surety-published", "surety-secondary copy", "surety-common practice", "surety-from memory", "surety-ours",
		"PLAN-high", "PLAN-likely", "PLAN-low", "plan-high", "plan-likely", "plan-low"} {
		assert.True(t, w.HasLabel(id), id)
	}
	assert.GreaterOrEqual(t, len(w.Cautions()), 4, "the four that are always shown")
	assert.NotEmpty(t, w.NotChecked())
}

// The cautions that are always shown.
func TestTheCautionsAreThoseOfTheDesign(t *testing.T) {
	all := english(t, quantity.Metric).Cautions()
	for _, want := range []string{
		"Kedge is an aid for planning and teaching.",
		"Loads on real ground vary; handbook holds are estimates.",
		"Local law, the makers' instructions and a qualified person on the spot come first.",
		"People stay outside the zones whatever the figures say; outside is not out of reach.",
	} {
		assert.True(t, slices.Contains(all, want), want)
	}
}

func TestOtherUnitsLeaveTheFirstAlone(t *testing.T) {
	w := english(t, quantity.Metric)
	other := w.In(quantity.Imperial)
	assert.Equal(t, quantity.Metric, w.System())
	assert.Equal(t, quantity.Imperial, other.System())
	assert.Equal(t, "12.5 kN", plain(w.Load(12500)))
	assert.Equal(t, "2 820 lbf", plain(other.Load(12500)), "12 500 N / 4.4482216 = 2 810.1, three digits, rounded up")
}

func BenchmarkNew(b *testing.B) {
	for b.Loop() {
		if _, err := New("en", quantity.Metric); err != nil {
			b.Fatal(err)
		}
	}
	_ = assets.Words()
}

func FuzzText(f *testing.F) {
	for _, s := range []string{"", "a {b} c", "{a:up:bare}", "{", "}", "{}", "{a{b}}", "}{"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if checkText(text) != nil {
			return
		}
		got := fill(text, func(s slot) (string, bool) { return "", true })
		assert.NotContains(t, got, "{")
		assert.NotContains(t, got, "}")
	})
}

// One is one: a word goes with its number, in every text that counts.
func TestCountsChooseTheirWord(t *testing.T) {
	de, err := New("de", quantity.Metric)
	require.NoError(t, err)
	for _, tt := range []struct {
		w    *Words
		id   string
		n    int
		want string
	}{
		{english(t, quantity.Metric), "cleared", 1, "1 finding gone"},
		{english(t, quantity.Metric), "cleared", 2, "2 findings gone"},
		{english(t, quantity.Metric), "edit-delete-many", 0, "Delete 0 items"},
		{de, "cleared", 1, "1 Befund weniger"},
		{de, "cleared", 12, "12 Befunde weniger"},
	} {
		assert.Equal(t, tt.want, tt.w.Label(tt.id, part.Count("count", tt.n)))
	}
	one := part.Finding{ID: "presets", Values: []part.Value{part.Count("count", 1)}}
	what, _ := english(t, quantity.Metric).Finding(one, nil)
	assert.Equal(t, "1 rating is assumed, not read from a tag.", what)
	assert.Equal(t, "[n]", fill("{n|one|more}", func(slot) (string, bool) { return "", false }))
	for _, bad := range []string{"{n|one}", "{n|one|two|three}", "{|one|more}", "{n m|a|b}"} {
		assert.Error(t, checkText(bad), bad)
	}
}

// counted are words that follow a number and are the same for one.
var counted = map[string]bool{"more": true, "of": true, "copied": true, "not": true, "without": true, "selected": true, "north": true}

// No text puts a word in the plural behind a count that may be one.
func TestNoCountStandsBeforeAFixedPlural(t *testing.T) {
	w := english(t, quantity.Metric)
	plural := regexp.MustCompile(`\{(?:count|n|missing|wraps|sheaves|pieces|points)(?::whole)?\} ([a-z]+)`)
	for k, text := range w.own.texts {
		for _, m := range plural.FindAllStringSubmatch(text, -1) {
			few := strings.HasSuffix(k.id, "-too-many") || strings.Contains(k.id, "-many-") // only said of many
			assert.True(t, counted[m[1]] || few || !strings.HasSuffix(m[1], "s"), "%s: %q", k, text)
		}
	}
}

// The lesson names the group of Details in which the field it asks for lies folded.
func TestTheLessonNamesWhereItsFieldLies(t *testing.T) {
	for _, lang := range Languages() {
		w, err := New(lang, quantity.Metric)
		require.NoError(t, err)
		said := w.Label("lesson-6-do")
		for _, id := range []string{"group-winch", "field-control"} {
			assert.Contains(t, said, w.Label(id), "%s: %s", lang, id)
		}
	}
}

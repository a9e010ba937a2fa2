package words

import (
	"io/fs"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/solver/facts"
	"kedge/solver/quantity"
)

// americanNever is what no text says to an American reader: the trade's British
// words and British spelling (the lists of the house's design for that language;
// spelling from memory).
var americanNever = regexp.MustCompile(`(?i)\b(casualt(y|ies)|tyres?|bonnets?|girth|tree strap|trunk strap|winch line|dee|towards|anticlockwise|handbrake|` +
	`(centi)?metres?|centres?|colou?rs?ed|colours?|greys?|neighbours?|equalise|licences?|fibres?|[a-z]+(al|v|an)is(ed|ing|ation)|` +
	`round (the|a|an|it|its|what|their|to|which)|ways? round)\b`)

// bareBlock is a block that is no snatch block.
var bareBlock = regexp.MustCompile(`(?i)(^|[^h] )\bblocks?\b`)

// americanOwn are the phrases that hold such a word and are American.
var americanOwn = strings.NewReplacer("winch line pull", "", "Winch line pull", "", "title block", "", "kg block", "", "round it", "", "chain (dee", "")

func TestAnAmericanReaderMeetsNoBritishWord(t *testing.T) {
	w, err := New("en-US", quantity.Imperial)
	require.NoError(t, err)
	found := 0
	check := func(where, text string) {
		bare := regexp.MustCompile(`\{[a-z0-9_-]+`).ReplaceAllString(text, "{")
		bare = americanOwn.Replace(bare)
		assert.Equal(t, "", americanNever.FindString(bare), "%s: %s", where, text)
		assert.Equal(t, "", bareBlock.FindString(bare), "%s: %s", where, text)
	}
	for k, text := range w.own.texts {
		if k.section == searchSection || k.section == calledSection {
			continue // what may be typed, in whatever English
		}
		check(k.String(), text)
		if text != w.base.texts[k] {
			found++
		}
	}
	for r := range facts.All() {
		check(string(r.ID), w.FactTitle(r))
	}
	for _, text := range sheetTexts(t) {
		check("sheet", w.Regional(text))
	}
	assert.Greater(t, found, 100, "texts that differ from British English")
	for id, want := range map[string]string{"called-casualty": "Stuck vehicle", "called-block": "Snatch block", "compare-no-winch": "no winch rope"} {
		assert.Equal(t, want, w.Label(id), id)
	}
	assert.Equal(t, "en-US", w.Lang())
}

// What a region says instead has something to stand for, and its own texts take the
// place of texts there are, with the same values.
func TestARegionDiffersFromWhatThereIs(t *testing.T) {
	region, err := readCatalogue(assets.Words(), "en-US")
	require.NoError(t, err)
	british := english(t, quantity.Metric)
	_, swapped := british.base.in(region)
	said := &strings.Builder{}
	for k, text := range british.base.texts {
		if k.section != searchSection {
			said.WriteString(strings.ToLower(text) + "\n")
		}
	}
	for r := range facts.All() {
		said.WriteString(strings.ToLower(r.Title) + "\n")
	}
	said.WriteString(strings.ToLower(strings.Join(sheetTexts(t), "\n")))
	names := func(text string) []string { n := slotNames(text); slices.Sort(n); return slices.Compact(n) }
	for k, text := range region.texts {
		if k.section == swapSection {
			assert.Equal(t, strings.ToLower(k.id), k.id, "swaps are in lower case")
			there := regexp.MustCompile(`(^|[^\pL])` + regexp.QuoteMeta(k.id) + `([^\pL]|$)`).MatchString(said.String())
			assert.True(t, there, "no text has %q: the swap can go", k.id)
			continue
		}
		want, ok := british.base.texts[k]
		if assert.True(t, ok, "%v: English has none", k) {
			assert.Equal(t, names(want), names(text), "%v", k)
			assert.NotEqual(t, swapped.in(want), text, "%v is the same: it can go", k)
		}
	}
}

// sheetTexts are the lines of the printed lists, in English.
func sheetTexts(t *testing.T) (all []string) {
	lists, err := fs.Glob(assets.SheetLists(), "en-*.toml")
	require.NoError(t, err)
	require.NotEmpty(t, lists)
	for _, name := range lists {
		data, err := fs.ReadFile(assets.SheetLists(), name)
		require.NoError(t, err)
		for _, m := range regexp.MustCompile(`(?m)^text = "(.*)"`).FindAllStringSubmatch(string(data), -1) {
			all = append(all, m[1])
		}
	}
	require.NotEmpty(t, all)
	return all
}

func TestARegionSwapsWholeWordsOutsidePlaceholders(t *testing.T) {
	folder := fstest.MapFS{
		"en-a.toml": {Data: []byte(`[label]
a = "Block {block:up} blocked, a block's {block|block|blocks}"
b = "led round it, round pin"
c = "block"
d = "kept"
[search]
"block" = "pulley block"
`)},
		"en-GB.toml": {Data: []byte("[label]\nd = \"own\"\n")},
		"en-US.toml": {Data: []byte(`[swap]
"block" = "snatch block"
"blocks" = "snatch blocks"
"round" = "around"
"round pin" = "round pin"
[label]
c = "block itself"
`)},
	}
	us, err := Read(folder, "en-US", quantity.Metric)
	require.NoError(t, err)
	for id, want := range map[string]string{
		"a": "Snatch block {block:up} blocked, a snatch block's {block|snatch block|snatch blocks}",
		"b": "led around it, round pin", "c": "block itself", "d": "kept",
	} {
		got, _ := us.text(labelSection, id, "")
		assert.Equal(t, want, got)
	}
	assert.Equal(t, "pulley block", us.own.texts[key{searchSection, "block", ""}])
	assert.Equal(t, []string{"en", "en-GB", "en-US"}, languages(folder))
	gb, err := Read(folder, "en-GB", quantity.Metric)
	require.NoError(t, err)
	assert.Equal(t, "own", gb.Label("d"))
	assert.Equal(t, "block", gb.Label("c"))
	plain, err := Read(folder, "en", quantity.Metric)
	require.NoError(t, err)
	assert.Equal(t, "kept", plain.Label("d"), "a region's file is not the language's")
}

package words

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"
)

// base is the language every other falls back to.
const base = "en"

// maxFileBytes is far above any file of texts and far below what would hurt.
const maxFileBytes = 1 << 20

// The sections of a catalogue.
const (
	findingSection = "finding"
	basisSection   = "basis"
	formulaSection = "formula"
	noteSection    = "note"
	remedySection  = "remedy"
	wordSection    = "word"
	labelSection   = "label"
	factSection    = "fact"
	remarkSection  = "fact-note" // by what the handbook's file says
	storySection   = "story"     // of the examples, by what their files say
	searchSection  = "search"
	refusalSection = "refusal"
	swapSection    = "swap"
	whySection     = "why"
	termSection    = "term"
	calledSection  = "called"
)

// fileTOML is a file of texts as written.
type fileTOML struct {
	Finding map[string]findingTOML `toml:"finding"`
	Basis   map[string]string      `toml:"basis"`
	Formula map[string]string      `toml:"formula"`
	Note    map[string]string      `toml:"note"`
	Remedy  map[string]string      `toml:"remedy"`
	Word    map[string]string      `toml:"word"`
	Label   map[string]string      `toml:"label"`
	Fact    map[string]string      `toml:"fact"`
	Remark  map[string]string      `toml:"fact-note"`
	Story   map[string]string      `toml:"story"`
	Search  map[string]string      `toml:"search"`
	Refusal map[string]string      `toml:"refusal"`
	Swap    map[string]string      `toml:"swap"`
	Why     map[string]string      `toml:"why"`
	Term    map[string]string      `toml:"term"`
	Called  map[string]string      `toml:"called"`
}

type findingTOML struct {
	What *string `toml:"what"`
	Do   *string `toml:"do"`
}

// key names a text: its section and id; of a finding, which sentence.
type key struct{ section, id, sentence string }

func (k key) String() string {
	s := k.section + "/" + k.id
	if k.sentence != "" {
		s += "/" + k.sentence
	}
	return s
}

// catalogue is all texts of one language.
type catalogue struct{ texts map[key]string }

// readCatalogue reads the files of one language, in the order of their names.
func readCatalogue(folder fs.FS, lang string) (*catalogue, error) {
	names, err := fs.Glob(folder, "*.toml")
	if err != nil {
		return nil, fmt.Errorf("words: %w", err)
	}
	slices.Sort(names)
	names = slices.DeleteFunc(names, func(name string) bool { return languageOf(name) != lang })
	files := make([][]byte, len(names))
	lines := 0 // about as many as texts
	for i, name := range names {
		if files[i], err = fs.ReadFile(folder, name); err != nil {
			return nil, fmt.Errorf("words: %w", err)
		}
		lines += bytes.Count(files[i], []byte("\n"))
	}
	c := &catalogue{texts: make(map[key]string, lines)}
	for i, name := range names {
		if err := c.add(name, files[i]); err != nil {
			return nil, err
		}
	}
	return c, nil
}

// add reads and checks one file.
func (c *catalogue) add(name string, data []byte) error {
	if len(data) > maxFileBytes {
		return fmt.Errorf("words: %s: larger than %d bytes", name, maxFileBytes)
	}
	lines, ok := quick(string(data))
	if !ok {
		var err error
		if lines, err = decode(name, data); err != nil {
			return err
		}
	}
	sentences := map[string]int{} // of each finding of this file
	for _, l := range lines {
		had := len(c.texts)
		c.texts[l.key] = l.text
		switch {
		case len(c.texts) == had:
			return fmt.Errorf("words: %s: %s is defined before", name, l.key)
		case strings.TrimSpace(l.text) == "":
			return fmt.Errorf("words: %s: %s is empty", name, l.key)
		}
		if err := checkText(l.text); err != nil {
			return fmt.Errorf("words: %s: %s: %w", name, l.key, err)
		}
		if l.key.section == findingSection {
			sentences[l.key.id]++
		}
	}
	for _, l := range lines { // the first in order, so that it is always the same
		if l.key.section == findingSection && sentences[l.key.id] != 2 {
			return fmt.Errorf("words: %s: finding/%s has not both what and do", name, l.key.id)
		}
	}
	return nil
}

// decode reads a file with the TOML decoder, sorted by section and id.
func decode(name string, data []byte) ([]line, error) {
	var f fileTOML
	meta, err := toml.Decode(string(data), &f)
	if err != nil {
		var syntax toml.ParseError
		if errors.As(err, &syntax) {
			return nil, fmt.Errorf("words: %s: line %d: %s", name, syntax.Position.Line, syntax.Message)
		}
		return nil, fmt.Errorf("words: %s: %w", name, err)
	}
	if extra := meta.Undecoded(); len(extra) > 0 {
		return nil, fmt.Errorf("words: %s: unknown key %q", name, extra[0].String())
	}
	var lines []line
	for id, t := range f.Finding {
		for sentence, text := range map[string]*string{"what": t.What, "do": t.Do} {
			if text != nil {
				lines = append(lines, line{key{findingSection, id, sentence}, *text})
			}
		}
		if t.What == nil && t.Do == nil {
			return nil, fmt.Errorf("words: %s: finding/%s has not both what and do", name, id)
		}
	}
	for section, texts := range map[string]map[string]string{
		basisSection: f.Basis, formulaSection: f.Formula, noteSection: f.Note,
		remedySection: f.Remedy, wordSection: f.Word, labelSection: f.Label, factSection: f.Fact, remarkSection: f.Remark, storySection: f.Story,
		searchSection: f.Search, refusalSection: f.Refusal, swapSection: f.Swap, whySection: f.Why, termSection: f.Term, calledSection: f.Called,
	} {
		for id, text := range texts {
			lines = append(lines, line{key{section, id, ""}, text})
		}
	}
	slices.SortFunc(lines, func(a, b line) int { return strings.Compare(a.key.String(), b.key.String()) })
	return lines, nil
}

// languageOf is the language a file is of: that before its first hyphen, with the
// region if that is all that follows (en-US.toml: en-US; en-board.toml: en). Empty:
// of none.
func languageOf(name string) string {
	stem := strings.TrimSuffix(name, ".toml")
	lang, rest, ok := strings.Cut(stem, "-")
	switch {
	case !ok:
		return ""
	case len(rest) == 2 && strings.ToUpper(rest) == rest:
		return stem
	}
	return lang
}

// languages are the languages the folder has files of, sorted.
func languages(folder fs.FS) []string {
	names, err := fs.Glob(folder, "*.toml")
	if err != nil {
		return nil
	}
	var langs []string
	for _, name := range names {
		if lang := languageOf(name); lang != "" && !slices.Contains(langs, lang) {
			langs = append(langs, lang)
		}
	}
	slices.Sort(langs)
	return langs
}

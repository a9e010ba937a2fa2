package words

import (
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
}

type findingTOML struct {
	What string `toml:"what"`
	Do   string `toml:"do"`
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
type catalogue struct {
	texts map[key]string
	file  map[key]string // the file each comes from
}

// readCatalogue reads the files of one language, in the order of their names.
func readCatalogue(folder fs.FS, lang string) (*catalogue, error) {
	names, err := fs.Glob(folder, lang+"-*.toml")
	if err != nil {
		return nil, fmt.Errorf("words: %w", err)
	}
	slices.Sort(names)
	c := &catalogue{texts: map[key]string{}, file: map[key]string{}}
	for _, name := range names {
		data, err := fs.ReadFile(folder, name)
		if err != nil {
			return nil, fmt.Errorf("words: %w", err)
		}
		if err := c.add(name, data); err != nil {
			return nil, err
		}
	}
	return c, nil
}

// add decodes and checks one file.
func (c *catalogue) add(name string, data []byte) error {
	if len(data) > maxFileBytes {
		return fmt.Errorf("words: %s: larger than %d bytes", name, maxFileBytes)
	}
	var f fileTOML
	meta, err := toml.Decode(string(data), &f)
	if err != nil {
		var syntax toml.ParseError
		if errors.As(err, &syntax) {
			return fmt.Errorf("words: %s: line %d: %s", name, syntax.Position.Line, syntax.Message)
		}
		return fmt.Errorf("words: %s: %w", name, err)
	}
	if extra := meta.Undecoded(); len(extra) > 0 {
		return fmt.Errorf("words: %s: unknown key %q", name, extra[0].String())
	}
	var faults []string // sorted below, so that the first is always the same
	put := func(k key, text string) {
		switch other, taken := c.file[k]; {
		case taken:
			faults = append(faults, fmt.Sprintf("%s: %s is defined in %s too", name, k, other))
		case strings.TrimSpace(text) == "":
			faults = append(faults, fmt.Sprintf("%s: %s is empty", name, k))
		default:
			if err := checkText(text); err != nil {
				faults = append(faults, fmt.Sprintf("%s: %s: %s", name, k, err))
			}
		}
		c.texts[k], c.file[k] = text, name
	}
	for id, t := range f.Finding {
		put(key{findingSection, id, "what"}, t.What)
		put(key{findingSection, id, "do"}, t.Do)
	}
	for section, texts := range map[string]map[string]string{
		basisSection: f.Basis, formulaSection: f.Formula, noteSection: f.Note,
		remedySection: f.Remedy, wordSection: f.Word, labelSection: f.Label,
	} {
		for id, t := range texts {
			put(key{section, id, ""}, t)
		}
	}
	if len(faults) > 0 {
		return errors.New("words: " + slices.Min(faults))
	}
	return nil
}

// languages are the languages the folder has files of, sorted.
func languages(folder fs.FS) []string {
	names, err := fs.Glob(folder, "*-*.toml")
	if err != nil {
		return nil
	}
	var langs []string
	for _, name := range names {
		lang, _, _ := strings.Cut(name, "-")
		if !slices.Contains(langs, lang) {
			langs = append(langs, lang)
		}
	}
	slices.Sort(langs)
	return langs
}

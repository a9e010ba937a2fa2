package store

import (
	"bytes"
	"errors"
	"io/fs"
	"maps"
	"math"
	"path/filepath"
	"slices"

	"github.com/BurntSushi/toml"

	"kedge/solver/facts"
)

// Preferences are what a person chose for every plan. They change how things
// are shown, never what is computed. An empty text means "not chosen".
type Preferences struct {
	Language string             `toml:"language"`     // of package words: "en"
	Units    string             `toml:"units"`        // name of a unit system: "metric"
	TextSize string             `toml:"text_size"`    // TextDesk or TextField
	Percent  int                `toml:"text_percent"` // size of the text, one of TextPercents; 0: not chosen
	Theme    string             `toml:"theme"`        // ThemeSystem, ThemeLight, ThemeDark
	Width    int                `toml:"window_width_px"`
	Height   int                `toml:"window_height_px"`
	Panels   map[string]float64 `toml:"panel_shares"` // a divider's place, 0 to 1, by the panel's name

	ZonesApart bool     `toml:"zones_apart"`      // kinds of zone each with a hatch of its own
	Unfolded   []string `toml:"details_unfolded"` // headings of Details, each with its kind of thing; the last unfolded at the end
}

// Values of Preferences.
const (
	TextDesk  = "desk"
	TextField = "field"

	ThemeSystem = "system"
	ThemeLight  = "light"
	ThemeDark   = "dark"
)

// TextPercents are the sizes of text there are, of the usual one.
func TextPercents() []int { return []int{100, 125, 150, 200} }

// maxWindowPx is wider than any screen; a figure above it is a slip.
const maxWindowPx = 32768

// maxUnfolded is how many headings are kept: more than there are, in two languages. (ours)
const maxUnfolded = 200

// DefaultPreferences are those of a first start. Units and language are not
// chosen: the window asks.
func DefaultPreferences() Preferences {
	return Preferences{TextSize: TextDesk, Theme: ThemeSystem}
}

// PreferencesPath is the file they are kept in.
func (s *Store) PreferencesPath() string { return filepath.Join(s.Config, "preferences.toml") }

// Preferences reads them. They can always be used: with an error, whose
// sentence is for the status line, they are the defaults in whole (unreadable)
// or where a value was not understood.
func (s *Store) Preferences() (Preferences, error) {
	path, p := s.PreferencesPath(), DefaultPreferences()
	data, _, err := readWhole(s.Disk, path, maxStateBytes)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return p, nil
	case err != nil:
		return p, explain(reading, path, err)
	}
	if err = facts.Shape("", data); err == nil {
		_, err = toml.Decode(string(data), &p)
	}
	if err != nil {
		return DefaultPreferences(), preferencesOdd.At(named(path), base(path)+PreviousSuffix).Because(err)
	}
	if wrong := p.mend(); wrong != "" {
		return p, preferenceOdd.At(named(path), wrong)
	}
	return p, nil
}

// mend puts defaults in place of values that mean nothing, and names the first.
func (p *Preferences) mend() (wrong string) {
	usual := DefaultPreferences()
	blame := func(key string) {
		if wrong == "" {
			wrong = key
		}
	}
	if !slices.Contains([]string{TextDesk, TextField}, p.TextSize) {
		blame("text_size")
		p.TextSize = usual.TextSize
	}
	if p.Percent != 0 && !slices.Contains(TextPercents(), p.Percent) {
		blame("text_percent")
		p.Percent = usual.Percent
	}
	if !slices.Contains([]string{ThemeSystem, ThemeLight, ThemeDark}, p.Theme) {
		blame("theme")
		p.Theme = usual.Theme
	}
	if p.Width < 0 || p.Width > maxWindowPx || p.Height < 0 || p.Height > maxWindowPx {
		blame("window_width_px × window_height_px")
		p.Width, p.Height = 0, 0
	}
	p.Unfolded = p.Unfolded[max(0, len(p.Unfolded)-maxUnfolded):]
	for _, name := range slices.Sorted(maps.Keys(p.Panels)) {
		if share := p.Panels[name]; math.IsNaN(share) || share < 0 || share > 1 {
			blame("panel_shares." + name)
			delete(p.Panels, name)
		}
	}
	return wrong
}

// SavePreferences writes them, and keeps the file before.
func (s *Store) SavePreferences(p Preferences) error {
	p.Panels = maps.Clone(p.Panels)
	if wrong := p.mend(); wrong != "" {
		return preferenceNotKept.At(named(s.PreferencesPath()), wrong)
	}
	var b bytes.Buffer
	b.WriteString("# How Kedge shows things. It changes no figure.\n")
	if err := toml.NewEncoder(&b).Encode(p); err != nil {
		return preferencesNotWritten.At(named(s.PreferencesPath())).Because(err)
	}
	_, err := s.keep(s.PreferencesPath(), b.Bytes(), true)
	return err
}

package store_test

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/store"
	"kedge/solver/facts"
)

func TestRecent(t *testing.T) {
	s := own(t)
	at := time.Date(2026, 5, 1, 12, 0, 0, 0, time.UTC)
	s.Now = func() time.Time { at = at.Add(time.Minute); return at }
	list, err := s.Recent()
	require.NoError(t, err)
	assert.Empty(t, list)

	folder := t.TempDir()
	for i := range 15 {
		path := filepath.Join(folder, fmt.Sprintf("%02d.kedge", i))
		if i != 13 {
			require.NoError(t, os.WriteFile(path, nil, 0o644))
		}
		require.NoError(t, s.AddRecent(path, fmt.Sprintf("pull %d", i)))
	}
	require.NoError(t, s.AddRecent(filepath.Join(folder, "10.kedge"), "pull 10, again"))
	list, err = s.Recent()
	require.NoError(t, err)
	require.Len(t, list, store.MaxRecent)
	var got []string
	for _, r := range list {
		line := filepath.Base(r.Path) + " " + r.Title
		if r.Missing {
			line += " missing"
		}
		got = append(got, line)
	}
	assert.Equal(t, []string{"10.kedge pull 10, again", "14.kedge pull 14", "13.kedge pull 13 missing", "12.kedge pull 12"}, got[:4])
	assert.Equal(t, "03.kedge pull 3", got[11])
	assert.Equal(t, at, list[0].Opened)

	require.NoError(t, s.ForgetRecent(filepath.Join(folder, "14.kedge")))
	list, err = s.Recent()
	require.NoError(t, err)
	require.Len(t, list, store.MaxRecent-1)
	info, err := os.Stat(filepath.Join(s.State, "recent.json"))
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o600), info.Mode().Perm(), "where somebody works is nobody else's business")
}

func TestRecentDamaged(t *testing.T) {
	s := own(t)
	require.NoError(t, s.AddRecent("/a.kedge", ""))
	require.NoError(t, os.WriteFile(filepath.Join(s.State, "recent.json"), []byte(`[{"path"`), 0o600))
	_, err := s.Recent()
	require.ErrorIs(t, err, store.ErrContent)
	assert.Equal(t, "recent.json: the list of recent plans is damaged. It begins anew with the next plan.", said(t, err))
	require.NoError(t, s.AddRecent("/b.kedge", ""))
	list, err := s.Recent()
	require.NoError(t, err)
	assert.Len(t, list, 1)
}

func TestPreferences(t *testing.T) {
	s := own(t)
	p, err := s.Preferences()
	require.NoError(t, err)
	assert.Equal(t, store.DefaultPreferences(), p, "a first start")

	p.Units, p.Language, p.TextSize, p.Theme = "metric", "en", store.TextField, store.ThemeDark
	p.Width, p.Height = 1400, 900
	p.Panels = map[string]float64{"right": 0.28, "travel": 0.1}
	require.NoError(t, s.SavePreferences(p))
	got, err := s.Preferences()
	require.NoError(t, err)
	assert.Equal(t, p, got)
}

func TestPreferencesMended(t *testing.T) {
	for _, c := range []struct {
		name, text, says string
		want             func(p *store.Preferences)
	}{
		{"not TOML", "theme = \"dark", "preferences.toml: the preferences are not understood, the usual ones are used. Choose them again; the old file is kept as preferences.toml~.", nil},
		{"wrong type", "theme = 3", "preferences.toml: the preferences are not understood, the usual ones are used. Choose them again; the old file is kept as preferences.toml~.", nil},
		{"brackets that would take the stack", "smell = " + strings.Repeat("[", 9) + strings.Repeat("]", 9), "preferences.toml: the preferences are not understood, the usual ones are used. Choose them again; the old file is kept as preferences.toml~.", nil},
		{"word of a later version", "theme = \"sepia\"\ntext_size = \"field\"", "preferences.toml: the value of theme is not understood, the usual one is used. Choose it again.",
			func(p *store.Preferences) { p.TextSize = store.TextField }},
		{"absurd window", "window_width_px = -4", "preferences.toml: the value of window_width_px × window_height_px is not understood, the usual one is used. Choose it again.", nil},
		{"absurd panel", "[panel_shares]\nright = nan\nleft = 0.5", "preferences.toml: the value of panel_shares.right is not understood, the usual one is used. Choose it again.",
			func(p *store.Preferences) { p.Panels = map[string]float64{"left": 0.5} }},
		{"absurd size of text", "text_percent = 9000", "preferences.toml: the value of text_percent is not understood, the usual one is used. Choose it again.", nil},
		{"key of a later version", "theme = \"dark\"\nsmell = \"pine\"", "", func(p *store.Preferences) { p.Theme = store.ThemeDark }},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := own(t)
			require.NoError(t, os.MkdirAll(s.Config, 0o700))
			require.NoError(t, os.WriteFile(s.PreferencesPath(), []byte(c.text), 0o600))
			got, err := s.Preferences()
			assert.Equal(t, c.says, said(t, err))
			want := store.DefaultPreferences()
			if c.want != nil {
				c.want(&want)
			}
			if len(got.Panels) == 0 {
				got.Panels = nil
			}
			assert.Equal(t, want, got)
			require.NoError(t, s.SavePreferences(got))
			old, err := os.ReadFile(s.PreferencesPath() + store.PreviousSuffix)
			require.NoError(t, err)
			assert.Equal(t, c.text, string(old), "kept")
		})
	}
}

func TestSavePreferencesRefuses(t *testing.T) {
	s := own(t)
	err := s.SavePreferences(store.Preferences{Theme: "sepia", TextSize: store.TextDesk})
	assert.ErrorIs(t, err, store.ErrContent)
	assert.NoFileExists(t, s.PreferencesPath())
}

func TestFolderThatIsAFile(t *testing.T) {
	s := own(t)
	require.NoError(t, os.MkdirAll(filepath.Dir(s.Config), 0o700))
	require.NoError(t, os.WriteFile(s.Config, nil, 0o600))
	err := s.SavePreferences(store.DefaultPreferences())
	require.ErrorIs(t, err, store.ErrNotAFile)
	assert.Equal(t, "kedge: there is a file where Kedge keeps a folder. Give that file another name.", said(t, err))
}

func TestGearList(t *testing.T) {
	s := own(t)
	starter, err := facts.StarterGear()
	require.NoError(t, err)
	list, err := s.GearList()
	require.NoError(t, err)
	assert.Equal(t, starter, list, "no list of one's own")

	own := func(text string) {
		require.NoError(t, os.MkdirAll(s.Config, 0o700))
		require.NoError(t, os.WriteFile(s.GearPath(), []byte(text), 0o600))
	}
	own("[[item]]\nid = \"our-strop\"\nkind = \"sling\"\ntitle = \"the wardens' strop\"\nlength = \"2.5 m\"\nrating = \"4 t\"\nbasis = \"working\"\n")
	list, err = s.GearList()
	require.NoError(t, err)
	require.Len(t, list, len(starter)+1)
	last := list[len(starter)]
	assert.Equal(t, "gear.toml", last.List)
	assert.InDelta(t, 4*9806.65, float64(last.Sling.Rating.Force), 1e-6, "4 t as a weight, standard gravity 9.80665 m/s² (ISO 80000-3)")

	own("[[item]]\nid = \"our-strop\"\nkind = \"sling\"\ntitle = \"the wardens' strop\"\nrating = \"4\"\n")
	list, err = s.GearList()
	require.ErrorIs(t, err, store.ErrContent)
	assert.Equal(t, starter, list, "nothing of a list with a fault")
	assert.Contains(t, said(t, err), "gear.toml: your gear list is not used: item \"our-strop\"")
	assert.Contains(t, said(t, err), "Mend it in "+s.GearPath()+".")

	own("[[item]]\nid = \"winch-truck\"\nkind = \"damper\"\ntitle = \"x\"\n")
	list, err = s.GearList()
	require.ErrorIs(t, err, store.ErrContent)
	assert.Equal(t, starter, list)
}

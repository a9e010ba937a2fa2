package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver/facts"
)

// A gear list of somebody's own is refused with list, item and key, and with
// what is wrong there.
func TestGearListIsRefusedInTheLanguage(t *testing.T) {
	gear := func(lines string) string { return "[[item]]\nid = \"my-item\"\ntitle = \"mine\"\n" + lines + "\n" }
	for _, tt := range []struct{ text, want string }{
		{"[[item]]\nkind = \"sling\"\ntitle = \"mine\"", `my.toml: item 1: id is not lower-case words joined by dashes`},
		{"[[item]]\nid = \"my-item\"\nkind = \"sling\"", `my.toml: item "my-item": title is empty`},
		{gear(`kind = "rocket"`), `my.toml: item "my-item": kind "rocket" is unknown`},
		{gear("kind = \"sling\"\nsheave = \"80 mm\""), `my.toml: item "my-item": a sling has no key "sheave"`},
		{"shelf = 3", `my.toml: unknown key "shelf"`},
		{gear("kind = \"sling\"\nlength = 3"), `my.toml: item "my-item": length is no text in quotation marks`},
		{gear("kind = \"sling\"\nlength = \"3\""), `my.toml: item "my-item": length "3" has no unit`},
		{gear("kind = \"sling\"\nlength = \"\""), `my.toml: item "my-item": length is empty`},
		{gear("kind = \"sling\"\nlength = \"-3 m\""), `my.toml: item "my-item": length "-3 m" is not positive`},
		{gear("kind = \"sling\"\nrating = \"0 t\""), `my.toml: item "my-item": rating "0 t" is not positive`},
		{gear("kind = \"sling\"\nrating = \"3 t\"\nbasis = \"strong\""), `my.toml: item "my-item": basis "strong" is none of: working, breaking, not said`},
		{gear("kind = \"sling\"\nbasis = \"working\""), `my.toml: item "my-item": basis without a rating`},
		{gear("kind = \"block\"\nefficiency = 1.1"), `my.toml: item "my-item": efficiency 1.1 is above 1`},
		{gear("kind = \"block\"\nefficiency = nan"), `my.toml: item "my-item": efficiency is not a positive number`},
		{gear("kind = \"block\"\ntype = \"ring\"\nefficiency = 0.9"), `my.toml: item "my-item": efficiency belongs to a sheave; a ring has friction`},
		{gear("kind = \"block\"\nline_min = \"12 mm\"\nline_max = \"8 mm\""), `my.toml: item "my-item": line_min is above line_max`},
		{gear("kind = \"winch\"\nstall_factor = 0.8"), `my.toml: item "my-item": stall_factor 0.8 is below 1`},
		{gear("kind = \"winch\"\nmin_wraps = 4.5"), `my.toml: item "my-item": min_wraps is no whole number below 1000`},
		{gear("kind = \"winch\"\ndrum_diameter = \"90 mm\"\nflange_diameter = \"80 mm\""), `my.toml: item "my-item": flange_diameter is not above drum_diameter`},
		{gear("kind = \"vehicle\"\nlength = \"4 m\"\nwheelbase = \"5 m\""), `my.toml: item "my-item": wheelbase is above length`},
		{gear("kind = \"line\"\nend_fitting = \"knot.bowline\""), `my.toml: item "my-item": end_fitting "knot.bowline" is no row end.… of the figures`},
		{gear(`kind = "sling"`) + gear(`kind = "block"`), `my.toml: item "my-item": id is used twice`},
	} {
		_, err := facts.ParseGear("my.toml", []byte(tt.text))
		assert.Equal(t, tt.want, in(t, "en").Refusal(err))
		assert.NotRegexp(t, `\[[a-z-]+\]| is | has no `, in(t, "de").Refusal(err))
	}
	_, err := facts.ParseGear("my.toml", []byte(gear("kind = \"sling\"\nlength = \"3 stone\"")))
	assert.Equal(t, `my.toml: item "my-item": length "3 stone": stone is not a unit of length here: write m, cm, mm, km, ft, in, yd`, in(t, "en").Refusal(err))
	assert.Equal(t, `my.toml: Stück "my-item": length „3 stone“: Länge: stone ist hier keine Einheit: m, cm, mm, km, ft, in, yd schreiben`, in(t, "de").Refusal(err))
}

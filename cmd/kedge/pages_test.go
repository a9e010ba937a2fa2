package main

import (
	"io"
	"io/fs"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/canvas/words"
	"kedge/solver/facts"
)

// everyCommand calls with each command and topic there is.
func everyCommand(call func(*cobra.Command)) {
	status := 0
	root := newRoot(io.Discard, strings.NewReader(""), &status, language)
	root.InitDefaultHelpCmd()
	call(root)
	for _, c := range root.Commands() {
		call(c)
	}
}

// Each command and flag is explained in each language, and nothing that is not
// there.
func TestEveryCommandAndFlagHasItsHelp(t *testing.T) {
	for _, lang := range words.Languages() {
		t.Run(lang, func(t *testing.T) {
			m, err := newManual(lang)
			require.NoError(t, err)
			of := map[string][]string{"exit": nil, "every": {}, "page": {"usage", "command", "commands", "topics", "flags", "default", "more"}}
			everyCommand(func(c *cobra.Command) {
				if c.Hidden { // for who makes packages
					return
				}
				p := m.of(c.Name())
				assert.NotEmpty(t, p.short, c.Name())
				switch c.Name() {
				case "findings":
					of[c.Name()] = slices.Sorted(maps.Keys(p.flags)) // TestHelpListsEveryFinding uses each
					return
				case "licences":
					of[c.Name()] = []string{"own", "typeface"}
					return
				}
				of[c.Name()] = nil
				c.LocalFlags().VisitAll(func(f *pflag.Flag) {
					assert.NotEmpty(t, m.usage(c, f), "%s --%s", c.Name(), f.Name)
					if _, own := p.flags[f.Name]; own {
						of[c.Name()] = append(of[c.Name()], f.Name)
					} else {
						of["every"] = append(of["every"], f.Name)
					}
				})
				help := m.text(c)
				assert.NotRegexp(t, `\[[a-z-]+\]\n|\{`, help, "%s: a text is missing", c.Name())
			})
			for name, p := range m.pages {
				flags, there := of[name]
				assert.True(t, there, "%s: there is no such command", name)
				for flag, text := range p.flags {
					assert.Contains(t, flags, flag, "%s has no such flag", name)
					assert.NotEmpty(t, text)
				}
				for line := range strings.Lines(p.long) {
					assert.LessOrEqual(t, utf8.RuneCountInString(line), 90, "%s: %s", name, line)
				}
			}
		})
	}
}

// The languages say the same: the same pages, as long or short, with the same flags
// and the same values for them.
func TestThePagesOfHelpAreAlike(t *testing.T) {
	en, err := newManual(language)
	require.NoError(t, err)
	for _, lang := range words.Languages() {
		m, err := newManual(lang)
		require.NoError(t, err)
		assert.ElementsMatch(t, slices.Collect(maps.Keys(en.pages)), slices.Collect(maps.Keys(m.pages)), lang)
		for name, p := range en.pages {
			q := m.of(name)
			assert.ElementsMatch(t, slices.Collect(maps.Keys(p.flags)), slices.Collect(maps.Keys(q.flags)), "%s %s", lang, name)
			assert.Equal(t, p.long == "", q.long == "", "%s %s", lang, name)
			assert.Equal(t, strings.Count(p.long, "\n\n"), strings.Count(q.long, "\n\n"), "%s %s: paragraphs", lang, name)
			statuses := regexp.MustCompile(`(?m)^[0-9]  |\{[a-z]+\}`)
			assert.Equal(t, statuses.FindAllString(p.long, -1), statuses.FindAllString(q.long, -1), "%s %s", lang, name)
			for flag, usage := range p.flags {
				assert.Equal(t, strings.Count(usage, "`"), strings.Count(q.flags[flag], "`"), "%s %s --%s", lang, name, flag)
			}
		}
	}
}

// englishWords are words that a German sentence does not have (from memory; none of
// them is a German word, a name of a flag or a member of the answers).
var englishWords = regexp.MustCompile(`(?i)\b(the|of|and|is|are|with|from|for|which|that|this|every|each|where|when|what|its|their|not|nothing|help|flags|default|usage|likely|row|rows|note|choice|taken|rests|says|sheets|command)\b`)

// What --json prints has the same members in every language that describes it.
func TestTheMembersAreTheSameInEveryLanguage(t *testing.T) {
	code := regexp.MustCompile("`[^`]+`")
	members := func(name string) []string {
		data, err := fs.ReadFile(assets.Help(), name)
		require.NoError(t, err)
		all := code.FindAllString(string(data), -1)
		slices.Sort(all)
		return slices.Compact(all)
	}
	assert.Equal(t, members("json.md"), members("json-de.md"))
}

// Nothing that the command line says in German is left in English. What stays as it
// was published, sources and notes of the handbook, is marked as English or stands
// behind how sure it is; code stands in backquotes or behind a hyphen.
func TestGermanIsGerman(t *testing.T) {
	code := regexp.MustCompile("`[^`]*`|--?[a-z][a-z-]*|<[a-z0-9_-]+>|kedge help( [a-z]+)?|kedge-[a-z]+|json|what-if")
	check := func(args ...string) {
		text, errs, status := call(t, "", append([]string{"--lang=de"}, args...)...)
		require.Empty(t, errs)
		require.Equal(t, statusDone, status)
		for r := range facts.All() { // as it was published
			text = strings.ReplaceAll(text, "("+r.Source+", ", "(")
		}
		for line := range strings.Lines(text) {
			if args[0] == "facts" && (strings.HasPrefix(line, "  ") && strings.Contains(line, ": ") || !strings.Contains(line, "  ")) || strings.HasPrefix(line, "  help ") {
				continue // a source or note, or what is typed
			}
			if args[0] == "facts" {
				_, line, _ = strings.Cut(line, "  ") // the row's id
			}
			if id, levels, ok := strings.Cut(line, "  "); ok && args[0] == "help" && regexp.MustCompile(`^[a-z-]+$`).MatchString(id) {
				line = levels // of a finding
			}
			line = code.ReplaceAllString(line, "")
			assert.Equal(t, "", englishWords.FindString(line), "%v: %s", args, line)
		}
	}
	check("facts")
	check("version")
	everyCommand(func(c *cobra.Command) {
		switch c.Name() {
		case "kedge":
			check("help")
		case "licences": // the texts of others
		default:
			check("help", c.Name())
		}
	})
	m, err := newManual("de")
	require.NoError(t, err)
	for _, text := range m.of("licences").flags {
		assert.Equal(t, "", englishWords.FindString(m.say(text)))
	}
}

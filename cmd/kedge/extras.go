package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
	"github.com/spf13/pflag"

	"kedge/canvas/report"
)

// newExtras is the verb that writes what a package lays beside the program: manual
// pages, notices and completions of shells, in the folders in which Unix systems look for
// them. Hidden: people get these with the package.
func newExtras(root *cobra.Command, lang string) *cobra.Command {
	return &cobra.Command{
		Use:    "extras",
		Hidden: true,
		Args:   cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			m, err := newManual(lang)
			if err != nil {
				return wrongUse(textsDamaged.At("").Because(err))
			}
			files, err := extras(root, m)
			if err != nil {
				return refused(err)
			}
			for name, data := range files {
				path := filepath.Join(args[0], filepath.FromSlash(name))
				if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
					return refused(err)
				}
				if err := os.WriteFile(path, data, 0o644); err != nil {
					return refused(err)
				}
			}
			return nil
		},
	}
}

// extras are manual pages, notices and completions, by their names below share/.
func extras(root *cobra.Command, m *manual) (map[string][]byte, error) {
	m.describe(root)
	files := map[string][]byte{}
	var page func(c *cobra.Command) error
	page = func(c *cobra.Command) error {
		if c != root && !c.IsAvailableCommand() { // hidden, or a topic of the help
			return nil
		}
		var b bytes.Buffer
		name := strings.ReplaceAll(c.CommandPath(), " ", "-")
		if err := doc.GenMan(c, &doc.GenManHeader{Title: strings.ToUpper(name), Section: "1", Source: "Kedge " + report.Version, Manual: "Kedge"}, &b); err != nil {
			return err
		}
		files["man/man1/"+name+".1"] = b.Bytes()
		for _, sub := range c.Commands() {
			if err := page(sub); err != nil {
				return err
			}
		}
		return nil
	}
	root.DisableAutoGenTag = true // it would name the day
	if err := page(root); err != nil {
		return nil, err
	}
	notices, _, err := root.Find([]string{"licences"})
	if err != nil {
		return nil, err
	}
	files["doc/kedge/licences.txt"] = []byte(m.text(notices))
	var bash, zsh, fish, power bytes.Buffer
	for _, err := range [...]error{root.GenBashCompletionV2(&bash, true), root.GenZshCompletion(&zsh), root.GenFishCompletion(&fish, true), root.GenPowerShellCompletionWithDesc(&power)} {
		if err != nil {
			return nil, err
		}
	}
	files["bash-completion/completions/kedge"] = bash.Bytes()
	files["zsh/vendor-completions/_kedge"] = zsh.Bytes()
	files["fish/vendor_completions.d/kedge.fish"] = fish.Bytes()
	files["doc/kedge/kedge.ps1"] = power.Bytes()
	return files, nil
}

// describe gives a command and those below it their texts, for what the command
// library makes of them itself.
func (m *manual) describe(c *cobra.Command) {
	p := m.of(c.Name())
	c.Short, c.Long = m.say(p.short), marked(m.say(p.long))
	if c.HasParent() && p.use != "" {
		c.Use = p.use
	}
	c.Flags().VisitAll(func(f *pflag.Flag) { f.Usage = m.usage(c, f) })
	c.PersistentFlags().VisitAll(func(f *pflag.Flag) { f.Usage = m.usage(c, f) })
	for _, sub := range c.Commands() {
		m.describe(sub)
	}
}

// marked is a help text as the command library reads it, which fills paragraphs: a
// list of exit statuses, or whatever is set in, keeps its lines.
func marked(text string) string {
	var b strings.Builder
	set := false
	for line := range strings.Lines(text) {
		in := len(line) > 2 && (line[1:3] == "  " || line[:2] == "  ")
		if in != set {
			b.WriteString("\n")
		}
		if set = in; in {
			b.WriteString("    ")
		}
		b.WriteString(line)
	}
	return b.String()
}

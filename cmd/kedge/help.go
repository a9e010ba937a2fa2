package main

import (
	"io"
	"slices"

	"github.com/spf13/cobra"

	"kedge/canvas/report"
	"kedge/canvas/words"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/refusal"
)

// setHelp gives the commands their help, in a language. Its texts are read when they
// are asked for.
func setHelp(root *cobra.Command, lang string) {
	for _, topic := range [...]string{"json", "findings", "status", "licences"} {
		root.AddCommand(&cobra.Command{Use: topic, Short: topic}) // one without what it runs is a topic
	}
	root.SetHelpCommand(newHelp(root))
	root.SetHelpFunc(func(c *cobra.Command, _ []string) {
		m, err := newManual(lang)
		if err != nil {
			c.Println("The texts built into this program are damaged (" + err.Error() + "). Build it anew.")
			return
		}
		c.Print(m.text(c))
	})
}

// newHelp is the help verb: cobra's own would answer an unknown topic with a
// page of usage and status 0.
func newHelp(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use: "help",
		RunE: func(h *cobra.Command, args []string) error {
			if _, err := langFlag(h); err != nil {
				return err
			}
			c, rest, err := root.Find(args)
			if err != nil || len(rest) > 0 {
				return wrongUse(noHelp.At("", args[0]))
			}
			return c.Help()
		},
	}
}

// langFlag is the language that a command is asked for, if it is there.
func langFlag(c *cobra.Command) (lang string, err error) {
	lang = c.Flag("lang").Value.String()
	if have := words.Languages(); !slices.Contains(have, lang) {
		return "", wrongUse(noLanguage.At("", lang, refusal.Either(have)))
	}
	return lang, nil
}

func newVersion(out io.Writer) *cobra.Command {
	return &cobra.Command{
		Use:  "version",
		Args: noArguments,
		RunE: func(c *cobra.Command, _ []string) error {
			lang, err := langFlag(c)
			if err != nil {
				return err
			}
			w, err := words.New(lang, 0)
			if err != nil {
				return wrongUse(textsDamaged.At("").Because(err))
			}
			build := w.Label("version-unknown-build")
			if of, date := built(); of != "" {
				build = w.Label("version-build", part.Text("commit", of), part.Text("date", date))
			}
			_, err = io.WriteString(out, w.Label("version", part.Text("version", report.Version), part.Count("plan", plan.CurrentVersion), part.Count("answer", answerVersion), part.Text("revision", facts.Revision()))+"\n"+build+"\n")
			return err
		},
	}
}

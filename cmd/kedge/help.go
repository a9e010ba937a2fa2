package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"kedge/assets"
	"kedge/solver/facts"
	"kedge/solver/plan"
)

// newHelp is the help verb: cobra's own would answer an unknown topic with a
// page of usage and status 0.
func newHelp(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:   "help [VERB or TOPIC]",
		Short: "Help on a verb, on `json`, `findings`, `status` or `licences`",
		RunE: func(_ *cobra.Command, args []string) error {
			c, rest, err := root.Find(args)
			if err != nil || len(rest) > 0 {
				return wrongUse(noHelp.At("", args[0]))
			}
			return c.Help()
		},
	}
}

func newJSONHelp() *cobra.Command {
	return &cobra.Command{Use: "json", Short: "What --json of check, ways and doubt prints, member by member", Long: assets.JSONHelp()}
}

func newLicenceHelp() *cobra.Command {
	modules, texts := assets.Licences()
	return &cobra.Command{Use: "licences", Short: "The licences of the modules in the program and of the typeface of pictures and sheets",
		Long: modules + "\n\nThe typeface, Noto Sans:\n\n" + strings.TrimSpace(assets.FontLicence()) + "\n\n" + texts}
}

func newStatusHelp() *cobra.Command {
	return &cobra.Command{Use: "status", Short: "The exit statuses", Long: "Exit status of kedge check; kedge ways uses 0, 2, 3, and 4 where there is no way, kedge doubt 0, 2, 3, and 4 where something is not known; the other verbs 0, 2 and 3:\n\n" + statusHelp}
}

func newVersion(out io.Writer) *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "The version of program, plan format and handbook",
		Args:  noArguments,
		RunE: func(*cobra.Command, []string) error {
			_, err := fmt.Fprintf(out, "kedge %s · plan format %d · answer format %d · handbook %s\n", version, plan.CurrentVersion, answerVersion, facts.Revision())
			return err
		},
	}
}

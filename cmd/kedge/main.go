package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"
)

// version of the program, printed and written into answers.
const version = "0.1.0"

func main() { os.Exit(Main()) }

// Main runs the command line of this process and gives its exit status.
func Main() int {
	return run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
}

// run is the whole program. What it prints goes out in one piece, and only if
// nothing was wrong.
func run(args []string, in io.Reader, out, errs io.Writer) int {
	var text strings.Builder
	status := statusDone
	root := newRoot(&text, in, &status)
	root.SetArgs(args)
	if err := root.Execute(); err != nil {
		status, sentence := explain(err)
		fmt.Fprintln(errs, "kedge: "+sentence)
		return status
	}
	if _, err := io.WriteString(out, text.String()); err != nil {
		fmt.Fprintln(errs, "kedge: the answer could not be written ("+err.Error()+"). Give it somewhere to go.")
		return statusRefused
	}
	return status
}

// trouble is a sentence for standard error with the status that goes with it.
type trouble struct {
	status   int
	sentence string
}

func (t *trouble) Error() string { return t.sentence }

func wrongUse(format string, args ...any) error {
	return &trouble{statusUse, fmt.Sprintf(format, args...)}
}

// explain is an error's status and sentence. What cobra refuses is wrong use.
func explain(err error) (status int, sentence string) {
	var t *trouble
	if errors.As(err, &t) {
		return t.status, t.sentence
	}
	s := err.Error()
	first, _, _ := strings.Cut(s, "\n") // what follows are cobra's guesses
	return statusUse, strings.TrimSuffix(first, ".") + ". `kedge help` shows what can be asked."
}

const rootLong = `Kedge answers for winch pulls of vehicle recovery: every tension, anchor load,
side-load and danger zone of a plan drawn with the board, or written as JSON.

It is an aid for planning and teaching. Loads on real ground vary; handbook
holds are estimates; local law, the makers' instructions and a qualified person
come first. People stay outside the zones whatever the figures say.`

func newRoot(out io.Writer, in io.Reader, status *int) *cobra.Command {
	root := &cobra.Command{
		Use:               "kedge",
		Short:             "Loads, limits and danger zones of winch pulls",
		Long:              rootLong,
		SilenceErrors:     true,
		SilenceUsage:      true,
		CompletionOptions: cobra.CompletionOptions{DisableDefaultCmd: true},
		Args:              unknownVerb,
		RunE:              func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	root.SetOut(out)
	root.SetErr(out)
	root.AddCommand(newCheck(out, in, status), newWays(out, in, status), newFacts(out), newSheet(out, in), newOpen(status), newVersion(out), newJSONHelp(), newFindingsHelp(), newStatusHelp(), newLicenceHelp())
	root.SetFlagErrorFunc(func(c *cobra.Command, err error) error {
		return wrongUse("%s. `%s --help` shows its flags.", strings.TrimSuffix(err.Error(), "."), c.CommandPath())
	})
	root.SetHelpCommand(newHelp(root))
	return root
}

// unknownVerb refuses a word that is no verb.
func unknownVerb(_ *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	return wrongUse("there is no verb %q. `kedge help` lists them.", args[0])
}

// count refuses a wrong number of arguments, saying what they are.
func arguments(least, most int, what string) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		switch {
		case len(args) < least:
			return wrongUse("%s needs %s. `%s --help` shows how.", c.CommandPath(), what, c.CommandPath())
		case most >= 0 && len(args) > most:
			return wrongUse("%s takes only %s; %q is too much.", c.CommandPath(), what, args[most])
		}
		return nil
	}
}

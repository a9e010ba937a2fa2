package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"slices"
	"strings"
	"unicode"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"kedge/canvas/words"
	"kedge/solver/quantity"
	"kedge/solver/refusal"
)

func main() { os.Exit(Main()) }

// Main runs the command line of this process and gives its exit status.
func Main() int {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(garbagePercent)
	}
	return run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
}

// garbagePercent of what is in use may be garbage before it is collected: most
// commands end before they have made as much.
const garbagePercent = 400

// run is the whole program. What it prints goes out in one piece, and only if
// nothing was wrong.
func run(args []string, in io.Reader, out, errs io.Writer) int {
	var text strings.Builder
	status := statusDone
	root := newRoot(&text, in, &status, langOf(args))
	root.SetArgs(args)
	if len(args) > 0 && strings.HasPrefix(args[0], cobra.ShellCompRequestCmd) { // a shell asks how a line may go on
		root.SetErr(io.Discard)
	}
	if err := whole(root.Execute); err != nil {
		status, r := explain(err)
		fmt.Fprintln(errs, quantity.OneLine("kedge: "+say(args, r)))
		return status
	}
	if _, err := io.WriteString(out, printable(text.String())); err != nil {
		fmt.Fprintln(errs, "kedge: "+say(args, notPrinted.At("").Because(err)))
		return statusRefused
	}
	return status
}

// printable is text without characters that steer a terminal, whatever brought
// them.
func printable(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && r != '\n' && r != '\t' {
			return unicode.ReplacementChar
		}
		return r
	}, text)
}

// whole does something; if it panics its stack goes to standard error and there
// is no answer.
func whole(do func() error) (err error) {
	defer func() {
		if why := recover(); why != nil {
			debug.PrintStack()
			err = refused(broken.At("", fmt.Sprint(why)))
		}
	}()
	return do()
}

// trouble is a refusal with the status that goes with it.
type trouble struct {
	status int
	error
}

func (t *trouble) Unwrap() error { return t.error }

// wrongUse is a refusal of what was asked.
func wrongUse(why error) error { return &trouble{statusUse, why} }

// refused is a refusal of what is there.
func refused(why error) error { return &trouble{statusRefused, why} }

// explain is an error's status and what to say. What cobra refuses is wrong use.
func explain(err error) (status int, why error) {
	var t *trouble
	if errors.As(err, &t) {
		return t.status, t.error
	}
	first, _, _ := strings.Cut(err.Error(), "\n") // what follows are cobra's guesses
	return statusUse, otherwise.At("", first)
}

// say is why something was refused, in the language asked for.
func say(args []string, why error) string {
	w, err := words.New(langOf(args), quantity.Metric)
	if err != nil {
		return why.Error()
	}
	if r := refusal.Refuser(nil); errors.As(why, &r) && r.Refusal().Where == stdinName {
		from := *r.Refusal()
		from.Where, why = w.Label("standard-input"), &from
	}
	return w.Refusal(why)
}

// langOf is the language that the flags name, whatever else is wrong with them;
// English if they name none that there is.
func langOf(args []string) string {
	lang := language
	for i, a := range args {
		given, ok := strings.CutPrefix(a, "--lang=")
		if a == "--lang" && i+1 < len(args) {
			given, ok = args[i+1], true
		}
		if ok && slices.Contains(words.Languages(), given) {
			lang = given
		}
	}
	return lang
}

// newRoot is the command line; its help is in a language.
func newRoot(out io.Writer, in io.Reader, status *int, lang string) *cobra.Command {
	root := &cobra.Command{
		Use:               "kedge",
		SilenceErrors:     true,
		SilenceUsage:      true,
		CompletionOptions: cobra.CompletionOptions{DisableDefaultCmd: true},
		Args:              unknownVerb,
		RunE:              func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	root.SetOut(out)
	root.SetErr(out)
	root.AddCommand(newCheck(out, in, status), newWays(out, in, status), newDoubt(out, in, status), newReconstruct(out, in, status), newVerify(out, in, status), newFacts(out), newSheet(out, in), newFilm(out, in), newOpen(status), newVersion(out))
	root.PersistentFlags().String("lang", language, "")
	root.SetFlagErrorFunc(func(c *cobra.Command, err error) error {
		return wrongUse(badFlag(err, c.CommandPath()))
	})
	root.AddCommand(newExtras(root, lang))
	setHelp(root, lang)
	return root
}

// badFlag is what is wrong with the flags of a command.
func badFlag(err error, command string) error {
	dashed := func(name, shorts string) string {
		if shorts != "" {
			return "-" + shorts
		}
		return "--" + name
	}
	var (
		unknown *pflag.NotExistError
		bare    *pflag.ValueRequiredError
		odd     *pflag.InvalidValueError
	)
	switch {
	case errors.As(err, &unknown):
		return noFlag.At("", dashed(unknown.GetSpecifiedName(), unknown.GetSpecifiedShortnames()), command)
	case errors.As(err, &bare):
		return flagBare.At("", dashed(bare.GetSpecifiedName(), bare.GetSpecifiedShortnames()), command)
	case errors.As(err, &odd):
		return flagOdd.At("", odd.GetValue(), "--"+odd.GetFlag().Name, command)
	}
	return badFlags.At("", err.Error(), command)
}

// unknownVerb refuses a word that is no verb.
func unknownVerb(_ *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	return wrongUse(noVerb.At("", args[0]))
}

// onePlan takes the name of a plan, which may be left out if least is zero.
func onePlan(least int) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		switch {
		case len(args) < least:
			return wrongUse(planMissing.At("", c.CommandPath()))
		case len(args) > 1:
			return wrongUse(planTwice.At("", c.CommandPath(), args[1]))
		}
		return nil
	}
}

// noArguments takes none.
func noArguments(c *cobra.Command, args []string) error {
	if len(args) > 0 {
		return wrongUse(noArgument.At("", c.CommandPath(), args[0]))
	}
	return nil
}

package main

import (
	"context"
	"io"
	"os"
	"os/signal"

	"github.com/spf13/cobra"

	"kedge/canvas/report"
)

// telling runs a verb that answers about a file with a text and an exit status.
func telling(out io.Writer, status *int, verb func(file string) (text string, status int, err error)) func(*cobra.Command, []string) error {
	return func(_ *cobra.Command, args []string) error {
		text, st, err := verb(args[0])
		if err == nil {
			*status = st
		}
		return tell(out, text, err)
	}
}

// untilInterrupted is given up when somebody presses Ctrl+C.
func untilInterrupted() (ctx context.Context, stop func()) {
	return signal.NotifyContext(context.Background(), os.Interrupt)
}

// givenUp is a refusal of what somebody gave up: nothing is written.
func givenUp() error { return &trouble{statusGivenUp, interrupted.At("")} }

// tell prints what a verb answers, unless it has failed.
func tell(out io.Writer, text string, err error) error {
	if err != nil {
		return err
	}
	_, err = io.WriteString(out, text)
	return err
}

// toldIn are the flags for what the text of an answer is told in.
func toldIn(c *cobra.Command, units, lang *string) {
	c.Flags().StringVar(units, "units", "kN", "")
	c.Flags().StringVar(lang, "lang", language, "")
}

// docHead says of what form an answer is.
type docHead = report.Head

// encoded is an answer as JSON.
func encoded(doc any) (string, error) { return asText(report.Encoded(doc)) }

// asText is an answer that was made JSON, or why it was not.
func asText(data []byte, err error) (string, error) {
	if err != nil {
		return "", wrongUse(notJSON.At("").Because(err))
	}
	return string(data), nil
}

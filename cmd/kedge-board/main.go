//go:build cgo

// Command kedge-board is the window of Kedge.
//
//	kedge-board [-size 1440x900] [PLAN]
package main

import (
	"flag"
	"fmt"
	"os"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"kedge/canvas/window"
)

func main() {
	opt, err := options(os.Args[1:])
	if err == flag.ErrHelp {
		return
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "kedge-board:", err)
		os.Exit(2)
	}
	window.QuietLocale()
	w, err := made(opt)
	if err != nil {
		fmt.Fprintln(os.Stderr, "kedge-board:", err)
		os.Exit(1)
	}
	w.ShowAndRun()
}

// made makes the window. The toolkit panics where there is no display to show it on.
func made(opt window.Options) (w *window.Window, err error) {
	defer func() {
		switch why := recover(); {
		case why == nil:
		case strings.Contains(fmt.Sprint(why), "GLFW library is not initialized"):
			err = fmt.Errorf("no window can be shown: no display answers (DISPLAY is %q). Start the board on a desktop, or check the plan in a terminal with kedge check PLAN", os.Getenv("DISPLAY"))
		default:
			panic(why)
		}
	}()
	return window.New(app.NewWithID(window.AppID), opt)
}

// options reads the flags and the plan's name.
func options(args []string) (window.Options, error) {
	opt := window.Options{Clipboard: &pictures{}}
	flags := flag.NewFlagSet("kedge-board", flag.ContinueOnError)
	size := flags.String("size", "", "size of the window, as 1440x900")
	flags.StringVar(&opt.LoadsFile, "loads", "", "after each save, write the table of loads to this file (for tests)")
	flags.Usage = func() {
		fmt.Fprintln(flags.Output(), "usage: kedge-board [-size 1440x900] [PLAN]")
		flags.PrintDefaults()
	}
	if err := flags.Parse(args); err != nil {
		return opt, err
	}
	if *size != "" {
		var w, h int
		if _, err := fmt.Sscanf(*size, "%dx%d", &w, &h); err != nil || w < 320 || h < 240 || w > 16000 || h > 16000 {
			return opt, fmt.Errorf("-size %q is not width x height, such as 1440x900", *size)
		}
		opt.Size = fyne.NewSize(float32(w), float32(h))
	}
	switch flags.NArg() {
	case 0:
	case 1:
		opt.File = flags.Arg(0)
	default:
		return opt, fmt.Errorf("one plan, not %d", flags.NArg())
	}
	return opt, nil
}

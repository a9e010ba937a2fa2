package main

import (
	"io"
	"strings"

	"github.com/spf13/cobra"

	"kedge/canvas/sheet"
	"kedge/canvas/words"
)

const filmLong = `Film draws the whole pull of a rig as pictures one after the other, for a lesson:
each moment with its figures, the curve of the whole pull under it, the verdict on
the whole pull over it. PLAN is a .kedge file, or - for standard input. The ending
of FILE chooses an animated GIF, or PNG or SVG, a file a frame: FILE-001.png and so
on. Zones and the picture to trace are left out.

Nothing is written unless every frame could be drawn.`

// filmOptions are the flags of film.
type filmOptions struct {
	out, rig, units, lang string
	perM, width           float64
	outlines              bool
}

func newFilm(out io.Writer, in io.Reader) *cobra.Command {
	var o filmOptions
	c := &cobra.Command{
		Use:   "film PLAN -o FILE.gif",
		Short: "Draw the whole pull as an animated picture or a series",
		Long:  filmLong,
		Args:  onePlan(1),
		RunE: func(c *cobra.Command, args []string) error {
			names, err := film(c, args[0], in, o)
			return tell(out, names, err)
		},
	}
	f := c.Flags()
	f.StringVarP(&o.out, "out", "o", "", "write to `FILE`.gif, .png or .svg")
	f.StringVar(&o.rig, "rig", "", "the rig of that `NAME` or id (default: the first)")
	f.Float64Var(&o.perM, "per-metre", 0, "`FRAMES` for each metre of travel (default: 2)")
	f.Float64Var(&o.width, "width", 0, "`PIXELS` across (default: 960)")
	f.StringVar(&o.units, "units", "kN", "`UNITS`: kN, kgf or lbf")
	f.StringVar(&o.lang, "lang", language, "`LANGUAGE`: "+strings.Join(words.Languages(), ", "))
	f.BoolVar(&o.outlines, "outlines", false, "letters as outlines in SVG")
	return c
}

// film is the whole verb; it gives the names of the files written, a line each.
func film(c *cobra.Command, file string, in io.Reader, o filmOptions) (string, error) {
	if o.out == "" {
		return "", wrongUse(noFilm.At(""))
	}
	w, p, rigs, err := readRigs(file, in, o.lang, o.units, o.rig)
	if err != nil {
		return "", err
	}
	files, err := sheet.Film{Plan: p, Rig: rigs[0], Words: w, PerM: o.perM, WidthPx: o.width, Outlines: o.outlines}.Files(c.Context(), o.out)
	if err != nil {
		return "", sheetTrouble(file, err)
	}
	return writeFiles(files)
}

package main

import (
	"io"

	"github.com/spf13/cobra"

	"kedge/canvas/sheet"
)

// filmOptions are the flags of film.
type filmOptions struct {
	out, rig, units, lang string
	perM, width           float64
	outlines              bool
}

func newFilm(out io.Writer, in io.Reader) *cobra.Command {
	var o filmOptions
	c := &cobra.Command{
		Use:  "film",
		Args: onePlan(1),
		RunE: func(c *cobra.Command, args []string) error {
			names, err := film(c, args[0], in, o)
			return tell(out, names, err)
		},
	}
	f := c.Flags()
	f.StringVarP(&o.out, "out", "o", "", "")
	f.StringVar(&o.rig, "rig", "", "")
	f.Float64Var(&o.perM, "per-metre", 0, "")
	f.Float64Var(&o.width, "width", 0, "")
	toldIn(c, &o.units, &o.lang)
	f.BoolVar(&o.outlines, "outlines", false, "")
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

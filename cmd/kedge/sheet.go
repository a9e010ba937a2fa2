package main

import (
	"errors"
	"io"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"kedge/canvas/sheet"
	"kedge/canvas/store"
)

// sheetOptions are the flags of sheet.
type sheetOptions struct {
	out, rig, paper, scale, with, units, lang, class, date, logo, vary string
	landscape, upright, outlines, plans, apart, colour                 bool
	dpi                                                                float64
	variants                                                           int
	seed                                                               uint64
	blank, ask                                                         []string
}

func newSheet(out io.Writer, in io.Reader) *cobra.Command {
	var o sheetOptions
	c := &cobra.Command{
		Use:  "sheet",
		Args: onePlan(1),
		RunE: func(c *cobra.Command, args []string) error {
			names, err := printSheets(c, args[0], in, o)
			return tell(out, names, err)
		},
	}
	f := c.Flags()
	f.StringVarP(&o.out, "out", "o", "", "")
	f.StringVar(&o.rig, "rig", "", "")
	f.StringVar(&o.paper, "paper", "A4", "")
	f.StringVar(&o.scale, "scale", "", "")
	f.BoolVar(&o.landscape, "landscape", false, "")
	f.BoolVar(&o.upright, "upright", false, "")
	f.StringVar(&o.with, "with", "overview", "")
	toldIn(c, &o.units, &o.lang)
	f.StringVar(&o.date, "date", "", "")
	f.StringVar(&o.logo, "logo", "", "")
	f.Float64Var(&o.dpi, "dpi", sheet.DefaultDPI, "")
	f.StringArrayVar(&o.ask, "ask", nil, "")
	f.StringArrayVar(&o.blank, "blank", nil, "")
	f.IntVar(&o.variants, "variants", 0, "")
	f.StringVar(&o.vary, "vary", "", "")
	f.BoolVar(&o.plans, "plans", false, "")
	f.Uint64Var(&o.seed, "seed", 0, "")
	f.StringVar(&o.class, "class", "", "")
	f.BoolVar(&o.apart, "zones-apart", false, "")
	f.BoolVar(&o.colour, "colour", false, "")
	f.BoolVar(&o.outlines, "outlines", false, "")
	return c
}

// printSheets is the whole verb; it gives the names of the files written, a
// line each.
func printSheets(c *cobra.Command, file string, in io.Reader, o sheetOptions) (string, error) {
	if o.out == "" {
		return "", wrongUse(noOutput.At(""))
	}
	ending := strings.ToLower(filepath.Ext(o.out))
	if ending != ".pdf" && ending != ".svg" && ending != ".png" {
		return "", wrongUse(badEnding.At(o.out))
	}
	if o.landscape && o.upright {
		return "", wrongUse(bothWays.At(""))
	}
	p, err := readPlan(file, in)
	if err != nil {
		return "", err
	}
	opt := sheet.Options{Landscape: o.landscape, SVGOutlines: o.outlines, ZonesApart: o.apart, Colour: o.colour, DPI: o.dpi, Date: o.date}
	if err := fill(&opt, o); err != nil {
		return "", err
	}
	if o.rig != "" {
		rigs, err := chosenRigs(p, o.rig)
		if err != nil {
			return "", err
		}
		opt.Rig = rigs[0]
	}
	if err := exerciseFlags(p, &opt, o); err != nil {
		return "", err
	}
	if !o.landscape && !o.upright {
		opt.Landscape = sheet.LongSide(p, opt)
	}
	b, err := sheet.MakeContext(c.Context(), p, opt)
	if err != nil {
		return "", sheetTrouble(file, err)
	}
	files, err := b.Files(c.Context(), o.out, nil)
	if err != nil {
		return "", sheetTrouble(file, err)
	}
	return writeFiles(files)
}

// writeFiles writes what was drawn, and gives the names, a line each.
func writeFiles(files []sheet.File) (names string, err error) {
	var list strings.Builder
	var all []store.Output
	for _, f := range files {
		list.WriteString(f.Path + "\n")
		all = append(all, store.Output(f))
	}
	return list.String(), writeAll(all)
}

// writeAll writes every file whole or none.
func writeAll(all []store.Output) error {
	if err := store.WriteAll(all); err != nil {
		return refused(err)
	}
	return nil
}

// fill reads the flags that are words.
func fill(opt *sheet.Options, o sheetOptions) error {
	var err error
	if opt.Words, err = wordsIn(o.lang, o.units); err != nil {
		return err
	}
	if opt.Paper, err = sheet.PaperByName(o.paper); err != nil {
		return wrongUse(err)
	}
	if o.scale != "" {
		n, ok := strings.CutPrefix(strings.ReplaceAll(o.scale, " ", ""), "1:")
		if opt.Scale, err = strconv.ParseFloat(n, 64); !ok || err != nil {
			return wrongUse(noScale.At("", o.scale))
		}
	}
	for _, name := range strings.Split(o.with, ",") {
		k, err := sheet.KindByName(strings.TrimSpace(name))
		if err != nil {
			return wrongUse(err)
		}
		opt.Sheets = append(opt.Sheets, k)
	}
	if o.logo != "" {
		if opt.Logo, err = readAll(o.logo, nil); err != nil {
			return err
		}
	}
	return nil
}

func sheetTrouble(file string, err error) error {
	switch {
	case errors.Is(err, sheet.ErrEmpty), errors.Is(err, sheet.ErrTooLarge):
		return refused(badPlan.At(file).Because(err))
	case errors.Is(err, sheet.ErrOption), errors.Is(err, sheet.ErrEnding), errors.Is(err, sheet.ErrLogo), errors.Is(err, sheet.ErrQuestion):
		return wrongUse(err)
	}
	return refused(notSheet.At(file).Because(err))
}

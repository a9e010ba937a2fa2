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
	"kedge/canvas/words"
)

const sheetLong = `Sheet prints a plan: a pull plan on one page, or any sheets of a course. PLAN is
a .kedge file, or - for standard input. The ending of FILE chooses PDF, SVG or
PNG; SVG and PNG write one file a page, FILE-1.svg and so on, if there are
several.

Sheets with answers go to a file of their own, FILE-KEY. Nothing is written
unless everything could be drawn.`

// sheetOptions are the flags of sheet.
type sheetOptions struct {
	out, rig, paper, scale, with, units, lang, class, date, logo, vary string
	landscape, upright, outlines, plans, apart                         bool
	dpi                                                                float64
	variants                                                           int
	seed                                                               uint64
	blank, ask                                                         []string
}

func newSheet(out io.Writer, in io.Reader) *cobra.Command {
	var o sheetOptions
	c := &cobra.Command{
		Use:   "sheet PLAN -o FILE.pdf",
		Short: "Print a plan to scale: pull plan, tables, exercises with keys",
		Long:  sheetLong + "\n\nSheets for --with:\n" + kindList(),
		Args:  onePlan(1),
		RunE: func(c *cobra.Command, args []string) error {
			names, err := printSheets(c, args[0], in, o)
			return tell(out, names, err)
		},
	}
	f := c.Flags()
	f.StringVarP(&o.out, "out", "o", "", "write to `FILE`.pdf, .svg or .png")
	f.StringVar(&o.rig, "rig", "", "the rig of that `NAME` or id (default: the first)")
	f.StringVar(&o.paper, "paper", "A4", "`SIZE`: A4, A3, A2, Letter or Tabloid")
	f.StringVar(&o.scale, "scale", "", "`1:N` of the diagram, ISO 5455 (default: the largest that fits)")
	f.BoolVar(&o.landscape, "landscape", false, "the paper lies on its long side (default: the way the drawing is larger)")
	f.BoolVar(&o.upright, "upright", false, "the paper stands on its short side")
	f.StringVar(&o.with, "with", "overview", "`SHEETS`, by name, with commas")
	f.StringVar(&o.units, "units", "kN", "`UNITS`: kN, kgf or lbf")
	f.StringVar(&o.lang, "lang", language, "`LANGUAGE`: "+strings.Join(words.Languages(), ", "))
	f.StringVar(&o.date, "date", "", "`DATE` of the title block (default: the plan's)")
	f.StringVar(&o.logo, "logo", "", "`FILE` of the school's logo, PNG or JPEG")
	f.Float64Var(&o.dpi, "dpi", sheet.DefaultDPI, "dots an inch of PNG")
	f.StringArrayVar(&o.ask, "ask", nil, "`QUESTION` of the exercise: angle:PART, load:PART, weakest, first,\nwhat-if:RIG:PART, worst-at:PART, happens; may be given again (default: the usual ones)")
	f.StringArrayVar(&o.blank, "blank", nil, "leave the figure of `PART` blank on the drawing; may be given again")
	f.IntVar(&o.variants, "variants", 0, "`N` variants of the exercise, each with its key")
	f.StringVar(&o.vary, "vary", "", "`WHAT` differs from variant to variant, and how far, with commas:\nmass=20%, place=1.5, trunks=10% of their diameters, turn=5°, slings=2/3/4;\nwhat is not named stays (default: all, by as much, slings=2/3/4/5/6)")
	f.BoolVar(&o.plans, "plans", false, "write the plan of every variant beside its key, for kedge check")
	f.Uint64Var(&o.seed, "seed", 0, "`NUMBER` that draws the variants: the same gives the same")
	f.StringVar(&o.class, "class", "", "`FILE` of names, one a line, for the variants")
	f.BoolVar(&o.apart, "zones-apart", false, "the diagram with zones shows each kind with its own hatch")
	f.BoolVar(&o.outlines, "outlines", false, "letters as outlines in SVG")
	return c
}

// kindList is every sheet with its name, for the help.
func kindList() string {
	w, err := words.New(language, 0)
	if err != nil {
		return ""
	}
	var t table
	t.add("", "")
	for _, k := range sheet.Kinds() {
		t.add(string(k), w.Label("sheet-kind-"+string(k)))
	}
	var b strings.Builder
	t.write(&b, indent)
	_, rows, _ := strings.Cut(b.String(), "\n")
	return strings.TrimRight(rows, "\n")
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
	opt := sheet.Options{Landscape: o.landscape, SVGOutlines: o.outlines, ZonesApart: o.apart, DPI: o.dpi, Date: o.date}
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

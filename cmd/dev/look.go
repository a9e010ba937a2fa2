package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

// pictures is where look puts its files; git ignores it.
const pictures = ".look"

// shot is one picture of the window to take.
type shot struct {
	widthPx, heightPx int
	theme             string // light or dark
	scale             string // FYNE_SCALE, 1 for none
	plan              string
	act               []string // xdotool's words, done before the picture
}

// name of the shot's file, without ending: board-light-1440x900.
func (s shot) name() string {
	name := fmt.Sprintf("board-%s-%dx%d", s.theme, s.widthPx, s.heightPx)
	if s.scale != "1" {
		name += "-x" + s.scale
	}
	return name
}

// look takes pictures of the real window on a virtual display, or of a sheet.
func look(m machine, args []string) error {
	flags := flag.NewFlagSet("look", flag.ContinueOnError)
	yes := flags.Bool("y", false, "")
	sizes := flags.String("size", "", "")
	themes := flags.String("theme", "", "")
	scale := flags.String("scale", "1", "")
	act := flags.String("act", "", "")
	plan := flags.String("plan", example, "")
	sheet := flags.Bool("sheet", false, "")
	readme := flags.Bool("readme", false, "")
	if err := parse(flags, args); err != nil {
		return err
	}
	shots, err := shotList(*sizes, *themes, *scale)
	if err != nil {
		return err
	}
	if *sheet {
		return lookAtSheet(m, *plan, *yes)
	}
	if err := boardForDisplay(m, *yes); err != nil {
		return err
	}
	if err := os.MkdirAll(pictures, 0o755); err != nil {
		return err
	}
	if *readme {
		return picturesOfREADME(m)
	}
	for _, s := range shots {
		s.plan, s.act = *plan, strings.Fields(*act)
		file := filepath.Join(pictures, s.name()+".png")
		if err := s.take(m, binary(m, "kedge-board"), file); err != nil {
			return fmt.Errorf("%s: %w", s.name(), err)
		}
		m.Say(file)
	}
	return nil
}

// boardForDisplay builds the board and has what it needs on a virtual display.
func boardForDisplay(m machine, yes bool) error {
	if m.OS() != "linux" {
		return fmt.Errorf("the window is looked at on Linux only, under a virtual X11 display")
	}
	if err := provide(m, testNeeds(), yes); err != nil {
		return err
	}
	m.Say("Building bin/kedge-board ... " + longBuild)
	if err := m.Run(buildBoard(m)); err != nil {
		return fmt.Errorf("bin/kedge-board was not built: %w", err)
	}
	return nil
}

var (
	sizeWords  = regexp.MustCompile(`^\d+x\d+$`)
	scaleWords = regexp.MustCompile(`^\d(\.\d+)?$`)
)

// shotList reads the flags: every size in every theme. With neither, the
// three pictures a change of the window is looked at in.
func shotList(sizes, themes, scale string) ([]shot, error) {
	if !scaleWords.MatchString(scale) {
		return nil, fmt.Errorf("%w: -scale %q is not a number such as 1.5", errMisused, scale)
	}
	if sizes == "" && themes == "" {
		return []shot{
			{widthPx: 1440, heightPx: 900, theme: "light", scale: scale},
			{widthPx: 1440, heightPx: 900, theme: "dark", scale: scale},
			{widthPx: 1024, heightPx: 640, theme: "light", scale: scale},
		}, nil
	}
	if sizes == "" {
		sizes = "1440x900"
	}
	if themes == "" {
		themes = "light"
	}
	var shots []shot
	for size := range strings.SplitSeq(sizes, ",") {
		s := shot{scale: scale}
		if !sizeWords.MatchString(size) {
			return nil, fmt.Errorf("%w: -size %q is not width x height such as 1440x900", errMisused, size)
		}
		if _, err := fmt.Sscanf(size, "%dx%d", &s.widthPx, &s.heightPx); err != nil || s.widthPx < 100 || s.heightPx < 100 || s.widthPx > 8000 || s.heightPx > 8000 {
			return nil, fmt.Errorf("%w: -size %q is not between 100 and 8000 pixels each way", errMisused, size)
		}
		for theme := range strings.SplitSeq(themes, ",") {
			if theme != "light" && theme != "dark" {
				return nil, fmt.Errorf("%w: -theme %q is neither light nor dark", errMisused, theme)
			}
			s.theme = theme
			shots = append(shots, s)
		}
	}
	return shots, nil
}

// lookAtSheet writes the plan's sheet and turns each page into a picture.
func lookAtSheet(m machine, plan string, yes bool) error {
	if err := provide(m, sheetNeeds, yes); err != nil {
		return err
	}
	if err := os.MkdirAll(pictures, 0o755); err != nil {
		return err
	}
	pdf := filepath.Join(pictures, "sheet.pdf")
	for _, c := range []command{
		buildKedge(m),
		cmd(binary(m, "kedge"), "sheet", plan, "-o", pdf),
		cmd("pdftoppm", "-r", "110", "-png", pdf, strings.TrimSuffix(pdf, ".pdf")),
	} {
		if err := m.Run(c); err != nil {
			return fmt.Errorf("%s: %w", c, err)
		}
	}
	m.Say(filepath.Join(pictures, "sheet-*.png"))
	return nil
}

// picturesOfREADME makes the pictures that the README shows: the board, the pull plan
// as it is printed, an exercise beside its key. They have few colours, to be small.
func picturesOfREADME(m machine) error {
	board := filepath.Join(pictures, "readme.png")
	s := shot{widthPx: 1440, heightPx: 900, theme: "light", scale: "1", plan: example}
	if err := s.take(m, binary(m, "kedge-board"), board); err != nil {
		return fmt.Errorf("%s: %w", s.name(), err)
	}
	return drawREADME(m, board)
}

// drawREADME prints the sheets and makes small pictures of them and of the board's.
func drawREADME(m machine, board string) error {
	sheet, exercise := filepath.Join(pictures, "sheet.png"), filepath.Join(pictures, "exercise.png")
	page := func(file, of string) string { return strings.TrimSuffix(file, ".png") + of + "-1.png" }
	for _, c := range []command{
		buildKedge(m),
		cmd(binary(m, "kedge"), "sheet", example, "--with", "overview", "--dpi", "80", "-o", sheet),
		cmd(binary(m, "kedge"), "sheet", example, "--with", "exercise,key", "--dpi", "80", "-o", exercise),
		cmd("convert", board, "-strip", "+dither", "-colors", "64", "PNG8:assets/board.png"),
		cmd("convert", page(sheet, ""), "-strip", "+dither", "-colors", "16", "PNG8:assets/pullplan.png"),
		cmd("convert", page(exercise, ""), page(exercise, "-KEY"), "+append", "-strip", "+dither", "-colors", "16", "PNG8:assets/exercise.png"),
	} {
		if err := m.Run(c); err != nil {
			return fmt.Errorf("%s: %w", c, err)
		}
	}
	return nil
}

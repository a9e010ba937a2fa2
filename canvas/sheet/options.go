package sheet

import (
	"math"
	"slices"

	"kedge/canvas/exercise"
	"kedge/canvas/words"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Options say what a booklet holds. The zero value is the overview of the
// first rig on upright A4, in English and metric units.
type Options struct {
	Sheets     []Kind       // in this order; none: the overview
	Paper      Paper        // zero: A4
	Landscape  bool         // the paper lies on its long side
	Colour     bool         // drawings have the signal colours; else everything is black and white, and copies
	Scale      float64      // n of 1 : n, one of [Scales]; 0: the largest that fits
	Rig        plan.ID      // empty: the first rig
	Words      *words.Words // nil: English, metric
	Date       string       // of the title block; empty: the plan's own, else none
	Logo       []byte       // PNG or JPEG of the school; nil: none
	DPI        float64      // of PNG pages; 0: 150
	ZonesApart bool         // the diagram with zones shows each kind with its own hatch
	// SVGOutlines draws letters as outlines in SVG, for programs without the font.
	SVGOutlines bool
	Blanks      []string            // parts whose figures are left blank on the exercise
	Questions   []exercise.Question // of the exercise; with no blanks either: those the plan keeps, else the usual ones
	Vary        exercise.Vary       // what differs from variant to variant; zero: as the plan keeps, else the usual
	Variants    int                 // number of variants; 1: the plan itself; 0: as many as names, else as the plan keeps
	Seed        uint64              // of the variants: the same seed gives the same ones
	Class       []string            // names, one a variant; with Variants 0 none: those the plan keeps
	Plans       bool                // the plan of every variant is a file beside its key, for kedge check

	// Progress is told how many pages are done and how many there are, as far
	// as is known. It runs on the caller's goroutine. Nil: nobody is told.
	Progress func(done, total int)
}

// DefaultDPI is the resolution of a PNG page if none is asked for.
const DefaultDPI = 150

// MaxVariants bounds a class. (ours)
const MaxVariants = 500

// kept fills in what the plan keeps of the exercise of the rig, where nobody asks
// for something else.
func (o *Options) kept(p *plan.Plan) error {
	if !slices.ContainsFunc(o.Sheets, Kind.ofExercise) {
		return nil
	}
	s, err := exercise.SetupOf(p, o.Rig)
	if err != nil {
		return err
	}
	if len(o.Questions)+len(o.Blanks) == 0 {
		o.Questions, o.Blanks = s.Questions, s.Blanks
	}
	if len(o.Class) == 0 && o.Variants == 0 {
		o.Class, o.Variants = s.Names, s.Variants
	}
	if o.Vary.IsZero() {
		o.Vary = s.Vary
	}
	return nil
}

// settled are the options with the defaults in their place, or what is wrong
// with them.
func (o Options) settled(p *plan.Plan) (Options, error) {
	if p == nil {
		return o, noPlan.At("")
	}
	if len(o.Sheets) == 0 {
		o.Sheets = []Kind{Overview}
	}
	for _, k := range o.Sheets {
		if !slices.Contains(Kinds(), k) {
			return o, noSheet.At("", string(k), kindNames())
		}
	}
	if o.Paper == (Paper{}) {
		o.Paper = A4
	}
	if !slices.Contains(Papers(), o.Paper) {
		return o, noPaperSize.At("", written(o.Paper.W), written(o.Paper.H))
	}
	if o.Scale != 0 && !slices.Contains(scales, o.Scale) {
		return o, noScale.At("", written(o.Scale))
	}
	if o.Rig == "" && len(p.Rigs) > 0 {
		o.Rig = p.Rigs[0].ID
	}
	if _, ok := p.Rig(o.Rig); o.Rig != "" && !ok {
		return o, noRig.At("", string(o.Rig))
	}
	if o.Words == nil {
		w, err := words.New("en", quantity.Metric)
		if err != nil {
			return o, err
		}
		o.Words = w
	}
	if o.Date == "" {
		o.Date = p.TitleInfo.Date
	}
	if o.DPI == 0 {
		o.DPI = DefaultDPI
	}
	if !(o.DPI >= 20) || o.DPI > 1200 || math.IsNaN(o.DPI) {
		return o, noDPI.At("", written(o.DPI))
	}
	if err := o.kept(p); err != nil {
		return o, err
	}
	if o.Variants < 0 || o.Variants > MaxVariants {
		return o, noVariants.At("", o.Variants, MaxVariants)
	}
	if len(o.Class) > MaxVariants {
		return o, largeClass.At("", len(o.Class), MaxVariants)
	}
	if o.Variants == 0 && len(o.Class) > 0 {
		o.Variants = len(o.Class)
	}
	return o, nil
}

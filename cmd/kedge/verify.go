package main

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"kedge/canvas/form"
	"kedge/canvas/report"
	"kedge/canvas/store"
	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
)

func newVerify(out io.Writer, in io.Reader, status *int) *cobra.Command {
	var expect, units, lang string
	c := &cobra.Command{
		Use:  "verify",
		Args: onePlan(1),
		RunE: telling(out, status, func(file string) (string, int, error) {
			w, err := wordsIn(lang, units)
			if err != nil {
				return "", 0, err
			}
			data, err := readUpTo(file, in, store.MaxSealedBytes+1)
			if err != nil {
				return "", 0, err
			}
			s, altered, err := store.Unseal(data)
			if err != nil {
				return "", 0, refused(notASeal.At(file).Because(err))
			}
			if len(altered) == 0 && expect != "" && !strings.EqualFold(expect, s.Hash) {
				altered = []string{"sha256"}
			}
			status := statusDone
			if len(altered) > 0 {
				status = statusDanger
			}
			whether, of := s.Said(w, altered)
			of = append(of, pictureIn(w, s.Plan.Data)...)
			return whether + "\n" + strings.Join(of, "\n") + "\n", status, nil
		}),
	}
	c.Flags().StringVar(&expect, "expect", "", "")
	toldIn(c, &units, &lang)
	return c
}

// pictureIn says how the picture lies of a plan that was sealed.
func pictureIn(w *words.Words, data []byte) (lines []string) {
	p, err := plan.ParsePlan(data)
	if err != nil { // altered, or of a newer version: its hash stands above
		return nil
	}
	if off := form.PictureOff(w, p.Site.Underlay); off != "" {
		lines = append(lines, w.Level(part.Caution)+": "+off)
	}
	return append(lines, form.PictureLies(w, p.Site.Underlay)...)
}

// sealOptions are the flags of reconstruct for a sealed copy.
type sealOptions struct {
	file, after, why string
	pictures         []string
}

// fault is what of a sealed copy was asked for without the rest of it.
func (o *sealOptions) fault() error {
	switch {
	case o.file == "" && (o.after != "" || o.why != "" || len(o.pictures) > 0):
		return wrongUse(sealAlone.At(""))
	case o.after != "" && strings.TrimSpace(o.why) == "":
		return wrongUse(sealWhy.At(""))
	case o.after == "" && o.why != "":
		return wrongUse(sealAfter.At(""))
	}
	return nil
}

// seal writes a sealed copy of an answer.
func (a *rebuilt) seal(p *plan.Plan, in io.Reader, o sealOptions) error {
	if _, err := os.Lstat(o.file); err == nil {
		return refused(sealThere.At(o.file)) // it may hold pictures that are in no other place
	}
	figures, err := a.json()
	if err != nil {
		return err
	}
	s, err := store.NewSealed(p, a.Rig, report.Program(), a.Seed(), []byte(figures))
	if err != nil {
		return refused(notFormatted.At(o.file).Because(err))
	}
	for _, name := range o.pictures {
		data, err := readUpTo(name, in, store.MaxSealedBytes)
		if err != nil {
			return err
		}
		s.Pictures = append(s.Pictures, store.NewContent(filepath.Base(name), data))
	}
	var before *store.Sealed
	if o.after != "" {
		data, err := readUpTo(o.after, in, store.MaxSealedBytes+1)
		if err != nil {
			return err
		}
		if before, err = store.Unaltered(o.after, data); err != nil {
			return refused(err)
		}
	}
	whole, err := store.Seal(s, before, o.why)
	if errors.Is(err, store.ErrContent) {
		return refused(err)
	}
	if err != nil {
		return refused(notSealed.At(o.file).Because(err))
	}
	return writeAll([]store.Output{{Path: o.file, Data: whole}})
}

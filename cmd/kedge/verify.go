package main

import (
	"crypto/sha256"
	"encoding/hex"
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
	c := &cobra.Command{Use: "verify", Args: onePlan(1)}
	wanted := func() bool { return c.Flags().Changed("expect") } // one that is empty too
	c.RunE = telling(out, status, func(file string) (string, int, error) {
		w, err := wordsIn(lang, units)
		if err != nil {
			return "", 0, err
		}
		if raw, err := hex.DecodeString(expect); wanted() && (err != nil || len(raw) != sha256.Size) {
			return "", 0, wrongUse(notAHash.At("", expect))
		}
		data, err := readUpTo(file, in, store.MaxSealedBytes+1)
		if err != nil {
			return "", 0, err
		}
		s, altered, err := store.Unseal(data)
		if err != nil {
			return "", 0, refused(notASeal.At(file).Because(err))
		}
		if len(altered) == 0 && wanted() && !strings.EqualFold(expect, s.Hash) {
			altered = []string{"sha256"}
		}
		status := statusDone
		if len(altered) > 0 {
			status = statusDanger
		}
		whether, of := s.Said(w, altered)
		of = append(of, pictureIn(w, s.Plan.Data)...)
		return whether + "\n" + strings.Join(of, "\n") + "\n", status, nil
	})
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

// sealable is what a sealed copy holds beside plan and answer.
type sealable struct {
	pictures []store.Content
	before   *store.Sealed
}

// read reads what is to be sealed too, before anything is reckoned for it; what is there
// already is refused.
func (o *sealOptions) read(in io.Reader) (with sealable, err error) {
	if o.file == "" {
		return with, nil
	}
	if _, err := os.Lstat(o.file); err == nil {
		return with, refused(sealThere.At(o.file)) // it may hold pictures that are in no other place
	}
	for _, name := range o.pictures {
		data, err := readUpTo(name, in, store.MaxSealedBytes)
		if err != nil {
			return with, err
		}
		with.pictures = append(with.pictures, store.NewContent(filepath.Base(name), data))
	}
	if o.after == "" {
		return with, nil
	}
	data, err := readUpTo(o.after, in, store.MaxSealedBytes+1)
	if err != nil {
		return with, err
	}
	if with.before, err = store.Unaltered(o.after, data); err != nil {
		return with, refused(err)
	}
	return with, nil
}

// seal writes a sealed copy of an answer.
func (a *rebuilt) seal(p *plan.Plan, with sealable, o sealOptions) error {
	figures, err := a.json()
	if err != nil {
		return err
	}
	s, err := store.NewSealed(p, a.Rig, report.Program(), a.Seed(), []byte(figures))
	if err != nil {
		return refused(notFormatted.At(o.file).Because(err))
	}
	s.Add(with.pictures)
	whole, err := store.Seal(s, with.before, o.why)
	if errors.Is(err, store.ErrContent) {
		return refused(err)
	}
	if err != nil {
		return refused(notSealed.At(o.file).Because(err))
	}
	return writeAll([]store.Output{{Path: o.file, Data: whole}})
}

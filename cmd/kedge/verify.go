package main

import (
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"kedge/canvas/report"
	"kedge/canvas/store"
	"kedge/solver/facts"
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
			id, status := "seal-unaltered", statusDone
			if len(altered) > 0 {
				id, status = "seal-altered", statusDanger
			}
			text := w.Label(id, part.Text("list", strings.Join(altered, ", "))) + "\n" +
				w.Label("seal-of", part.Text("hash", s.Hash), part.Text("plan", s.Plan.Hash), part.Text("seed", strconv.FormatUint(s.Seed, 10)), part.Text("app", s.App), part.Text("revision", s.Handbook)) + "\n"
			for _, l := range s.Log {
				text += w.Label("seal-follows", part.Text("hash", l.Hash), part.Text("why", l.Why)) + "\n"
			}
			return text, status, nil
		}),
	}
	c.Flags().StringVar(&expect, "expect", "", "")
	toldIn(c, &units, &lang)
	return c
}

// sealOptions are the flags of reconstruct for a sealed copy.
type sealOptions struct {
	file, after, why string
	pictures         []string
}

// seal writes a sealed copy of an answer.
func (a *rebuilt) seal(p *plan.Plan, in io.Reader, o sealOptions, status int) error {
	if _, err := os.Lstat(o.file); err == nil {
		return refused(sealThere.At(o.file)) // it may hold pictures that are in no other place
	}
	data, err := plan.FormatPlan(p)
	if err != nil {
		return refused(notFormatted.At(o.file).Because(err))
	}
	figures, err := a.json(status)
	if err != nil {
		return err
	}
	s := store.Sealed{App: report.Program(), Handbook: facts.Revision(), Rig: string(a.Rig), Plan: store.NewContent("plan", data), Figures: store.NewContent("figures", []byte(figures))}
	if a.Found != nil {
		s.Seed = a.Found.Seed
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
		was, altered, err := store.Unseal(data)
		if err != nil {
			return refused(notASeal.At(o.after).Because(err))
		}
		if len(altered) > 0 {
			return refused(sealAltered.At(o.after, strings.Join(altered, ", ")))
		}
		before = was
	}
	whole, err := store.Seal(s, before, o.why)
	if err != nil {
		return refused(notSealed.At(o.file).Because(err))
	}
	return writeAll([]store.Output{{Path: o.file, Data: whole}})
}

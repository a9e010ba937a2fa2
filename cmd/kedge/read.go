package main

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"strconv"
	"strings"

	"kedge/canvas/words"
	"kedge/solver/plan"
)

// stdinName stands for standard input, as a file name and in sentences.
const stdinName = "-"

// maxPlanBytes is one byte more than a plan may have, so that a larger one is
// refused by package plan and not read to its end.
const maxPlanBytes = plan.MaxBytes + 1

// readPlan reads the plan of that name, or standard input for "-".
func readPlan(name string, in io.Reader) (*plan.Plan, error) {
	data, err := readAll(name, in)
	if err != nil {
		return nil, err
	}
	p, err := plan.ParsePlan(data)
	if err != nil {
		return nil, refused(badPlan.At(name).Because(err))
	}
	return p, nil
}

func readAll(name string, in io.Reader) ([]byte, error) { return readUpTo(name, in, maxPlanBytes) }

// readUpTo reads the file of that name, or standard input for "-", no further than most.
func readUpTo(name string, in io.Reader, most int64) ([]byte, error) {
	if name == stdinName {
		data, err := io.ReadAll(io.LimitReader(in, most))
		if err != nil {
			return nil, refused(stdinNotRead.At(name).Because(err))
		}
		return data, nil
	}
	switch info, err := os.Stat(name); { // before it is opened: a pipe to which nobody writes is waited for
	case err != nil:
		return nil, refused(whyNotRead(name, err))
	case info.IsDir():
		return nil, refused(aFolder.At(name))
	case !info.Mode().IsRegular():
		return nil, refused(noFile.At(name))
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, refused(whyNotRead(name, err))
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, most))
	if err != nil {
		return nil, refused(whyNotRead(name, err))
	}
	return data, nil
}

func whyNotRead(name string, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return notThere.At(name).Because(err)
	case errors.Is(err, fs.ErrPermission):
		return notReadable.At(name).Because(err)
	}
	return notRead.At(name).Because(err)
}

// readRigs reads a plan, the words for it and the rigs to answer for, see
// [readIn] and [chosenRigs].
func readRigs(file string, in io.Reader, lang, units, rig string) (w *words.Words, p *plan.Plan, rigs []plan.ID, err error) {
	if w, p, err = readIn(file, in, lang, units); err == nil {
		rigs, err = chosenRigs(p, rig)
	}
	return w, p, rigs, err
}

// chosenRigs are the ids of the rigs to answer for: the named one, else all.
// A plan without a rig is answered for once, for its site alone.
func chosenRigs(p *plan.Plan, name string) ([]plan.ID, error) {
	if name != "" {
		r, ok := p.RigByName(name)
		for _, lang := range words.Languages() { // as it is called on its tab, in whatever language
			if ok {
				break
			}
			w, err := words.New(lang, 0)
			if err != nil {
				return nil, err
			}
			r, ok = w.RigNamed(p, name)
		}
		if !ok {
			return nil, wrongUse(noRigOf(p, name))
		}
		return []plan.ID{r.ID}, nil
	}
	if len(p.Rigs) == 0 {
		return []plan.ID{""}, nil
	}
	all := make([]plan.ID, len(p.Rigs))
	for i := range p.Rigs {
		all[i] = p.Rigs[i].ID
	}
	return all, nil
}

// noRigOf is the refusal of a rig that the plan has not, with those it has.
func noRigOf(p *plan.Plan, name string) error {
	if len(p.Rigs) == 0 {
		return noRigs.At("", name)
	}
	names := make([]string, len(p.Rigs))
	for i := range p.Rigs {
		names[i] = strconv.Quote(plan.RigName(p, i))
	}
	return noRig.At("", name, strings.Join(names, ", "))
}

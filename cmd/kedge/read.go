package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
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
		return nil, refused(shown(name), inEnglish(err))
	}
	return p, nil
}

func readAll(name string, in io.Reader) ([]byte, error) {
	if name == stdinName {
		data, err := io.ReadAll(io.LimitReader(in, maxPlanBytes))
		if err != nil {
			return nil, refused(shown(name), "it cannot be read ("+err.Error()+"). Name a file instead.")
		}
		return data, nil
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, refused(name, whyNotRead(err))
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return nil, refused(name, "it is a folder, not a plan. Name a .kedge file in it.")
	}
	data, err := io.ReadAll(io.LimitReader(f, maxPlanBytes))
	if err != nil {
		return nil, refused(name, whyNotRead(err))
	}
	return data, nil
}

func whyNotRead(err error) string {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "there is no such file. Check the name and the folder."
	case errors.Is(err, fs.ErrPermission):
		return "you may not read it. Ask its owner, or take a copy."
	}
	cause := err
	if pe := (*fs.PathError)(nil); errors.As(err, &pe) {
		cause = pe.Err
	}
	return fmt.Sprintf("it cannot be read (%s). Take a copy that can.", cause)
}

func refused(name, sentence string) error {
	return &trouble{statusRefused, name + ": " + sentence}
}

func shown(name string) string {
	if name == stdinName {
		return "standard input"
	}
	return name
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
			return nil, wrongUse("the plan has no rig %q. %s", name, rigsThere(p))
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

func rigsThere(p *plan.Plan) string {
	if len(p.Rigs) == 0 {
		return "It has none yet."
	}
	names := make([]string, len(p.Rigs))
	for i := range p.Rigs {
		names[i] = fmt.Sprintf("%q", plan.RigName(p, i))
	}
	return "It has " + strings.Join(names, ", ") + "."
}

// inEnglish is an error as it is said in English.
func inEnglish(err error) string {
	w, fault := words.New(language, 0)
	if fault != nil {
		return err.Error()
	}
	return w.Refusal(err)
}

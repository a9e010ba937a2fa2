package main

import (
	"encoding/csv"
	"errors"
	"io"
	"strings"
	"unicode"

	"kedge/canvas/exercise"
	"kedge/canvas/sheet"
	"kedge/solver/plan"
)

// exerciseFlags reads the flags of exercises.
func exerciseFlags(p *plan.Plan, opt *sheet.Options, o sheetOptions) error {
	for _, s := range o.ask {
		q, err := exercise.ParseQuestion(s)
		if err != nil {
			return wrongUse(err)
		}
		if q.Rig != "" {
			rigs, err := chosenRigs(p, string(q.Rig))
			if err != nil {
				return err
			}
			q.Rig = rigs[0]
		}
		opt.Questions = append(opt.Questions, q)
	}
	opt.Blanks, opt.Variants, opt.Seed, opt.Plans = o.blank, o.variants, o.seed, o.plans
	if o.vary != "" {
		v, err := exercise.ParseVary(o.vary)
		if err != nil {
			return wrongUse(err)
		}
		opt.Vary = v
	}
	if o.class == "" {
		return nil
	}
	data, err := readAll(o.class, nil)
	if err != nil {
		return err
	}
	opt.Class, err = classNames(o.class, data)
	if err != nil {
		return refused(err)
	}
	if len(opt.Class) == 0 {
		return refused(noNames.At(o.class))
	}
	return nil
}

// maxNameLetters bounds a name, so that a file of another kind is not taken for
// a class.
const maxNameLetters = 60

// classNames are the names of a class: one a line, the first field where a line
// has several.
func classNames(file string, data []byte) ([]string, error) {
	r := csv.NewReader(strings.NewReader(strings.TrimPrefix(string(data), "\ufeff")))
	r.FieldsPerRecord, r.TrimLeadingSpace, r.LazyQuotes = -1, true, true
	var names []string
	for {
		fields, err := r.Read()
		if errors.Is(err, io.EOF) {
			return names, nil
		}
		if err != nil {
			return nil, noList.At(file)
		}
		name := strings.TrimSpace(fields[0])
		if len([]rune(name)) > maxNameLetters || strings.ContainsFunc(name, func(r rune) bool { return unicode.IsControl(r) || r == '\ufffd' }) {
			return nil, noList.At(file)
		}
		if name != "" {
			names = append(names, name)
		}
	}
}

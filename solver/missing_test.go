package solver_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// What is missing is not decided: of every plan at hand each member is taken out
// of its file once, and the answer may not become kinder for it. In no answer
//
//   - falls the exit status of kedge check, DANGER before the rest before done,
//   - comes a part that was over its limit, refused, not computed or without a
//     limit within one,
//   - goes a finding of CAUTION or more whose own inputs are still known,
//
// but for what is listed in missinglist_test.go with its reason.
func TestWhatIsMissingIsNotDecided(t *testing.T) {
	n := takenOut(t, plansAtHand(t), func(string, int) bool { return false })
	require.Greater(t, n, 10_000, "members taken out")
}

// missingFrom is of how many plans as people rig them each member is taken out. (ours)
const missingFrom = 200

// So it is of plans as people rig them: each time with a few members of each plan, in
// a longer run with all.
func TestFoundWhatIsMissingIsNotDecided(t *testing.T) {
	plans := map[string][]byte{}
	for i := range foundAll()[:min(missingFrom, len(foundAll()))] {
		f := &foundAll()[i]
		data, err := plan.FormatPlan(f.p)
		require.NoError(t, err)
		plans[fmt.Sprint("seed ", f.seed)] = data
	}
	n := takenOut(t, plans, func(name string, i int) bool { return foundMore == 0 && (i+len(name)+int(name[len(name)-1]))%64 != 0 })
	require.Positive(t, n, "members taken out")
	if foundMore > 0 {
		t.Log(n, "members taken out of", len(plans), "plans")
	}
}

// takenOut takes each member out of each plan, but what is skipped by the plan's name
// and the member's number, and fails where the answer becomes kinder.
func takenOut(t *testing.T, plans map[string][]byte, skip func(name string, i int) bool) (tried int) {
	names := slices.Sorted(maps.Keys(plans))
	kinder := make([]map[string]string, len(names)) // what became kinder, with the first place where
	each := make([]int, len(names))
	spread(len(names), func(i int) {
		kinder[i] = map[string]string{}
		each[i] = without(t, plans[names[i]], func(k int) bool { return skip(names[i], k) }, func(what, path string) {
			if kinder[i][what] == "" {
				kinder[i][what] = names[i] + path
			}
		})
	})
	for _, n := range each {
		tried += n
	}
	all := map[string]string{}
	for _, k := range kinder {
		for what, where := range k {
			if all[what] == "" {
				all[what] = where
			}
		}
	}
	for _, what := range slices.Sorted(maps.Keys(all)) {
		assert.Failf(t, what, "%s", all[what])
	}
	return tried
}

// without takes each member out of a file and tells what became kinder.
func without(t *testing.T, data []byte, skip func(i int) bool, tell func(what, path string)) (tried int) {
	p, err := plan.ParsePlan(data)
	if err != nil {
		return 0 // a file made to be refused
	}
	was := map[plan.ID]*solver.Assessment{}
	for i := range p.Rigs {
		was[p.Rigs[i].ID] = solver.Assess(p, p.Rigs[i].ID)
	}
	things := thingsIn(p)
	for i, m := range fileMembers(t, data) {
		if skip(i) || saysSomethingElse(m.path) {
			continue
		}
		q, err := plan.ParsePlan(m.cut(data))
		if err != nil {
			continue // it must be there
		}
		tried++
		for i := range q.Rigs {
			if a := was[q.Rigs[i].ID]; a != nil {
				c := compared{q: q, things: things, was: a, is: solver.Assess(q, q.Rigs[i].ID), path: m.path}
				c.kinder(func(what string) { tell(what, m.path) })
			}
		}
	}
	return tried
}

// compared are the answers for a rig with a member and without it.
type compared struct {
	q       *plan.Plan
	things  map[string]plan.ID
	was, is *solver.Assessment
	path    string
}

func (c *compared) kinder(tell func(what string)) {
	if c.uncontradicted() {
		return
	}
	name := memberAt(c.path)
	gone := false
	for i := range c.was.Findings {
		f := &c.was.Findings[i]
		if f.Level < part.Caution || f.ID == part.NotDecidedID || c.said(f) || c.explained(f) {
			continue
		}
		gone = true
		tell(fmt.Sprintf("%s without %s: gone", f.ID, name))
	}
	if x, y := exit(c.was), exit(c.is); y < x && (y == 0 || gone) {
		tell(fmt.Sprintf("exit %d to %d without %s", x, y, name))
	}
	for i := range c.was.Parts {
		p := &c.was.Parts[i]
		switch p.Status {
		case part.Within, part.Near, part.Slack:
			continue
		}
		if q, ok := c.is.Part(p.ID); ok && q.Status >= part.Near {
			tell(fmt.Sprintf("%s %s to %s without %s", p.Kind, p.Status, q.Status, name))
		}
	}
}

// uncontradicted reports whether the member is one of two figures that
// contradicted each other.
func (c *compared) uncontradicted() bool {
	_, member := splitMember(c.path)
	return slices.ContainsFunc(c.was.Findings, func(f part.Finding) bool {
		return against[f.ID][member] && (len(f.Things) == 0 || slices.Contains(f.Things, c.thing()))
	})
}

// said reports whether a finding is still there, or that its rule says what it lacks.
func (c *compared) said(f *part.Finding) bool {
	return slices.ContainsFunc(c.is.Findings, func(g part.Finding) bool {
		return g.ID == f.ID && (len(f.Things) == 0 || slices.Contains(g.Things, f.Things[0])) ||
			slices.ContainsFunc(g.Lacks, func(l part.Lack) bool { return l.Rule == f.ID || l.Rule == with[f.ID] })
	})
}

// explained reports whether a finding is gone because one of its own inputs is: the
// answer names the member as missing, and the finding is about what has it, or
// rests on loads that hang on it; or the rule says in its own words that it
// cannot tell.
func (c *compared) explained(f *part.Finding) bool {
	if slices.ContainsFunc(c.is.Findings, func(g part.Finding) bool { return slices.Contains(instead[f.ID], g.ID) }) {
		return true
	}
	if byLoads[f.ID] && (c.is.Status != part.Within || !c.is.Move.Known) {
		return true
	}
	name := memberAt(c.path)
	if byPlace[f.ID] && shifts[name] && (c.named() || name == "head_m of blocks") {
		return true
	}
	return c.named() && (byLoads[f.ID] || byPlace[f.ID] && strings.HasSuffix(c.path, "/length_m") || slices.Contains(f.Things, c.thing()))
}

// named reports whether the answer names the member, or one below it, as missing.
func (c *compared) named() bool {
	return slices.ContainsFunc(c.is.Findings, func(g part.Finding) bool {
		return slices.ContainsFunc(g.Lacks, func(l part.Lack) bool {
			at := "/" + plan.MemberPath(c.q, c.is.Rig, l.Thing, l.Member)
			if c.path == "/site/ground/soil" && l.Member == "soil" {
				return true // the anchor's own, or else the ground's
			}
			return at == c.path || strings.HasPrefix(at, c.path+"/")
		})
	})
}

// exit ranks an answer as kedge check's exit status does: 0 done, 1 something is
// open, 2 a DANGER.
func exit(a *solver.Assessment) int {
	rank := 0
	if !a.Complete {
		rank = 1
	}
	for i := range a.Findings {
		switch a.Findings[i].Level {
		case part.Notice:
		case part.Danger:
			return 2
		default:
			rank = 1
		}
	}
	return rank
}

// memberAt is a member by the list its thing stands in, "winch.axis_deg of
// vehicles".
func memberAt(path string) string {
	list, rest := splitMember(path)
	if list == "" {
		return rest
	}
	return rest + " of " + list
}

// splitMember parts a path into the innermost list of things and the member
// below an element of it.
func splitMember(path string) (list, rest string) {
	s := strings.Split(path[1:], "/")
	for i := len(s) - 2; i > 0; i-- {
		if strings.Trim(s[i], "0123456789") == "" {
			return s[i-1], strings.Join(s[i+1:], ".")
		}
	}
	return "", strings.Join(s, ".")
}

// things are where the things of a plan stand in its file.
func thingsIn(p *plan.Plan) map[string]plan.ID {
	at := map[string]plan.ID{}
	for i := range p.Rigs {
		r := &p.Rigs[i]
		plan.EachHead(p, r, func(h *plan.Head) { at["/"+strings.TrimSuffix(plan.MemberPath(p, r.ID, h.ID, ""), "/")] = h.ID })
	}
	return at
}

// thing is the thing whose member is gone; empty: the ground, or none.
func (c *compared) thing() plan.ID {
	for path := c.path; path != ""; path = path[:strings.LastIndexByte(path, '/')] {
		if id, ok := c.things[path]; ok {
			return id
		}
	}
	return ""
}

// fileMember is one member of a file: where it stands, and the bytes to cut.
type fileMember struct {
	path     string
	from, to int
}

// fileMembers lists every member of a file that stands for a figure or a word,
// or for an object of such. Things in lists are none: a plan without one of its
// things is another plan.
func fileMembers(t tester, data []byte) []fileMember {
	var out []fileMember
	dec := json.NewDecoder(bytes.NewReader(data))
	next := func() json.Token {
		tok, err := dec.Token()
		require.NoError(t, err)
		return tok
	}
	var value func(path string) (things bool) // true: a list of objects
	value = func(path string) (things bool) {
		switch next() {
		case json.Delim('{'):
			for dec.More() {
				from := int(dec.InputOffset())
				name, _ := next().(string)
				i := len(out)
				out = append(out, fileMember{path: path + "/" + name, from: from})
				if value(path + "/" + name) {
					out = slices.Delete(out, i, i+1)
					continue
				}
				out[i].to = int(dec.InputOffset())
			}
			next()
		case json.Delim('['):
			for i := 0; dec.More(); i++ {
				n := len(out)
				value(fmt.Sprintf("%s/%d", path, i))
				things = things || len(out) > n
			}
			next()
		}
		return things
	}
	value("")
	return out
}

// cut is the file without the member; the comma before it goes with it.
func (m fileMember) cut(data []byte) []byte {
	head, tail := data[:m.from], bytes.TrimLeft(data[m.to:], " \n")
	if bytes.HasSuffix(head, []byte("{")) {
		tail = bytes.TrimPrefix(tail, []byte(","))
	}
	return slices.Concat(head, tail)
}

// plansAtHand are the files of all plans there are: of the test data, the
// examples, and those that raise each finding.
func plansAtHand(t *testing.T) map[string][]byte {
	all := map[string][]byte{}
	for _, pattern := range []string{"../testdata/*/*.kedge"} {
		files, err := filepath.Glob(pattern)
		require.NoError(t, err)
		for _, f := range files {
			data, err := os.ReadFile(f)
			require.NoError(t, err)
			all[strings.TrimPrefix(f, "../testdata/")] = data
		}
	}
	require.NoError(t, fs.WalkDir(assets.Plans(), ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(assets.Plans(), path)
		all["plans/"+path] = data
		return err
	}))
	for _, c := range allCases() {
		all["raises "+c.id] = c.raises(t)
	}
	return all
}

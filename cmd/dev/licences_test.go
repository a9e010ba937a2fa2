package main

import (
	"bufio"
	"bytes"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the licences of the modules anew")

const licencesFile = "../../assets/licences.txt"

// inNoProgram are the modules of go.mod that are linked into no program that is
// given away.
var inNoProgram = map[string]string{
	"github.com/stretchr/testify": "tests", "gonum.org/v1/gonum": "tests", "pgregory.net/rapid": "tests", "go.yaml.in/yaml/v3": "tests",
	"golang.org/x/exp/typeparams": "tool", "golang.org/x/mod": "tool", "golang.org/x/sync": "tool", "golang.org/x/telemetry": "tool",
	"golang.org/x/tools": "tool", "honnef.co/go/tools": "tool",
	"github.com/fyne-io/gl-js": "browsers", "github.com/fyne-io/glfw-js": "browsers", "github.com/hack-pad/go-indexeddb": "browsers", "github.com/hack-pad/safejs": "browsers",
	"golang.org/x/exp/shiny": "mobile", "golang.org/x/mobile": "mobile",
}

// notice is what a module asks to be given with a program.
type notice struct{ module, kind, text string }

// kindOf is the licence that a text is, by words that only it has.
func kindOf(text string) string {
	text = strings.ToLower(strings.Join(strings.Fields(text), " "))
	for _, k := range [][2]string{
		{"SIL Open Font License", "OFL-1.1"}, {"Apache License Version 2.0", "Apache-2.0"}, {"Permission is hereby granted, free of charge", "MIT"},
		{"Permission to use, copy, modify, and/or distribute this software", "ISC"}, {"either the name of", "BSD-3-Clause"},
		{"names of its contributors may be used", "BSD-3-Clause"}, {"Redistribution and use", "BSD-2-Clause"},
	} {
		if strings.Contains(text, strings.ToLower(k[0])) {
			return k[1]
		}
	}
	return ""
}

// noticesOf are the licence and notices in a folder.
func noticesOf(name, folder string) (all []notice, err error) {
	entries, err := os.ReadDir(folder)
	for _, e := range entries {
		upper := strings.ToUpper(e.Name())
		if e.IsDir() || !strings.HasPrefix(upper, "LICENSE") && !strings.HasPrefix(upper, "COPYING") && !strings.HasPrefix(upper, "NOTICE") {
			continue
		}
		data, err := os.ReadFile(filepath.Join(folder, e.Name()))
		if err != nil {
			return nil, err
		}
		text := strings.TrimSpace(strings.ReplaceAll(string(data), "\r\n", "\n"))
		kind := kindOf(text)
		if kind == "" {
			kind = e.Name()
		}
		all = append(all, notice{name, kind, text})
	}
	return all, err
}

// modulesGiven are the modules of go.mod that reach a program, with versions.
func modulesGiven(t *testing.T) (all []string) {
	data, err := os.ReadFile("../../go.mod")
	if err != nil {
		t.Fatal(err)
	}
	for in := bufio.NewScanner(bytes.NewReader(data)); in.Scan(); {
		f := strings.Fields(in.Text())
		if len(f) >= 2 && strings.Contains(f[0], ".") && strings.HasPrefix(f[1], "v") && inNoProgram[f[0]] == "" {
			all = append(all, f[0]+" "+f[1])
		}
	}
	slices.Sort(all)
	return all
}

// What a program is given away with names every module in it at the version of
// go.mod, with its licence: `go test ./cmd/dev -run TestLicences -update` writes
// it of the modules themselves.
func TestLicences(t *testing.T) {
	given := modulesGiven(t)
	if *update {
		writeLicences(t, given)
	}
	data, err := os.ReadFile(licencesFile)
	if err != nil {
		t.Fatal(err)
	}
	head, texts, _ := strings.Cut(string(data), "\n\n")
	var named []string
	for _, line := range strings.Split(head, "\n")[1:] {
		f := strings.Fields(line)
		named = append(named, strings.Join(f[:min(2, len(f))], " "))
		if len(f) < 3 {
			t.Errorf("%s: no licence", line)
		}
		for _, kind := range f[min(2, len(f)):] {
			if !slices.Contains([]string{"Apache-2.0", "MIT", "ISC", "BSD-3-Clause", "BSD-2-Clause", "OFL-1.1", "NOTICE"}, strings.Trim(kind, ",")) {
				t.Errorf("%s: %s is to be looked at", line, kind)
			}
		}
		if len(f) > 0 && !strings.Contains(texts, f[0]+"\n") {
			t.Errorf("%s: no text", line)
		}
	}
	if !slices.Equal(named, append([]string{"Go standard-library"}, given...)) {
		t.Errorf("assets/licences.txt names\n%s\ngo.mod has\n%s", strings.Join(named, "\n"), strings.Join(given, "\n"))
	}
}

// writeLicences writes the file: the list of modules, then each text once behind
// the modules that it is of.
func writeLicences(t *testing.T, given []string) {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	out := &strings.Builder{}
	fmt.Fprintln(out, "What is in the programs besides Kedge's own code, and its licences:")
	of, order := map[string][]string{}, []string{}
	for _, m := range append([]string{"Go standard-library"}, given...) {
		name := strings.Fields(m)[0]
		folders := []string{strings.TrimSpace(string(root))}
		if name != "Go" {
			where, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", name).Output()
			if err != nil {
				t.Fatal(name, err)
			}
			folders = []string{strings.TrimSpace(string(where))}
			if name == "fyne.io/fyne/v2" { // its own typefaces
				folders = append(folders, filepath.Join(folders[0], "theme", "font"))
			}
		}
		var kinds []string
		for _, folder := range folders {
			all, err := noticesOf(name, folder)
			if err != nil {
				t.Fatal(name, err)
			}
			for _, n := range all {
				if !slices.Contains(kinds, n.kind) {
					kinds = append(kinds, n.kind)
				}
				if len(of[n.text]) == 0 {
					order = append(order, n.text)
				}
				if !slices.Contains(of[n.text], name) {
					of[n.text] = append(of[n.text], name)
				}
			}
		}
		fmt.Fprintln(out, m+" "+strings.Join(kinds, ", "))
	}
	for _, text := range order {
		fmt.Fprintf(out, "\n%s\n%s\n\n%s\n", strings.Repeat("-", 72), strings.Join(of[text], "\n"), text)
	}
	if err := os.WriteFile(licencesFile, []byte(out.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}

package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

const (
	boardPackage = "kedge/cmd/kedge-board"
	devPackage   = "kedge/cmd/dev"
)

// pkg is what `go list -json` says of one package, as far as the checks use it.
type pkg struct {
	ImportPath   string
	Dir          string
	GoFiles      []string
	TestGoFiles  []string
	XTestGoFiles []string
}

// below reports whether path is root or lies below it.
func below(path, root string) bool { return path == root || strings.HasPrefix(path, root+"/") }

func (p pkg) tested() bool { return len(p.TestGoFiles)+len(p.XTestGoFiles) > 0 }

// packages lists the project's packages that build without cgo, which is all
// but the board's program.
func packages(m machine) ([]pkg, error) { return matching(m, "./...") }

// matching lists those of them that match a pattern of the go command.
func matching(m machine, pattern string) ([]pkg, error) {
	text, err := m.Output(cmd("go", "list", "-e", "-json=ImportPath,Dir,GoFiles,TestGoFiles,XTestGoFiles", pattern).with("CGO_ENABLED=0"))
	if err != nil {
		return nil, fmt.Errorf("the packages cannot be listed: %w", err)
	}
	all, err := decode(text)
	if err != nil {
		return nil, err
	}
	return slices.DeleteFunc(all, func(p pkg) bool { return p.ImportPath == boardPackage }), nil
}

func decode(text string) ([]pkg, error) {
	var all []pkg
	in := json.NewDecoder(strings.NewReader(text))
	for {
		var p pkg
		err := in.Decode(&p)
		if errors.Is(err, io.EOF) {
			return all, nil
		}
		if err != nil {
			return nil, fmt.Errorf("the list of packages cannot be read: %w", err)
		}
		all = append(all, p)
	}
}

func paths(all []pkg) []string {
	var names []string
	for _, p := range all {
		names = append(names, p.ImportPath)
	}
	return names
}

// concurrent reports whether the package starts goroutines or guards anything
// against them; only such packages gain from the race detector.
func (p pkg) concurrent() (bool, error) {
	for _, name := range p.GoFiles {
		file, err := parser.ParseFile(token.NewFileSet(), filepath.Join(p.Dir, name), nil, parser.SkipObjectResolution)
		if err != nil {
			return false, err
		}
		for _, i := range file.Imports {
			if i.Path.Value == `"sync"` || i.Path.Value == `"sync/atomic"` {
				return true, nil
			}
		}
		found := false
		ast.Inspect(file, func(n ast.Node) bool {
			_, isGo := n.(*ast.GoStmt)
			found = found || isGo
			return !found
		})
		if found {
			return true, nil
		}
	}
	return false, nil
}

var fuzzFunc = regexp.MustCompile(`(?m)^func (Fuzz\w*)\(\w+ \*testing\.F\)`)

// fuzzTargets are the names of the package's fuzz tests, sorted.
func (p pkg) fuzzTargets(m machine) []string {
	var names []string
	for _, name := range slices.Concat(p.TestGoFiles, p.XTestGoFiles) {
		text, _ := m.ReadFile(filepath.Join(p.Dir, name))
		for _, match := range fuzzFunc.FindAllStringSubmatch(text, -1) {
			names = append(names, match[1])
		}
	}
	slices.Sort(names)
	return names
}

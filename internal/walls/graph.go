package walls

import (
	"encoding/json"
	"errors"
	"fmt"
	"go/build/constraint"
	"go/parser"
	"go/token"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// File is one Go file of the project.
type File struct {
	Name    string
	Test    bool     // its name ends in _test.go
	Imports []string // import paths
	Cgo     bool     // its build constraint leaves it out of a build without cgo
}

// Graph is who imports whom.
type Graph struct {
	// Ours are the project's packages by their path within the module; the
	// module's top folder is ".".
	Ours map[string][]File
	// Others are the imports of every other package by import path, test
	// files left out.
	Others map[string][]string
	// Broken says which of our packages cannot be read, and why.
	Broken []string
}

// Load reads the graph of the module in folder root through go list.
func Load(root string) (Graph, error) {
	c := exec.Command("go", "list", "-e", "-deps", "-test",
		"-json=ImportPath,Dir,ForTest,Imports,GoFiles,CgoFiles,IgnoredGoFiles,TestGoFiles,XTestGoFiles,Error", "./...")
	c.Dir = root
	c.Env = append(os.Environ(), "CGO_ENABLED=1") // listing needs no compiler
	var stderr strings.Builder
	c.Stderr = &stderr
	text, err := c.Output()
	if err != nil {
		return Graph{}, fmt.Errorf("walls: go list: %w: %s", err, stderr.String())
	}
	g := Graph{Ours: map[string][]File{}, Others: map[string][]string{}}
	in := json.NewDecoder(strings.NewReader(string(text)))
	for {
		var p listed
		err := in.Decode(&p)
		if errors.Is(err, io.EOF) {
			return g, nil
		}
		if err != nil {
			return Graph{}, fmt.Errorf("walls: go list: %w", err)
		}
		if p.ForTest != "" || strings.HasSuffix(p.ImportPath, ".test") {
			continue // a package rebuilt for a test; the plain one is listed too
		}
		own, isOwn := within(p.ImportPath)
		if !isOwn {
			g.Others[p.ImportPath] = p.Imports
			continue
		}
		if p.Error != nil {
			g.Broken = append(g.Broken, fmt.Sprintf("%s cannot be read: %s", own, p.Error.Err))
			continue
		}
		if g.Ours[own], err = p.files(); err != nil {
			return Graph{}, fmt.Errorf("walls: package %s: %w", p.ImportPath, err)
		}
	}
}

// listed is one package as go list prints it.
type listed struct {
	ImportPath, Dir, ForTest                                     string
	Imports                                                      []string
	GoFiles, CgoFiles, IgnoredGoFiles, TestGoFiles, XTestGoFiles []string
	Error                                                        *struct{ Err string }
}

func (p listed) files() ([]File, error) {
	var files []File
	for _, name := range slices.Concat(p.GoFiles, p.CgoFiles, p.IgnoredGoFiles, p.TestGoFiles, p.XTestGoFiles) {
		text, err := os.ReadFile(filepath.Join(p.Dir, name))
		if err != nil {
			return nil, err
		}
		f, part, err := parse(name, string(text))
		if err != nil {
			return nil, err
		}
		if part {
			files = append(files, f)
		}
	}
	return files, nil
}

// parse reads one file's imports and build constraint. A file that is left
// out of every build (`//go:build ignore`) is no part of its package.
func parse(name, text string) (f File, part bool, err error) {
	f = File{Name: name, Test: strings.HasSuffix(name, "_test.go")}
	tree, err := parser.ParseFile(token.NewFileSet(), name, text, parser.ImportsOnly|parser.ParseComments)
	if err != nil {
		return f, false, err
	}
	for _, i := range tree.Imports {
		path, err := strconv.Unquote(i.Path.Value)
		if err != nil {
			return f, false, err
		}
		f.Imports = append(f.Imports, path)
	}
	for _, group := range tree.Comments {
		if group.Pos() > tree.Package {
			break
		}
		for _, line := range group.List {
			if !constraint.IsGoBuild(line.Text) {
				continue
			}
			rule, err := constraint.Parse(line.Text)
			if err != nil {
				return f, false, err
			}
			if rule.String() == "ignore" {
				return f, false, nil
			}
			f.Cgo = !rule.Eval(func(tag string) bool { return tag != "cgo" }) && rule.Eval(func(string) bool { return true })
		}
	}
	return f, true, nil
}

// within is a package's path within the module, and whether it is in it.
func within(importPath string) (string, bool) {
	if importPath == module {
		return ".", true
	}
	return strings.CutPrefix(importPath, module+"/")
}

// names of our packages, sorted.
func (g Graph) names() []string { return slices.Sorted(maps.Keys(g.Ours)) }

// imports of one of our packages, sorted: of its test files, or of the others.
func (g Graph) imports(own string, tests bool) []string {
	all := map[string]bool{}
	for _, f := range g.Ours[own] {
		if f.Test == tests {
			for _, i := range f.Imports {
				all[i] = true
			}
		}
	}
	return slices.Sorted(maps.Keys(all))
}

// reaches follows imports from one of our packages to the first package that
// wanted accepts, and returns the way there, both ends included; nil when
// there is none. With tests, the package's own test files count as well.
func (g Graph) reaches(own string, tests bool, wanted func(importPath string) bool) []string {
	start := g.imports(own, false)
	if tests {
		start = append(start, g.imports(own, true)...)
	}
	self := module + "/" + own
	cameFrom := map[string]string{self: ""}
	queue := []string{}
	visit := func(from string, to []string) {
		for _, t := range to {
			if _, seen := cameFrom[t]; !seen {
				cameFrom[t] = from
				queue = append(queue, t)
			}
		}
	}
	visit(self, start)
	for len(queue) > 0 {
		at := queue[0]
		queue = queue[1:]
		if wanted(at) {
			way := []string{}
			for p := at; p != ""; p = cameFrom[p] {
				way = append(way, p)
			}
			slices.Reverse(way)
			return way
		}
		if own, isOwn := within(at); isOwn {
			visit(at, g.imports(own, false))
		} else {
			visit(at, g.Others[at])
		}
	}
	return nil
}

// below tells whether path is root or lies below it.
func below(path, root string) bool { return path == root || strings.HasPrefix(path, root+"/") }

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// maxLines is where a Go file is split.
const maxLines = 800

// binaryProbe is how far into a file a zero byte marks it as no text.
const binaryProbe = 8000

// top is what lies in the project's top folder, besides dot-files.
var top = []string{"DEVELOPERS.md", "README.md", "assets", "canvas", "cmd", "go.mod", "go.sum", "solver", "testdata"}

// foreign are places outside the project that nothing in it may speak of:
// what it needs is copied into it, with its source. (Put together here, so
// that this file does not mention them.)
var foreign = []string{".." + "/shared", "/" + "work/"}

// tracked lists the files that git tracks below a folder.
func tracked(t *testing.T, root string) []string {
	out, err := exec.Command("git", "-C", root, "ls-files", "-z").Output()
	if err != nil {
		t.Skip("the rules of files are for those that git tracks, and this is no checkout")
	}
	return strings.Split(strings.TrimSuffix(string(out), "\x00"), "\x00")
}

func TestFiles(t *testing.T) {
	const root = "../.."
	names := tracked(t, root)
	assert.Empty(t, misplaced(names))
	for _, name := range names {
		path := filepath.Join(root, filepath.FromSlash(name))
		if info, err := os.Lstat(path); err != nil || !info.Mode().IsRegular() {
			continue // deleted, or a link
		}
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		for _, sentence := range wrongText(name, text) {
			t.Error(sentence)
		}
	}
}

// misplaced are what lies in the top folder and has no place there, and what
// is missing there.
func misplaced(names []string) (found []string) {
	has := map[string]bool{}
	for _, name := range names {
		first, _, _ := strings.Cut(name, "/")
		if !has[first] && !strings.HasPrefix(first, ".") && !slices.Contains(top, first) {
			found = append(found, first+" has no place in the top folder")
		}
		has[first] = true
	}
	for _, name := range top {
		if !has[name] {
			found = append(found, name+" is missing in the top folder")
		}
	}
	return found
}

// wrongText is what is wrong with a file's text.
func wrongText(name string, text []byte) (found []string) {
	if bytes.IndexByte(text[:min(len(text), binaryProbe)], 0) >= 0 {
		return nil
	}
	for _, f := range foreign {
		if at := bytes.Index(text, []byte(f)); at >= 0 {
			found = append(found, fmt.Sprintf("%s:%d mentions %s, a place outside the project", name, 1+bytes.Count(text[:at], []byte("\n")), f))
		}
	}
	if lines := bytes.Count(text, []byte("\n")); strings.HasSuffix(name, ".go") && lines > maxLines {
		found = append(found, fmt.Sprintf("%s has %d lines: split it, %d is the most", name, lines, maxLines))
	}
	return found
}

func TestWrongText(t *testing.T) {
	long := []byte(strings.Repeat("\n", maxLines+1))
	for _, c := range []struct {
		name, file string
		text       []byte
		want       string
	}{
		{"nothing", "README.md", []byte("see cmd/works and ..shared things\n"), ""},
		{"a place outside", "README.md", []byte("one\nsee .." + "/shared/facts\n"), "README.md:2 mentions"},
		{"this machine", "a.go", []byte("// /" + "work/main\n"), "a.go:1 mentions"},
		{"no text", "a.png", []byte("\x89PNG\x00.." + "/shared"), ""},
		{"a long Go file", "a.go", long, "a.go has 801 lines"},
		{"just not too long", "a.go", long[1:], ""},
		{"a long table", "a.csv", long, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := wrongText(c.file, c.text)
			if c.want == "" {
				assert.Empty(t, got)
				return
			}
			require.Len(t, got, 1)
			assert.Contains(t, got[0], c.want)
		})
	}
}

func TestMisplaced(t *testing.T) {
	all := []string{".gitignore", ".ci/a.yaml", "README.md", "DEVELOPERS.md", "go.mod", "go.sum", "assets/a", "canvas/a", "cmd/a", "solver/a", "testdata/a"}
	assert.Empty(t, misplaced(all))
	assert.Equal(t, []string{"notes has no place in the top folder"}, misplaced(append(all, "notes/a.md", "notes/b.md")))
	assert.Equal(t, []string{"testdata is missing in the top folder"}, misplaced(all[:len(all)-1]))
}

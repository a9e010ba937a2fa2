package walls

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// maxLines is where a Go file is split.
const maxLines = 800

// binaryProbe is how far into a file a zero byte marks it as no text.
const binaryProbe = 8000

// foreign are places outside the project that nothing in it may speak of:
// what it needs is copied into it, with its source. (Put together here, so
// that this file does not mention them.)
var foreign = []string{".." + "/shared", "/" + "work/"}

// Tracked lists the files git tracks below root, or every file where root is
// no checkout, as slash-separated paths.
func Tracked(root string) ([]string, error) {
	c := exec.Command("git", "-C", root, "ls-files", "-z")
	if out, err := c.Output(); err == nil && len(out) > 0 {
		return strings.Split(strings.TrimSuffix(string(out), "\x00"), "\x00"), nil
	}
	var names []string
	err := filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if entry.IsDir() && (entry.Name() == ".git" || entry.Name() == ".look" || entry.Name() == "bin") {
			return filepath.SkipDir
		}
		name, err := filepath.Rel(root, path)
		if err == nil && entry.Type().IsRegular() {
			names = append(names, filepath.ToSlash(name))
		}
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("walls: the files of %s cannot be listed: %w", root, err)
	}
	return names, nil
}

// FileViolations lists what is wrong with the named files below root. A file
// that is tracked and deleted, and one that is no text, is passed over.
func FileViolations(root string, names []string) ([]string, error) {
	var found []string
	for _, name := range names {
		path := filepath.Join(root, filepath.FromSlash(name))
		info, err := os.Lstat(path)
		if err != nil || !info.Mode().IsRegular() {
			continue
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return nil, fmt.Errorf("walls: %w", err)
		}
		found = append(found, textViolations(name, text)...)
	}
	return found, nil
}

func textViolations(name string, text []byte) (found []string) {
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

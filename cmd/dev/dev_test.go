package main

import (
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTooOld(t *testing.T) {
	for version, old := range map[string]bool{
		"go1.26":                     false,
		"go1.26.8":                   false,
		"go1.27rc1":                  false,
		"go1.30.1 X:greenteagc":      false,
		"devel go1.27-abcdef 2026":   false,
		"a private build":            false,
		"go1.25.9":                   true,
		"go1.9":                      true,
		"devel go1.20-0123456 dirty": true,
	} {
		t.Run(version, func(t *testing.T) {
			assert.Equal(t, old, tooOld(version) != "")
		})
	}
	assert.Equal(t, "Kedge needs Go 1.26 or newer; this is Go 1.24. A newer one is at go.dev/dl.", tooOld("go1.24.3"))
}

func TestCommandLine(t *testing.T) {
	for _, c := range []struct {
		name string
		args []string
		want int
	}{
		{"no verb", nil, 2},
		{"unknown verb", []string{"fly"}, 2},
		{"unknown flag", []string{"run", "-fast"}, 2},
		{"a word too many", []string{"test", "everything"}, 2},
		{"no number of plans", []string{"found"}, 2},
		{"a number that is none", []string{"found", "many"}, 2},
		{"a number of kills that is none", []string{"kill", "many"}, 2},
		{"no kills at all", []string{"kill", "0"}, 2},
		{"no kills of the window", []string{"kill", "-window", "-3"}, 2},
		{"kills of something", []string{"kill", "-window", "12", "boards"}, 2},
		{"no plans at all", []string{"found", "0"}, 2},
		{"nothing to change", []string{"mutate", "-every", "3"}, 2},
		{"a sample of none", []string{"mutate", "./solver/hold", "-every", "0"}, 2},
		{"fonts of something", []string{"fonts", "bold"}, 2},
		{"no time to fuzz", []string{"fuzz"}, 2},
		{"a time that is none", []string{"fuzz", "long"}, 2},
		{"a time below zero", []string{"fuzz", "0s"}, 2},
		{"a second time", []string{"fuzz", "1s", "2s"}, 2},
		{"a size without height", []string{"look", "-size", "1440"}, 2},
		{"a size out of bounds", []string{"look", "-size", "90000x10"}, 2},
		{"an unknown theme", []string{"look", "-theme", "sepia"}, 2},
		{"a scale in words", []string{"look", "-scale", "twice"}, 2},
		{"help on changes", []string{"mutate", "-h"}, 0},
		{"help", []string{"run", "-h"}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := bare(t, "linux", onDebian)
			assert.Equal(t, c.want, dev(m, c.args))
			assert.Contains(t, m.text(), "usage:")
			assert.Empty(t, m.ran)
		})
	}
	t.Run("outside the project", func(t *testing.T) {
		m := bare(t, "linux", onDebian)
		delete(m.files, "go.mod")
		assert.Equal(t, 1, dev(m, []string{"run"}))
		assert.Contains(t, m.text(), "top folder")
	})
}

// ready is a Debian that lacks nothing.
func ready(t *testing.T) *fake {
	m := bare(t, "linux", onDebian, "apt-get").bringing()
	m.root = true
	require.NoError(t, provide(m, testNeeds(), false))
	m.ran, m.said = nil, nil
	return m
}

func TestRunOpensTheBoard(t *testing.T) {
	m := ready(t)
	m.env["WAYLAND_DISPLAY"] = "wayland-0"
	require.Equal(t, 0, dev(m, []string{"run"}))
	assert.Equal(t, []string{
		buildKedge(m).String(),
		buildBoard(m).String(),
		binary(m, "kedge-board") + " assets/plans/redirect.kedge",
	}, m.ran)
	assert.Contains(t, m.text(), "four minutes", "a long build is announced")
}

func TestRunWithoutADisplay(t *testing.T) {
	m := ready(t)
	require.Equal(t, 0, dev(m, []string{"run"}))
	assert.Equal(t, []string{
		buildKedge(m).String(),
		binary(m, "kedge") + " check assets/plans/redirect.kedge",
		binary(m, "kedge") + " sheet assets/plans/redirect.kedge -o redirect.pdf",
		buildBoard(m).String(),
	}, m.ran)
	assert.Contains(t, m.text(), "no display")
	assert.Contains(t, m.text(), "redirect.pdf")
}

// The command line takes no packages, so it answers even where nothing can
// be installed; the status still says that there is no board.
func TestRunWithoutADisplayAndWithoutPackages(t *testing.T) {
	m := bare(t, "linux", onDebian, "apt-get")
	require.Equal(t, 1, dev(m, []string{"run"}))
	assert.Contains(t, m.ran, binary(m, "kedge")+" check assets/plans/redirect.kedge")
	assert.NotContains(t, m.ran, buildBoard(m).String())
	assert.Contains(t, m.text(), "libgl1-mesa-dev")
}

func TestRunWithADisplayAndWithoutPackages(t *testing.T) {
	m := bare(t, "linux", onDebian, "apt-get")
	m.env["DISPLAY"] = ":0"
	require.Equal(t, 1, dev(m, []string{"run"}))
	assert.Empty(t, m.ran)
}

func TestRunStopsAtAFailedBuildOrSheet(t *testing.T) {
	for _, fails := range []string{"./cmd/kedge", "./cmd/kedge-board", " sheet "} {
		t.Run(fails, func(t *testing.T) {
			m := ready(t)
			m.fails[fails] = true
			assert.Equal(t, 1, dev(m, []string{"run"}))
		})
	}
}

// checkout lays a small project on disk, for what reads its sources.
func checkout(t *testing.T) (m *fake, all []pkg) {
	m = ready(t)
	dir := t.TempDir()
	write := func(name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
		m.files[filepath.Join(dir, name)] = text
	}
	write("plain.go", "package a\n\nfunc F() {}\n")
	write("worker.go", "package b\n\nfunc F() { go func() {}() }\n")
	write("mutex.go", "package c\n\nimport \"sync\"\n\nvar _ sync.Mutex\n")
	write("fuzz_test.go", "package a\n\nfunc FuzzParse(f *testing.F) {}\nfunc FuzzFormat(f *testing.F) {}\n// func FuzzOld(f *testing.F)\nfunc Fuzzy(t *testing.T) {}\n")
	return m, []pkg{
		{ImportPath: "kedge/a", Dir: dir, GoFiles: []string{"plain.go"}, TestGoFiles: []string{"fuzz_test.go"}},
		{ImportPath: "kedge/b", Dir: dir, GoFiles: []string{"plain.go", "worker.go"}, XTestGoFiles: []string{"fuzz_test.go"}},
		{ImportPath: "kedge/c", Dir: dir, GoFiles: []string{"mutex.go"}},
		{ImportPath: devPackage, Dir: dir, GoFiles: []string{"plain.go"}},
	}
}

func TestConcurrent(t *testing.T) {
	_, all := checkout(t)
	for i, want := range []bool{false, true, true, false} {
		got, err := all[i].concurrent()
		require.NoError(t, err)
		assert.Equal(t, want, got, all[i].ImportPath)
	}
}

func TestRacesRunOnTestedPackagesWithGoroutines(t *testing.T) {
	m, all := checkout(t)
	races(&checks{m: m}, all)
	require.Len(t, m.ran, 1)
	assert.Contains(t, m.ran[0], "CGO_ENABLED=1")
	assert.Contains(t, m.ran[0], "go test -vet=off -timeout=40m -race -short kedge/b")
	assert.NotContains(t, m.ran[0], "kedge/a")
	assert.NotContains(t, m.ran[0], "kedge/c", "it has no tests")
}

func TestFuzzTakesEachTargetInTurn(t *testing.T) {
	m, all := checkout(t)
	text, err := json.Marshal(all[0])
	require.NoError(t, err)
	m.outputs["go list"] = string(text)
	require.Equal(t, 0, dev(m, []string{"fuzz", "90s"}))
	require.Len(t, m.ran, 2)
	assert.Contains(t, m.ran[0], "-timeout=40m -run=^$ -fuzz=^FuzzFormat$ -fuzztime=1m30s")
	assert.Contains(t, m.ran[1], "-timeout=40m -run=^$ -fuzz=^FuzzParse$ -fuzztime=1m30s")
}

func TestFontsAreMadeByTheTestsOfThePen(t *testing.T) {
	m, _ := checkout(t)
	require.Equal(t, 0, dev(m, []string{"fonts"}))
	require.Len(t, m.ran, 1)
	assert.Contains(t, m.ran[0], "-run=^TestFontsAreMade$ ./canvas/pen -update")
}

func TestFoundTriesAsManyPlansAsAskedFor(t *testing.T) {
	m, _ := checkout(t)
	require.Equal(t, 0, dev(m, []string{"found", "500"}))
	require.Len(t, m.ran, 1)
	assert.Contains(t, m.ran[0], "KEDGE_FOUND=500")
	assert.Contains(t, m.ran[0], "-run=^TestFound ./solver")

	m, _ = checkout(t)
	require.Equal(t, 0, dev(m, []string{"kill"}))
	assert.Contains(t, m.ran[0], "KEDGE_KILLS=1000")
	assert.Contains(t, m.ran[0], "-run=^TestSaveSurvivesKilling$ ./canvas/store")

	m, _ = checkout(t)
	m.os = "windows"
	require.Equal(t, 1, dev(m, []string{"kill", "-window", "5"}))
	assert.Empty(t, m.ran)
	assert.Contains(t, m.text(), "on Linux only")

	m, _ = checkout(t)
	require.Equal(t, 0, dev(m, []string{"found", "12000"}))
	require.Len(t, m.ran, 3, "some thousand at a time: their answers are held in memory")
	assert.Contains(t, m.ran[0], "KEDGE_FOUND=5000 KEDGE_FOUND_AFTER=0")
	assert.Contains(t, m.ran[2], "KEDGE_FOUND=2000 KEDGE_FOUND_AFTER=10000")
}

// The checks throw nothing random: fuzz targets run on their seeds, properties
// from one seed.
func TestChecksAreTheSameEachTime(t *testing.T) {
	m, all := checkout(t)
	text, err := json.Marshal(all[0])
	require.NoError(t, err)
	m.outputs["go list"] = string(text)
	require.Equal(t, 0, dev(m, []string{"test"}))
	tests := 0
	for _, r := range m.ran {
		assert.NotContains(t, r, "-fuzz")
		if strings.Contains(r, "go test") {
			tests++
			assert.Contains(t, r, "RAPID_SEED=")
			assert.Contains(t, r, "-timeout=")
		}
	}
	assert.NotZero(t, tests)
}

func TestImportsAndFilesHaveAStepOfTheirOwn(t *testing.T) {
	m, all := checkout(t)
	c := &checks{m: m}
	withoutCgo(c, all)
	require.Len(t, m.ran, 4)
	assert.Contains(t, m.ran[0], "go vet kedge/a kedge/b kedge/c "+devPackage)
	assert.Contains(t, m.ran[1], "go test -vet=off -timeout=40m -count=1 "+devPackage)
	assert.Contains(t, m.ran[2], "go build kedge/a")
	assert.Contains(t, m.ran[3], "go test -vet=off -timeout=40m kedge/a kedge/b kedge/c")
	assert.NotContains(t, m.ran[3], devPackage)
	for _, r := range m.ran {
		assert.Contains(t, r, "CGO_ENABLED=0")
	}
	assert.Equal(t, "cmd/kedge is not there", c.done[4].skipped)
}

func TestBoardsWindowIsTriedWithTheBuiltProgram(t *testing.T) {
	m := ready(t)
	c := &checks{m: m}
	theBoard(c, inBackground(m, buildBoard(m)))
	require.Len(t, m.ran, 3)
	assert.Contains(t, m.ran[0], "go vet kedge/cmd/kedge-board")
	assert.Contains(t, m.ran[2], "CGO_ENABLED=1")
	assert.Contains(t, m.ran[2], "go tool staticcheck ./...")
	assert.Contains(t, m.ran[1], "KEDGE_BOARD_BIN="+binary(m, "kedge-board")+" go test -vet=off -timeout=40m -count=1 kedge/cmd/kedge-board")

	t.Run("not built", func(t *testing.T) {
		m := ready(t)
		m.fails["./cmd/kedge-board"] = true
		c := &checks{m: m}
		theBoard(c, inBackground(m, buildBoard(m)))
		assert.Empty(t, m.ran)
		assert.ErrorContains(t, c.summary(time.Second), "1 of 5 checks failed")
	})
}

func TestAFailedStepFailsTheRunAndTheOthersStillRun(t *testing.T) {
	m := ready(t)
	m.outputs["go list"] = `{"ImportPath":"kedge/a","TestGoFiles":["a_test.go"]}{"ImportPath":"kedge/cmd/kedge-board"}`
	m.files["cmd/kedge-board/main.go"] = ""
	m.files["cmd/kedge/main.go"] = ""
	for start := range awaited {
		file, name, _ := strings.Cut(start, " ")
		m.outputs["go tool deadcode"] += file + ":1:1: unreachable func: " + name + "\n"
	}
	m.fails["go vet kedge/a"] = true
	assert.Equal(t, 1, dev(m, []string{"test"}))
	assert.Contains(t, m.text(), "1 of 11 checks failed")
	assert.Contains(t, m.ran, buildKedge(m).String())

	m.fails = nil
	assert.Equal(t, 0, dev(m, []string{"test"}))
}

func TestDeadCode(t *testing.T) {
	const found = "a/b.go:3:6: unreachable func: T.Late\na/b.go:9:6: unreachable func: Soon\n"
	assert.Empty(t, deadCode("", nil))
	assert.Equal(t, []string{"a/b.go:3:6: unreachable func: T.Late"}, deadCode(found, map[string]string{"a/b.go Soon": "c"}))
	assert.Empty(t, deadCode(found, map[string]string{"a/b.go Soon": "c", "a/b.go T.": "c"}))
	assert.Empty(t, deadCode(found, map[string]string{"a/b.go ": "c"}), "a whole file")
	assert.Equal(t, []string{"a/c.go Gone is called now: it is awaited no more"}, deadCode(found, map[string]string{"a/b.go ": "c", "a/c.go Gone": "c"}))

	m := ready(t)
	c := &checks{m: m}
	m.outputs["go tool deadcode ./cmd/..."] = found
	lints(c)
	assert.NoError(t, c.done[0].err)
	assert.Error(t, c.done[1].err)
	assert.Contains(t, m.said, "a/b.go:3:6: unreachable func: T.Late")
}

func TestFormattedNamesTheFiles(t *testing.T) {
	m := ready(t)
	require.NoError(t, formatted(m))
	m.outputs["gofmt -l"] = "a.go\nb/c.go\n"
	assert.EqualError(t, formatted(m), "gofmt would change a.go, b/c.go")
}

func TestSummaryShowsEachStep(t *testing.T) {
	m := ready(t)
	c := &checks{m: m}
	c.step("one", func() error { return nil })
	c.step("the second", func() error { return errors.New("broken") })
	c.skip("third", "not here")
	m.said = nil
	assert.EqualError(t, c.summary(90*time.Second), "1 of 3 checks failed")
	assert.Equal(t, []string{
		"",
		"one            0.0 s  done",
		"the second     0.0 s  FAILED: broken",
		"third          0.0 s  skipped: not here",
		"together      90.0 s",
	}, m.said)
}

func TestShotList(t *testing.T) {
	names := func(sizes, themes, scale string) (all []string) {
		shots, err := shotList(sizes, themes, scale)
		require.NoError(t, err)
		for _, s := range shots {
			all = append(all, s.name())
		}
		return all
	}
	assert.Equal(t, []string{"board-light-1440x900", "board-dark-1440x900", "board-light-1024x640"}, names("", "", "1"))
	assert.Equal(t, []string{"board-dark-1440x900"}, names("", "dark", "1"))
	assert.Equal(t, []string{"board-light-800x600-x1.5", "board-dark-800x600-x1.5", "board-light-3840x2160-x1.5", "board-dark-3840x2160-x1.5"},
		names("800x600,3840x2160", "light,dark", "1.5"))
}

func TestThePicturesOfTheREADMEAreTheProgramsOwn(t *testing.T) {
	m, _ := checkout(t)
	require.NoError(t, drawREADME(m, ".look/readme.png"))
	page, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	made := strings.Join(m.ran, "\n")
	for _, shown := range regexp.MustCompile(`\]\((assets/[a-z]+\.png)\)`).FindAllStringSubmatch(string(page), -1) {
		assert.Contains(t, made, "PNG8:"+shown[1])
	}
	assert.Contains(t, made, "--with exercise,key")
}

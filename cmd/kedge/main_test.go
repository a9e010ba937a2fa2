package main

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"kedge": main})
}

// The scripts run the real program, with a home of its own and no display.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("DISPLAY", "")
			e.Setenv("WAYLAND_DISPLAY", "")
			for _, name := range []string{"redirect", "straight", "doubled"} {
				data, err := os.ReadFile("../../assets/plans/" + name + ".kedge")
				if err != nil {
					return err
				}
				if err := os.WriteFile(e.WorkDir+"/"+name+".kedge", data, 0o600); err != nil {
					return err
				}
			}
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"status": status},
	})
}

// status runs kedge and compares its exit status: status 3 check x.kedge. A
// refusal says so on standard error and leaves standard output empty.
func status(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 1 {
		ts.Fatalf("usage: status n arguments of kedge")
	}
	got := statusDone
	err := ts.Exec("kedge", args[1:]...)
	if exit := (*exec.ExitError)(nil); errors.As(err, &exit) {
		got = exit.ExitCode()
	} else {
		ts.Check(err)
	}
	out, errs := ts.ReadFile("stdout"), ts.ReadFile("stderr")
	if want := args[0]; strconv.Itoa(got) != want {
		ts.Fatalf("status is %d, want %s", got, want)
	}
	if refused := got == statusUse || got == statusRefused; refused != (errs != "") || refused == (out != "") {
		ts.Fatalf("status %d with %d bytes out and %d bytes of trouble", got, len(out), len(errs))
	}
}

// call runs the program in this process.
func call(t *testing.T, in string, args ...string) (out, errs string, status int) {
	t.Helper()
	var o, e strings.Builder
	status = run(args, strings.NewReader(in), &o, &e)
	return o.String(), e.String(), status
}

func TestStandardInputIsAFileLikeAnyOther(t *testing.T) {
	data, err := os.ReadFile("../../assets/plans/redirect.kedge")
	require.NoError(t, err)
	want, _, wantStatus := call(t, "", "check", "../../assets/plans/redirect.kedge")
	got, errs, status := call(t, string(data), "check", "-")
	assert.Empty(t, errs)
	assert.Equal(t, want, got)
	assert.Equal(t, wantStatus, status)
}

func TestTheSameBytesEachRun(t *testing.T) {
	for _, args := range [][]string{
		{"check", "../../assets/plans/redirect.kedge"},
		{"check", "--json", "../../assets/plans/redirect.kedge"},
		{"facts"}, {"version"}, {"help"},
	} {
		first, _, _ := call(t, "", args...)
		for range 3 {
			again, _, _ := call(t, "", args...)
			require.Equal(t, first, again, "%v", args)
		}
	}
}

type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) { return 0, os.ErrClosed }

func TestAnAnswerThatCannotBeWrittenIsNoAnswer(t *testing.T) {
	var errs strings.Builder
	assert.Equal(t, statusRefused, run([]string{"version"}, nil, fullDisk{}, &errs))
	assert.Contains(t, errs.String(), "could not be written")
}

// Every plan that package plan refuses is refused here with its sentence.
func TestRefusedPlansGiveASentenceAndNothingElse(t *testing.T) {
	names, err := filepath.Glob("../../testdata/refused/*.kedge")
	require.NoError(t, err)
	require.NotEmpty(t, names)
	for _, name := range names {
		t.Run(filepath.Base(name), func(t *testing.T) {
			out, errs, status := call(t, "", "check", "--json", name)
			assert.Equal(t, statusRefused, status)
			assert.Empty(t, out)
			assert.Regexp(t, `^kedge: .*\.kedge: .+\.\n$`, errs)
		})
	}
}

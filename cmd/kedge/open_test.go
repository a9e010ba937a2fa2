package main

import (
	"errors"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// fakeDesk is a machine with a display and nothing on it; it notes what runs.
func fakeDesk(ran *[]string) desk {
	return desk{
		system:     "linux",
		getenv:     func(name string) string { return map[string]string{"DISPLAY": ":1"}[name] },
		executable: func() (string, error) { return filepath.Join("/opt", "kedge"), nil },
		exists:     func(string) bool { return false },
		lookPath:   func(string) (string, error) { return "", exec.ErrNotFound },
		run: func(file string, args []string) (int, error) {
			*ran = append([]string{filepath.ToSlash(file)}, args...)
			return 0, nil
		},
	}
}

func TestOpenStartsTheBoardItFinds(t *testing.T) {
	example := "../../assets/plans/redirect.kedge"
	for _, c := range []struct {
		name string
		set  func(*desk)
		args []string
		want []string
	}{
		{"beside", func(d *desk) { d.exists = func(string) bool { return true } }, nil, []string{"/opt/kedge-board"}},
		{"on PATH", func(d *desk) { d.lookPath = func(f string) (string, error) { return "/usr/bin/" + f, nil } }, []string{example}, []string{"/usr/bin/kedge-board", example}},
		{"beside goes first", func(d *desk) {
			d.exists = func(string) bool { return true }
			d.lookPath = func(string) (string, error) { return "/usr/bin/kedge-board", nil }
		}, nil, []string{"/opt/kedge-board"}},
		{"Wayland", func(d *desk) {
			d.getenv = func(name string) string { return map[string]string{"WAYLAND_DISPLAY": "w"}[name] }
			d.exists = func(string) bool { return true }
		}, nil, []string{"/opt/kedge-board"}},
		{"Windows needs no DISPLAY", func(d *desk) {
			d.system, d.getenv = "windows", func(string) string { return "" }
			d.exists = func(string) bool { return true }
		}, nil, []string{"/opt/kedge-board.exe"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var ran []string
			d := fakeDesk(&ran)
			c.set(&d)
			status, err := open(d, c.args)
			require.NoError(t, err)
			assert.Zero(t, status)
			assert.Equal(t, c.want, ran)
		})
	}
}

func TestOpenSaysWhyItCannot(t *testing.T) {
	for _, c := range []struct {
		name string
		set  func(*desk)
		args []string
		want string
		code int
	}{
		{"no board", func(*desk) {}, nil, "neither beside this program nor on PATH", statusUse},
		{"no display", func(d *desk) { d.getenv = func(string) string { return "" } }, nil, "there is no display here", statusUse},
		{"no such file", func(*desk) {}, []string{"none.kedge"}, "none.kedge: there is no such file", statusRefused},
		{"standard input", func(*desk) {}, []string{"-"}, "the board opens files", statusUse},
		{"does not start", func(d *desk) {
			d.exists = func(string) bool { return true }
			d.run = func(string, []string) (int, error) { return 0, errors.New("exec format error") }
		}, nil, "could not be started (exec format error)", statusUse},
	} {
		t.Run(c.name, func(t *testing.T) {
			var ran []string
			d := fakeDesk(&ran)
			c.set(&d)
			_, err := open(d, c.args)
			require.Error(t, err)
			code, why := explain(err)
			assert.Equal(t, c.code, code)
			assert.Contains(t, say(nil, why), c.want)
			assert.Empty(t, ran)
		})
	}
}

func TestTheBoardsExitStatusIsPassedOn(t *testing.T) {
	var ran []string
	d := fakeDesk(&ran)
	d.exists = func(string) bool { return true }
	d.run = func(string, []string) (int, error) { return 3, nil }
	status, err := open(d, nil)
	require.NoError(t, err)
	assert.Equal(t, 3, status)
}

func TestPlansAreGivenToTheBoard(t *testing.T) {
	var ran []string
	d := fakeDesk(&ran)
	require.ErrorContains(t, register(d, true, false, nil), "register-elsewhere")
	given, taken := "", 0
	d.associate = func(board string) error { given = filepath.ToSlash(board); return nil }
	d.dissociate = func() error { taken++; return nil }
	require.Error(t, register(d, true, false, nil), "no board to give them to")
	d.exists = func(string) bool { return true }
	require.NoError(t, register(d, true, false, nil))
	assert.Contains(t, given, "/opt/kedge-board")
	require.NoError(t, register(d, false, true, nil))
	assert.Equal(t, 1, taken)
	require.Error(t, register(d, true, true, nil))
	require.Error(t, register(d, true, false, []string{"a.kedge"}))
	d.associate = func(string) error { return exec.ErrNotFound }
	require.ErrorIs(t, register(d, true, false, nil), exec.ErrNotFound)
	assert.Empty(t, ran)
}

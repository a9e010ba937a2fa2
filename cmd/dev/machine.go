package main

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
)

// command is one program to run: its words, what is added to the environment,
// as "NAME=value", and the folder that it runs in, if not this one.
type command struct {
	words []string
	env   []string
	dir   string
}

func cmd(words ...string) command { return command{words: words} }

// with adds to the environment.
func (c command) with(env ...string) command {
	c.env = append(append([]string(nil), c.env...), env...)
	return c
}

func (c command) in(dir string) command {
	c.dir = dir
	return c
}

func (c command) String() string {
	return strings.Join(append(append([]string(nil), c.env...), c.words...), " ")
}

// machine is the computer dev runs on, as far as dev asks about it. The tests
// put a made-up one in its place.
type machine interface {
	OS() string                  // as runtime.GOOS
	Root() bool                  // may install packages as it is
	Getenv(name string) string   // "" when unset
	Has(program string) bool     // on PATH
	Matches(pattern string) bool // some file matches the glob
	ReadFile(path string) (string, bool)
	Try(c command) bool                // runs unseen; true on exit status 0
	Output(c command) (string, error)  // what it prints on stdout; stderr is seen
	Run(c command) error               // runs in sight of the user
	Tee(c command) (string, error)     // runs in sight; both outputs together
	Quietly(c command) (string, error) // both outputs together, unseen
	Ask(question string) bool          // false when nobody answers
	Say(line string)
}

// host is the real machine.
type host struct{ answers *bufio.Reader }

func newHost() *host { return &host{answers: bufio.NewReader(os.Stdin)} }

func (*host) OS() string                { return runtime.GOOS }
func (*host) Root() bool                { return os.Geteuid() == 0 }
func (*host) Getenv(name string) string { return os.Getenv(name) }
func (*host) Say(line string)           { fmt.Println(line) }

func (*host) Has(program string) bool {
	_, err := exec.LookPath(program)
	return err == nil
}

func (*host) Matches(pattern string) bool {
	found, err := filepath.Glob(pattern)
	return err == nil && len(found) > 0
}

func (*host) ReadFile(path string) (string, bool) {
	text, err := os.ReadFile(path)
	return string(text), err == nil
}

func (c command) start() *exec.Cmd {
	p := exec.Command(c.words[0], c.words[1:]...)
	p.Env, p.Dir = append(os.Environ(), c.env...), c.dir
	return p
}

func (*host) Try(c command) bool { return c.start().Run() == nil }

func (*host) Output(c command) (string, error) {
	p := c.start()
	p.Stderr = os.Stderr
	out, err := p.Output()
	return string(out), err
}

func (*host) Quietly(c command) (string, error) {
	out, err := c.start().CombinedOutput()
	return string(out), err
}

func (*host) Run(c command) error {
	p := c.start()
	p.Stdin, p.Stdout, p.Stderr = os.Stdin, os.Stdout, os.Stderr
	return p.Run()
}

func (*host) Tee(c command) (string, error) {
	var said bytes.Buffer
	p := c.start()
	p.Stdout = io.MultiWriter(os.Stdout, &said)
	p.Stderr = p.Stdout // one writer: what they say is not mixed within a line
	err := p.Run()
	return said.String(), err
}

func (h *host) Ask(question string) bool {
	fmt.Print(question + " [y/N] ")
	answer, err := h.answers.ReadString('\n')
	if err != nil {
		fmt.Println()
	}
	answer = strings.ToLower(strings.TrimSpace(answer))
	return answer == "y" || answer == "yes"
}

package main

import (
	"fmt"
	"strings"
	"time"
)

// outcome is how one step of the checks ended.
type outcome struct {
	step    string
	took    time.Duration
	err     error
	skipped string // the reason; "" when it ran
}

// checks runs steps one after another, keeps what came of each, and goes on
// after a failure: the steps are independent unless their caller says so.
type checks struct {
	m    machine
	done []outcome
}

// step runs one check and prints its seconds.
func (c *checks) step(name string, work func() error) {
	c.m.Say("== " + name)
	began := time.Now()
	err := work()
	c.end(outcome{step: name, took: time.Since(began), err: err})
}

func (c *checks) end(o outcome) {
	c.done = append(c.done, o)
	word := "done"
	if o.err != nil {
		word = fmt.Sprintf("FAILED (%v)", o.err)
	}
	c.m.Say(fmt.Sprintf("== %s: %s in %.1f s", o.step, word, o.took.Seconds()))
}

// skip records a check that cannot run here, and why.
func (c *checks) skip(name, reason string) {
	c.m.Say(fmt.Sprintf("== %s: skipped, %s", name, reason))
	c.done = append(c.done, outcome{step: name, skipped: reason})
}

// summary prints the table of all steps; its error counts the failed ones.
func (c *checks) summary(took time.Duration) error {
	widest, failed := 0, 0
	for _, o := range c.done {
		widest = max(widest, len(o.step))
	}
	c.m.Say("")
	for _, o := range c.done {
		word := "done"
		switch {
		case o.skipped != "":
			word = "skipped: " + o.skipped
		case o.err != nil:
			failed++
			word = fmt.Sprintf("FAILED: %v", o.err)
		}
		c.m.Say(fmt.Sprintf("%-*s %7.1f s  %s", widest, o.step, o.took.Seconds(), word))
	}
	c.m.Say(fmt.Sprintf("%-*s %7.1f s", widest, "together", took.Seconds()))
	if failed > 0 {
		return fmt.Errorf("%d of %d checks failed", failed, len(c.done))
	}
	return nil
}

// background is a command started early, whose end is waited for later.
type background struct {
	command command
	began   time.Time
	end     chan finished
}

type finished struct {
	output string
	err    error
	took   time.Duration
}

func inBackground(m machine, c command) *background {
	b := &background{command: c, began: time.Now(), end: make(chan finished, 1)}
	go func() {
		output, err := m.Quietly(c)
		b.end <- finished{output, err, time.Since(b.began)}
	}()
	return b
}

// wait blocks until the command has ended and prints what it said. Its time
// counts from its start, not from the call.
func (c *checks) wait(name string, b *background) error {
	c.m.Say(fmt.Sprintf("== %s (%s, begun %.0f s ago)", name, b.command, time.Since(b.began).Seconds()))
	f := <-b.end
	if f.output != "" {
		c.m.Say(strings.TrimRight(f.output, "\n"))
	}
	c.end(outcome{step: name, took: f.took, err: f.err})
	return f.err
}

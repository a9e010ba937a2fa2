package main

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/png"
	"io"
	"os"
	"os/exec"
	"strings"
	"time"
)

const (
	// windowWait is how long a window may take to show: one second on two
	// idle cores, and much more beside a build.
	windowWait = 60 * time.Second
	// settleWait is how long the picture may go on changing after it shows.
	settleWait = 20 * time.Second
	// between two looks at the window.
	pause = 400 * time.Millisecond
)

// virtualDisplay is an Xvfb of one picture's size.
type virtualDisplay struct {
	server *exec.Cmd
	name   string // ":99"
}

// startDisplay starts Xvfb on a free display number, which Xvfb itself finds
// and writes to the pipe once it is ready. It turns nobody away between the last
// window of one board and the first of the next.
func startDisplay(widthPx, heightPx int) (*virtualDisplay, error) {
	read, write, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	defer read.Close()
	p := exec.Command("Xvfb", "-displayfd", "3", "-nolisten", "tcp", "-noreset", "-screen", "0", fmt.Sprintf("%dx%dx24", widthPx, heightPx))
	p.ExtraFiles = []*os.File{write}
	err = p.Start()
	write.Close()
	if err != nil {
		return nil, err
	}
	number, err := io.ReadAll(io.LimitReader(read, 16))
	d := &virtualDisplay{server: p, name: ":" + strings.TrimSpace(string(number))}
	if err == nil && d.name == ":" {
		err = errors.New("the virtual display (Xvfb) ended without naming itself")
	}
	if err != nil {
		d.close()
		return nil, err
	}
	return d, nil
}

func (d *virtualDisplay) close() {
	_ = d.server.Process.Signal(os.Interrupt) // Xvfb removes its lock file
	_ = d.server.Wait()
}

func (d *virtualDisplay) command(words ...string) *exec.Cmd {
	p := exec.Command(words[0], words[1:]...)
	p.Env = append(os.Environ(), "DISPLAY="+d.name, "WAYLAND_DISPLAY=")
	return p
}

func (d *virtualDisplay) xdotool(words ...string) error {
	if out, err := d.command(append([]string{"xdotool"}, words...)...).CombinedOutput(); err != nil {
		return fmt.Errorf("xdotool: %w: %s", err, out)
	}
	return nil
}

// running is a board on a display.
type running struct {
	*exec.Cmd
	ended chan error // gives how it ended, and is closed then
}

// open starts a board as the shot says, in a home folder, and gives its window the
// shot's size and the keys. What the board says is written to said; nil: nowhere.
func (d *virtualDisplay) open(board, home string, s shot, said io.Writer) (*running, error) {
	p := running{d.command(board, s.plan), make(chan error, 1)}
	p.Env = append(p.Env, s.env(home)...)
	p.Stdout, p.Stderr = said, said
	if err := p.Start(); err != nil {
		return nil, err
	}
	go func() { p.ended <- p.Wait(); close(p.ended) }()
	window, err := d.window(p.ended)
	if err == nil {
		err = d.front(window, s)
	}
	if err != nil {
		p.stop()
		return nil, err
	}
	return &p, nil
}

// stop ends the board, if it has not ended.
func (p *running) stop() {
	_ = p.Process.Kill()
	<-p.ended
}

// window waits for the board's window, unless the board ends.
func (d *virtualDisplay) window(ended <-chan error) (string, error) {
	for began := time.Now(); time.Since(began) <= windowWait; {
		select {
		case err := <-ended:
			return "", fmt.Errorf("the board ended before its window showed: %v", err)
		case <-time.After(pause):
		}
		// xdotool's status is 1 while there is no such window.
		found, _ := d.command("xdotool", "search", "--onlyvisible", "--name", "Kedge").Output()
		if window, _, _ := strings.Cut(string(found), "\n"); window != "" {
			return window, nil
		}
	}
	return "", fmt.Errorf("no window showed in %v", windowWait)
}

// front gives a window its place, size and the keys. There is no window manager:
// windowactivate would abort, and the window keeps what it is given.
func (d *virtualDisplay) front(window string, s shot) error {
	return d.xdotool("windowmove", window, "0", "0",
		"windowsize", window, fmt.Sprint(s.widthPx), fmt.Sprint(s.heightPx), "windowfocus", window)
}

// env is the board's environment: a home folder of its own, one language, and the
// look that is asked for.
func (s shot) env(home string) []string {
	return []string{"HOME=" + home, "XDG_CONFIG_HOME=" + home + "/config", "XDG_DATA_HOME=" + home + "/data",
		"XDG_STATE_HOME=" + home + "/state", "XDG_CACHE_HOME=" + home + "/cache",
		"LANG=en_GB.UTF-8", "LC_ALL=en_GB.UTF-8", "FYNE_THEME=" + s.theme, "FYNE_SCALE=" + s.scale}
}

// take starts the board on its own display and in a home folder of its own,
// waits for a picture that stands still, and writes it.
func (s shot) take(m machine, board, file string) (err error) {
	home, err := os.MkdirTemp("", "kedge-look")
	if err != nil {
		return err
	}
	defer os.RemoveAll(home)
	d, err := startDisplay(s.widthPx, s.heightPx)
	if err != nil {
		return fmt.Errorf("no virtual display: %w", err)
	}
	defer d.close()

	var said bytes.Buffer
	defer func() { // when it is stopped
		if text := strings.TrimSpace(said.String()); text != "" {
			m.Say("The board said:\n" + text)
			if err == nil && strings.Contains(text, "Error in Fyne call thread") {
				err = errors.New("the board touched its window from a wrong goroutine")
			}
		}
	}()

	p, err := d.open(board, home, s, &said)
	if err != nil {
		return err
	}
	defer p.stop()
	picture, err := d.settled()
	if err != nil {
		return err
	}
	if len(s.act) > 0 {
		if err := d.xdotool(s.act...); err != nil {
			return err
		}
		if picture, err = d.settled(); err != nil {
			return err
		}
	}
	return os.WriteFile(file, picture, 0o644)
}

// settled takes pictures until two in a row are alike, and refuses one of a
// single colour: nothing had been drawn yet, or nothing ever will.
func (d *virtualDisplay) settled() ([]byte, error) {
	var last []byte
	blank := true
	for began := time.Now(); time.Since(began) < settleWait; time.Sleep(pause) {
		// Without -strip and the dates, two pictures of one thing differ.
		now, err := d.command("import", "-window", "root", "-strip", "-define", "png:exclude-chunks=date,time", "png:-").Output()
		if err != nil {
			return nil, fmt.Errorf("import: %w", err)
		}
		img, err := png.Decode(bytes.NewReader(now))
		if err != nil {
			return nil, err
		}
		blank = oneColour(img)
		if !blank && bytes.Equal(now, last) {
			return now, nil
		}
		last = now
	}
	if blank {
		return nil, fmt.Errorf("the window stayed blank for %v", settleWait)
	}
	return last, nil // something on it moves: a blinking cursor
}

func oneColour(img image.Image) bool {
	b := img.Bounds()
	r0, g0, b0, _ := img.At(b.Min.X, b.Min.Y).RGBA()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			if r, g, bl, _ := img.At(x, y).RGBA(); r != r0 || g != g0 || bl != b0 {
				return false
			}
		}
	}
	return true
}

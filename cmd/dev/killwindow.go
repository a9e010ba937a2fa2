package main

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"time"
)

const (
	// windowKillsUsual is how many kills of the window there are when nobody says.
	windowKillsUsual = 200
	// killsInARow is how many boards follow each other on one plan, each taking over
	// what was left of the one before; then comes a fresh one.
	killsInARow = 10
	// mostEditing is the longest that a board is edited before it is killed: beyond
	// the time within which its window must have kept something.
	mostEditing = 9 * time.Second
	// mostBehind is how old the oldest lost edit may be, as canvas/window promises.
	mostBehind = 5 * time.Second
	// mostTakingOver is the longest that a board takes over before it is killed as it does.
	mostTakingOver = 2 * time.Second
	// recoverWait is how long a board may take to take over what was left.
	recoverWait = 30 * time.Second
)

// killWindow edits in the real window, on a virtual display, and kills it at random
// moments. After each kill the snapshot must be whole, hold the exercise's blanks and a
// state of the plan as it was edited, no edit that it lacks older than mostBehind; the
// board started next must offer it, and have it as its own once Return is pressed. Of
// those, some are killed while they take over: what was left must be left still.
func killWindow(m machine, n int, yes bool) error {
	if err := boardForDisplay(m, yes); err != nil {
		return err
	}
	s := sitting{m: m, board: binary(m, "kedge-board"), look: shot{widthPx: 1440, heightPx: 900, theme: "light", scale: "1"}}
	d, err := startDisplay(s.look.widthPx, s.look.heightPx)
	if err != nil {
		return fmt.Errorf("no virtual display: %w", err)
	}
	defer d.close()
	s.d = d
	whole := 0
	var worst time.Duration
	for i := range n {
		if i%killsInARow == 0 || s.home == "" {
			if err := s.begin(); err != nil {
				return err
			}
		}
		behind, err := s.kill()
		if err != nil {
			m.Say(fmt.Sprintf("kill %d: %v; what is left is in %s", i+1, err, s.home))
			s.home = "" // kept to be looked at
			continue
		}
		whole, worst = whole+1, max(worst, behind)
		m.Say(fmt.Sprintf("kill %d of %d: whole, %.1f s behind", i+1, n, behind.Seconds()))
	}
	os.RemoveAll(s.home)
	m.Say(fmt.Sprintf("%d of %d kills left all but the last %.1f s; %d boards took over what was left, %d were killed as they did", whole, n, worst.Seconds(), s.taken, s.stopped))
	if whole < n {
		return fmt.Errorf("%d of %d kills lost more than they may", n-whole, n)
	}
	return nil
}

// sitting is one person at one board after another.
type sitting struct {
	m       machine
	d       *virtualDisplay
	board   string // the program
	look    shot
	home    string // "": to be made
	left    []byte // the snapshot of the board before; nil: it left none
	from    state  // what the plan holds as a board starts
	kills   int    // in this home
	taken   int    // boards that took over what was left
	stopped int    // boards killed as they took over
}

// begin makes a home folder with the example plan, of which some figures are blanks.
func (s *sitting) begin() error {
	os.RemoveAll(s.home)
	text, err := os.ReadFile(example)
	if err != nil {
		return err
	}
	if text, err = blanked(text); err != nil {
		return err
	}
	if s.from, err = stateOf(text); err != nil {
		return err
	}
	if s.home, err = os.MkdirTemp("", "kedge-kill"); err != nil {
		return err
	}
	s.left, s.kills = nil, 0
	s.look.plan = filepath.Join(s.home, "moss.kedge")
	return os.WriteFile(s.look.plan, text, 0o644)
}

// open starts a board; what it says is kept beside its plan.
func (s *sitting) open() (*running, error) {
	said, err := os.Create(filepath.Join(s.home, "said.txt"))
	if err != nil {
		return nil, err
	}
	defer said.Close() // the board has its own
	return s.d.open(s.board, s.home, s.look, said)
}

// kill starts a board, has it take over what the one before left, edits, kills it, and
// looks at what it leaves: how old the oldest edit is that is lost.
func (s *sitting) kill() (behind time.Duration, err error) {
	for s.left != nil && rand.IntN(2) == 0 {
		if err := s.stopTakingOver(); err != nil {
			return 0, err
		}
	}
	p, err := s.open()
	if err != nil {
		return 0, err
	}
	defer p.stop()
	if err := s.takeOver(p); err != nil {
		return 0, err
	}
	edits, err := s.edit()
	if err != nil {
		return 0, err
	}
	if err := p.Process.Kill(); err != nil {
		return 0, fmt.Errorf("the board ended before it was killed: %w", err)
	}
	killed := time.Now()
	<-p.ended
	s.kills++
	files := s.snapshots(p.own())
	if len(files) == 0 {
		return s.none(edits, killed)
	}
	if s.left, err = os.ReadFile(files[0]); err != nil {
		return 0, err
	}
	body, err := planOf(s.left)
	if err != nil {
		return 0, err
	}
	was := s.from
	if s.from, err = stateOf(body); err != nil {
		return 0, err
	}
	return late(lost(was, s.from, edits, killed))
}

// none is how much is lost with no snapshot: everything, which a board that took one
// over may not.
func (s *sitting) none(edits []edit, killed time.Time) (time.Duration, error) {
	if s.left != nil {
		return 0, errors.New("nothing is left of a plan that was taken over")
	}
	return late(lost(s.from, s.from, edits, killed))
}

func late(behind time.Duration, err error) (time.Duration, error) {
	if err == nil && behind > mostBehind {
		err = fmt.Errorf("an edit %.1f s old is lost", behind.Seconds())
	}
	return behind, err
}

// own is the pattern of the folder in which a board keeps its snapshot.
func (p *running) own() string { return strconv.Itoa(p.Process.Pid) + "-*" }

// snapshots are those in the folders of a pattern.
func (s *sitting) snapshots(folders string) []string {
	files, err := filepath.Glob(filepath.Join(s.home, "state", "kedge", "recovery", folders, "plan.snapshot"))
	if err != nil { // only a pattern that is none
		return nil
	}
	return files
}

// stopTakingOver starts a board, presses Return as who has it take over what was left,
// and kills it at a random moment of that. A whole snapshot of what was left must remain.
func (s *sitting) stopTakingOver() error {
	p, err := s.open()
	if err != nil {
		return err
	}
	defer p.stop()
	s.stopped++
	for end := time.Now().Add(rand.N(mostTakingOver)); time.Now().Before(end); {
		if err := s.d.xdotool("key", "Return"); err != nil {
			return err
		}
	}
	if err := p.Process.Kill(); err != nil {
		return fmt.Errorf("the board ended before it was killed: %w", err)
	}
	<-p.ended
	want, err := planOf(s.left)
	if err != nil {
		return err
	}
	files := s.snapshots("*")
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			return err
		}
		got, err := planOf(data)
		if err == nil && string(got) != string(want) {
			err = errors.New("it is not what was left")
		}
		if err != nil {
			return fmt.Errorf("%s, of a board killed as it took over: %w", file, err)
		}
	}
	if len(files) == 0 {
		return errors.New("a board killed as it took over left nothing")
	}
	return nil
}

// takeOver presses Return, which says yes to the offer of what was left, until the
// board has it as a snapshot of its own and the one before is gone. With nothing left it
// waits until the board has drawn itself.
func (s *sitting) takeOver(p *running) error {
	if s.left == nil {
		_, err := s.d.settled()
		return err
	}
	want, err := planOf(s.left)
	if err != nil {
		return err
	}
	for began := time.Now(); time.Since(began) < recoverWait; time.Sleep(pause) {
		if err := s.d.xdotool("key", "Return"); err != nil {
			return err
		}
		own := s.snapshots(p.own())
		if len(own) != 1 || len(s.snapshots("*")) != 1 {
			continue
		}
		data, err := os.ReadFile(own[0])
		if err != nil {
			return err
		}
		got, err := planOf(data)
		if err == nil && string(got) != string(want) {
			err = errors.New("what was taken over is not what was left")
		}
		s.taken++
		return err
	}
	return fmt.Errorf("what was left was not taken over in %v", recoverWait)
}

// edit places people and moves everything until a random moment. It goes east with one
// board and west with the next: no state comes twice, and the plan stays in sight.
func (s *sitting) edit() (edits []edit, err error) {
	step, key := 1, "shift+Right"
	if s.kills%2 == 1 {
		step, key = -1, "shift+Left"
	}
	now := s.from
	end := time.Now().Add(rand.N(mostEditing))
	for {
		words := []string{"key", "ctrl+a", "key", key}
		if rand.IntN(8) == 0 {
			now.people++
			x, y := 500+rand.IntN(400), 250+rand.IntN(400)
			words = []string{"mousemove", strconv.Itoa(x), strconv.Itoa(y), "key", "p", "click", "1", "key", "Escape"}
		} else {
			now.steps += step
		}
		edits = append(edits, edit{time.Now(), now})
		if err := s.d.xdotool(words...); err != nil {
			return nil, err
		}
		rest := 60*time.Millisecond + rand.N(500*time.Millisecond)
		if left := time.Until(end); left < rest {
			time.Sleep(left)
			return edits, nil
		}
		time.Sleep(rest)
	}
}

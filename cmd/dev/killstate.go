package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"slices"
	"time"
)

// blanks are the parts whose figures the exercise of the killed plan leaves blank.
var blanks = []string{"B1", "L1"}

// stepM is how far an arrow key with Shift moves things, in metres (canvas/board).
const stepM = 0.1

// state tells the plans of a row of edits from each other.
type state struct {
	people int // on the site
	steps  int // of stepM that the first vehicle lies east of the axis
}

// edit is one that was asked of the board.
type edit struct {
	at    time.Time // before it was
	after state
}

// blanked is a plan as its file holds it, with blanks in the exercise of its first rig.
func blanked(text []byte) ([]byte, error) {
	var p map[string]any
	if err := json.Unmarshal(text, &p); err != nil {
		return nil, err
	}
	rigs, _ := p["rigs"].([]any)
	if len(rigs) == 0 {
		return nil, errors.New("a plan without a rig has no exercise")
	}
	rig, _ := rigs[0].(map[string]any)
	if rig == nil {
		return nil, errors.New("a rig that is none")
	}
	rig["exercise"] = map[string]any{"blanks": blanks}
	return json.Marshal(p)
}

// planOf is the plan in a snapshot: what follows its first line, which says what it is.
func planOf(snapshot []byte) ([]byte, error) {
	line, body, _ := bytes.Cut(snapshot, []byte{'\n'})
	var head struct {
		Format string `json:"format"`
	}
	if err := json.Unmarshal(line, &head); err != nil || head.Format != "kedge-snapshot" {
		return nil, fmt.Errorf("a snapshot without its head: %.40q", line)
	}
	return body, nil
}

// stateOf reads a plan as its file holds it. The error tells that it is not whole, or
// lacks the blanks.
func stateOf(text []byte) (state, error) {
	var p struct {
		Site struct {
			Vehicles []struct {
				At struct {
					X *float64 `json:"x_m"`
				} `json:"at"`
			} `json:"vehicles"`
			People []struct{} `json:"people"`
		} `json:"site"`
		Rigs []struct {
			Exercise struct {
				Blanks []string `json:"blanks"`
			} `json:"exercise"`
		} `json:"rigs"`
	}
	if err := json.Unmarshal(text, &p); err != nil {
		return state{}, fmt.Errorf("a plan that is not whole: %w", err)
	}
	if len(p.Site.Vehicles) == 0 || p.Site.Vehicles[0].At.X == nil || len(p.Rigs) == 0 {
		return state{}, errors.New("a plan without its vehicles or rigs")
	}
	if got := p.Rigs[0].Exercise.Blanks; !slices.Equal(got, blanks) {
		return state{}, fmt.Errorf("the blanks %q are %q", blanks, got)
	}
	return state{len(p.Site.People), int(math.Round(*p.Site.Vehicles[0].At.X / stepM))}, nil
}

// lost is how old the oldest edit is, as the board is killed, that the kept state lacks;
// 0 if it lacks none. The error tells that the plan was never as it is kept.
func lost(from, kept state, edits []edit, killed time.Time) (time.Duration, error) {
	at := 0
	if kept != from {
		at = 1 + slices.IndexFunc(edits, func(e edit) bool { return e.after == kept })
		if at == 0 {
			return 0, fmt.Errorf("%+v is kept, which no edit from %+v made: %v", kept, from, states(edits))
		}
	}
	if at == len(edits) {
		return 0, nil
	}
	return killed.Sub(edits[at].at), nil
}

// states are those after the edits, to be read.
func states(edits []edit) (all []state) {
	for _, e := range edits {
		all = append(all, e.after)
	}
	return all
}

package main

import (
	"math"

	"kedge/solver/doubt"
)

// The names that a JSON answer of doubt says it is of.
const (
	doubtFormat  = "kedge-doubt"
	doubtVersion = 1
)

type doubtDoc struct {
	docHead
	Exit     int            `json:"exit"`
	Rig      string         `json:"rig"`
	Computed bool           `json:"computed"`
	Trials   int            `json:"trials"`
	Refused  int            `json:"refused"`
	Drawn    []doubtfulJSON `json:"drawn"`
	NotDrawn []doubtfulJSON `json:"not_drawn"`
	Move     *bandJSON      `json:"to_move_n"`
	Assumed  []assumedJSON  `json:"assumed"`
	Parts    []chancesJSON  `json:"parts"`
	Along    *alongJSON     `json:"along"`
}

type alongJSON struct {
	Trials int             `json:"trials"`
	To     number          `json:"to_m"`
	Fails  countJSON       `json:"fails"`
	Where  *bandJSON       `json:"first_m"`
	Parts  []partAlongJSON `json:"parts"`
}

type partAlongJSON struct {
	ID          string    `json:"id"`
	Name        string    `json:"name"`
	Over        countJSON `json:"over_limit"`
	OverAtStall countJSON `json:"over_limit_at_stall"`
	Gives       countJSON `json:"gives"`
	GivesStall  countJSON `json:"gives_at_stall"`
	First       countJSON `json:"first"`
}

type doubtfulJSON struct {
	What   string `json:"what"`
	Thing  string `json:"thing"`
	Member string `json:"member"`
}

type bandJSON struct {
	Low  number `json:"low"`
	Mid  number `json:"mid"`
	High number `json:"high"`
}

type chancesJSON struct {
	ID          string       `json:"id"`
	Name        string       `json:"name"`
	Kind        string       `json:"kind"`
	Load        *bandJSON    `json:"load_n"`
	Over        countJSON    `json:"over_limit"`
	OverAtStall countJSON    `json:"over_limit_at_stall"`
	Gives       countJSON    `json:"gives"`
	GivesStall  countJSON    `json:"gives_at_stall"`
	Drivers     []driverJSON `json:"drivers"`
}

type countJSON struct {
	Hits     int     `json:"hits"`
	Of       int     `json:"of"`
	NotKnown int     `json:"not_known"`
	Chance   *number `json:"chance"`
	Error    *number `json:"error"`
}

type driverJSON struct {
	doubtfulJSON
	Rank  number `json:"rank"`
	Share number `json:"share"`
}

func (a *drawn) json(status int) (string, error) {
	top := doubtDoc{docHead: headOf(doubtFormat, doubtVersion), Exit: status, Rig: string(a.Rig),
		Drawn: []doubtfulJSON{}, NotDrawn: []doubtfulJSON{}, Assumed: []assumedJSON{}, Parts: []chancesJSON{}}
	if f := a.Found; f != nil {
		top.Computed, top.Trials, top.Refused, top.Move = true, f.Trials, f.Refused, bandOf(f.MoveN)
		top.Drawn, top.NotDrawn = each(f.Drawn, doubtfulOf), each(f.NotDrawn, doubtfulOf)
		top.Assumed, top.Along = each(f.Assumed, assumedOf), a.along()
		top.Parts = each(f.Parts, func(p *doubt.PartChances) chancesJSON {
			return chancesJSON{ID: p.Part.ID, Name: plainName(a.w.PartName(&p.Part, a.Names)), Kind: string(p.Part.Kind), Load: bandOf(p.PlannedN),
				Over: countOf(p.OverLimit), OverAtStall: countOf(p.OverAtStall), Gives: countOf(p.Gives), GivesStall: countOf(p.GivesStall),
				Drivers: each(p.Drivers, func(d *doubt.Driver) driverJSON {
					return driverJSON{doubtfulOf(&d.Doubtful), number(d.Rank), number(min(d.Share, 1))}
				})}
		})
	}
	return encoded(top)
}

// along is null if the pull was not followed.
func (a *drawn) along() *alongJSON {
	f := a.Found.Along
	if f == nil {
		return nil
	}
	return &alongJSON{Trials: f.Trials, To: number(f.ToM), Fails: countOf(f.Fails), Where: bandOf(f.FailsM), Parts: each(f.Parts, func(p *doubt.PartAlong) partAlongJSON {
		return partAlongJSON{ID: p.Part.ID, Name: plainName(a.w.PartName(&p.Part, a.Names)), Over: countOf(p.OverLimit), OverAtStall: countOf(p.OverAtStall),
			Gives: countOf(p.Gives), GivesStall: countOf(p.GivesStall), First: countOf(p.First)}
	})}
}

func doubtfulOf(d *doubt.Doubtful) doubtfulJSON {
	return doubtfulJSON{d.What, string(d.Thing), d.Member}
}

// bandOf is null if a trial lacks the figure.
func bandOf(b [3]float64) *bandJSON {
	if math.IsNaN(b[0]) {
		return nil
	}
	return &bandJSON{number(b[0]), number(b[1]), number(b[2])}
}

func countOf(c doubt.Count) countJSON {
	return countJSON{c.Hits, c.Of, c.NotKnown, known(c.Chance.Value, c.Of > 0), known(c.Chance.Error, c.Of > 0)}
}

package main

import (
	"kedge/canvas/report"
	"kedge/solver/doubt"
)

// The names that a JSON answer of doubt says it is of.
const (
	doubtFormat  = "kedge-doubt"
	doubtVersion = 1
)

type doubtDoc struct {
	docHead
	Exit     int               `json:"exit"`
	Rig      string            `json:"rig"`
	Computed bool              `json:"computed"`
	Trials   int               `json:"trials"`
	Refused  int               `json:"refused"`
	Drawn    []report.Doubtful `json:"drawn"`
	NotDrawn []report.Doubtful `json:"not_drawn"`
	Move     *report.Band      `json:"to_move_n"`
	Assumed  []report.Assumed  `json:"assumed"`
	Parts    []chancesJSON     `json:"parts"`
	Along    *alongJSON        `json:"along"`
	Picture  *report.Picture   `json:"picture"`
	Cautions []string          `json:"cautions"`
}

type alongJSON struct {
	Trials int             `json:"trials"`
	To     number          `json:"to_m"`
	Fails  countJSON       `json:"fails"`
	Where  *report.Band    `json:"first_m"`
	Parts  []partAlongJSON `json:"parts"`
}

type partAlongJSON struct {
	ID   string `json:"id"`
	Name string `json:"name"`
	passesJSON
	First countJSON    `json:"first"`
	Where *report.Band `json:"first_m"`
}

type chancesJSON struct {
	ID   string       `json:"id"`
	Name string       `json:"name"`
	Kind string       `json:"kind"`
	Load *report.Band `json:"load_n"`
	passesJSON
	Drivers []driverJSON `json:"drivers"`
}

type passesJSON struct {
	Over        countJSON `json:"over_limit"`
	OverAtStall countJSON `json:"over_limit_at_stall"`
	Gives       countJSON `json:"gives"`
	GivesStall  countJSON `json:"gives_at_stall"`
}

type countJSON struct {
	Hits     int     `json:"hits"`
	Of       int     `json:"of"`
	NotKnown int     `json:"not_known"`
	Chance   *number `json:"chance"`
	Error    *number `json:"error"`
}

type driverJSON struct {
	report.Doubtful
	Rank  number `json:"rank"`
	Share number `json:"share"`
}

func (a *drawn) json(status int) (string, error) {
	top := doubtDoc{docHead: report.HeadOf(doubtFormat, doubtVersion), Exit: status, Rig: string(a.Rig),
		Drawn: []report.Doubtful{}, NotDrawn: []report.Doubtful{}, Assumed: []report.Assumed{}, Parts: []chancesJSON{}, Picture: report.PictureOf(a.Plan), Cautions: []string{}}
	if f := a.Found; f != nil {
		top.Computed, top.Trials, top.Refused, top.Move = true, f.Trials, f.Refused, report.BandOf(f.MoveN)
		top.Drawn, top.NotDrawn = report.Each(f.Drawn, report.DoubtfulOf), report.Each(f.NotDrawn, report.DoubtfulOf)
		top.Cautions = report.Each(a.Cautions(), func(s *string) string { return plainName(*s) })
		top.Assumed, top.Along = report.Each(f.Assumed, report.AssumedOf), a.along()
		top.Parts = report.Each(f.Parts, func(p *doubt.PartChances) chancesJSON {
			return chancesJSON{ID: p.Part.ID, Name: plainName(a.w.PartName(&p.Part, a.Names)), Kind: string(p.Part.Kind), Load: report.BandOf(p.PlannedN), passesJSON: passesOf(&p.Passes),
				Drivers: report.Each(p.Drivers, func(d *doubt.Driver) driverJSON {
					return driverJSON{report.DoubtfulOf(&d.Doubtful), number(d.Rank), number(min(d.Share, 1))}
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
	return &alongJSON{Trials: f.Trials, To: number(f.ToM), Fails: countOf(f.Fails), Where: report.BandOf(f.FailsM), Parts: report.Each(f.Parts, func(p *doubt.PartAlong) partAlongJSON {
		return partAlongJSON{ID: p.Part.ID, Name: plainName(a.w.PartName(&p.Part, a.Names)), passesJSON: passesOf(&p.Passes), First: countOf(p.First), Where: report.BandOf(p.FirstM)}
	})}
}

func passesOf(p *doubt.Passes) passesJSON {
	return passesJSON{countOf(p.OverLimit), countOf(p.OverAtStall), countOf(p.Gives), countOf(p.GivesStall)}
}

func countOf(c doubt.Count) countJSON {
	return countJSON{c.Hits, c.Of, c.NotKnown, known(c.Chance.Value, c.Of > 0), known(c.Chance.Error, c.Of > 0)}
}

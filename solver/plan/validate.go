package plan

import (
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// Validate refuses a plan that could not be saved, opened again or computed
// from: numbers that are not finite or absurd, ids that are missing or doubled,
// references to nothing, outlines that cross themselves, more than a plan may
// hold. The first fault found is the refusal. A word that is not known here (a
// kind, a material) is no fault: it counts as not known.
func Validate(p *Plan) error {
	if p == nil {
		return noPlan.At("")
	}
	if err := validHead(p); err != nil {
		return err
	}
	if err := schema().checkNumbers("", reflect.ValueOf(p).Elem()); err != nil {
		return err
	}
	if err := validCounts(p); err != nil {
		return err
	}
	if err := hiddenMember(p); err != nil {
		return err
	}
	site, err := siteIDs(p)
	if err != nil {
		return err
	}
	if err := validSite(&p.Site, site); err != nil {
		return err
	}
	rigs := make(map[ID]bool, len(p.Rigs))
	for i := range p.Rigs {
		r, path := &p.Rigs[i], at("/rigs", i)
		if err := validID(path, r.ID); err != nil {
			return err
		}
		if _, taken := site[r.ID]; taken || rigs[r.ID] {
			return doubled(path, r.ID)
		}
		rigs[r.ID] = true
		if err := validDoubts(path, schemaOf[Rig](), r.Doubts); err != nil {
			return err
		}
		if err := validRig(path, r, &p.Site, site); err != nil {
			return err
		}
		if err := validIncident(path+"/incident", r.Incident); err != nil {
			return err
		}
	}
	return validPhotos(p)
}

func validHead(p *Plan) error {
	zero := p.Format == "" && p.Version == 0 && p.MinReader == 0 // not yet stamped
	switch {
	case zero:
		return nil
	case p.Format != FormatName:
		return otherFormat.At("/format", quoted(p.Format), FormatName)
	case p.MinReader > CurrentVersion:
		return newer.At("/min_reader", p.MinReader, CurrentVersion)
	case p.Version < CurrentVersion:
		return noVersion.At("/version", p.Version)
	}
	return nil
}

func validCounts(p *Plan) error {
	s := &p.Site
	n := len(s.Vehicles) + len(s.Anchors) + len(s.Obstacles) + len(s.People) + len(s.Notes) + len(s.Measures) + len(s.Unknown)
	for i := range p.Rigs {
		r := &p.Rigs[i]
		n += 1 + len(r.Lines) + len(r.Blocks) + len(r.Slings) + len(r.Shackles) + len(r.Dampers) + len(r.Unknown)
	}
	if len(p.Rigs) > MaxRigs {
		return manyRigs.At("/rigs")
	}
	if n > MaxThings {
		return manyThings.At("")
	}
	if len(s.People)*max(1, len(p.Rigs)) > MaxPeopleInRigs {
		return manyPeople.At("/site/people", strconv.Itoa(MaxPeopleInRigs/max(1, len(p.Rigs))))
	}
	if s.Survey != nil && len(s.Survey.Points) > MaxSurveyPoints {
		return manyPoints.At("/site/survey/points")
	}
	if s.Underlay != nil && len(s.Underlay.Bytes) > MaxUnderlayBytes {
		return largePicture.At("/site/underlay/bytes")
	}
	return nil
}

const maxIDBytes = 64 // long enough for any generated id, short enough for a table column

func validID(path string, id ID) error {
	path += "/id"
	switch {
	case id == "":
		return idEmpty.At(path)
	case len(id) > maxIDBytes:
		return idLong.At(path, quoted(id))
	}
	for _, c := range string(id) { // "/" parts thing and point in the names of parts
		if c <= ' ' || c == '/' || c == 0x7f || c == '\uFFFD' {
			return idLetter.At(path, quoted(id), strconv.QuoteRune(c))
		}
	}
	return nil
}

func doubled(path string, id ID) error {
	return idTaken.At(path+"/id", quoted(id))
}

// ids tells what each id names while a plan is checked.
type ids map[ID]Slot

func (m ids) add(path string, id ID, s Slot) error {
	if err := validID(path, id); err != nil {
		return err
	}
	if _, taken := m[id]; taken {
		return doubled(path, id)
	}
	m[id] = s
	return nil
}

func siteIDs(p *Plan) (ids, error) {
	m := ids{}
	var err error
	eachSite(&p.Site, func(list string, i int, id ID, s Slot) {
		if err == nil {
			err = m.add(at("/site/"+list, i), id, s)
		}
	})
	return m, err
}

func validSite(s *Site, site ids) error {
	for i := range s.Vehicles {
		if err := validVehicle(at("/site/vehicles", i), &s.Vehicles[i]); err != nil {
			return err
		}
	}
	for i := range s.Anchors {
		a, path := &s.Anchors[i], at("/site/anchors", i)
		if err := validDoubts(path, schemaOf[Anchor](), a.Doubts); err != nil {
			return err
		}
		low := a.HoldLow.Or(0)
		if a.HoldLikely > 0 && low > a.HoldLikely || a.HoldLikely > 0 && a.HoldHigh > 0 && a.HoldLikely > a.HoldHigh || a.HoldHigh > 0 && low > a.HoldHigh {
			return holdOrder.At(path)
		}
	}
	for i := range s.Obstacles {
		o, path := &s.Obstacles[i], at("/site/obstacles", i)
		if err := validDoubts(path, schemaOf[Obstacle](), o.Doubts); err != nil {
			return err
		}
		if fault := OutlineFault(o.Outline); fault != nil {
			return badOutline.At(path+"/outline", fault)
		}
	}
	for i := range s.People {
		q, path := &s.People[i], at("/site/people", i)
		if err := validDoubts(path, schemaOf[Person](), q.Doubts); err != nil {
			return err
		}
		if q.Vehicle != "" && site[q.Vehicle].Kind != ThingVehicle {
			return noVehicle.At(path+"/in_vehicle", quoted(q.Vehicle))
		}
	}
	for i := range s.Measures {
		if n := len(s.Measures[i].Points); n < 2 || n > 3 {
			return measurePoints.At(at("/site/measures", i)+"/points", n)
		}
	}
	return validUnderlay("/site/underlay", s.Underlay)
}

func validVehicle(path string, v *Vehicle) error {
	if err := validDoubts(path, schemaOf[Vehicle](), v.Doubts); err != nil {
		return err
	}
	seen := make(map[ID]bool, len(v.Recovery))
	for i := range v.Recovery {
		id, path := v.Recovery[i].ID, at(path+"/recovery_points", i)
		if err := validID(path, id); err != nil {
			return err
		}
		if id == PortWinch {
			return idWinch.At(path+"/id", quoted(id))
		}
		if seen[id] {
			return pointTaken.At(path+"/id", quoted(id))
		}
		seen[id] = true
	}
	return nil
}

// validDoubts refuses ranges that run backwards or leave the bounds of the
// member they are of. A member that is not known here is kept.
func validDoubts(path string, n *node, doubts []Doubt) error {
	for i, d := range doubts {
		path := at(path+"/doubts", i)
		if slices.ContainsFunc(doubts[:i], func(o Doubt) bool { return o.Member == d.Member }) {
			return doubtTwice.At(path, quoted(d.Member))
		}
		if d.Low > d.High {
			return rangeBackwards.At(path, number(d.Low), number(d.High))
		}
		f := n.find(d.Member)
		if f == nil || f.bound == nil {
			continue
		}
		b := *f.bound
		b.least = 0 // an end of a range may lie at zero or just above
		if err := b.check(path+"/low", d.Low); err != nil {
			return err
		}
		if err := b.check(path+"/high", d.High); err != nil {
			return err
		}
	}
	return nil
}

// find is the member that a doubt names: of the thing itself, or of one of its
// parts as in "winch.line_pull_n".
func (n *node) find(member string) *field {
	for {
		name, rest, deeper := strings.Cut(member, ".")
		f := n.members[name]
		if f == nil || !deeper {
			return f
		}
		n, member = f.node, rest
	}
}

// schemaOf is the description of one kind of thing.
func schemaOf[T any]() *node { return things()[reflect.TypeFor[T]()] }

package drawing_test

import (
	"fmt"
	"time"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/trace"
)

// house is an installation made by folding events, with lines put in by hand.
type house struct {
	fold  *installation.Fold
	seq   uint64
	panel observation.Thing
	rooms map[string]observation.Thing
	tr    trace.Trace
}

func (h *house) add(subject observation.Thing, b observation.Body) observation.Thing {
	h.seq++
	id := observation.ID{Device: "k7m3qd8x2a", Seq: h.seq}
	o := observation.Observation{Who: "Marit Sandvei", Subject: subject, Body: b}
	if err := o.Check(time.Date(2025, 2, 18, 9, 0, 0, 0, time.UTC)); err != nil {
		panic(err)
	}
	h.fold.Add(observation.Event{ID: id, Observation: o, HLC: h.seq, Kind: b.Kind()})
	return id.Thing()
}

func newHouse(spaces int) *house {
	h := &house{fold: installation.NewFold(), rooms: map[string]observation.Thing{}}
	main := h.add("", observation.Building{Name: "Main house"})
	boat := h.add("", observation.Building{Name: "Boathouse"})
	for i, name := range []string{"Great room", "Kitchen", "Loft <hall> & stair"} {
		h.rooms[name] = h.add("", observation.Room{Building: main, Name: name, Order: i})
	}
	h.rooms["Boat bay"] = h.add("", observation.Room{Building: boat, Name: "Boat bay"})
	h.panel = h.add("", observation.Panel{Building: main, Name: "A1", Spaces: spaces, FedFrom: "SD1"})
	return h
}

// line records an opening with one line of the given standing.
func (h *house) line(room, number string, use observation.OpeningUse, s evidence.Standing, spaces ...int) *trace.Line {
	o := h.add("", observation.Opening{Room: h.rooms[room], Number: number, Use: use, Order: int(h.seq)})
	l := &trace.Line{End: observation.Point{At: o, Cable: "1", Wire: observation.Hot}}
	l.Verdict.Standing = s
	for i, space := range spaces {
		src := trace.Source{Kind: trace.FromSpace, At: trace.SpacePoint(h.panel, space)}
		if i == 0 {
			l.Source = src
		} else {
			l.Others = append(l.Others, src)
		}
	}
	h.tr.Lines = append(h.tr.Lines, l)
	return l
}

func (h *house) space(s observation.Space) { h.add(h.panel, s) }

func branch(n, poles int, wire, label string) observation.Space {
	return observation.Space{Number: n, Poles: poles, Amps: 20, Lands: observation.LandsBranch, Wire: wire, Label: label}
}

// sampleHouse is a panel with one of everything that a space may be.
func sampleHouse() *house {
	h := newHouse(16)
	h.space(branch(1, 1, "black 12", "LIVING N"))
	h.space(branch(2, 1, "red 12", ""))
	tied := branch(3, 1, "black 14", "")
	tied.Tied = observation.Yes
	h.space(tied)
	h.space(branch(5, 1, "", ""))
	range50 := branch(4, 2, "black 6", "RANGE?")
	range50.Amps = 50
	h.space(range50)
	h.space(observation.Space{Number: 7, Poles: 1, Amps: 15, Lands: observation.LandsNothing, Label: "spare"})
	h.space(observation.Space{Number: 8, Lands: observation.LandsNothing})
	h.space(observation.Space{Number: 9, Poles: 2, Amps: 60, Lands: observation.LandsFeeder, Wire: "black 3"})
	h.space(observation.Space{Number: 10, Lands: observation.LandsBranch, Cable: "4"})
	h.space(observation.Space{Number: 12, Poles: 1, Lands: observation.LandsBranch})
	h.space(observation.Space{Number: 14, Poles: 1, Amps: 20})
	for i := range 6 {
		h.line("Great room", fmt.Sprintf("A02-%02d", i+3), observation.Receptacle, evidence.Settled, 1)
	}
	h.line("Great room", "A02-12", observation.Lighting, evidence.Settled, 1)
	h.line("Kitchen", "A03-01", observation.Receptacle, evidence.Likely, 1)
	h.line("Kitchen", "A03-02", observation.Receptacle, evidence.Undecided, 2, 12)
	h.line("Kitchen", "A03-05", observation.Equipment, evidence.Settled, 4)
	h.line("Loft <hall> & stair", "A14-01", observation.Lighting, evidence.Clash, 3, 5)
	h.line("Boat bay", "C01-02", observation.NoUse, evidence.Settled, 10)
	h.line("Kitchen", "A03-09", observation.NoUse, evidence.Untested)
	join := &trace.Join{Panel: h.panel, A: 3, B: 5, Kind: trace.Joined}
	join.Verdict.Standing = evidence.Likely
	h.tr.Joins = []*trace.Join{join}
	return h
}

package report_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/quantity"
	"asfound/site"
	"asfound/trace"
)

// job is a site made by folding events, with lines put in by hand: what the
// sheets say of a line must not hang on how package trace came to it.
type job struct {
	fold *installation.Fold
	seq  uint64
	now  time.Time
	tr   trace.Trace
	seen []observation.ID             // what the next entry replaces
	at   map[string]observation.Thing // by name or number
}

func newJob() *job {
	return &job{fold: installation.NewFold(), now: time.Date(2025, 2, 18, 9, 0, 0, 0, time.UTC), at: map[string]observation.Thing{}}
}

func (j *job) add(subject observation.Thing, body observation.Body, under ...observation.ID) observation.ID {
	j.seq++
	j.now = j.now.Add(time.Minute)
	who := []string{"Marit Sandvei", "Dell Amoah"}[j.seq%2]
	id := observation.ID{Device: "k7m3qd8x2a", Seq: j.seq}
	o := observation.Observation{Who: who, Subject: subject, Under: under, Seen: j.seen, Body: body}
	if err := o.Check(j.now); err != nil {
		panic(err)
	}
	j.fold.Add(observation.Event{ID: id, Observation: o, HLC: j.seq, Wall: j.now, Kind: body.Kind()})
	return id
}

// building, room, panel and opening record a thing under its name.
func (j *job) building(name string) {
	j.at[name] = j.add("", observation.Building{Name: name}).Thing()
}

func (j *job) room(building, name string) {
	j.at[name] = j.add("", observation.Room{Building: j.at[building], Name: name, Order: int(j.seq)}).Thing()
}

func (j *job) panel(building, room, name string, spaces int) {
	j.at[name] = j.add("", observation.Panel{Building: j.at[building], Room: j.at[room], Name: name, Spaces: spaces}).Thing()
}

func (j *job) openings(room string, use observation.OpeningUse, numbers ...string) {
	for _, n := range numbers {
		number, note, _ := strings.Cut(n, "|")
		j.at[number] = j.add("", observation.Opening{Room: j.at[room], Number: number, Use: use, Note: note, Order: int(j.seq)}).Thing()
	}
}

func (j *job) space(panel string, s observation.Space) { j.add(j.at[panel], s) }

func (j *job) source(panel string, space int) trace.Source {
	return trace.Source{Kind: trace.FromSpace, At: trace.SpacePoint(j.at[panel], space)}
}

// line puts in a line of an opening's hot; others stand beside the best answer.
func (j *job) line(opening, cable string, standing evidence.Standing, best trace.Source, others ...trace.Source) *trace.Line {
	l := &trace.Line{End: observation.Point{At: j.at[opening], Cable: cable, Wire: observation.Hot}, Source: best, Others: others}
	l.Verdict.Standing = standing
	j.tr.Lines = append(j.tr.Lines, l)
	return l
}

func (j *job) asFound() *site.AsFound {
	tr := j.tr
	return &site.AsFound{Installation: j.fold.Installation(), Trace: &tr, Revision: int64(j.seq), State: fmt.Sprintf("x9q4wd-%d", j.seq), Taken: j.now}
}

// smallJob is two panels and fifteen openings in two buildings: most settled,
// two likely, one undecided, one clash, one untested, one that nothing reaches, one
// fed from the other building, one not read.
func smallJob() *job {
	j := newJob()
	j.building("Main house")
	j.building("Boathouse")
	for _, r := range []string{"Entry", "Great room", "Kitchen"} {
		j.room("Main house", r)
	}
	j.room("Boathouse", "Boat bay")
	j.panel("Main house", "Entry", "A1", 12)
	j.panel("Boathouse", "Boat bay", "C1", 8)
	j.openings("Entry", observation.Lighting, "A01-01")
	j.openings("Entry", observation.Switch, "A01-02")
	j.openings("Great room", observation.Receptacle, "A02-05", "A02-06", "A02-07", "A02-08", "A02-10")
	j.openings("Great room", observation.Lighting, "A02-12")
	j.openings("Kitchen", observation.Receptacle, "A03-01", "A03-02")
	j.openings("Kitchen", observation.Equipment, "A03-05|range")
	j.openings("Kitchen", observation.NoUse, "A03-09")
	j.openings("Boat bay", observation.Receptacle, "C01-01", "C01-02")
	j.openings("Boat bay", observation.Lighting, "C01-03")
	j.spaces()
	j.lines()
	return j
}

func (j *job) spaces() {
	branch := func(n, poles int, amps quantity.Amperes, wire, label string) observation.Space {
		return observation.Space{Number: n, Poles: poles, Amps: amps, Lands: observation.LandsBranch, Wire: wire, Label: label}
	}
	j.space("A1", branch(1, 1, 20, "black 12", "LIVING N"))
	j.space("A1", branch(2, 1, 15, "black 14", ""))
	j.space("A1", branch(3, 1, 20, "red 12", "GFI KIT"))
	tied := branch(4, 1, 15, "black 14", "")
	tied.Tied = observation.Yes
	j.space("A1", tied)
	j.space("A1", branch(5, 2, 50, "black 6", "RANGE?"))
	j.space("A1", observation.Space{Number: 7, Lands: observation.LandsBranch, Wire: "red 6"})
	j.space("A1", branch(6, 1, 15, "red 14", ""))
	j.space("A1", observation.Space{Number: 8, Poles: 1, Amps: 20, Lands: observation.LandsNothing, Label: "spare?"})
	j.space("A1", observation.Space{Number: 9, Lands: observation.LandsNothing})
	j.space("A1", observation.Space{Number: 10, Lands: observation.LandsBranch, Wire: "white 12"})
	j.space("A1", observation.Space{Number: 11, Poles: 1, Amps: 20})
	j.space("C1", observation.Space{Number: 1, Poles: 2, Amps: 30, Lands: observation.LandsFeeder, Wire: "black 8"})
	j.space("C1", observation.Space{Number: 3, Lands: observation.LandsFeeder})
	j.space("C1", branch(2, 1, 20, "black 12", ""))
	j.space("C1", branch(4, 1, 20, "black 12", "BAY"))
}

func (j *job) lines() {
	settled, likely := evidence.Settled, evidence.Likely
	j.line("A01-01", "1", settled, j.source("A1", 2))
	j.line("A01-02", "1", settled, j.source("A1", 2))
	for _, n := range []string{"A02-05", "A02-06", "A02-07"} {
		j.line(n, "1", settled, j.source("A1", 1))
	}
	j.line("A02-08", "1", settled, j.source("A1", 1))
	j.line("A02-08", "2", settled, j.source("C1", 4))
	j.line("A02-10", "1", evidence.Undecided, j.source("A1", 1), j.source("A1", 10))
	j.line("A02-12", "1", likely, j.source("A1", 2))
	clash := j.line("A03-01", "1", evidence.Clash, j.source("A1", 3), j.source("A1", 6))
	j.line("A03-02", "1", likely, j.source("A1", 3))
	j.line("A03-05", "1", settled, j.source("A1", 5))
	j.line("C01-01", "1", settled, j.source("C1", 2))
	j.line("C01-02", "1", settled, trace.Source{Kind: trace.Nothing})
	j.line("C01-03", "1", evidence.Untested, trace.Source{})
	j.tr.Clashes = []*trace.Clash{{Lines: []*trace.Line{clash}, Settle: trace.Settle{At: clash.End}}}
	join := &trace.Join{Panel: j.at["A1"], A: 4, B: 6, Kind: trace.Joined}
	join.Verdict.Standing = settled
	j.tr.Joins = []*trace.Join{join}
}

// withTour sets up a tour over both panels, with one resistor put on.
func (j *job) withTour() *job {
	id := j.add("", observation.Tour{Name: "Tour 1", Means: observation.ByResistor, Panels: []observation.Thing{j.at["A1"], j.at["C1"]},
		Tolerance: 0.01, MeterRelative: 0.009, MeterOhm: 0.3, NeutralJoined: observation.Yes})
	j.add("", observation.Resistor{On: trace.SpacePoint(j.at["A1"], 1), Ohm: 470}, id)
	j.add(j.at["A1"], observation.Isolation{A: []int{1}, Against: observation.AgainstSpaces, B: []int{2, 3, 4, 5, 6, 7, 10}})
	return j
}

func sample(t *testing.T) *site.AsFound {
	t.Helper()
	return smallJob().withTour().asFound()
}

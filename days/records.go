package days

import (
	"fmt"
	"slices"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/step"
	"asfound/trace"
)

// Minutes and worths of putting things on record (assumed). A worth is counted
// in lines, as trace.Proposal says; what a room that nobody counted holds is
// taken to be as much as the counted ones hold.
const (
	minutesBuilding = 1.0
	minutesPanel    = 2.0
	minutesOpening  = 1.0 // tape with number and letters, box looked into, recorded
	minutesRoom     = 1.0
	minutesFeeder   = 5.0
	minutesSources  = 10.0
	minutesDrawn    = 1.0
	minutesRelease  = 5.0
	minutesARead    = 0.6 // reading an opening, later

	worthRead    = 0.75 // an end not read that will be likely
	worthFeeder  = 1.0
	worthSources = 2.0
	worthDrawn   = 0.5
	worthRelease = 0.5

	roomsABuilding = 4 // of one nobody went through
	openingsARoom  = 6 // while no room was counted
)

// unrecorded are the steps before anything can be read; none of them when the
// job has a building, a panel and an opening.
func unrecorded(in *installation.Installation) []trace.Proposal {
	one := func(s step.Step) []trace.Proposal { return []trace.Proposal{{Step: s, Gain: 1}} }
	switch {
	case len(in.Buildings) == 0:
		return one(step.Step{Key: "buildings", Kind: step.Record, Where: "The property", Do: []string{"Record the first building."},
			WriteDown: "its name or letter", Reason: "Nothing is on record yet.", Minutes: minutesBuilding})
	case len(in.Panels) == 0:
		return one(step.Step{Key: "panels", Kind: step.Record, Where: "The panel", Do: []string{"Record the panel: its name and how many spaces it has.", "Photograph it as found."},
			WriteDown: "name, spaces", Reason: "Without a panel nothing can be traced to it.", Minutes: minutesPanel})
	case len(in.Openings) == 0:
		return one(step.Step{Key: "openings", Kind: step.Record, Where: "Room by room", Do: []string{"Walk the building.", "Put a tape with number and check letters on each opening.", "Record it."},
			WriteDown: "number, what it is for, gangs", Reason: "Openings need numbers before they are read.", Minutes: 30 * minutesOpening, Bring: []string{"tape", "marker"}})
	}
	return nil
}

// records are the steps that put on record what is missing there.
func records(in *installation.Installation) []trace.Proposal {
	out := rooms(in)
	for _, p := range in.Panels {
		if !fed(in, p.Thing) {
			out = append(out, trace.Proposal{Gain: worthFeeder, Step: step.Step{Key: "feeder " + string(p.Thing), Kind: step.FindFeed,
				Place: string(p.Thing), Where: "Panel " + p.Name,
				Caution:   "Open no cover for this. What a label says is a label's word.",
				Do:        []string{"Find what feeds the panel: the disconnect, the conduit, the label at its other end.", "Record from where it comes, and how you know."},
				WriteDown: "from where, from which space, how it is known", StopIf: "what you follow leads behind a cover",
				Reason: "What feeds it is not on record: a lock-out that misses a source leaves it live.", Minutes: minutesFeeder}})
		}
	}
	if len(in.Sources) == 0 {
		out = append(out, trace.Proposal{Gain: worthSources, Step: step.Step{Key: "sources", Kind: step.Sources, Where: "The property",
			Caution:   "Open no cover for this.",
			Do:        []string{"Walk around the buildings: service, generator, solar panels, batteries, supply of the building site.", "Record each, with what opens it and whether it can start by itself."},
			WriteDown: "name, what opens it, where that is", StopIf: "what you follow leads behind a cover",
			Reason: "Nothing is on record that can put voltage on this property, so nobody can tell what a lock-out has to hold.", Minutes: minutesSources}})
	}
	return append(out, drawn(in)...)
}

// fed reports whether a feeder to a panel is on record.
func fed(in *installation.Installation, panel observation.Thing) bool {
	for _, f := range in.Feeders {
		if f.To == panel {
			return true
		}
	}
	return false
}

// rooms are the steps of counting the openings of rooms, and the rooms of
// buildings, that nobody went through.
func rooms(in *installation.Installation) []trace.Proposal {
	openings, inBuilding := map[observation.Thing]int{}, map[observation.Thing]int{}
	for _, o := range in.Openings {
		openings[o.Room]++
	}
	expected := openingsARoom
	if len(openings) > 0 {
		expected = max(1, len(in.Openings)/len(openings))
	}
	var out []trace.Proposal
	for _, r := range in.Rooms {
		inBuilding[r.Building]++
		if openings[r.Thing] > 0 {
			continue
		}
		out = append(out, counting(step.Step{Key: "count " + string(r.Thing), Place: string(r.Thing), Where: r.Name,
			Do:        []string{"Put a tape with number and check letters on each opening.", "Record it. Write down what is covered too."},
			WriteDown: "number, what it is for, gangs, height", Reason: "No opening of this room is on record.",
			Minutes: minutesOpening * float64(expected)}, expected))
	}
	for _, b := range in.Buildings {
		if inBuilding[b.Thing] > 0 {
			continue
		}
		out = append(out, counting(step.Step{Key: "rooms " + string(b.Thing), Place: string(b.Thing), Where: b.Name,
			Do:        []string{"Walk the building.", "Record each room, floor by floor."},
			WriteDown: "name, floor", Reason: "No room of this building is on record.",
			Minutes: minutesRoom * roomsABuilding}, expected*roomsABuilding))
	}
	return out
}

// counting is a step that comes before so many openings can be read.
func counting(s step.Step, openings int) trace.Proposal {
	s.Kind, s.Bring = step.Record, []string{"tape", "marker"}
	s.Caution = "Look only: an open box counts as live until it is tested."
	s.StopIf = "bare copper stands out of a box"
	return trace.Proposal{Step: s, Gain: worthRead * float64(openings), Ahead: (minutesARead + minutesOpening) * float64(openings)}
}

// drawn are the steps of looking for what a drawing shows, one for each room.
func drawn(in *installation.Installation) []trace.Proposal {
	var out []trace.Proposal
	var marks []string
	for i, d := range in.Drawn {
		if d.Outcome == nil || d.Outcome.Body.(observation.Reconciled).Is == observation.NotLooked {
			marks = append(marks, in.Name(d.Thing))
		}
		if i+1 < len(in.Drawn) && in.Drawn[i+1].Room == d.Room || len(marks) == 0 {
			continue
		}
		if room := in.Room(d.Room); room != nil {
			out = append(out, trace.Proposal{Gain: worthDrawn * float64(len(marks)), Step: step.Step{Key: "drawn " + string(room.Thing), Kind: step.LookFor,
				Place: string(room.Thing), Where: room.Name, Caution: "Look only: nothing is opened or cut for this.",
				Do:        []string{"Look for: " + strings.Join(marks, ", ") + ".", "Say of each which opening it is, that no box was ever put there, or that it is covered."},
				WriteDown: "the number it has, or what shows that it is not there", StopIf: "finding it would take a cut into a finished surface",
				Reason:  fmt.Sprintf("The drawing shows %s here that nobody looked for.", counted(len(marks), "opening")),
				Minutes: minutesDrawn * float64(len(marks))}})
		}
		marks = nil
	}
	return out
}

// releases are the steps of taking off locks that no step and no tour needs:
// neither the panel itself, nor what power there would reach. While nobody knows
// what feeds a live opening, it may be any panel, and all locks stay.
func releases(in *installation.Installation, wiring []trace.Proposal) []trace.Proposal {
	if slices.ContainsFunc(wiring, func(p trace.Proposal) bool { return p.Kind == step.FindFeed }) {
		return nil
	}
	needed := neededDead(in, wiring)
	var out []trace.Proposal
	for _, p := range in.Panels {
		if !p.Locked() || reachesNeeded(in.Energizing(p.Thing, nil), needed) {
			continue
		}
		out = append(out, trace.Proposal{Gain: worthRelease, Step: step.Step{Key: "release " + string(p.Thing), Kind: step.Release, Place: string(p.Thing), Where: "Panel " + p.Name,
			Caution:   "Power may come on with the lock. Only who put a lock on takes it off, after everybody who works here was told and tools and people were counted.",
			Do:        []string{"Ask each person whether the panel has to stay dead.", "Close what is open and tell everybody.", "Take your own lock off, and record it. Energizing is a step of its own."},
			WriteDown: "which lock, who was told", StopIf: "anybody needs it dead, or does not answer",
			Reason: "No reading that is open needs it dead, and no tour stands on it.", Minutes: minutesRelease}})
	}
	return out
}

// reachesNeeded reports whether power would come to a tour's resistors or to a
// panel that is needed dead.
func reachesNeeded(power installation.Effect, needed map[observation.Thing]bool) bool {
	return len(power.Tours) > 0 || slices.ContainsFunc(power.Reached, func(p *installation.Panel) bool { return needed[p.Thing] })
}

// neededDead are the panels that a step or a standing tour needs dead. A tour
// that names no panel, by pairing, has to do with any circuit: it needs all.
func neededDead(in *installation.Installation, wiring []trace.Proposal) map[observation.Thing]bool {
	out := map[observation.Thing]bool{}
	for _, p := range wiring {
		for _, at := range p.Panels {
			out[observation.Thing(at)] = true
		}
		if p.Kind == step.ProveDead {
			out[observation.Thing(p.Place)] = true
		}
	}
	for _, t := range in.Tours {
		if t.Removed {
			continue
		}
		for _, at := range t.Panels {
			out[at] = true
		}
		for _, e := range t.Resistors {
			out[e.Body.(observation.Resistor).On.At] = true
		}
		for _, p := range in.Panels {
			out[p.Thing] = out[p.Thing] || len(t.Panels) == 0
		}
	}
	return out
}

// counted says how many of something there are: "1 opening", "12 openings".
func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

package scenario

import (
	"fmt"
	"slices"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/trace"
)

// Tells is how much of a fault of the demo property comes out.
type Tells string

// From most to least. Told is that the tool names the place and the thing.
// OnRecord is that what people noted shows it and nothing is concluded from it.
// InNote is that somebody wrote it down in his own words. PlaceOnly is that the
// tool names the place, or an effect there, and not the thing.
const (
	Told      Tells = "told"
	OnRecord  Tells = "on record"
	InNote    Tells = "in a note"
	PlaceOnly Tells = "place only"
	Untold    Tells = "untold"
)

// Tell is what comes out of one fault, and by what.
type Tell struct {
	Tells Tells
	By    string
}

// Told works out, for each fault of the demo property by its number, what comes
// out of it in a played job. It looks at what the tool says, at what is on record
// and at nothing else; the property itself only tells it what to look for.
func (p *Played) Told() map[string]Tell {
	w, at := p.World.(*PellamPoint)
	if !at {
		return nil
	}
	t := &teller{Played: p, world: w}
	out := map[string]Tell{}
	for _, f := range w.Found.Faults {
		tell := Tell{Tells: Untold}
		if say, known := shows[f.ID]; known {
			tell = say(t)
		}
		if tell.Tells == Untold || tell.Tells == PlaceOnly {
			if n := t.noteOn(f.ID); n != "" {
				tell = Tell{InNote, n}
			}
		}
		out[f.ID] = tell
	}
	return out
}

// shows says how the records and readings of a tour can show a fault. What is
// not here no such record or reading shows: the property's table of faults says
// what would.
var shows = map[string]func(*teller) Tell{
	"X01": func(t *teller) Tell { return t.odd(PlaceOnly, trace.TwoCircuits, "A03-03") },
	"X04": func(t *teller) Tell { return t.odd(PlaceOnly, trace.HotClosed, "C01-06", "C01-07", "C05-01") },
	"X05": func(t *teller) Tell { return t.odd(PlaceOnly, trace.TwoCircuits, "A12-01") },
	"X07": func(t *teller) Tell { return t.on(Told, "A11-01", "A1-38") },
	"X08": func(t *teller) Tell { return t.on(PlaceOnly, "A04-05", "A1-21") },
	"X09": (*teller).openRun,
	"X10": func(t *teller) Tell {
		return t.odd(PlaceOnly, trace.OutsideFeed, "A19-02", "A19-03", "A19-04", "A19-05", "A19-06")
	},
	"X11": func(t *teller) Tell {
		a, b := t.on(Told, "A16-05", "A2-02"), t.on(Told, "A16-05", "A2-03")
		if a.Tells != Told || b.Tells != Told {
			return Tell{Tells: Untold}
		}
		return Tell{Told, a.By + "; " + b.By}
	},
	"X14": func(t *teller) Tell { return t.missing(trace.NeutralMissing, observation.Neutral, "A15-05", "A15-06") },
	"X15": func(t *teller) Tell { return t.missing(trace.GroundMissing, observation.EGC, "A02-10") },
	"X17": func(t *teller) Tell {
		return t.conductors("short", func(c observation.Conductor) bool { return c.Length == 2 }, "A06-04", "A06-05", "A06-06", "A06-07", "A06-08", "A06-09")
	},
	"X18": func(t *teller) Tell {
		return t.openings("set back", func(o *installation.Opening) bool { return o.Depth > 0.25 }, "A02-11", "A14-02", "A14-03")
	},
	"X19": (*teller).fewerThanDrawn,
	"X20": func(t *teller) Tell { return t.conductors("a white hot", colored("white"), "A04-01") },
	"X23": (*teller).passThrough,
	"X25": func(t *teller) Tell { return t.space("A1", 2, 60, "8") },
	"X30": func(t *teller) Tell { return t.on(PlaceOnly, "D05-04", "D1-37") },
	"X34": func(t *teller) Tell { return t.conductors("a green hot", colored("green"), "D01-01", "D05-02") },
	"X36": (*teller).noNeutral,
	"X37": func(t *teller) Tell {
		size := t.conductors("size 8", func(c observation.Conductor) bool { return c.Wire == observation.Hot && c.Size == "8" }, "A03-13")
		on := t.on(OnRecord, "A03-13", "A1-05")
		if size.Tells != OnRecord || on.Tells != OnRecord {
			return Tell{Tells: Untold}
		}
		return Tell{OnRecord, size.By + "; " + on.By}
	},
}

// teller looks through a played job.
type teller struct {
	*Played
	world *PellamPoint
}

func (t *teller) opening(number string) *installation.Opening {
	for thing, box := range t.Box {
		if t.View.Boxes[box].Number == number {
			return t.AsFound.Opening(thing)
		}
	}
	return nil
}

// odd looks for an oddity of a kind at one of the openings.
func (t *teller) odd(as Tells, kind trace.OddityKind, numbers ...string) Tell {
	for _, o := range t.AsFound.Trace.Oddities {
		if box, known := t.Box[o.Place]; known && o.Kind == kind && slices.Contains(numbers, t.View.Boxes[box].Number) {
			return Tell{as, string(o.Kind) + ", " + t.View.Boxes[box].Number}
		}
	}
	return Tell{Tells: Untold}
}

// on looks for a firm line from an opening to where a circuit's home run really
// is.
func (t *teller) on(as Tells, number, circuit string) Tell {
	o := t.opening(number)
	if o == nil {
		return Tell{Tells: Untold}
	}
	for _, l := range t.AsFound.Trace.At(o.Thing) {
		for _, at := range append([]observation.Point{l.Source.At}, l.Source.Also...) {
			panel, known := t.Panel[at.At]
			if firm(l) && known && t.homeRun(Terminal{Panel: panel, Space: at.Space, Cable: at.Cable}) == circuit {
				return Tell{as, "line, " + number + " on " + circuit}
			}
		}
	}
	return Tell{Tells: Untold}
}

// homeRun is the circuit whose home run really ends on a terminal.
func (t *teller) homeRun(at Terminal) string {
	w := t.world.Found.Wiring
	node, _ := t.world.terminal(at)
	for _, n := range w.At(t.View.Panels[at.Panel].Name) {
		for _, wire := range w.Run(n).Conductors {
			if w.Touch(node, w.End(n, t.View.Panels[at.Panel].Name, wire)) {
				return w.Run(n).Circuit
			}
		}
	}
	return ""
}

// openRun wants a cable of which nothing arrives at the freezer, and a space of
// the panel that no line names.
func (t *teller) openRun() Tell {
	o := t.opening("A04-05")
	if o == nil {
		return Tell{Tells: Untold}
	}
	for _, l := range t.AsFound.Trace.At(o.Thing) {
		if l.Silent || firm(l) && l.Source.Kind == trace.Nothing {
			if len(t.AsFound.Trace.On(t.panel("A1").Thing, 26)) == 0 {
				return Tell{Told, "silent line, A04-05; no line on A1-26"}
			}
			return Tell{PlaceOnly, "silent line, A04-05"}
		}
	}
	return Tell{Tells: Untold}
}

func (t *teller) panel(name string) *installation.Panel {
	for _, p := range t.AsFound.Panels {
		if p.Name == name {
			return p
		}
	}
	return &installation.Panel{}
}

// missing looks for the oddity that a neutral or ground does not arrive, or for
// readings that show it: open to that, and not open to the other.
func (t *teller) missing(kind trace.OddityKind, wire observation.Wire, numbers ...string) Tell {
	if told := t.odd(Told, kind, numbers...); told.Tells == Told {
		return told
	}
	for _, number := range numbers {
		o := t.opening(number)
		if o == nil {
			continue
		}
		open, other := false, false
		for _, s := range o.Stops {
			for _, e := range s.Ohms {
				r := e.Body.(observation.Ohm)
				to := r.A.Wire == wire || r.B.Wire == wire
				open = open || to && r.Ohm.Open
				other = other || !to && !r.Ohm.Open
			}
		}
		if open && other {
			return Tell{OnRecord, "readings, " + number}
		}
	}
	return Tell{Tells: Untold}
}

// openings wants all of the openings recorded as a fault has them.
func (t *teller) openings(as string, is func(*installation.Opening) bool, numbers ...string) Tell {
	for _, n := range numbers {
		if o := t.opening(n); o == nil || !is(o) {
			return Tell{Tells: Untold}
		}
	}
	return Tell{OnRecord, as + ", " + numbers[0]}
}

// conductors wants, at each opening, some conductor recorded as a fault has it.
func (t *teller) conductors(as string, is func(observation.Conductor) bool, numbers ...string) Tell {
	return t.openings(as, func(o *installation.Opening) bool {
		return slices.ContainsFunc(o.Cables, func(c observation.CableEnd) bool { return slices.ContainsFunc(c.Conductors, is) })
	}, numbers...)
}

func colored(color string) func(observation.Conductor) bool {
	return func(c observation.Conductor) bool { return c.Wire == observation.Hot && c.Color == color }
}

// noNeutral wants the dryer's cable recorded without one.
func (t *teller) noNeutral() Tell {
	return t.openings("no neutral in the cable", func(o *installation.Opening) bool {
		return len(o.Cables) > 0 && !slices.ContainsFunc(o.Cables, func(c observation.CableEnd) bool {
			return slices.ContainsFunc(c.Conductors, func(x observation.Conductor) bool { return x.Wire == observation.Neutral })
		})
	}, "A09-03")
}

// passThrough wants the conductors counted that pass through A2: the tool warns
// of them wherever it says that the panel is dead.
func (t *teller) passThrough() Tell {
	count := 0
	for _, x := range t.panel("A2").Passes {
		count += x.Count
	}
	if count == 0 {
		return Tell{Tells: Untold}
	}
	return Tell{Told, fmt.Sprintf("%d conductors pass through A2", count)}
}

// space wants a space recorded with its rating and the size on it.
func (t *teller) space(panel string, space int, amps float64, size string) Tell {
	s, seen := t.panel(panel).Seen[space]
	if !seen || float64(s.Amps) != amps || !strings.HasSuffix(s.Wire, " "+size) {
		return Tell{Tells: Untold}
	}
	return Tell{OnRecord, fmt.Sprintf("%s-%d, %v on size %s", panel, space, s.Amps, size)}
}

// fewerThanDrawn wants more receptacles drawn in the study, and more luminaires
// in bedroom 3, than are on record there.
func (t *teller) fewerThanDrawn() Tell {
	for _, c := range []struct {
		covered string
		use     observation.OpeningUse
	}{{"A11-05", observation.Receptacle}, {"A16-09", observation.Lighting}} {
		room := t.roomOf(c.covered)
		drawn, found := 0, 0
		for _, d := range t.AsFound.Drawn {
			if d.Room == room && d.Use == c.use {
				drawn++
			}
		}
		for _, o := range t.AsFound.In(room) {
			if o.Use == c.use {
				found++
			}
		}
		if found >= drawn {
			return Tell{Tells: Untold}
		}
	}
	return Tell{PlaceOnly, "fewer than drawn in A11 and A16"}
}

func (t *teller) roomOf(number string) observation.Thing {
	room, _, _ := strings.Cut(number, "-")
	for _, r := range t.AsFound.Rooms {
		if strings.HasPrefix(r.Name, room+" ") {
			return r.Thing
		}
	}
	return ""
}

// noteOn is a note that bears on a fault and stands, or "".
func (t *teller) noteOn(fault string) string {
	for _, n := range t.world.Work.Notes {
		if _, stands := t.Noted[n.ID]; stands && n.Fault == fault {
			return n.ID
		}
	}
	return ""
}

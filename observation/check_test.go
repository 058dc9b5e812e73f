package observation

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"asfound/quantity"
)

func at(cable string, wire Wire) Point { return Point{At: opening, Cable: cable, Wire: wire} }

// refusals are bodies that no building could make right.
var refusals = []struct {
	name  string
	body  Body
	field string
	say   string
}{
	{"building without a name", Building{Name: "  "}, "name", "Give the building a name or a letter."},
	{"room of no building", Room{Name: "kitchen"}, "building", "Say which building the room is in."},
	{"room without a name", Room{Building: building}, "name", "Give the room a name or a number."},
	{"room on floor 200", Room{Building: building, Name: "kitchen", Floor: 200}, "floor",
		"Type the floor as a small number: 0 is the main floor, -1 the one below."},
	{"letter O for zero", Opening{Room: room, Number: "A02-O8"}, "number", "A02-O8 has a letter where a figure belongs. Type A02-08."},
	{"letter l for one", Opening{Room: room, Number: "A02-l8"}, "number", "A02-l8 has a letter where a figure belongs. Type A02-18."},
	{"opening without a number", Opening{Room: room}, "number", "Type the number on the tape."},
	{"opening in no room", Opening{Number: "A02-08"}, "room", "Say which room the opening is in."},
	{"13 gangs", Opening{Room: room, Number: "A02-08", Gangs: 13}, "gangs", "Type the gangs as a number from 1 to 12."},
	{"box below the floor", Opening{Room: room, Number: "A02-08", Height: -1}, "height", "Type heights and depths in inches, not below zero."},
	{"use that is not in the list", Opening{Room: room, Number: "A02-08", Use: "tv"}, "use",
		"Choose what the opening is for from the list, or leave it as not known."},
	{"31 spaces", Panel{Building: building, Name: "A1", Spaces: 31}, "spaces",
		"Count the spaces of both columns: an even number from 2 to 84."},
	{"panel of no building", Panel{Name: "A1", Spaces: 30}, "building", "Say which building the panel is in."},
	{"panel without a name", Panel{Building: building, Spaces: 30}, "name", "Give the panel the name on its tape."},
	{"space 0", Space{Number: 0}, "space", "Spaces are numbered from 1."},
	{"space -3", Space{Number: -3}, "space", "Spaces are numbered from 1."},
	{"three poles", Space{Number: 1, Poles: 3}, "poles", "Type 1 or 2 poles."},
	{"breaker of 12,000 A", Space{Number: 1, Amps: 12000}, "amps", "Type the ampere rating on the breaker handle."},
	{"tied maybe", Space{Number: 1, Tied: "maybe"}, "tied", "Answer yes, no, or leave it as not known."},
	{"something else lands", Space{Number: 1, Lands: "bird"}, "lands", "Choose what lands on the space from the list."},
	{"cable without a tag", CableEnd{}, "tag", "Give the cable a tag: 1, 2, 3 as they enter."},
	{"two hots", CableEnd{Tag: "1", Conductors: []Conductor{{Wire: Hot}, {Wire: Hot}}}, "conductors",
		"Two conductors are called hot. Number them: hot 1, hot 2."},
	{"conductor without a name", CableEnd{Tag: "1", Conductors: []Conductor{{}}}, "conductors",
		"Name each conductor: hot, neutral, egc, or its color."},
	{"conductor shorter than nothing", CableEnd{Tag: "1", Conductors: []Conductor{{Wire: Hot, Length: -1}}}, "conductors",
		"Type the free length in inches, not below zero."},
	{"conductor found flying", CableEnd{Tag: "1", Conductors: []Conductor{{Wire: Hot, State: "flying"}}}, "conductors",
		"Choose how the conductor was found from the list."},
	{"raceway without a tag", Raceway{}, "tag", "Give the raceway a tag: R1, R2 as they enter."},
	{"raceway of -1 in", Raceway{Tag: "R1", Size: -1}, "size", "Type the trade size in inches, such as 3/4."},
	{"raceway with -1 conductors", Raceway{Tag: "R1", Count: -1}, "count", "Count the conductors in the raceway."},
	{"nothing passes through", PassThrough{}, "count", "Count the conductors that pass through."},
	{"cabinet not measured", Cabinet{}, "width", "Type at least one size."},
	{"cabinet of -3 in", Cabinet{Width: -3}, "width", "Type sizes in inches, not below zero."},
	{"an edge that is no number", Cabinet{Set: new(quantity.Inches(math.NaN()))}, "set", "Type how far the front edge is behind the finished surface, in inches."},
	{"photograph cut off", Photo{Hash: "ba78", Type: "image/png", Bytes: 3}, "photo", "This photograph did not arrive whole. Add it again."},
	{"photograph that is a letter", Photo{Hash: strings.Repeat("0", 64), Type: "text/html", Bytes: 3}, "photo", "Add a JPEG or PNG picture."},
	{"empty photograph", Photo{Hash: strings.Repeat("0", 64), Type: "image/png"}, "photo", "This picture is empty. Add it again."},
	{"isolation of nothing", Isolation{Against: AgainstEGC}, "a", "Say which space the first lead was on."},
	{"isolation against itself", Isolation{A: []int{1, 3}, Against: AgainstSpaces, B: []int{3}}, "b",
		"Space 3 is named twice: a conductor cannot be read against itself."},
	{"isolation of space 0", Isolation{A: []int{0}, Against: AgainstEGC}, "a", "Spaces are numbered from 1."},
	{"isolation against no space", Isolation{A: []int{1}, Against: AgainstSpaces}, "b", "Say which spaces the second lead was on."},
	{"isolation against a bar and spaces", Isolation{A: []int{1}, Against: AgainstEGC, B: []int{2}}, "b",
		"The second lead was on a bar or on spaces, not both."},
	{"isolation against the wall", Isolation{A: []int{1}, Against: "wall"}, "against",
		"Say what the reading was taken against: spaces, neutral bar or ground bar."},
	{"tour without means", Tour{Name: "A"}, "means", "Choose how this tour tells circuits apart."},
	{"resistors of 50 percent", Tour{Name: "A", Means: ByResistor, Tolerance: 0.5}, "tolerance",
		"Type the tolerance on the resistor bag, from 0.1 to 20 percent."},
	{"meter below zero", Tour{Name: "A", Means: ByResistor, MeterOhm: -1}, "meter",
		"Type the error from the meter's booklet: percent of reading, and ohms."},
	{"tour without a name", Tour{Means: ByResistor}, "name", "Give the tour a name."},
	{"resistor of 0 ohms", Resistor{On: at("1", Hot)}, "ohm", "Type the value of the resistor, above zero."},
	{"resistor of -2490 ohms", Resistor{On: at("1", Hot), Ohm: -2490}, "ohm", "Type the value of the resistor, above zero."},
	{"resistor from ground to ground", Resistor{On: at("1", EGC), Ohm: 2490}, "on",
		"The resistor goes from a conductor to the ground: name the conductor."},
	{"removed with a bell", Removed{Note: "\a"}, "note", "There is a sign in this text that cannot be printed. Type it again."},
	{"read back nowhere", ReadBack{}, "at", "Say at which opening or panel."},
	{"ohms below zero", Ohm{A: at("2", Hot), B: at("2", EGC), Ohm: quantity.Resistance{Ohm: -3}}, "ohm",
		"Type what the ohmmeter shows: ohms from zero up, or open."},
	{"read-back of no number", ReadBack{At: at("1", Hot), Ohm: quantity.Resistance{Ohm: quantity.Ohms(math.NaN())}}, "ohm",
		"Type what the ohmmeter shows: ohms from zero up, or open."},
	{"isolation below zero", Isolation{A: []int{1}, Against: AgainstEGC, Ohm: quantity.Resistance{Ohm: -1}}, "ohm",
		"Type what the ohmmeter shows: ohms from zero up, or open."},
	{"resistor of no number", Resistor{On: at("1", Hot), Ohm: quantity.Ohms(math.NaN())}, "ohm", "Type the value of the resistor, above zero."},
	{"conductor with a space after it", Ohm{A: at("2", "hot "), B: at("2", EGC)}, "a",
		"Type the conductor without spaces before or after it."},
	{"size no gauge has", CableEnd{Tag: "1", Conductors: []Conductor{{Wire: Hot, Size: "bell wire"}}}, "conductors",
		"Type the conductor size as it is marked, such as 12 or 1/0."},
	{"conductor against itself", Ohm{A: at("2", Hot), B: at("2", Hot)}, "b",
		"Both leads are on the same conductor. Say where the second lead was."},
	{"leads at two places", Ohm{A: at("2", Hot), B: Point{At: panel, Wire: EGC}}, "b",
		"An ohm reading has both leads at one place. Record the other place on its own."},
	{"lead on no conductor", Ohm{A: at("2", ""), B: at("2", EGC)}, "a", "Say which conductor."},
	{"lead on space -1", Ohm{A: Point{At: panel, Space: -1, Wire: Hot}, B: Point{At: panel, Wire: EGC}}, "a", "Spaces are numbered from 1."},
	{"three check letters", Letters{Letters: "KTX"}, "letters", "Type the two letters on the tape of this opening."},
	{"figures for letters", Letters{Letters: "K7"}, "letters", "Type the two letters on the tape of this opening."},
	{"room not looked at", RoomCheck{}, "all", "Look at each opening of the room: does every one bear its mark? Answer yes or no."},
	{"feed joined to itself", Joined{Feed: at("1", Hot), Leg: at("1", Hot)}, "leg",
		"Feed and leg are the same conductor. Say which one goes to the lamp."},
	{"joined over two boxes", Joined{Feed: at("1", Hot), Leg: Point{At: "k7m3qd8x2a-45", Cable: "1", Wire: Hot}}, "leg",
		"Feed and leg are joined in one box. Choose one opening."},
	{"lock without a tag", LockOut{}, "device", "Say which lock: its tag or number."},
	{"lock on space 0", LockOut{Spaces: []int{0}, Device: "lock 4"}, "spaces", "Spaces are numbered from 1."},
	{"perhaps dead", ProvenDead{Absent: "perhaps"}, "absent", "Answer yes, no, or leave it as not known."},
	{"cannot read, no reason", CannotRead{}, "why", "Say in a few words why it could not be read."},
	{"not reached, with a bell", NotReached{Why: "\a"}, "why", "There is a sign in this text that cannot be printed. Type it again."},
	{"decision without a reason", Decision{About: "A1-34"}, "reason", "Write the reason in a few words: it is kept with the line."},
	{"decision about nothing", Decision{Reason: "so"}, "about", "Say which line the decision is about."},
	{"withdrawn without a reason", Withdrawal{}, "reason", "Write why it is withdrawn: wrong opening, misread, wrong unit ..."},
	{"note of 2,001 signs", Removed{Note: strings.Repeat("x", 2001)}, "note", "This text is too long to keep as one note. Split it."},
	{"note that is not text", Removed{Note: "\xff"}, "note", "There is a sign in this text that cannot be printed. Type it again."},
	{"a room nothing of which was measured", RoomSize{}, "width", "Type at least one size."},
	{"a room below zero wide", RoomSize{Width: -1}, "width", "Type the size in feet or inches, not below zero."},
	{"a ceiling that is no number", RoomSize{Ceiling: quantity.Inches(math.NaN())}, "ceiling", "Type the size in feet or inches, not below zero."},
	{"a doorway in the ceiling", Doorway{Wall: Overhead, To: 30}, "wall", "Choose the wall it is in."},
	{"a doorway from right to left", Doorway{Wall: FrontWall, From: 66, To: 30}, "to", "It ends before it begins. Measure both from the left end of the wall, facing it."},
	{"a spot on no wall", Spot{Along: 3}, "wall", "Choose the wall it is in, or ceiling or floor."},
	{"a spot below zero", Spot{Wall: FrontWall, Along: -3}, "along", "Type the distance in feet or inches, not below zero."},
	{"plate not looked at", Plate{}, "on", "Say whether the plate is on."},
	{"a path to nowhere", Path{Feet: 3}, "to", "Say to which building."},
	{"a path of no length", Path{To: building}, "feet", "Type the length of the way in feet."},
	{"drawn in no room", Drawn{}, "room", "Say in which room the drawing shows it."},
	{"drawn for an unknown use", Drawn{Room: room, Use: "sundries"}, "use", "Choose what the opening is for from the list, or leave it as not known."},
	{"found, but not which", Reconciled{Is: FoundAs}, "as", "Say which opening it is."},
	{"never roughed, with nothing to show it", Reconciled{Is: NeverRoughed}, "how", "Say what shows it: what was looked at, and what was seen."},
	{"never roughed, and found", Reconciled{Is: NeverRoughed, As: opening, How: "x"}, "as", "It was not found: leave the opening empty, or say that it was found."},
	{"an outcome of our own making", Reconciled{Is: "lost"}, "is", "Choose what became of it from the list."},
	{"a source without a name", Source{Of: Utility}, "name", "Give the source a name: utility, generator at the garage ..."},
	{"a source of no kind", Source{Name: "x"}, "of", "Choose what kind of source it is from the list."},
	{"a feeder to nowhere", Feeder{From: panel}, "to", "Say which panel it supplies."},
	{"a feeder to where it comes from", Feeder{From: panel, To: panel}, "from", "A feeder comes from another panel or from a source."},
	{"a feeder from a space of no panel", Feeder{Space: 3, To: panel}, "space", "Say at which panel the space is."},
	{"energized in space 0", Energized{Spaces: []int{0}}, "spaces", "Spaces are numbered from 1."},
	{"released no lock", Released{}, "locks", "Say which locks were taken off."},
	{"told nobody", Told{Of: "lock-out"}, "person", "Say who was told."},
	{"told of nothing", Told{Person: "Tomas Veil"}, "of", "Say of what: lock-out, release, live test."},
	{"a note without words", Note{Text: "  "}, "text", "Write the note."},
}

func TestRefused(t *testing.T) {
	var covered []string
	for _, c := range refusals {
		covered = append(covered, c.body.Kind())
		t.Run(c.name, func(t *testing.T) {
			err := Observation{Who: "Tomas Veil", Body: c.body}.Check(time.Now())
			var got Unusable
			if !errors.As(err, &got) {
				t.Fatalf("got %v, want it refused", err)
			}
			if got.Field != c.field || got.Say != c.say {
				t.Errorf("got %s: %q, want %s: %q", got.Field, got.Say, c.field, c.say)
			}
		})
	}
	for _, kind := range Kinds() {
		if !slices.Contains(covered, kind) {
			t.Errorf("nothing is refused in kind %s", kind)
		}
	}
}

func TestAccepted(t *testing.T) {
	for name, body := range map[string]Body{
		"space 33, which this panel may not have": Space{Number: 33},
		"building O, first sign a letter":         Opening{Room: room, Number: "O2-08"},
		"letters in small and apart":              Letters{Letters: "k t"},
		"an open reading":                         Ohm{A: at("1", Hot), B: at("1", Neutral), Ohm: quantity.Resistance{Open: true}},
		"hot of one cable to hot of another":      Ohm{A: at("1", Hot), B: at("2", Hot)},
		"dead not looked at":                      ProvenDead{},
		"a cabinet that stands proud":             Cabinet{Set: new(quantity.Inches(-0.25))},
		"a cabinet that is flush":                 Cabinet{Set: new(quantity.Inches(0))},
		"not reached, no reason":                  NotReached{},
		"a name in HTML, which is text":           Building{Name: "<b>A</b>"},
	} {
		if err := (Observation{Who: "Tomas Veil", Body: body}).Check(time.Now()); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestObservationCheck(t *testing.T) {
	now := time.Date(2026, 3, 9, 8, 30, 0, 0, time.UTC)
	usable := Observation{Who: "Dell Amoah", Body: Building{Name: "A"}}
	for name, c := range map[string]struct {
		change func(*Observation)
		field  string
	}{
		"taken yesterday":        {func(o *Observation) { o.Taken = now.Add(-24 * time.Hour) }, ""},
		"a watch 9 minutes fast": {func(o *Observation) { o.Taken = now.Add(9 * time.Minute) }, ""},
		"taken tomorrow":         {func(o *Observation) { o.Taken = now.Add(24 * time.Hour) }, "taken"},
		"nobody took it":         {func(o *Observation) { o.Who = " " }, "who"},
		"nothing to record":      {func(o *Observation) { o.Body = nil }, "kind"},
		"body refused":           {func(o *Observation) { o.Body = Building{} }, "name"},
	} {
		t.Run(name, func(t *testing.T) {
			o := usable
			c.change(&o)
			err := o.Check(now)
			var got Unusable
			if errors.As(err, &got); got.Field != c.field || (err == nil) != (c.field == "") {
				t.Errorf("got %v, want field %q", err, c.field)
			}
		})
	}
}

func TestProvenDeadHolds(t *testing.T) {
	for _, c := range []struct {
		before, absent, after Known
		want                  bool
	}{
		{Yes, Yes, Yes, true}, {NotKnown, Yes, Yes, false}, {Yes, NotKnown, Yes, false}, {Yes, Yes, NotKnown, false},
		{No, Yes, Yes, false}, {Yes, No, Yes, false}, {Yes, Yes, No, false}, {NotKnown, NotKnown, NotKnown, false},
	} {
		if got := (ProvenDead{Before: c.before, Absent: c.absent, After: c.after}).Holds(); got != c.want {
			t.Errorf("before %q, absent %q, after %q: %v, want %v", c.before, c.absent, c.after, got, c.want)
		}
	}
}

package web

import (
	"fmt"
	"strings"

	"asfound/days"
	"asfound/installation"
	"asfound/observation"
)

// kindWord names a kind of observation.
func kindWord(kind string) string {
	stem, _, _ := strings.Cut(kind, ".")
	if say, ok := map[string]string{
		"building": "building", "room": "room", "opening": "opening", "panel": "panel", "space": "space",
		"cable": "cable end", "raceway": "raceway", "passthrough": "pass-through", "cabinet": "cabinet size",
		"photo": "photograph", "isolation": "isolation reading", "tour": "tour", "resistor": "resistor put on",
		"removed": "set-up taken down", "readback": "blind read-back", "ohm": "ohm reading", "letters": "check letters",
		"roomcheck": "look around the room", "joined": "join made on purpose", "lockout": "lock-out",
		"dead": "absence-of-voltage test", "cannotread": "could not be read", "notreached": "not reached",
		"decision": "the lead's decision", "withdrawal": "withdrawal",
		"roomsize": "room size", "doorway": "doorway", "spot": "place in the room", "plate": "plate", "path": "way between buildings",
		"drawn": "opening on a drawing", "reconciled": "drawing against building", "source": "source", "feeder": "feeder",
		"energized": "power put on", "released": "lock taken off", "told": "told", "note": "note",
	}[stem]; ok {
		return say
	}
	return kind
}

// entryWords says an observation in one line, without who and when.
func entryWords(in *installation.Installation, e observation.Event) string {
	switch b := e.Body.(type) {
	case observation.Ohm:
		return fmt.Sprintf("%s, %s to %s: %s", in.Name(b.A.At), b.A, wireWord(b.B.Wire), b.Ohm)
	case observation.Letters:
		return fmt.Sprintf("%s, letters on the tape: %s", in.Name(e.Subject), strings.ToUpper(b.Letters))
	case observation.Resistor:
		return fmt.Sprintf("Resistor of %s put on %s", b.Ohm, in.PointName(b.On))
	case observation.ReadBack:
		return fmt.Sprintf("%s read back: %s", in.PointName(b.At), b.Ohm)
	case observation.Isolation:
		return fmt.Sprintf("Panel %s, %s: %s", in.Name(e.Subject), isolationWords(b.A, b.Against, b.B, false), b.Ohm)
	case observation.Tour:
		return "Tour set up: " + b.Name
	case observation.Removed:
		return "Taken down: " + underWords(in, e)
	case observation.RoomCheck:
		return roomCheckWords(in, e, b)
	case observation.Joined:
		return fmt.Sprintf("%s, %s joined to %s on purpose", in.Name(b.Feed.At), b.Feed, b.Leg)
	case observation.Withdrawal:
		return "Withdrawn: " + b.Reason
	case observation.Decision:
		return decisionWords(in, e, b)
	case nil:
		return "An entry of a kind this program does not know: " + e.Kind
	}
	return thingWords(in, e)
}

// decisionWords says a step put off, another one chosen, or the lead's word.
func decisionWords(in *installation.Installation, e observation.Event, b observation.Decision) string {
	if chosen, ok := days.Chosen(b.Answer); ok {
		return fmt.Sprintf("Proposed: %s. Chosen instead: %s.", stepKeyWords(in, b.About), stepKeyWords(in, chosen))
	}
	if b.Answer == observation.NotNow {
		return "Put off: " + stepKeyWords(in, b.About) + ". Reason: " + b.Reason
	}
	now := in.NamesSince(e)
	return fmt.Sprintf("Decided: %s. Instead: %s. Reason: %s", now.In(b.About), now.In(b.Answer), b.Reason)
}

// thingWords says what was recorded of a thing itself.
func thingWords(in *installation.Installation, e observation.Event) string {
	name := in.Name(e.Subject)
	switch b := e.Body.(type) {
	case observation.Building:
		return "Building " + b.Name
	case observation.Room:
		return "Room " + b.Name
	case observation.Opening:
		return fmt.Sprintf("Opening %s, %s", b.Number, useWord(b.Use))
	case observation.Panel:
		return fmt.Sprintf("Panel %s, %d spaces", b.Name, b.Spaces)
	case observation.Space:
		return spaceWords(name, b)
	case observation.CableEnd:
		return strings.Join(nonEmpty(fmt.Sprintf("%s, cable %s: %s", name, b.Tag, conductorWords(b)), markWords(b.Mark)), ", ")
	case observation.Raceway:
		return name + ", " + racewayWords(b)
	case observation.PassThrough:
		return "Panel " + name + ": " + passWords(b)
	case observation.Cabinet:
		return "Panel " + name + ", " + cabinetWords(b)
	case observation.Photo:
		return strings.TrimSuffix(name+", photograph: "+b.Caption, ": ")
	case observation.LockOut:
		return lockOutWords(placeTitle(in, e.Subject), b)
	case observation.ProvenDead:
		return deadWords(name, b)
	case observation.CannotRead:
		return strings.Join(nonEmpty(name, b.What, "could not be read", b.Why), ", ")
	case observation.NotReached:
		return strings.Join(nonEmpty(name, "not reached", b.Why), ", ")
	}
	return siteWords(in, e)
}

func spaceWords(panel string, s observation.Space) string {
	out := fmt.Sprintf("%s-%d: %s", panel, s.Number, breakerWords(s))
	if s.Label != "" {
		out += ", label as found “" + s.Label + "”"
	}
	return strings.TrimSuffix(out, ": ")
}

// conductorWords lists a cable's conductors as seen.
func conductorWords(c observation.CableEnd) string {
	var parts []string
	for _, w := range c.Conductors {
		part := wireWord(w.Wire)
		if w.State != observation.StateNotSeen {
			part += " " + string(w.State)
		}
		parts = append(parts, part)
	}
	if len(parts) == 0 {
		return "conductors not looked at"
	}
	return strings.Join(parts, ", ")
}

func lockOutWords(name string, b observation.LockOut) string {
	what := "supply"
	if len(b.Spaces) > 0 {
		what = "space " + spaceList(b.Spaces)
	}
	return strings.Join(nonEmpty(fmt.Sprintf("%s, %s locked out: “%s”", name, what, b.Device), keyWords(b.Key), toldWords(b.Told)), ", ")
}

// deadWords says an absence-of-voltage test by its three answers.
func deadWords(name string, b observation.ProvenDead) string {
	if b.Holds() {
		return name + " proven dead"
	}
	found := map[observation.Known]string{observation.Yes: "no voltage found", observation.No: "voltage found", observation.NotKnown: "not known what it showed"}
	return fmt.Sprintf("%s, absence-of-voltage test: %s; tester answered before: %s, after: %s",
		name, found[b.Absent], knownWord(b.Before), knownWord(b.After))
}

func roomCheckWords(in *installation.Installation, e observation.Event, b observation.RoomCheck) string {
	name := in.Name(e.Subject)
	if b.All == observation.Yes {
		return name + ": every opening read bears its mark"
	}
	var without []string
	for _, t := range b.Without {
		without = append(without, in.Name(t))
	}
	return fmt.Sprintf("%s: not every opening bears its mark %s", name, strings.Join(without, ", "))
}

func underWords(in *installation.Installation, e observation.Event) string {
	if len(e.Under) == 0 {
		return "a set-up"
	}
	return in.Name(e.Under[0].Thing())
}

func knownWord(k observation.Known) string {
	if k == observation.NotKnown {
		return "not known"
	}
	return string(k)
}

func nonEmpty(parts ...string) []string {
	var out []string
	for _, p := range parts {
		if p != "" {
			out = append(out, p)
		}
	}
	return out
}

package web

import (
	"cmp"
	"fmt"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/quantity"
)

// siteWords says what was recorded of the plan, the drawings, the supply and the
// safety of the place.
func siteWords(in *installation.Installation, e observation.Event) string {
	name := in.Name(e.Subject)
	switch b := e.Body.(type) {
	case observation.RoomSize:
		return name + ": " + sizeWords(b)
	case observation.Doorway:
		return fmt.Sprintf("%s, %s wall: %s from %s to %s", name, b.Wall, cmp.Or(b.What, "doorway"), b.From.Span(), b.To.Span())
	case observation.Spot:
		return name + ": " + spotWords(b)
	case observation.Plate:
		return name + ", plate on: " + knownWord(b.On)
	case observation.Path:
		return fmt.Sprintf("From %s to %s on foot: %s", name, in.Name(b.To), b.Feet)
	case observation.Drawn:
		return fmt.Sprintf("On the drawing, %s: %s", in.Name(b.Room), strings.Join(nonEmpty(b.Mark, useWord(b.Use), b.What), ", "))
	case observation.Reconciled:
		return strings.Join(nonEmpty("Drawn as "+name+": "+outcomeWord(b.Is), asWords(in, b.As), b.How), ", ")
	case observation.Source:
		return strings.Join(nonEmpty("Source "+b.Name, sourceOfWord(b), b.Disconnect, startsWords(b), b.Note), ", ")
	case observation.Feeder:
		return feederWords(in, b)
	case observation.Note:
		return strings.TrimPrefix(name+": "+b.Text, "not recorded: ")
	}
	return powerWords(name, e)
}

// powerWords says what was recorded of power put on and locks taken off.
func powerWords(name string, e observation.Event) string {
	switch b := e.Body.(type) {
	case observation.Energized:
		what := "Power put on at "
		if b.Found {
			what = "Power found on at "
		}
		return strings.Join(nonEmpty(what+name, atSpaces(b.Spaces), b.Why, toldWords(b.Told)), ", ")
	case observation.Released:
		return strings.Join(nonEmpty(fmt.Sprintf("%s: %s taken off", name, counted(len(b.Locks), "lock")), toldWords(b.Told), b.Note), ", ")
	case observation.Told:
		return fmt.Sprintf("%s: %s was told of the %s", name, b.Person, b.Of)
	}
	return kindWord(e.Kind)
}

func sizeWords(r observation.RoomSize) string {
	var out []string
	if r.Width > 0 || r.Depth > 0 {
		out = append(out, fmt.Sprintf("%s wide, %s deep", measured(r.Width), measured(r.Depth)))
	}
	if r.Ceiling > 0 {
		out = append(out, "ceiling at "+r.Ceiling.Span())
	}
	if c := r.Corner; c != nil {
		out = append(out, fmt.Sprintf("front left corner %s to the right and %s back", c.Right.Span(), c.Back.Span()))
	}
	if r.Spaced != observation.NotKnown {
		out = append(out, "receptacles along the walls required: "+knownWord(r.Spaced))
	}
	return strings.Join(out, ", ")
}

// measured says a size; unknown is said.
func measured(size quantity.Inches) string {
	if size == 0 {
		return "not measured"
	}
	return size.Span()
}

func spotWords(s observation.Spot) string {
	if s.Wall == observation.Overhead || s.Wall == observation.Underfoot {
		return fmt.Sprintf("%s, %s from the left wall, %s from the front wall", s.Wall, s.Along.Span(), s.Out.Span())
	}
	return fmt.Sprintf("%s wall, %s from its left end", s.Wall, s.Along.Span())
}

func outcomeWord(o observation.Outcome) string {
	switch o {
	case observation.FoundAs:
		return "found"
	case observation.NeverRoughed:
		return "never roughed"
	case observation.CoveredOver:
		return "covered by the finish"
	case observation.NotLooked:
	}
	return "not looked for yet"
}

func asWords(in *installation.Installation, t observation.Thing) string {
	if t == "" {
		return ""
	}
	return "it is " + in.Name(t)
}

func feederWords(in *installation.Installation, f observation.Feeder) string {
	return strings.Join(nonEmpty(fmt.Sprintf("Feeder from %s to %s", in.FromName(f), in.Name(f.To)), f.Wires, f.Way, f.How.String()), ", ")
}

// atSpaces names spaces; none named is the whole panel.
func atSpaces(spaces []int) string {
	if len(spaces) == 0 {
		return ""
	}
	return "space " + spaceList(spaces)
}

func toldWords(told string) string {
	if told == "" {
		return ""
	}
	return "told: " + told
}

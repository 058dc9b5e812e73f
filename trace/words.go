package trace

import (
	"fmt"
	"strconv"
	"strings"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
)

// words says doubts and statements the way a person on site would.
type words struct {
	in *installation.Installation
}

func clock(e observation.Event) string { return e.When().Format("15:04") }

func (w words) value(e observation.Event) string {
	b := e.Body.(observation.Ohm)
	return fmt.Sprintf("the reading of %s at %s, %s to %s at %s, was misread", b.Ohm, w.in.Name(b.A.At), b.A, b.B, clock(e))
}

func (w words) place(o *installation.Opening, s *installation.Stop) string {
	return fmt.Sprintf("the visit of %s at %s was to another opening than %s", s.Who, clock(s.First), o.Number)
}

func (w words) letters(e observation.Event) string {
	return fmt.Sprintf("the letters %s of %s did not come from the tape", strings.ToUpper(e.Body.(observation.Letters).Letters), clock(e))
}

func (w words) space(e observation.Event) string {
	r := e.Body.(observation.Resistor)
	return fmt.Sprintf("the resistor of %s was put on another conductor than %s", r.Ohm, w.in.PointName(r.On))
}

func (w words) moved(e observation.Event) string {
	r := e.Body.(observation.Resistor)
	return fmt.Sprintf("somebody moved the resistor of %s before it was read back a last time", w.in.PointName(r.On))
}

func (w words) readBack(e observation.Event) string {
	b := e.Body.(observation.ReadBack)
	return fmt.Sprintf("the read-back of %s at %s was wrong", w.in.PointName(b.At), clock(e))
}

func (w words) conductor(x *end, r reading) string {
	return fmt.Sprintf("the visit of %s at %s read another cable of %s than %s", r.stop.Who, clock(r.stop.First), x.opening.Number, x.point)
}

func (w words) lead(r reading) string {
	return fmt.Sprintf("a lead was on another conductor at %s from %s on", w.in.Name(r.body.A.At), clock(r.event))
}

func (w words) joint(e observation.Event) string {
	return fmt.Sprintf("feed and leg were not joined at %s as noted", w.in.Name(e.Body.(observation.Joined).Feed.At))
}

func (w words) look(o *installation.Opening, e observation.Event) string {
	return fmt.Sprintf("the mark on %s was misjudged at the look around of %s", o.Number, clock(e))
}

// Say is the statement of a line in words: "the hot of A02-08 is on A1-34".
func Say(in *installation.Installation, l *Line) string {
	end := "the " + l.End.String() + " at " + in.Name(l.End.At)
	if l.Silent && !l.firm() {
		return end + " hangs free: nothing of its cable arrives here"
	}
	if l.Closed && l.Source.Kind == Outside {
		return end + " reads closed: " + closedWords
	}
	return end + " " + SaySource(in, l.Source)
}

// SaySource says what an end is on, as the end of a sentence.
func SaySource(in *installation.Installation, s Source) string {
	switch s.Kind {
	case FromSpace:
		return "is on " + sourceName(in, s)
	case FromEnd:
		return "is the other end of " + in.PointName(s.At)
	case Nothing:
		return "is reached by nothing on the list: not connected, or not spliced yet"
	case Outside:
		return "leads to something that is not on the list"
	case Another:
		return "is on a circuit that no reading named"
	}
	return "was not read"
}

// sourceName names a space, with those it is joined to: "A1-34 joined with A1-36".
func sourceName(in *installation.Installation, s Source) string {
	out := in.PointName(s.At)
	for i, p := range s.Also {
		out += []string{" joined with ", " and "}[min(i, 1)] + in.PointName(p)
	}
	return out
}

// SayStanding is a standing in words for a screen or for whoever cannot see an
// underline.
func SayStanding(v evidence.Verdict) string {
	switch v.Standing {
	case evidence.Settled:
		return "settled"
	case evidence.Likely:
		return "likely"
	case evidence.Undecided:
		return "undecided: several answers stand"
	case evidence.Clash:
		return "clash: these readings cannot all be right"
	}
	return "untested"
}

var numbers = []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"}

func number(n int) string {
	if n >= 0 && n < len(numbers) {
		return numbers[n]
	}
	return strconv.Itoa(n)
}

// counted says how many of something there are: "one opening", "12 openings".
func counted(n int, what string) string {
	if n == 1 {
		return "one " + what
	}
	return number(n) + " " + what + "s"
}

func listed(parts []string) string {
	switch len(parts) {
	case 0:
		return ""
	case 1:
		return parts[0]
	}
	return strings.Join(parts[:len(parts)-1], ", ") + " and " + parts[len(parts)-1]
}

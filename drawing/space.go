package drawing

import (
	"fmt"
	"strconv"
	"strings"

	"asfound/installation"
	"asfound/observation"
)

// Space is one space of a panel as seen.
type Space struct {
	observation.Space
	State SpaceState
	Upper int // of the lower half of a 2-pole breaker: the space of its upper half
}

// SpaceState says what is in a space.
type SpaceState int

// What a space may hold. A Vacant space has no breaker on record and nothing
// landing; a Covered breaker has a conductor on it but was not itself looked at.
const (
	NotLooked SpaceState = iota
	Vacant
	Covered
	Breaker
)

// Spaces lists the spaces of a panel from 1, those nobody looked at included.
func Spaces(p *installation.Panel) []Space {
	out := make([]Space, p.Spaces)
	for i := range out {
		seen := p.Seen[i+1]
		s := Space{Space: seen, State: stateOf(seen)}
		s.Number = i + 1
		if i >= 2 && out[i-2].Poles == 2 && out[i-2].Upper == 0 && seen.Poles != 1 {
			s.Upper, s.Poles, s.State = i-1, 2, Breaker
			if s.Amps == 0 {
				s.Amps = out[i-2].Amps
			}
		}
		out[i] = s
	}
	return out
}

func stateOf(s observation.Space) SpaceState {
	switch {
	case s.Poles > 0 || s.Amps > 0:
		return Breaker
	case s.Lands == observation.LandsNothing:
		return Vacant
	case s.Lands != observation.LandsNotLooked:
		return Covered
	}
	return NotLooked
}

// Spare reports whether there is a breaker with nothing on it.
func (s Space) Spare() bool { return s.State == Breaker && s.Lands == observation.LandsNothing }

// Words say what is in the space: "20 A, 1-pole", "30 A, 2-pole with space 7".
func (s Space) Words() string {
	switch s.State {
	case NotLooked:
		return "not looked at"
	case Vacant:
		return "open space, no breaker on record"
	case Covered:
		return "breaker not looked at"
	}
	amps := "ampere rating not read"
	if s.Amps > 0 {
		amps = s.Amps.String()
	}
	poles := "poles not counted"
	switch {
	case s.Upper > 0:
		poles = "2-pole with space " + strconv.Itoa(s.Upper)
	case s.Poles == 2:
		poles = fmt.Sprintf("2-pole with space %d", s.Number+2)
	case s.Poles == 1:
		poles = "1-pole"
	}
	if s.Tied == observation.Yes && s.Poles == 1 {
		poles += fmt.Sprintf(", handle tied to space %d", s.Number+2)
	}
	return amps + ", " + poles
}

// LandsWords say what lands on the space.
func (s Space) LandsWords() string {
	switch s.Lands {
	case observation.LandsBranch:
		return "branch conductor" + s.conductor()
	case observation.LandsFeeder:
		return "feeder conductor" + s.conductor()
	case observation.LandsNothing:
		return "nothing lands here"
	}
	return "what lands here was not looked at"
}

func (s Space) conductor() string {
	out := ""
	if w := strings.TrimSpace(s.Wire); w != "" {
		out += ", " + w
	}
	if c := strings.TrimSpace(s.Cable); c != "" {
		out += ", cable " + c
	}
	return out
}

// Empty is said of a space with no statement about what it feeds. It never
// guesses: a label found there is no answer.
func (s Space) Empty() string {
	switch {
	case s.Spare():
		return "Spare"
	case s.State == Vacant:
		return "Open space"
	case s.State == NotLooked:
		return "Not looked at"
	case s.Lands == observation.LandsFeeder:
		return "Feeder; where it goes is not read"
	case s.Lands == observation.LandsBranch:
		return "Not known what it feeds"
	}
	return "Not looked at what lands here"
}

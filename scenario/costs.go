package scenario

import "time"

// Costs are how long things take.
type Costs struct {
	Room       time.Duration // going into a room
	Pass       time.Duration // past a room on the way
	Up, Down   time.Duration // one floor
	Enter      time.Duration // into a building
	Between    time.Duration // from building to building
	Box        time.Duration // opening a bare box
	Ohm        time.Duration // first reading at a box
	OhmAgain   time.Duration // each further one, leads lifted
	Resistor   time.Duration // on and off
	Terminal   time.Duration // one reading at a panel
	ProveDead  time.Duration // opening a panel and proving it dead
	TwoLetters time.Duration // noting the check letters
	Clip       time.Duration // feed and leg joined in a box, and parted again
	Look       time.Duration // round a room, at the marks
}

// AssumedCosts are those of the tracing benchmark (assumed). It has none for
// letters and looking round: those two are this package's own guess.
func AssumedCosts() Costs {
	const s = time.Second
	return Costs{Room: 8 * s, Pass: 4 * s, Up: 20 * s, Down: 20 * s, Enter: 30 * s, Between: 90 * s, Ohm: 15 * s, OhmAgain: 7 * s,
		Resistor: 25 * s, Terminal: 8 * s, ProveDead: 900 * s, TwoLetters: 3 * s, Look: 10 * s, Clip: 15 * s}
}

// Reach is the time to open a box: no ladder is needed in a made-up property.
func (t *Truth) Reach(c Costs, _ int) time.Duration { return c.Box }

// Walk is the time from one room to another; from is -1 outside.
func (t *Truth) Walk(c Costs, from, to int) time.Duration {
	if from == to {
		return 0
	}
	b := t.Rooms[to]
	if from < 0 {
		return c.Enter + c.Room
	}
	a := t.Rooms[from]
	if a.Building != b.Building {
		return c.Between + c.Enter + c.Room
	}
	passed := max(from-to, to-from) - 1
	d := c.Room + time.Duration(passed)*c.Pass
	for floor := a.Floor; floor < b.Floor; floor++ {
		d += c.Up
	}
	for floor := a.Floor; floor > b.Floor; floor-- {
		d += c.Down
	}
	return d
}

// Spent is person time on a job by what it was for. Survey is putting on record
// what is to be seen. Tour is the work itself, resistors taken off included. Checks are what it did without:
// letters, marks, read-backs, and the walk to the panels for the last of them.
// Confirm is second visits to what was not settled.
type Spent struct {
	Survey, Tour, Checks, Confirm time.Duration
}

// All is the whole of it.
func (s Spent) All() time.Duration { return s.Survey + s.Tour + s.Checks + s.Confirm }

// clock is the time of day of a played job.
type clock struct{ at time.Time }

func (c *clock) now() time.Time { return c.at }

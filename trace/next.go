package trace

import (
	"fmt"
	"slices"
	"strconv"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/step"
)

// Proposal is a step that would bring lines nearer to settled. Its Minutes are
// those of the work alone: getting there, ladders and plates are left out, and
// nothing is ranked. Package days does both.
type Proposal struct {
	step.Step
	// Gain is how far the step is expected to bring lines, counted in lines: the
	// sum, over the lines that its readings bear on, of the way each is expected to
	// go on a scale from 0, untested, to 1, settled. On it undecided and clash
	// stand at 0.25 and likely at 0.75 (assumed). An end not read yet is expected
	// to become likely. A clash goes as far as its reading cuts down the
	// explanations that stand. What no line waits for has an assumed worth: a tenth
	// of a line for a resistor still on, or a space not looked at.
	//
	// A step that decides nothing by itself (locks, resistors put on) has the Gain
	// of what waits for it.
	Gain float64
	// Ahead is the minutes of work between this step and its Gain.
	Ahead float64
	// First is set where people are in danger until it is done: it comes before all
	// else, whatever its Gain.
	First bool
	// Why works out the reason of a step whose Reason is empty; it costs more than
	// all the rest.
	Why func() string
}

// What a line is worth by its standing, and the worth of what no line waits for
// (assumed).
const (
	worthOpen   = 0.25 // undecided or clash
	worthLikely = 0.75
	worthSmall  = 0.1
)

// Minutes of each act (assumed).
const (
	minutesReading  = 15.0 / 60  // ohm reading at an opening
	minutesSecond   = 7.0 / 60   // another one without leaving
	minutesReadBack = 8.0 / 60   // a terminal read at a panel
	minutesPut      = 25.0 / 60  // a resistor on, and off again later
	minutesDead     = 900.0 / 60 // a panel opened, locked out and proven dead
	minutesLook     = 10.0 / 60  // a look around a room for marks
	minutesSpace    = 10.0 / 60  // writing down what lands on a space
	minutesToNext   = 15.0 / 60  // to the next opening and into it, where the way is not worked out
)

const deadCaution = "Dead only: every source open and locked out, the tester tried on a known source before and after, no voltage between any two conductors and to ground. Stop if anything reads live."

// Proposals lists the steps that would bring lines nearer to settled, unranked:
// at the panels, then those of standing tours, then second visits. A step is
// proposed only if every panel it needs dead is on record as locked out and
// proven dead; else the test of that panel is.
func (t *Trace) Proposals(in *installation.Installation) []Proposal {
	p := newProposer(in, t)
	for _, panel := range in.Panels {
		p.panel(panel)
	}
	for _, tour := range p.tours {
		if len(tour.Resistors) > 0 && p.allHeld(tour.Panels) {
			p.tour(tour)
		}
	}
	p.feeds()
	p.clashes()
	p.secondVisits()
	return p.out
}

// proposer gathers the proposals from one Trace.
type proposer struct {
	in    *installation.Installation
	t     *Trace
	out   []Proposal
	known map[string]bool      // keys of out
	tours []*installation.Tour // standing, by resistor, at panels
	rooms map[observation.Thing][]*installation.Opening
	held  map[observation.Thing]bool                         // panels locked out and proven dead
	walks map[observation.ID]map[observation.Thing]bool      // buildings that a standing tour walks
	live  map[observation.Thing]bool                         // openings where the latest test found voltage
	left  map[observation.Thing][]*installation.Opening      // by room: not read, within reach and not live
	built map[observation.Thing][]observation.Thing          // rooms by building
	locks map[observation.Thing]string                       // "Panel A1: lock 4"
	waits map[observation.Thing]struct{ ends, openings int } // what is left, by building
}

func newProposer(in *installation.Installation, t *Trace) *proposer {
	p := &proposer{in: in, t: t, known: map[string]bool{}, rooms: map[observation.Thing][]*installation.Opening{}, held: map[observation.Thing]bool{},
		walks: map[observation.ID]map[observation.Thing]bool{}, left: map[observation.Thing][]*installation.Opening{},
		built: map[observation.Thing][]observation.Thing{}, locks: map[observation.Thing]string{},
		live: map[observation.Thing]bool{}, waits: map[observation.Thing]struct{ ends, openings int }{}}
	for _, at := range always(in) {
		p.live[at] = true
	}
	for _, r := range in.Rooms {
		p.built[r.Building] = append(p.built[r.Building], r.Thing)
	}
	for _, o := range in.Openings {
		p.rooms[o.Room] = append(p.rooms[o.Room], o)
		if len(t.At(o.Thing)) > 0 || o.NotReached != nil || cannot(o) || p.live[o.Thing] {
			continue
		}
		p.left[o.Room] = append(p.left[o.Room], o)
		if r := in.Room(o.Room); r != nil {
			w := p.waits[r.Building]
			w.ends, w.openings = w.ends+hots(o), w.openings+1
			p.waits[r.Building] = w
		}
	}
	for _, panel := range in.Panels {
		p.held[panel.Thing] = Held(in, panel)
		p.locks[panel.Thing] = LockWords(panel)
	}
	for _, tour := range in.Tours {
		if !tour.Removed && tour.Means == observation.ByResistor && len(tour.Panels) > 0 {
			p.tours = append(p.tours, tour)
			p.walks[tour.ID] = walked(in, tour.Panels)
		}
	}
	return p
}

// Held reports whether a panel is on record as locked out and proven dead.
func Held(in *installation.Installation, panel *installation.Panel) bool {
	return in.Held(panel)
}

// allHeld reports whether all panels are; one that is not on record is not.
func (p *proposer) allHeld(panels []observation.Thing) bool {
	return !slices.ContainsFunc(panels, func(at observation.Thing) bool { return !p.held[at] })
}

// LockWords names a panel with the locks that stand on its whole supply: "Panel
// A1: lock 4".
func LockWords(panel *installation.Panel) string {
	out := "Panel " + panel.Name
	for i, e := range panel.Standing() {
		if b := e.Body.(observation.LockOut); len(b.Spaces) == 0 {
			out += []string{": ", ", "}[min(i, 1)] + b.Device
		}
	}
	return out
}

// mustBeOff names what a step on these panels rests on.
func (p *proposer) mustBeOff(panels []observation.Thing) []string {
	var out []string
	for _, at := range panels {
		out = append(out, p.locks[at])
	}
	return out
}

// hots counts the hots on record at an opening; one that nobody looked into
// counts one.
func hots(o *installation.Opening) int {
	n := 0
	for _, c := range o.Cables {
		for _, w := range c.Conductors {
			if w.Wire == observation.Hot {
				n++
			}
		}
	}
	return max(1, n)
}

func cannot(o *installation.Opening) bool {
	return slices.ContainsFunc(o.Stops, func(s *installation.Stop) bool { return len(s.Cannot) > 0 })
}

// minutesAt is the minutes of reading all ends of an opening.
func minutesAt(o *installation.Opening) float64 {
	return (minutesReading + minutesSecond) * float64(hots(o))
}

// waiting counts the ends, and openings, at which nothing was read and that the
// resistors of a panel would reach: those of its building, or of the buildings
// that its standing tour walks.
func (p *proposer) waiting(panel *installation.Panel) (ends, openings int) {
	buildings := map[observation.Thing]bool{panel.Building: true}
	if t := p.tourOf(panel.Thing); t != nil {
		buildings = p.walks[t.ID]
	}
	for _, b := range p.in.Buildings {
		if buildings[b.Thing] {
			ends, openings = ends+p.waits[b.Thing].ends, openings+p.waits[b.Thing].openings
		}
	}
	return ends, openings
}

// tourOf returns the latest standing tour with a panel in it, or nil.
func (p *proposer) tourOf(panel observation.Thing) *installation.Tour {
	for _, t := range slices.Backward(p.tours) {
		if slices.Contains(t.Panels, panel) {
			return t
		}
	}
	return nil
}

// unlooked counts the spaces of a panel of which nobody said what lands there.
func unlooked(panel *installation.Panel) int {
	n := 0
	for s := 1; s <= panel.Spaces; s++ {
		if panel.Seen[s].Lands == observation.LandsNotLooked && panel.UpperHalf(s) == 0 {
			n++
		}
	}
	return n
}

// work is the minutes of the steps at a panel up to its first reading at an
// opening, and of the reading, as far as they are left.
type work struct{ spaces, isolation, resistors, reading float64 }

func (p *proposer) work(panel *installation.Panel, ends, openings int) work {
	n := float64(len(panel.Branches()) + len(coiled(panel)))
	w := work{reading: (minutesReading+minutesSecond)*float64(ends) + minutesToNext*float64(openings)}
	if n == 0 {
		n = float64(panel.Spaces)
		w.spaces = minutesSpace * n
	}
	if len(panel.Isolations) == 0 {
		w.isolation = minutesReadBack * (n + 2)
	}
	if t := p.tourOf(panel.Thing); t == nil || len(t.Resistors) == 0 {
		w.resistors = (minutesPut + minutesReadBack) * n
	}
	return w
}

// panel proposes what a panel needs before its circuits can be read.
func (p *proposer) panel(panel *installation.Panel) {
	ends, openings := p.waiting(panel)
	w := p.work(panel, ends, openings)
	gain := worthLikely * float64(ends)
	if !p.held[panel.Thing] {
		p.prove(panel, gain, openings, w)
		return
	}
	if n := unlooked(panel); n > 0 {
		s := Proposal{Step: spacesStep(panel, n), Gain: worthSmall * float64(n)}
		if len(panel.Branches())+len(coiled(panel)) == 0 && ends > 0 {
			s.Gain, s.Ahead = gain, w.isolation+w.resistors+w.reading
		}
		p.add(s, panel.Thing)
	}
	if ends == 0 || len(panel.Branches())+len(coiled(panel)) == 0 {
		return
	}
	if t := p.tourOf(panel.Thing); t != nil && len(t.Resistors) > 0 {
		return // what it has on would show in the isolation test
	}
	if open := len(PlanIsolation(p.in, panel.Thing).Open()); open > 0 {
		p.add(Proposal{Step: isolationStep(panel, open), Gain: gain, Ahead: w.resistors + w.reading}, panel.Thing)
		return
	}
	p.add(Proposal{Step: putOn(panel, openings), Gain: gain, Ahead: w.reading}, panel.Thing)
}

// add takes a proposal in, once for each key: two tours may walk one room. The
// panels are to be on record as locked out and proven dead before it begins.
func (p *proposer) add(x Proposal, panels ...observation.Thing) {
	if p.known[x.Key] {
		return
	}
	p.known[x.Key] = true
	for _, at := range panels {
		x.Panels = append(x.Panels, string(at))
	}
	x.MustBeOff = p.mustBeOff(panels)
	p.out = append(p.out, x)
}

// prove proposes the absence-of-voltage test of a panel that something waits
// for, and says what of it.
func (p *proposer) prove(panel *installation.Panel, gain float64, openings int, w work) {
	s := Proposal{Step: step.Step{Key: "dead " + string(panel.Thing), Kind: step.ProveDead, Place: string(panel.Thing), Where: "Panel " + panel.Name, Caution: deadCaution,
		Do:        []string{"Open and lock out every source of this panel.", "Try the tester on a known source.", "Test every conductor to every other and to ground.", "Try the tester again."},
		WriteDown: "lock, the three answers", StopIf: "any voltage shows, or the tester does not answer afterwards",
		Minutes: minutesDead, Bring: []string{"lock and tag", "tester", "known source"}},
		Gain: gain, Ahead: w.spaces + w.isolation + w.resistors + w.reading}
	tour, n := p.tourOf(panel.Thing), unlooked(panel)
	switch {
	case openings > 0:
		s.Reason = "Waiting for dead readings from this panel: " + counted(openings, "opening") + "."
	case tour != nil:
		s.Reason = tour.Name + " still has its resistors on, and its readings need this panel dead."
		s.Gain = max(s.Gain, worthSmall*float64(max(1, len(tour.Resistors))))
	case n > 0:
		s.Reason = "With its dead front off and the panel dead, what lands on " + counted(n, "space") + " can be seen."
		s.Gain, s.Ahead = worthSmall*float64(n), minutesSpace*float64(n)
	default:
		return
	}
	if !slices.ContainsFunc(p.in.Feeders, func(f *installation.Feeder) bool { return f.To == panel.Thing }) {
		s.Do = slices.Insert(s.Do, 0, "Find what feeds it: that is not on record.")
	}
	if by := p.in.VoidedBy(panel); by != nil {
		s.Reason = "Its last test counts no more since " + clock(*by) + ". " + s.Reason
	}
	p.add(s)
}

func spacesStep(panel *installation.Panel, n int) step.Step {
	return step.Step{Key: "spaces " + string(panel.Thing), Kind: step.Spaces, Place: string(panel.Thing), Where: "Panel " + panel.Name, Caution: deadCaution,
		Do:        []string{"Go down the left column, then the right.", "For each space write the breaker and whether a branch conductor lands there."},
		WriteDown: "poles, amperes, label as found, what lands", StopIf: "any conductor shows voltage",
		Reason:  "What lands on " + counted(n, "space") + " of it is not on record.",
		Minutes: minutesSpace * float64(n), Bring: []string{"tester"}}
}

func isolationStep(panel *installation.Panel, open int) step.Step {
	return step.Step{Key: "isolation " + string(panel.Thing), Kind: step.Isolate, Place: string(panel.Thing), Where: "Panel " + panel.Name, Caution: deadCaution,
		Do:        []string{"All branch breakers off, loads unplugged, wall switches on.", "Read each branch conductor against all others joined, then the bars."},
		WriteDown: "ohms of each line of the sheet", StopIf: "any reading shows voltage",
		Reason:  "It finds every circuit joined to another without a walk: " + counted(open, "reading") + ".",
		Minutes: minutesReadBack * float64(open), Bring: []string{"ohmmeter", "jumpers"}}
}

// putOn is the step of putting resistors on in a panel.
func putOn(panel *installation.Panel, openings int) step.Step {
	n := len(panel.Branches()) + len(coiled(panel))
	return step.Step{Key: "resistors " + string(panel.Thing), Kind: step.Place, Place: string(panel.Thing), Where: "Panel " + panel.Name, Caution: deadCaution,
		Do:        []string{"Lift each branch conductor off its breaker, or have the breaker open.", "Join the neutral bar to the ground bar.", "Put on the resistors as the list says."},
		WriteDown: "a tick for each", StopIf: "any conductor shows voltage",
		Reason:  "Then one walk names the circuits of " + counted(openings, "opening") + ".",
		Minutes: minutesPut * float64(n), Bring: []string{strconv.Itoa(n) + " resistors", "clips"}}
}

// Left says what stays open when there is no step to propose.
func (t *Trace) Left(in *installation.Installation) string {
	if n := len(t.Clashes); n > 0 {
		return "No single reading decides what still clashes (" + counted(n, "opening") + "). Open it under Trace: a reading that is plainly wrong is withdrawn there."
	}
	left := 0
	for _, l := range t.Lines {
		if l.Verdict.Standing != evidence.Settled {
			left++
		}
	}
	unread := 0
	for _, o := range in.Openings {
		if len(t.At(o.Thing)) == 0 {
			unread++
		}
	}
	if left+unread+len(t.Oddities) == 0 {
		return "Every line is settled and every opening was read."
	}
	return fmt.Sprintf("No dead reading to propose. Still open: %s not settled, %s not read, %s found that need a decision. See Trace.",
		counted(left, "line"), counted(unread, "opening"), counted(len(t.Oddities), "thing"))
}

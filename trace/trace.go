// Package trace works out which conductor is connected to what from all that
// was read dead: the panel isolation test, resistors put on at panels or cable
// ends, and ohm readings at openings. It says how firmly each statement stands,
// which readings cannot all be right, and what to read next.
//
// It names a feed from readings and recorded facts alone. That neighbors are
// often on one circuit, or that white is often neutral, never enters a
// standing; it only orders what to do next. Nothing here says that a conductor
// is dead: that takes the absence-of-voltage test.
//
// Start with Trace and Line, then lines.go for how readings become evidence.
package trace

import (
	"slices"

	"asfound/evidence"
	"asfound/observation"
)

// Trace is all that follows from one Installation. It is never changed after
// it is made.
type Trace struct {
	Lines    []*Line  // one for each conductor end read, in walking order
	Joins    []*Join  // what the panel isolation tests showed
	Clashes  []*Clash // readings that cannot all be right
	Oddities []Oddity // what is wrong or unusual in what was found
	Again    []Again  // read again while somebody stands there

	granted []*granted // doubts of the only explanation left
	byEnd   map[observation.Point]*Line
	byPlace map[observation.Thing][]*Line
	bySpace map[observation.Point][]*Line
}

// Line is the statement about one conductor end: what its other end is on.
type Line struct {
	End     observation.Point
	Verdict evidence.Verdict
	Source  Source   // the best answer
	Others  []Source // the other answers that stand
	RestsOn []observation.ID
	// Closed is that the end read no more than conductors to ground or neutral: a
	// load is still connected, or there is a fault.
	Closed bool
	// Silent is that nothing of its cable arrives, ground and neutral neither: it
	// is not spliced on the way, and no reading here can tell what it is on.
	Silent  bool
	group   *group
	lacks   string // what it lacks beside its own readings
	mirrors *Line  // the line at the other end that this one repeats, in a pairing tour
	against *against
}

// Source is what a conductor end was found to be on.
type Source struct {
	Kind SourceKind
	At   observation.Point   // of FromSpace and FromEnd
	Also []observation.Point // joined with At before it gets here
}

// SourceKind says what sort of answer a Source is.
type SourceKind int

// The answers there are. NoAnswer is that nothing was read; Nothing is that no
// space of the tour reaches the end (dead, or not spliced yet); Outside is a
// path to something that is not on the tour's list; Another is one of the
// spaces or ends of the tour that no reading named.
const (
	NoAnswer SourceKind = iota
	FromSpace
	FromEnd
	Nothing
	Outside
	Another
)

// Join is what the panel isolation test showed of two spaces of one panel, or
// of a space and a bar.
type Join struct {
	Panel   observation.Thing
	A, B    int // B is 0 against a bar
	Bar     observation.Against
	Kind    JoinKind
	Cross   observation.Known // the two spaces are on opposite legs
	Verdict evidence.Verdict
	RestsOn []observation.ID
}

// JoinKind is what lies between two terminals.
type JoinKind string

// What can lie between two terminals.
const (
	Apart    JoinKind = "apart"
	Joined   JoinKind = "joined"
	LoadPath JoinKind = "load path"
)

// Clash is a set of readings that cannot all be right.
type Clash struct {
	Key      string
	Lines    []*Line
	Readings []observation.ID
	Sets     [][]evidence.Doubt // the least sets of doubts, any one of which would explain all
	More     bool               // there are more sets than listed
	Settle   Settle             // the one reading that decides best
}

// Settle is the reading that tells the explanations of a clash apart.
type Settle struct {
	At      observation.Point // an opening's end, or a panel's space to be read back
	Back    bool              // read back at the panel instead of at the opening
	Leaves  int               // sets left in the worst case
	Minutes float64
}

// Oddity is something found that the job should know: not an error of the
// record but of the wiring, or something to look at.
type Oddity struct {
	Kind  OddityKind
	Place observation.Thing
	Lines []*Line
	Say   string
}

// OddityKind sorts oddities.
type OddityKind string

// The oddities there are.
const (
	ForeignFeed     OddityKind = "fed from another building"
	TwoCircuits     OddityKind = "two circuits in one opening"
	NothingHere     OddityKind = "nothing arrives"
	OutsideFeed     OddityKind = "path to something not listed"
	HotClosed       OddityKind = "hot closed to neutral or ground"
	AlwaysLive      OddityKind = "voltage found"
	JoinedCircuits  OddityKind = "circuits joined"
	CrossLegJoin    OddityKind = "circuits joined across legs"
	BarFault        OddityKind = "conductor joined to a bar"
	SwappedLabels   OddityKind = "labels exchanged"
	NeutralMissing  OddityKind = "neutral does not arrive"
	GroundMissing   OddityKind = "ground does not arrive"
	DuplicateNumber OddityKind = "number used twice"
	JoinedLater     OddityKind = "joined since it was read back"
	OneExplanation  OddityKind = "one mistake explains it"
)

// Again asks for something to be read again, or put right, while somebody
// stands there: the reading between A and B, or a look at the tape when A and B
// are zero.
type Again struct {
	At   observation.Thing
	A, B observation.Point
	Say  string
	Of   []observation.ID // what it is about
}

// Line returns the line of a conductor end, or nil when nothing was read there.
func (t *Trace) Line(end observation.Point) *Line { return t.byEnd[end] }

// At returns the lines of an opening, in the order of its cable tags.
func (t *Trace) At(opening observation.Thing) []*Line {
	return t.byPlace[opening]
}

// On returns the lines whose best answer is this space, in walking order.
func (t *Trace) On(panel observation.Thing, space int) []*Line {
	return t.bySpace[SpacePoint(panel, space)]
}

// spaces lists the panel spaces a source is, joined ones included.
func (s Source) spaces() []observation.Point {
	return slices.DeleteFunc(s.all(), func(p observation.Point) bool { return p.Space == 0 })
}

// Leans returns the lines that lean on an observation.
func (t *Trace) Leans(id observation.ID) []*Line {
	var out []*Line
	for _, l := range t.Lines {
		if slices.Contains(l.RestsOn, id) {
			out = append(out, l)
		}
	}
	return out
}

// Standing counts the lines of each standing.
func (t *Trace) Standing() map[evidence.Standing]int {
	out := map[evidence.Standing]int{}
	for _, l := range t.Lines {
		out[l.Verdict.Standing]++
	}
	return out
}

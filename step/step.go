// Package step is one thing to do on site, told so that it can be done from a
// card or a sheet: where, do, write down, stop if. It plans nothing and knows
// no building; whoever proposes a step fills it in.
//
// Start with Step.
package step

// Step is one thing to do.
type Step struct {
	Key       string   // the same step has the same key at the next proposal
	Kind      Kind     // what it does, for the page that takes the entry
	Place     string   // the lasting name of the opening, panel or room, if there is one
	Places    []string // the lasting names of all openings it goes to, in walking order; Place is the first
	Tour      string   // the lasting name of the tour it is part of, if it is part of one
	Where     string   // "Panel A1", "A02-08, great room"
	Do        []string // in order
	WriteDown string
	StopIf    string
	Caution   string // said before anything is touched
	Reason    string // why now
	Minutes   float64
	Moving    float64 // of Minutes, those on the way and with ladders, plates and covers
	Bring     []string
	Panels    []string // the lasting names of the panels that have to be locked out and tested dead
	MustBeOff []string // the same, each with its locks, in words
	Plates    int      // plates to take off: the first to Do takes them off, the last puts them on again
}

// Kind says what a step does.
type Kind string

// The kinds of step.
const (
	Record    Kind = "record"    // put something on record: a panel, rooms, openings
	Spaces    Kind = "spaces"    // write down what lands on the spaces of a panel
	Sources   Kind = "sources"   // put on record what can put voltage on the property
	FindFeed  Kind = "feed"      // find what feeds a panel, or an opening that is live
	LookFor   Kind = "lookfor"   // look for what a drawing shows
	ProveDead Kind = "dead"      // open, lock out and prove a panel dead
	Isolate   Kind = "isolate"   // panel isolation test
	Place     Kind = "place"     // put resistors on
	ReadBack  Kind = "readback"  // read resistors blind where they were put
	Read      Kind = "read"      // read openings
	LookRound Kind = "lookround" // look at the marks of a room
	TakeOff   Kind = "takeoff"   // read back once more and take resistors off
	Release   Kind = "release"   // take locks off that nothing needs
	Rest      Kind = "rest"      // nothing is left to do
)

// Records reports whether a step of this kind only puts something on record, so
// that what comes after it is known better.
func (k Kind) Records() bool {
	return k == Record || k == Spaces || k == Sources || k == FindFeed
}

// Total is the minutes of all steps.
func Total(steps []Step) float64 {
	sum := 0.0
	for _, s := range steps {
		sum += s.Minutes
	}
	return sum
}

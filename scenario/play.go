package scenario

import (
	"cmp"
	"encoding/binary"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"time"

	"asfound/installation"
	"asfound/journal"
	"asfound/observation"
	"asfound/pellam"
	"asfound/quantity"
	"asfound/site"
	"asfound/trace"
)

// Until says how far a job is played.
type Until int

// How far a job is played.
const (
	EndOfJob Until = iota
	HalfTour       // half of the rooms of the dead tour are read
)

// Played is a job as people left it, with what is so beside it.
type Played struct {
	World    World
	View     *View
	Journal  *journal.Memory
	AsFound  *site.AsFound
	Box      map[observation.Thing]int // the box that a recorded opening is
	Panel    map[observation.Thing]int
	Slips    map[Slip]int // mistakes made; the journal knows nothing of them
	Spent    Spent
	Readings int // ohm readings at openings on the tour
	Rig      *Rig
	Visits   int                       // second visits to confirm
	Noted    map[string]observation.ID // notes that stand, by their number
}

// Play has people trace a property by a dead tour. They record on a journal of
// their own, whose times are those of the job. The same property and people
// leave the same bytes.
func Play(w World, people People, until Until) (*Played, error) {
	p, err := newPlayer(w, people)
	if err != nil {
		return nil, err
	}
	p.survey()
	p.nextVisit()
	p.bucket = &p.played.Spent.Tour
	p.setUp()
	p.joinFeeds(until)
	p.together()
	p.walkTour(until)
	if until == EndOfJob {
		p.bucket = &p.played.Spent.Checks
		for _, panel := range p.panels {
			p.readBack(panel, true)
		}
		p.confirm()
		p.record(observation.Observation{Under: []observation.ID{p.tour}, Body: observation.Removed{}})
	}
	p.endVisit()
	p.played.AsFound = p.asFound()
	if p.err != nil {
		return nil, fmt.Errorf("play job %d: %w", w.Seed(), p.err)
	}
	return p.played, nil
}

// player is a job under way. The first error stops all recording and is kept
// in err.
type player struct {
	world  World
	view   *View
	rig    *Rig
	people People
	played *Played
	rng    *rand.Rand
	err    error

	visit int      // the one under way
	crew  []Person // on it
	notes []pellam.Note

	site   *site.Site
	clock  *clock
	fold   *installation.Fold
	read   int64         // journal position up to which fold has read
	tracer *trace.Tracer // for prompts on the spot

	who      int             // whose turn it is
	at       []int           // the room each person is in, -1 outside
	busy     []time.Duration // since the start of the day
	late     []bool          // whose notes bear the date of the day before
	bucket   *time.Duration  // what the time goes to
	day      time.Time
	confirms bool

	rooms, openings []observation.Thing
	panels          []observation.Thing
	tour            observation.ID
	plan            trace.TourPlan
	put             []observation.ID // the resistor events, by index of plan.Puts
	off             map[int]bool     // resistors taken off again, by index
	really          []int            // on whose space each resistor really is, by index
	ohms            []quantity.Ohms  // true values
	marked          map[int]bool     // boxes with a mark
	clipped         map[int]bool     // boxes in which feed and leg are joined
	stops           int
}

func newPlayer(w World, people People) (*player, error) {
	if len(people.Visits) == 0 || slices.ContainsFunc(people.Visits, func(v Visit) bool { return len(v.Crew) == 0 }) {
		return nil, errors.New("play job: nobody is on it")
	}
	first := people.Visits[0]
	p := &player{world: w, view: w.View(), rig: newRig(), people: people, rng: rand.New(rand.NewPCG(people.Seed, w.Seed())),
		clock: &clock{first.Start},
		fold:  installation.NewFold(), tracer: trace.NewTracer(), off: map[int]bool{}, marked: map[int]bool{}, clipped: map[int]bool{}}
	var seed [32]byte
	binary.LittleEndian.PutUint64(seed[:], w.Seed())
	binary.LittleEndian.PutUint64(seed[8:], people.Seed)
	p.played = &Played{World: w, View: p.view, Rig: p.rig, Journal: journal.NewMemory(seed, p.clock.now), Box: map[observation.Thing]int{},
		Panel: map[observation.Thing]int{}, Slips: map[Slip]int{}, Noted: map[string]observation.ID{}}
	p.bucket = &p.played.Spent.Survey
	var err error
	if p.site, err = site.Open(p.played.Journal, p.clock.now); err != nil {
		return nil, err
	}
	p.begin(0)
	return p, nil
}

// record keeps an observation as the person whose turn it is.
func (p *player) record(o observation.Observation) observation.ID {
	if p.err != nil {
		return observation.ID{}
	}
	o.Who = p.crew[p.who].Name
	if p.late[p.who] {
		o.Taken = p.clock.now().AddDate(0, 0, -1)
	}
	id, err := p.site.Record(o)
	if err != nil {
		p.err = err
	}
	return id
}

// installation is the property as recorded so far, without any tracing.
func (p *player) installation() *installation.Installation {
	err := p.played.Journal.Read(p.read, func(e journal.Entry) error {
		p.fold.Add(e.Event)
		p.read = e.Position
		return nil
	})
	p.err = cmp.Or(p.err, err)
	return p.fold.Installation()
}

// asFound is the site with all that follows from what is recorded; it takes far
// longer than installation.
func (p *player) asFound() *site.AsFound {
	found, err := p.site.AsFound()
	if err != nil {
		p.err = cmp.Or(p.err, err)
		return &site.AsFound{Installation: &installation.Installation{}, Trace: &trace.Trace{}}
	}
	return found
}

// spend lets time pass for the person whose turn it is.
func (p *player) spend(d time.Duration) { p.spendOn(p.bucket, d) }

func (p *player) spendOn(bucket *time.Duration, d time.Duration) {
	if p.confirms {
		bucket = &p.played.Spent.Confirm
	}
	*bucket += d
	p.busy[p.who] += d
	if now := p.day.Add(p.busy[p.who]); now.After(p.clock.at) {
		p.clock.at = now
	}
}

// goTo walks to a room.
func (p *player) goTo(room int) {
	p.spend(p.world.Walk(p.people.Costs, p.at[p.who], room))
	p.at[p.who] = room
}

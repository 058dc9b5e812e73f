package web

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/step"
	"asfound/trace"
)

// All words for people that do not stand in a template are here and in
// words_entry.go, so that another language is the templates and these two.

type pageName struct{ Href, Name string }

// pageNames are the names of the bar, in its order.
var pageNames = []pageName{
	{"", "Next"}, {"property", "Property"}, {"panels", "Panels"},
	{"trace", "Trace"}, {"papers", "Papers"}, {"journal", "Journal"},
}

// Titles of pages that bear no name of a thing.
const (
	titleNext       = "Next"
	titleProperty   = "Property"
	titlePanels     = "Panels"
	titleTrace      = "Trace"
	titlePapers     = "Papers"
	titleJournal    = "Journal"
	titleJobs       = "Jobs"
	titleWho        = "Who is this?"
	titleTrouble    = "This page could not be shown"
	titleNewTour    = "Set up a tour"
	titleNewPairing = "Set up a pairing tour"
	titleClash      = "These readings cannot all be right"
	titleSources    = "Sources"
	titleSafety     = "Locks and tests"
)

// Names of the pages that an opening or a panel leads to.
const (
	doorRaceway   = "Raceway"
	doorJoined    = "Feed joined to leg"
	doorPasses    = "Pass-through"
	doorCoiled    = "Coiled cable"
	doorCabinet   = "Cabinet size"
	doorLockOut   = "Lock-out"
	doorDead      = "Absence-of-voltage test"
	doorIsolation = "Panel isolation test"
	doorTour      = "Set up a tour"
	doorLive      = "What can still be live"
	doorFeeders   = "Feeders"
	doorTold      = "Who was told"
	doorRelease   = "Take locks off"
	doorEnergize  = "Put power on"
	doorSources   = "Sources"
	doorSafety    = "Locks and tests"
)

// Sentences at fields and on top of forms.
const (
	sayWho       = "Say who took it: choose a name."
	sayFull      = "Not kept: the disk is full. Free some space, then press again; what you typed is still here."
	sayFailed    = "Not kept: this device could not write or read its journal. What you typed is still here; press again, and if it fails again write it on paper."
	sayNoRead    = "This device could not read its journal. Nothing on record was changed; load the page again."
	sayNoPage    = "There is no page at this address. Choose one from the bar."
	sayNoThing   = "Nothing with this name is on record in this job. It may not have reached this device yet."
	sayNoTour    = "No tour with this name is on record. Choose one on the page Trace."
	sayNoEntry   = "The journal on this device has no such entry. It may not have reached this device yet."
	sayNoPhoto   = "This photograph is not on this device yet."
	sayNoSheet   = "There is no such sheet. Choose one on the page Papers."
	sayAgree     = "These readings agree now"
	sayNoClash   = "These readings no longer clash."
	sayPhoto     = "Choose or take a picture first."
	sayPercent   = "Type percent as a number, such as 1 or 0.9."
	sayDate      = "Type the date as year, month, day: 2031-05-28."
	sayClock     = "Type the time of day, such as 14:32."
	sayFuture    = "That time has not come yet. Type when it was taken."
	sayGangs     = "Type the gangs as a number from 1 to 12."
	saySpaces    = "Count the spaces of both columns: an even number from 2 to 84."
	sayFloor     = "Type the floor as a small number: 0 is the main floor, -1 the one below."
	sayAmps      = "Type the ampere rating on the breaker handle, such as 20."
	sayNoValue   = "Type what the meter shows, or choose open, cannot read, not reached or later."
	sayNoLetters = "Type the two letters that stand behind the number on the tape."
	sayNoPick    = "Choose at least one panel."
	sayNoSpaces  = "Type space numbers with commas between: 12, 14."
	sayNotGiven  = "reason not given"
	sayOrder     = "Type the place on the walk as a whole number, such as 3."

	sayHeldSpaces   = "Spaces beyond that number are on record for this panel. Type a number that holds them, or withdraw those entries first."
	sayConductors   = "Count the conductors in the raceway, or leave it empty."
	sayGoneSheet    = "There is no such sheet any more: what it was about has another name now, or was withdrawn. Choose one on the page Papers."
	sayOtherJournal = "This state is not in this journal: the sheet was made on another device, or entries reached this one in another order. Go by the sheet below."
	sayNotTold      = "What has changed since cannot be told here. Go by the sheet below."
	sayJoinTour     = "Set up a tour first: feed and leg are joined for it, and come apart with it."
	sayNotKnown     = "Not known"
	sayPassing      = "Count the conductors that pass through."
	sayWhichEnd     = "Choose the conductor, or type its cable and conductor: 2, red."
	sayNotKept      = "Not kept yet. What you typed is still here."
)

// saySame says that another opening bears the number as well.
func saySame(number string, n int) string {
	if n == 2 {
		return fmt.Sprintf("Kept. Another opening bears the number %s too, and so the same letters: give one of them another number when you pass.", number)
	}
	return fmt.Sprintf("Kept. %d openings bear the number %s: give all but one a new tape when you pass.", n, number)
}

// sayKeptAs says that a row of a sheet was kept before, with another value.
func sayKeptAs(value string) string {
	return fmt.Sprintf("Kept before as %s. Withdraw that entry first if it was wrong.", value)
}

// standingWord is how firmly a statement stands, in one word.
func standingWord(v evidence.Verdict) string { return v.Standing.String() }

// standingMeans explains the five words, weakest first.
var standingMeans = []struct{ Word, Means string }{
	{"settled", "false only if two mistakes were made, and the chance of that is at most 1 in 10,000"},
	{"likely", "one answer stands, but a single mistake could overturn it"},
	{"undecided", "several answers stand"},
	{"clash", "some reading is wrong, and it is not yet known which"},
	{"untested", "nothing was read that bears on it"},
}

// withdrawReasons are the buttons of the second touch.
var withdrawReasons = []string{"Misread", "Mistyped", "Wrong opening", "Wrong space", "Wrong conductor", "Wrong unit", "Kept twice", "Something was moved"}

// ohmPair says between what an ohm reading is taken: "hot to ground".
func ohmPair(a, b observation.Wire) string { return wireWord(a) + " to " + wireWord(b) }

func wireWord(w observation.Wire) string {
	if w == observation.EGC {
		return "ground"
	}
	return string(w)
}

// sayMinutes is a length of work: "about 25 min".
func sayMinutes(m float64) string {
	whole := int(m + 0.5)
	switch {
	case m <= 0:
		return ""
	case whole < 1:
		return "under a minute"
	case whole < 60:
		return "about " + strconv.Itoa(whole) + " min"
	}
	return fmt.Sprintf("about %d h %02d min", whole/60, whole%60)
}

// dayAndTime is a moment in the zone of whoever reads it.
func dayAndTime(t time.Time, now time.Time) string {
	t = t.In(now.Location())
	if t.Format(time.DateOnly) == now.Format(time.DateOnly) {
		return "today " + t.Format("15:04")
	}
	return t.Format("Jan 2, 2006 15:04")
}

// poleWord says what sits in a space.
func breakerWords(s observation.Space) string {
	var parts []string
	switch s.Poles {
	case 1:
		parts = append(parts, "1-pole")
	case 2:
		parts = append(parts, "2-pole")
	}
	if s.Amps > 0 {
		parts = append(parts, s.Amps.String())
	}
	if s.Tied == observation.Yes {
		parts = append(parts, "handle tied")
	}
	switch s.Lands {
	case observation.LandsBranch:
		parts = append(parts, "branch conductor")
	case observation.LandsFeeder:
		parts = append(parts, "feeder")
	case observation.LandsNothing:
		parts = append(parts, "nothing lands here")
	}
	return strings.Join(parts, ", ")
}

// useWord names what an opening is for.
func useWord(u observation.OpeningUse) string {
	if u == observation.NoUse {
		return "use not known yet"
	}
	return string(u)
}

// useOptions are the buttons of an opening's use.
func useOptions() []option {
	var out []option
	for _, u := range observation.OpeningUses {
		say := strings.ToUpper(string(u[:min(1, len(u))])) + string(u[min(1, len(u)):])
		if u == observation.NoUse {
			say = "Not known yet"
		}
		out = append(out, option{Value: string(u), Say: say})
	}
	return out
}

// counted is "1 opening", "3 openings", "no openings".
func counted(n int, one string) string {
	switch n {
	case 0:
		return "no " + one + "s"
	case 1:
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + one + "s"
}

// spaceList is "1, 3 and 5".
func spaceList(spaces []int) string {
	parts := make([]string, len(spaces))
	for i, s := range spaces {
		parts[i] = strconv.Itoa(s)
	}
	if len(parts) < 2 {
		return strings.Join(parts, "")
	}
	return strings.Join(parts[:len(parts)-1], ", ") + " and " + parts[len(parts)-1]
}

// barWord names the other side of an isolation reading.
func barWord(a observation.Against) string {
	if a == observation.AgainstEGC {
		return "ground bar"
	}
	return "neutral bar"
}

// isolationWords says an isolation reading: "space 1 to spaces 3 and 5, joined".
// When the second side is every other branch conductor, all is true.
func isolationWords(a []int, against observation.Against, b []int, all bool) string {
	first := "space " + spaceList(a)
	if len(a) > 1 {
		first = "spaces " + spaceList(a) + " joined"
	}
	switch {
	case against != observation.AgainstSpaces:
		return first + " to the " + barWord(against)
	case all && len(b) > 1:
		return first + " to all other spaces joined"
	case len(b) == 1:
		return first + " to space " + spaceList(b)
	}
	return first + " to spaces " + spaceList(b) + " joined"
}

// placeTitle is the heading of a thing's page: "A02-08, Great room".
func placeTitle(in *installation.Installation, t observation.Thing) string {
	name := in.Name(t)
	if o := in.Opening(t); o != nil {
		return name + ", " + in.Name(o.Room)
	}
	if in.Panel(t) != nil {
		return "Panel " + name
	}
	if in.Source(t) != nil {
		return "Source " + name
	}
	return name
}

// stepPage is what the button of a step says.
func stepButton(k step.Kind) string {
	switch k {
	case step.Record, step.Spaces, step.Sources:
		return "Write it down"
	case step.FindFeed:
		return "What feeds it"
	case step.ProveDead:
		return "Enter the test"
	case step.Isolate, step.ReadBack, step.Read:
		return "Enter the readings"
	case step.Place:
		return "List of resistors"
	case step.LookRound, step.LookFor:
		return "Enter what you saw"
	case step.TakeOff:
		return "Read back and take off"
	case step.Release:
		return "Take locks off"
	}
	return "Open"
}

const sayNotDead = "Not proven dead: treat this panel as live."

// sayTestAgain stands beside a test of another day.
const sayTestAgain = "Not tested today: test again before you work on it."

// sayVoltageFound says a test that found voltage.
func sayVoltageFound(when, who string) string {
	return "Voltage was found here " + when + " by " + who + ". Keep away, find the source and lock it out."
}

// sayNothingShown stands at a test without an answer.
const sayNothingShown = "Choose what the test showed; leave the page if there was none."

// sayProvenDead says a test that holds, with its time and no more.
func sayProvenDead(when, who string) string {
	return "Proven dead " + when + " by " + who + ". Test again before you touch it."
}

// sayShares says that several openings bear one number.
func sayShares(number string, n int) string {
	return fmt.Sprintf("%d openings bear the number %s: give all but one a new tape when you pass.", n, number)
}

// joinWords says what the isolation test found between two spaces.
func joinWords(p *installation.Panel, j *trace.Join) string {
	a, b := installation.SpaceName(p, j.A), barWord(j.Bar)
	if j.B > 0 {
		b = installation.SpaceName(p, j.B)
	}
	out := a + " is joined with " + b
	if j.Kind == trace.LoadPath {
		out = "a load path lies between " + a + " and " + b
	}
	if j.Cross == observation.Yes {
		out += ", on opposite legs"
	}
	return out
}

// sayTourLive stands over a tour whose panel is not on record as dead.
func sayTourLive(panels string) string {
	return "Stop. Not on record as proven dead: panel " + panels + ". Take no ohm reading until it is."
}

// askWords says which reading to take: "hot of cable 1 to ground".
func askWords(a asked) string { return a.A.String() + " to " + wireWord(a.B.Wire) }

const (
	sayMarks = "Either every opening bears its mark, or take the ticks off: choose one answer."
	sayNoRow = "Nothing new stands on the sheet. Type at least one row."
)

// sayUntested is the statement of an end at which nothing was read.
func sayUntested(end string) string { return end + ": nothing was read" }

// settleWords says the one reading that decides a clash.
func settleWords(point string, back bool) string {
	if back {
		return "Read the resistor back at " + point
	}
	return "Read " + point + " once more, both leads lifted first, and note the letters on the tape"
}

package web

import (
	"html/template"
	"slices"
	"strconv"
	"strings"
	"time"

	"asfound/drawing"
	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/trace"
)

type panelPage struct {
	Form     *form
	Thing    observation.Thing
	Name     string
	Building navItem
	FedFrom  string
	Power    string // what feeds it, what it feeds, and the locks that stand
	Dead     string
	IsDead   bool
	Face     template.HTML
	Narrow   template.HTML
	Spaces   []spaceRow
	Unlooked []navItem // spaces nobody looked at, with no line on them
	Missing  int
	First    int
	Joins    []joinRow
	Oddities []string
	Photos   []observation.Photo
	Kept     bool
	Work     []navItem
	More     []navItem
	Rooms    []option
	Sites    []option
	Cables   []string    // that lie in the cabinet and land on no space
	Beside   []entryView // pass-through, raceways and the cabinet's size
	Passing  string      // conductors that may stay live with the panel dead
}

type spaceRow struct {
	Number               int
	Href, Breaker, Label string
	Lines                []statement
	Seen                 bool
}

type joinRow struct {
	Say, Standing string
}

// showPanel draws the panel's face as built, with the table of its spaces.
func showPanel(v *visit) error { return panelWith(v, v.form()) }

func panelWith(v *visit, f *form) error {
	p := v.found.Panel(v.arg("panel"))
	if p == nil {
		return notFound{sayNoThing}
	}
	data := panelPage{Form: f, Passing: drawing.Passing(p), Thing: p.Thing, Name: p.Name, FedFrom: p.FedFrom, Dead: v.deadWords(p), Photos: photosOf(p.Story),
		Building: navItem{Href: "building/" + string(p.Building), Name: v.found.Name(p.Building)},
		Face:     v.face(p, drawing.PanelFace), Narrow: v.face(p, drawing.NarrowPanelFace), First: v.nextSpace(p, 0), Kept: v.query("kept") != ""}
	data.Power = strings.Join(nonEmpty(v.fedWords(p), v.feedsWords(p.Thing), lockWords(len(p.Standing()))), "; ")
	_, data.IsDead = v.found.DeadSince(p)
	data.Work, data.More = panelDoors(string(p.Thing))
	fillPanel(f, p)
	data.Sites, data.Rooms = v.buildingOptions(), append(v.roomOptions(p.Building), option{Say: sayNotKnown})
	for n := 1; n <= p.Spaces; n++ {
		row := v.spaceRow(p, n)
		if !row.Seen {
			data.Missing++
		}
		if !row.Seen && len(row.Lines) == 0 {
			data.Unlooked = append(data.Unlooked, navItem{Href: row.Href, Name: strconv.Itoa(n)})
		} else {
			data.Spaces = append(data.Spaces, row)
		}
	}
	for _, j := range v.found.Trace.Joins {
		if j.Panel == p.Thing && j.Kind != trace.Apart {
			data.Joins = append(data.Joins, v.joinRow(p, j))
		}
	}
	data.Oddities = v.panelOddities(p.Thing)
	data.Cables = cablesIn(p)
	for _, kind := range []observation.Body{observation.PassThrough{}, observation.Raceway{}, observation.Cabinet{}} {
		for _, e := range v.recorded(p.Thing, kind.Kind()) {
			if !e.Withdrawn && !e.Replaced {
				data.Beside = append(data.Beside, e)
			}
		}
	}
	return v.renderForm("panel", "Panel "+p.Name, f, data)
}

// panelOddities are what was found at a panel itself, and at openings read under
// one of its tours what has to be found before anything is energized.
func (v *visit) panelOddities(panel observation.Thing) []string {
	var out []string
	for _, odd := range v.found.Trace.Oddities {
		if odd.Place == panel || !canWait[odd.Kind] && v.readFrom(panel, odd.Place) {
			out = append(out, odd.Say)
		}
	}
	return out
}

// canWait are the oddities of an opening that stop nobody from energizing the
// panel's other circuits: they stand on the page of the opening.
var canWait = map[trace.OddityKind]bool{trace.NothingHere: true, trace.TwoCircuits: true, trace.ForeignFeed: true, trace.NeutralMissing: true,
	trace.GroundMissing: true, trace.SwappedLabels: true, trace.DuplicateNumber: true}

// readFrom reports whether an opening was read under a tour of the panel.
func (v *visit) readFrom(panel, opening observation.Thing) bool {
	o := v.found.Opening(opening)
	return o != nil && slices.ContainsFunc(o.Stops, func(s *installation.Stop) bool {
		t := v.tourUnder(s.First)
		return t != nil && slices.Contains(t.Panels, panel)
	})
}

// panelDoors are the pages that a panel's own leads to: work at it, and what
// else is to be recorded of it.
func panelDoors(thing string) (work, more []navItem) {
	work = []navItem{{Href: "door/" + thing, Name: doorLive}, {Href: "lockout/" + thing, Name: doorLockOut}, {Href: "dead/" + thing, Name: doorDead},
		{Href: "isolation/" + thing, Name: doorIsolation}, {Href: "tour?panel=" + thing, Name: doorTour},
		{Href: "told/" + thing, Name: doorTold}, {Href: "release/" + thing, Name: doorRelease}, {Href: "energize/" + thing, Name: doorEnergize}}
	more = []navItem{{Href: "feeder/" + thing, Name: doorFeeders}, {Href: "raceway/" + thing, Name: doorRaceway}, {Href: "passthrough/" + thing, Name: doorPasses}, {Href: "coiled/" + thing, Name: doorCoiled},
		{Href: "cabinet/" + thing, Name: doorCabinet}}
	return work, more
}

// face is the panel face as a drawing whose spaces lead to their pages.
func (v *visit) face(p *installation.Panel, draw drawFace) template.HTML {
	page := draw(v.found.Installation, v.found.Trace, p.Thing, func(at observation.Point) string {
		if at.At == p.Thing && at.Space > 0 {
			return spaceHref(p.Thing, at.Space)
		}
		return lineHref(at)
	})
	if page == nil {
		return ""
	}
	return template.HTML(paper.SVG(page, paper.SVGOptions{})) // escaped by package paper
}

// drawFace is a way to draw a panel face: for a laptop or for a phone.
type drawFace func(*installation.Installation, *trace.Trace, observation.Thing, func(observation.Point) string) *paper.Page

func spaceHref(panel observation.Thing, space int) string {
	return "panel/" + string(panel) + "/space/" + strconv.Itoa(space)
}

func (v *visit) spaceRow(p *installation.Panel, n int) spaceRow {
	row := spaceRow{Number: n, Href: spaceHref(p.Thing, n)}
	if s, seen := p.Seen[n]; seen {
		row.Seen, row.Breaker, row.Label = true, breakerWords(s), s.Label
	}
	for _, l := range v.found.Trace.On(p.Thing, n) {
		s := v.statement(l)
		s.Say = v.found.PointName(l.End)
		row.Lines = append(row.Lines, s)
	}
	return row
}

func (v *visit) joinRow(p *installation.Panel, j *trace.Join) joinRow {
	return joinRow{Say: joinWords(p, j), Standing: standingWord(j.Verdict)}
}

// linesOn are the lines whose best answer is a space of the panel.
func (v *visit) linesOn(panel observation.Thing) []*trace.Line {
	var out []*trace.Line
	for _, l := range v.found.Trace.Lines {
		if l.Source.Kind == trace.FromSpace && l.Source.At.At == panel {
			out = append(out, l)
		}
	}
	return out
}

// deadWords says what is on record of a panel being dead. It never says more
// than the test and its time.
func (v *visit) deadWords(p *installation.Panel) string {
	if test, dead := v.found.DeadSince(p); dead {
		out := sayProvenDead(dayAndTime(test.When(), v.ask.Now), test.Who)
		if dayOf(test.When(), v.ask.Now) != dayOf(v.ask.Now, v.ask.Now) {
			out += " " + sayTestAgain
		}
		return out
	}
	if n := len(p.Dead); n > 0 && p.Dead[n-1].Body.(observation.ProvenDead).Absent == observation.No {
		return sayNotDead + " " + sayVoltageFound(dayAndTime(p.Dead[n-1].When(), v.ask.Now), p.Dead[n-1].Who)
	}
	if by := v.found.VoidedBy(p); by != nil {
		return sayNotDead + " " + v.voidWords(*by)
	}
	return sayNotDead
}

// dayOf is the day of a time where the clock of now runs.
func dayOf(t, now time.Time) string { return t.In(now.Location()).Format(time.DateOnly) }

// nextSpace is the first space after n, down the left column and then the
// right, that nobody has looked at; 0 when all were.
func (v *visit) nextSpace(p *installation.Panel, n int) int {
	order := columnOrder(p.Spaces)
	start := 0
	for i, s := range order {
		if s == n {
			start = i + 1
		}
	}
	for i := range order {
		s := order[(start+i)%len(order)]
		if _, seen := p.Seen[s]; !seen && s != n {
			return s
		}
	}
	return 0
}

// columnOrder is the spaces down the left column, then down the right.
func columnOrder(spaces int) []int {
	var out []int
	for first := 1; first <= 2; first++ {
		for s := first; s <= spaces; s += 2 {
			out = append(out, s)
		}
	}
	return out
}

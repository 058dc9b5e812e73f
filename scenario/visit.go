package scenario

import (
	"slices"
	"strings"
	"time"

	"asfound/observation"
	"asfound/pellam"
)

// begin starts a visit: its crew arrives. Whose notes get the wrong date is drawn
// here, once a visit.
func (p *player) begin(visit int) {
	v := p.people.Visits[visit]
	p.visit, p.crew, p.notes = visit, v.Crew, v.Notes
	p.day = v.Start
	if v.Start.After(p.clock.at) {
		p.clock.at = v.Start
	}
	p.at, p.busy, p.late = make([]int, len(p.crew)), make([]time.Duration, len(p.crew)), make([]bool, len(p.crew))
	for i := range p.crew {
		p.who = i
		p.at[i] = -1
		p.late[i] = visit > 0 && p.slip(WrongDate, p.people.Rates.Date)
	}
	p.who = 0
	if v.Work != "" {
		p.record(observation.Observation{Body: observation.Note{Text: "Planned for today: " + v.Work}})
	}
}

// nextVisit ends the visit under way and starts the next, if there is one.
func (p *player) nextVisit() {
	if p.visit+1 < len(p.people.Visits) {
		p.endVisit()
		p.begin(p.visit + 1)
	}
}

// endVisit has all notes written that are still to be.
func (p *player) endVisit() {
	for len(p.notes) > 0 {
		p.writeNote()
	}
}

// done reports whether a person begins nothing more today.
func (p *player) done(who int) bool {
	v := p.people.Visits[p.visit]
	return v.Hours > 0 && p.visit+1 < len(p.people.Visits) && p.busy[who] >= v.Hours
}

// whenDone goes on with the next visit when the person whose turn it is begins
// nothing more today.
func (p *player) whenDone() {
	if p.done(p.who) {
		p.nextVisit()
	}
}

// together lets everybody wait for the one who is busy longest.
func (p *player) together() {
	last := slices.Max(p.busy)
	for i := range p.busy {
		p.busy[i] = last
	}
}

// notesDue writes the notes whose time has come: they are spread over the hours
// of the visit.
func (p *player) notesDue() {
	v := p.people.Visits[p.visit]
	for len(p.notes) > 0 {
		written := len(v.Notes) - len(p.notes)
		due := v.Start.Add(v.Hours * time.Duration(written+1) / time.Duration(len(v.Notes)+1))
		if due.After(p.clock.at) {
			return
		}
		p.writeNote()
	}
}

// writeNote records the next note as its writer wrote it, or the withdrawal of an
// earlier one.
func (p *player) writeNote() {
	n := p.notes[0]
	p.notes = p.notes[1:]
	who := p.who
	defer func() { p.who = who }()
	p.who = max(0, slices.IndexFunc(p.crew, func(c Person) bool { return c.Name == n.Who }))
	if old, there := p.played.Noted[n.Withdraws]; there {
		delete(p.played.Noted, n.Withdraws)
		p.withdraw(p.place(n), n.Text, old)
		return
	}
	p.played.Noted[n.ID] = p.record(observation.Observation{Subject: p.place(n), Body: observation.Note{Text: n.Text}})
}

// place is the thing a note is about: an opening, a room, a panel; else the job.
func (p *player) place(n pellam.Note) observation.Thing {
	in := p.installation()
	if n.Opening != "" {
		if o := in.Numbered(n.Opening); len(o) > 0 {
			return o[0].Thing
		}
	}
	for i, r := range p.view.Rooms {
		if id, _, _ := strings.Cut(r.Name, " "); id == n.Where && i < len(p.rooms) {
			return p.rooms[i]
		}
	}
	for _, thing := range p.panels {
		if in.Name(thing) == n.Where {
			return thing
		}
	}
	return ""
}

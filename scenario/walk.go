package scenario

import (
	"slices"

	"asfound/observation"
)

// round is one person's part of the tour.
type round struct {
	rooms []observation.Thing // still to do, in walking order
	left  []observation.Thing // openings of the first of them still to read
	begun bool
}

// walkTour reads the openings room by room. Each of the crew has a share of the
// rooms; who is furthest behind in time has the next stop.
func (p *player) walkTour(until Until) {
	n := len(p.plan.Rooms)
	if until == HalfTour {
		n = (n + 1) / 2
	}
	var rooms []observation.Thing
	for i := range n { // they stand at the last panel, and begin there
		rooms = append(rooms, p.plan.Rooms[len(p.plan.Rooms)-1-i].Room)
	}
	rounds := p.share(rooms)
	for p.err == nil {
		next := p.nextOn(rounds)
		if next < 0 {
			rooms = nil
			for _, r := range rounds {
				rooms = append(rooms, r.rooms...)
			}
			if len(rooms) == 0 {
				break
			}
			p.nextVisit()
			rounds = p.share(rooms)
			continue
		}
		p.who = next
		p.walkOn(&rounds[next])
		p.notesDue()
	}
	p.who = 0
}

// share gives each of the crew a part of the rooms.
func (p *player) share(rooms []observation.Thing) []round {
	rounds := make([]round, len(p.crew))
	for i, room := range rooms {
		r := &rounds[i*len(rounds)/len(rooms)]
		r.rooms = append(r.rooms, room)
	}
	return rounds
}

// nextOn is who is furthest behind in time with rooms left, a room begun or the
// day not done; -1 is nobody.
func (p *player) nextOn(rounds []round) int {
	next := -1
	for i, r := range rounds {
		if len(r.rooms) > 0 && (r.begun || !p.done(i)) && (next < 0 || p.busy[i] < p.busy[next]) {
			next = i
		}
	}
	return next
}

// walkOn makes the next stop of a round, or finishes its room.
func (p *player) walkOn(r *round) {
	room := r.rooms[0]
	if !r.begun {
		r.begun = true
		r.left = p.recordedIn(room)
	}
	if len(r.left) > 0 {
		thing := r.left[0]
		r.left = r.left[1:]
		p.goTo(slices.Index(p.rooms, room))
		p.stop(thing)
		return
	}
	p.finishRoom(room)
	r.rooms, r.begun = r.rooms[1:], false
}

func (p *player) recordedIn(room observation.Thing) []observation.Thing {
	var out []observation.Thing
	for _, o := range p.installation().In(room) {
		out = append(out, o.Thing)
	}
	return out
}

// finishRoom looks round for marks, reads what bears none and what the record
// has no reading of, and looks again if that found something.
func (p *player) finishRoom(room observation.Thing) {
	p.lookRound(room)
	missing := p.unread(room)
	for _, thing := range missing {
		p.stop(thing)
	}
	if len(missing) > 0 {
		p.lookRound(room)
	}
}

// unread lists the openings of a room without mark or without reading.
func (p *player) unread(room observation.Thing) []observation.Thing {
	var out []observation.Thing
	for _, o := range p.installation().In(room) {
		if !o.ReadUnder(p.tour) {
			out = append(out, o.Thing)
		}
	}
	return out
}

// joinFeeds goes round the switch boxes first and joins, in each, what a closed
// switch would: then the tour reaches what lies beyond.
func (p *player) joinFeeds(until Until) {
	rooms := p.plan.Rooms
	if until == HalfTour {
		rooms = rooms[len(rooms)/2:]
	}
	p.who = len(p.crew) - 1 // while the first sets the panels up
	defer func() { p.who = 0 }()
	for _, w := range slices.Backward(rooms) {
		for _, thing := range w.Openings {
			p.joinIn(w.Room, thing)
		}
	}
}

func (p *player) joinIn(room, thing observation.Thing) {
	box := p.played.Box[thing]
	joins := p.view.Boxes[box].Joins
	if len(joins) == 0 || p.clipped[box] {
		return
	}
	p.clipped[box] = true
	p.goTo(slices.Index(p.rooms, room))
	p.spend(p.world.Reach(p.people.Costs, box))
	for _, j := range joins {
		p.spend(p.people.Costs.Clip)
		p.rig.clip(Clip{Box: box, Feed: p.feedJoined(box, j), Leg: j[1]})
		p.record(observation.Observation{Under: []observation.ID{p.tour}, Subject: thing, Body: observation.Joined{
			Feed: observation.Point{At: thing, Cable: j[0], Wire: observation.Hot}, Leg: observation.Point{At: thing, Cable: j[1], Wire: observation.Hot}}})
	}
}

// feedJoined is what is really joined to a leg: now and then a hot of another
// yoke of the box.
func (p *player) feedJoined(box int, join [2]string) string {
	var others []string
	for _, j := range p.view.Boxes[box].Joins {
		if j[0] != join[0] {
			others = append(others, j[0])
		}
	}
	if len(others) == 0 || !p.slip(WrongFeed, p.people.Rates.Feed) {
		return join[0]
	}
	return others[p.rng.IntN(len(others))]
}

// lookRound answers the room check: by looking, or now and then without.
func (p *player) lookRound(room observation.Thing) {
	p.spendOn(&p.played.Spent.Checks, p.people.Costs.Look)
	check := observation.RoomCheck{All: observation.Yes}
	if !p.slip(NotLooked, p.people.Rates.Look) {
		for _, thing := range p.recordedIn(room) {
			if !p.marked[p.played.Box[thing]] {
				check.All = observation.No
				check.Without = append(check.Without, thing)
			}
		}
	}
	p.record(observation.Observation{Under: []observation.ID{p.tour}, Subject: room, Body: check})
}

package site

import (
	"asfound/installation"
	"asfound/list"
	"asfound/observation"
)

// drawings are the openings on drawings: those with a mark one by one, the
// others by how many are alike. Lines that are alike add up: two lines of one
// switch each are two switches.
type drawings struct {
	marked map[drawnKey][]*drawnOn
	alike  map[drawnKey]int // on record
	told   map[drawnKey]int // by the list, all lines together
	used   map[drawnKey]int // of those on record, told by lines before
}

type drawnKey struct {
	room        *roomOn
	use         observation.OpeningUse
	mark        string
	what, sheet string
}

type drawnOn struct {
	thing observation.Thing
	observation.Drawn
	seen []observation.ID
	want *wanted
}

func drawingsOf(in *installation.Installation, at places) drawings {
	d := drawings{marked: map[drawnKey][]*drawnOn{}, alike: map[drawnKey]int{}, told: map[drawnKey]int{}, used: map[drawnKey]int{}}
	for _, x := range in.Drawn {
		key := keyOf(at.rooms[x.Room], x.Drawn)
		if x.Mark == "" {
			d.alike[key]++
			continue
		}
		d.marked[key] = append(d.marked[key], &drawnOn{thing: x.Thing, Drawn: x.Drawn, seen: records[observation.Drawn](x.Story)})
	}
	return d
}

// keyOf is what tells openings on drawings apart: the mark on its sheet, or all
// that is said of one without.
func keyOf(room *roomOn, b observation.Drawn) drawnKey {
	key := drawnKey{room: room, sheet: plainName(b.Sheet), mark: plainName(b.Mark)}
	if b.Mark == "" {
		key.use, key.what = b.Use, plainName(b.What)
	}
	return key
}

// drawnOf reads a line of a list of drawn openings, but for its place.
func drawnOf(c *cells) (body observation.Drawn, count int) {
	body = observation.Drawn{Room: "?", Use: c.use(), Mark: c.known("mark"), What: c.known("what"), Sheet: c.known("sheet")}
	count = 1
	if c.known("count") != "" {
		count = c.whole("count", sayCount)
		if count < 1 || count > 500 {
			c.refuse("count", sayCount)
		}
		if count > 1 && body.Mark != "" {
			c.refuse("count", sayMarkCount)
		}
	}
	return body, count
}

// tally adds up how many a line names that bear no mark.
func (t *taking) tally(r list.Record) {
	c := &cells{Record: r}
	room := t.roomNamed(c, t.buildingNamed(c))
	if body, count := drawnOf(c); c.fault == nil && body.Mark == "" {
		t.told[keyOf(room, body)] += count
	}
}

// drawing judges a line of a list of drawn openings.
func (t *taking) drawing(r list.Record) (bool, error) {
	c := &cells{Record: r}
	room := t.roomNamed(c, t.buildingNamed(c))
	says, count := drawnOf(c)
	if c.fault != nil {
		return false, c.fault
	}
	if err := t.check(says, nil); err != nil {
		return false, err
	}
	if says.Mark != "" {
		return t.markedDrawn(c, says, room)
	}
	return t.alikeDrawn(c, says, room, count)
}

// alikeDrawn records as many as are not on record yet. Fewer in the list than on
// record is a clash of the two.
func (t *taking) alikeDrawn(c *cells, says observation.Drawn, room *roomOn, count int) (bool, error) {
	key := keyOf(room, says)
	if t.told[key] < t.alike[key] {
		return false, bad("count", c.Get("count"), sayFewer(t.alike[key], t.told[key]))
	}
	there := min(count, t.alike[key]-t.used[key])
	t.used[key] += there
	for range count - there {
		says.Room = t.roomThing(room, c.Line)
		t.record(c.Line, observation.Observation{Body: says})
	}
	return count > there, nil
}

// markedDrawn records the opening of a mark, or fills in what is known of it.
func (t *taking) markedDrawn(c *cells, says observation.Drawn, room *roomOn) (bool, error) {
	key := keyOf(room, says)
	if len(t.marked[key]) == 0 {
		says.Room = t.roomThing(room, c.Line)
		on := &drawnOn{Drawn: says, want: t.record(c.Line, observation.Observation{Body: says})}
		on.thing = on.want.thing
		t.marked[key] = append(t.marked[key], on)
		return true, nil
	}
	on := t.marked[key][0]
	f := &filling{cells: c}
	if on.want != nil {
		f.line = on.want.line
	}
	next := on.Drawn
	fill(f, "use", &next.Use, says.Use)
	fillText(f, "what", &next.What, says.What)
	if c.fault != nil || !f.more {
		return false, c.fault
	}
	on.Drawn = next
	if on.want == nil {
		on.want = t.record(c.Line, observation.Observation{Subject: on.thing, Seen: on.seen})
	}
	on.want.o.Body = next
	return true, nil
}

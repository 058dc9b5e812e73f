package site

import (
	"cmp"
	"strconv"

	"asfound/installation"
	"asfound/observation"
)

// places are the buildings and rooms by their names. One without a thing is not
// on record, and is recorded when a line in it is kept.
type places struct {
	buildings map[string][]*buildingOn
	rooms     map[observation.Thing]*roomOn
	floors    map[roomKey]floorOn // of rooms, as the list says first
}

type buildingOn struct {
	thing observation.Thing
	name  string
	rooms map[string][]*roomOn
	last  int // place on the walk of its last room
}

type roomOn struct {
	thing    observation.Thing
	building *buildingOn
	name     string
	floor    int
	line     int // that said the floor first, 0 when it is on record
}

type roomKey struct{ building, room string }

type floorOn struct{ floor, line int }

func placesOf(in *installation.Installation) places {
	p := places{buildings: map[string][]*buildingOn{}, rooms: map[observation.Thing]*roomOn{}, floors: map[roomKey]floorOn{}}
	by := map[observation.Thing]*buildingOn{}
	for _, b := range in.Buildings {
		by[b.Thing] = &buildingOn{thing: b.Thing, name: b.Name, rooms: map[string][]*roomOn{}}
		p.buildings[plainName(b.Name)] = append(p.buildings[plainName(b.Name)], by[b.Thing])
	}
	for _, r := range in.Rooms {
		if b := by[r.Building]; b != nil {
			key := plainName(r.Name)
			p.rooms[r.Thing] = &roomOn{thing: r.Thing, building: b, name: r.Name, floor: r.Floor}
			b.rooms[key] = append(b.rooms[key], p.rooms[r.Thing])
			b.last = max(b.last, r.Order)
		}
	}
	return p
}

// buildingNamed finds the building of a line, or one that is to be recorded.
func (t *taking) buildingNamed(c *cells) *buildingOn {
	name := c.name("building")
	if name == "" {
		return nil
	}
	key := plainName(name)
	b, n := pick(t.buildings[key], name, func(b *buildingOn) string { return b.name })
	switch n {
	case 1:
		return b
	case 0:
		if err := t.check(observation.Building{Name: name}, map[string]string{"name": "building"}); err != nil {
			c.fault = cmp.Or(c.fault, err)
			return nil
		}
		b = &buildingOn{name: name, rooms: map[string][]*roomOn{}}
		t.buildings[key] = append(t.buildings[key], b)
		return b
	}
	c.refuse("building", sayTwoSuch("building", name))
	return nil
}

// roomNamed finds the room of a line in its building, or one to be recorded.
func (t *taking) roomNamed(c *cells, b *buildingOn) *roomOn {
	name := c.name("room")
	floor, told := c.floor()
	if b == nil || name == "" {
		return nil
	}
	key := plainName(name)
	rooms := b.rooms[key]
	if told && len(rooms) > 1 {
		rooms = onFloor(rooms, floor)
	}
	r, n := pick(rooms, name, func(r *roomOn) string { return r.name })
	if n > 1 || n == 0 && len(b.rooms[key]) > 0 {
		c.refuse("room", sayTwoSuch("room", name))
		return nil
	}
	if n == 0 {
		first := t.floors[roomKey{plainName(c.Get("building")), key}]
		r = &roomOn{building: b, name: name, floor: first.floor, line: first.line}
		body := observation.Room{Building: "?", Name: name, Floor: r.floor}
		if err := t.check(body, map[string]string{"name": "room"}); err != nil {
			c.fault = cmp.Or(c.fault, err)
			return nil
		}
		b.rooms[key] = append(b.rooms[key], r)
	}
	if told && floor != r.floor {
		c.refuse("floor", sayOther("floor "+strconv.Itoa(r.floor), r.line))
	}
	return r
}

func onFloor(rooms []*roomOn, floor int) (out []*roomOn) {
	for _, r := range rooms {
		if r.floor == floor {
			out = append(out, r)
		}
	}
	return out
}

// buildingThing records a building that is not on record.
func (t *taking) buildingThing(b *buildingOn, line int) observation.Thing {
	if b.thing == "" {
		b.thing = t.record(line, observation.Observation{Body: observation.Building{Name: b.name}}).thing
		t.made = append(t.made, "building "+b.name)
	}
	return b.thing
}

// roomThing records a room that is not on record, at the end of the walk through
// its building.
func (t *taking) roomThing(r *roomOn, line int) observation.Thing {
	if r.thing == "" {
		building := t.buildingThing(r.building, line)
		r.building.last++
		r.thing = t.record(line, observation.Observation{Body: observation.Room{Building: building, Name: r.name, Floor: r.floor, Order: r.building.last}}).thing
		t.rooms[r.thing] = r
		t.made = append(t.made, "room "+r.name+" in "+r.building.name)
	}
	return r.thing
}

package web

import (
	"slices"

	"asfound/installation"
)

type pairingPage struct {
	Tour, Name string
	Live       string
	Removed    bool
	Pairs      []statement
	Out        []outRow
	Left       int
	Next       []string
	Visited    int
	Count      int
	First      *navItem
	Rooms      []tourRoom
	Means      string
}

// outRow is a resistor whose other end was not read.
type outRow struct{ Href, Where, Room, Ohm string }

// nextValues is how many of the values left are named.
const nextValues = 5

// pairingPage is how far a pairing tour has come: pairs found, resistors still
// out, values left.
func (v *visit) pairingPage(t *installation.Tour) error {
	p := v.pairing(t)
	data := pairingPage{Tour: t.ID.String(), Name: t.Name, Live: v.tourStop(t), Removed: t.Removed, Pairs: v.statements(p.Pairs), Left: len(p.Free)}
	for _, put := range p.Out {
		row := outRow{Href: "tour/" + data.Tour + "/" + string(put.On.At), Where: v.found.PointName(put.On), Ohm: put.Ohm.String()}
		if o := v.found.Opening(put.On.At); o != nil {
			row.Room = v.found.Name(o.Room)
		}
		data.Out = append(data.Out, row)
	}
	for _, ohm := range p.Free[:min(nextValues, len(p.Free))] {
		data.Next = append(data.Next, ohm.String())
	}
	for _, walk := range v.walk(t) {
		room := tourRoom{Name: v.found.Name(walk.Room)}
		for _, thing := range walk.Openings {
			o := v.found.Opening(thing)
			row := openingRow{Href: "tour/" + data.Tour + "/" + string(thing), Number: o.Number, State: v.pairState(t, o)}
			if row.State == stateUnvisited && data.First == nil {
				data.First = &navItem{Href: row.Href, Name: o.Number}
			}
			if row.State != stateUnvisited {
				data.Visited++
			}
			room.Openings = append(room.Openings, row)
		}
		data.Count += len(room.Openings)
		data.Rooms = append(data.Rooms, room)
	}
	data.Means = sayOut(data.Count - data.Visited)
	return v.render("pairing", t.Name, data)
}

// pairState says in a few words how far the cable ends of an opening are.
func (v *visit) pairState(t *installation.Tour, o *installation.Opening) string {
	visited, left := false, 0
	for _, s := range o.Stops {
		visited = visited || slices.Contains(s.First.Under, t.ID)
	}
	ends := pairTags(o)
	for _, tag := range ends {
		if v.pairEnd(t, o, tag, "").todo != pairDone {
			left++
		}
	}
	switch {
	case !visited && left == len(ends):
		return stateUnvisited
	case left > 0:
		return counted(left, "cable end") + stateLeft
	}
	return stateAllDone
}

package pellam

import (
	"fmt"
	"slices"

	"asfound/observation"
	"asfound/quantity"
)

// Hots are the ungrounded conductors of a place that touch each other: one of
// them read is all of them read. They are numbered from 1, in the order their
// cables enter.
type Hots struct {
	Place   string
	Tag     string
	Node    Node // one conductor of them
	Neutral Node // beside it in its cable, or zero
	Ground  Node // beside it in its cable
	Size    quantity.Gauge
	Second  bool // the second hot of its cable, red or a re-used white
}

// Hots lists those at an opening, or of the coiled home runs in a panel.
func (f *Found) Hots(place string) []Hots {
	var out []Hots
	for _, n := range f.Wiring.At(place) {
		r := f.Wiring.Run(n)
		if f.Panel(place) != nil && !f.coiled(n, place) {
			continue
		}
		hots := []observation.Wire{observation.Hot, HotTwo}
		if r.Role == Loop {
			hots[1] = observation.Neutral // the white of a two-wire loop is the supply
		}
		for _, wire := range hots {
			end := f.Wiring.End(n, place, wire)
			if !slices.Contains(r.Conductors, wire) || slices.ContainsFunc(out, func(h Hots) bool { return f.Wiring.Touch(h.Node, end) }) {
				continue
			}
			h := Hots{Place: place, Tag: fmt.Sprint(len(out) + 1), Node: end, Size: r.Size, Second: wire != observation.Hot}
			if slices.Contains(r.Conductors, observation.EGC) {
				h.Ground = f.Wiring.End(n, place, observation.EGC)
			}
			if slices.Contains(r.Conductors, observation.Neutral) && r.Role != Loop {
				h.Neutral = f.Wiring.End(n, place, observation.Neutral)
			}
			out = append(out, h)
		}
	}
	return out
}

// coiled reports whether a run lies in a panel with none of its ends landed or
// spliced.
func (f *Found) coiled(run int, panel string) bool {
	for _, wire := range f.Wiring.Run(run).Conductors {
		if len(f.Wiring.beside(f.Wiring.End(run, panel, wire))) > 0 {
			return false
		}
	}
	return true
}

// Yokes lists the yokes of a switch box with the hots that a closed switch would
// join, those of the first first. A yoke with less than two is left out.
func (f *Found) Yokes(box string) [][]Hots {
	var out [][]Hots
	hots := f.Hots(box)
	for at := 1; at <= f.Opening(box).Gangs; at++ {
		var joined []Hots
		for _, screw := range []string{"common", "traveler 1", "traveler 2", "traveler 3", "traveler 4", "leg"} {
			for _, h := range hots {
				if f.Wiring.Touch(h.Node, Yoke{box, at}.Screw(screw)) && !slices.Contains(joined, h) {
					joined = append(joined, h)
				}
			}
		}
		if len(joined) > 1 {
			out = append(out, joined)
		}
	}
	return out
}

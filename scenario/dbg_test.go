package scenario

import (
	"testing"
	"asfound/observation"
)

func TestDbg(t *testing.T) {
	p := play(t, Generate(14, OnePanel), people(14, Mistaken()), EndOfJob)
	in := p.AsFound.Installation
	t.Log(p.Slips, p.Truth.Circuits[5], p.Truth.Joins)
	for _, e := range in.Tours[0].Story {
		switch b := e.Body.(type) {
		case observation.Resistor:
			t.Log(e.ID, in.PointName(b.On), b.Ohm, e.Live())
		case observation.ReadBack:
			t.Log(e.ID, "back", in.PointName(b.At), b.Ohm, b.After, e.Live())
		}
	}
}

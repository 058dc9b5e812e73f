package pellam

import (
	"testing"
)

// Faults of insulation and grounds.
var groundFaults = map[string]func(*testing.T, *Found){
	"X10": func(t *testing.T, f *Found) {
		n := between(f, "A1", "A19-02")
		ohms(t, f, State{}, f.Wiring.End(n, "A1", hot), f.Wiring.End(n, "A1", egc), 29e3, 31e3)
		m := between(f, "A19-04", "A19-05") // opened at A19-04: toward the panel nothing, away from it all
		s := State{Lifted: []Node{f.Wiring.End(m, "A19-04", hot)}}
		open(t, f, s, Box("A19-04", hot), Box("A19-04", egc))
		ohms(t, f, s, f.Wiring.End(m, "A19-04", hot), Box("A19-04", egc), 29e3, 31e3)
	},
	"X12": func(t *testing.T, f *Found) {
		s := on(SpaceAt{"B1", 12})
		s.Across = []Across{{Box("B03-03", hot), Box("B03-03", neutral), 12}}
		volts(t, f, s, Box("B03-03", neutral), Box("B03-03", egc), 0)
		ohms(t, f, State{}, Box("B03-03", neutral), Box("B03-03", egc), 0, 0)
		far := f.Wiring.End(between(f, "B03-02", "B03-03"), "B03-03", egc)
		open(t, f, State{Lifted: []Node{Box("B03-03", egc), Box("B03-04", egc), far}}, far, GroundBar("B1"))
	},
	"X38": func(t *testing.T, f *Found) {
		ohms(t, f, State{}, Box("A02-05", hot), Box("A02-05", egc), 790e3, 801e3)
	},
}

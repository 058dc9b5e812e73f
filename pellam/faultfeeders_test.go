package pellam

import (
	"testing"
)

// Faults of feeders, bonds and sources.
var feederFaults = map[string]func(*testing.T, *Found){
	"X24": func(t *testing.T, f *Found) {
		n := between(f, "D1", "B1")
		if got := len(f.Wiring.Run(n).Conductors); got != 3 {
			t.Errorf("%d conductors, want 3", got)
		}
		ohms(t, f, State{Lifted: []Node{f.Wiring.End(n, "B1", neutral)}}, NeutralBar("B1"), GroundBar("B1"), 0, 0)
	},
	"X25": func(t *testing.T, f *Found) {
		if r := f.Wiring.Run(between(f, "A1", "C1")); r.Size != "8" || f.Circuit("A1-02").Amps != 60 {
			t.Errorf("size %s on %v, want 8 on 60 A", r.Size, f.Circuit("A1-02").Amps)
		}
	},
	"X27": func(t *testing.T, f *Found) {
		if w := f.Ways["F5"]; w.StubShort != 11 || w.Cover >= 18 {
			t.Errorf("%+v, want a stub 11 ft short under less than 18 in.", w)
		}
	},
	"X28": func(t *testing.T, f *Found) {
		if w, length := f.Ways["F4"], f.Wiring.Run(between(f, "A1", "C1")).Length; w.Blocked+123 != length {
			t.Errorf("fish stops at %v and 123 of %v ft", w.Blocked, length)
		}
	},
	"X29": func(t *testing.T, f *Found) {
		ohms(t, f, State{}, NeutralBar("A1"), GroundBar("A1"), 0, 0)
	},
	"X30": func(t *testing.T, f *Found) {
		volts(t, f, on(SpaceAt{"D1", 2}, SpaceAt{"D1", 4}), Box("D05-04", hot), Box("D05-04", HotTwo), 240)
		volts(t, f, on(SpaceAt{"D1", 37}, SpaceAt{"D1", 39}), Box("D01-11", hot), Box("D01-11", HotTwo), 240)
	},
	"X39": func(t *testing.T, f *Found) {
		if !f.Source["GEN"] || !f.Wiring.Touch(NeutralBar("GEN"), GroundBar("GEN")) {
			t.Error("the generator's neutral is not tied to its frame")
		}
	},
}

package pellam

import (
	"testing"
)

// Faults that are to be seen.
var lookFaults = map[string]func(*testing.T, *Found){
	"X16": func(t *testing.T, f *Found) {
		for _, at := range []string{"A02-08", "A14-01"} {
			if o := f.Opening(at); o.Needs <= o.Volume {
				t.Errorf("%s needs %v of %v in.3", at, o.Needs, o.Volume)
			}
		}
	},
	"X17": looksLike("A06-07", func(l Look) bool { return l.FreeLength == 2 }),
	"X18": looksLike("A02-11", func(l Look) bool { return l.Setback == 1.125 }),
	"X19": func(t *testing.T, f *Found) {
		looksLike("A16-09", func(l Look) bool { return l.Covered })(t, f)
		if n := len(f.Wiring.At("A11-04")); n != 2 {
			t.Errorf("%d cables at A11-04, want two with nothing to be seen beyond", n)
		}
	},
	"X21": panelLooksLike("A2", func(l PanelLook) bool { return l.DeadFrontGone && l.NameplateGone }),
	"X22": panelLooksLike("A2", func(l PanelLook) bool { return l.KnockoutsBroken == 2 && l.CablesInOneFitting == 4 }),
	"X26": panelLooksLike("C1", func(l PanelLook) bool { return l.NoElectrode }),
	"X31": panelLooksLike("A1", func(l PanelLook) bool { return l.DoubleNeutrals == 7 }),
	"X32": looksLike("A17-05", func(l Look) bool { return l.BoxNotFor == "insulation contact" }),
	"X33": looksLike("A15-07", func(l Look) bool { return l.BoxNotFor == "a fan" }),
	"X35": func(t *testing.T, f *Found) {
		looksLike("C05-03", func(l Look) bool { return l.WetCable })(t, f)
		panelLooksLike("C1", func(l PanelLook) bool { return len(l.NoGroundFault) == 1 })(t, f)
	},
	"X40": panelLooksLike("A2", func(l PanelLook) bool { return l.InClothesCloset }),
}

package web

import "testing"

// Only three times yes is proven dead (NFPA 70E 120.5: the tester is tried on a
// known source before and after). Any other answer is kept as it was given.
func TestAbsenceOfVoltage(t *testing.T) {
	cases := []struct {
		name                  string
		before, absent, after string
		want                  string
	}{
		{"three times yes", "yes", "yes", "yes", "Proven dead today"},
		{"not tried before", "", "yes", "yes", sayNotDead},
		{"voltage found", "yes", "no", "yes", sayNotDead},
		{"tester silent afterwards", "yes", "yes", "no", sayNotDead},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			h := built(t)
			wants(t, h.get("/dead/"+string(h.panel)), "No lock-out is on record", "Try the tester on a known live source.")
			at := h.kept("/dead/"+string(h.panel), "before", c.before, "absent", c.absent, "after", c.after)
			wants(t, h.get(at), "Kept.", c.want)
		})
	}
}

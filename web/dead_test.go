package web

import (
	"testing"
	"time"
)

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

// A test counts from when it was taken, and one without an answer is none.
func TestAbsenceOfVoltageIsTimed(t *testing.T) {
	h := built(t)
	page := "/dead/" + string(h.panel)
	h.refused(page, sayNothingShown, "tester", "tester 2")
	h.refused(page, sayClock, "before", "yes", "absent", "yes", "after", "yes", "clock", "noon")
	taken := h.now.Add(-time.Hour)
	wants(t, h.get(h.kept(page, "before", "yes", "absent", "yes", "after", "yes", "clock", taken.Format("15:04"))), "Proven dead today "+taken.Format("15:04"))
	h.kept(page, "before", "yes", "absent", "no", "after", "yes")
	wants(t, h.get("/panel/"+string(h.panel)), "Voltage was found here today", "by Marit Sandvei")
}

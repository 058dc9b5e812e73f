package web

import (
	"testing"
	"time"

	"asfound/observation"
)

// A day tells who was there, what stood in the morning and in the evening, the
// locks that stand, and leads to the days beside it.
func TestDay(t *testing.T) {
	h := traced(t)
	h.kept("/note", "noted", "Builder comes on Tuesday")
	h.record(observation.Observation{Body: observation.Decision{About: "read " + string(h.opening["A03-02"]), Answer: observation.NotNow, Reason: "No access today"}})
	h.now = time.Date(2031, 5, 30, 8, 0, 0, 0, time.UTC)
	h.who = "Dell Amoah"
	h.read("A03-02", "s9", 2, 2)
	page := h.get("/day/2031-05-28")
	wants(t, page, "Wednesday, May 28, 2031", "Marit Sandvei, 09:01 to ", "A02 Great room", "4 openings", "Panels:", "4 openings read, 7 openings put on record",
		"Lines in the morning none", "Builder comes on Tuesday", "Put off: Read A03-02. Reason: No access today", "Standing in the evening", "supply locked out: “lock 4”", `href="day/2031-05-30"`,
		"The readings at A02-03 cannot all be right")
	next := h.get("/day/2031-05-30")
	wants(t, next, "Dell Amoah, 08:01 to ", "1 opening read", "A03 Study", "1 opening", `href="day/2031-05-28"`, "Nothing odd, and no clash, that was not known in the morning.")
	for _, none := range []string{"/day/2031-05-29", "/day/yesterday"} {
		if r := h.send("GET", none, nil); r.Status != statusNotFound {
			t.Errorf("%s: status %d", none, r.Status)
		}
	}
}

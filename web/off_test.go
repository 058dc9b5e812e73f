package web

import (
	"strings"
	"testing"
	"time"

	"asfound/pattern"
)

// Once a tour is taken down its pages take no reading: they say since when, and
// lead to late entry. What a page that was open meanwhile sends is not kept and
// not lost.
func TestATourTakenDownTakesNoReading(t *testing.T) {
	h := built(t).touring()
	h.now = time.Date(2031, 5, 28, 14, 32, 0, 0, time.UTC)
	h.kept("/takeoff/" + h.tour.String())
	stop := "/tour/" + h.tour.String() + "/" + string(h.opening["A02-01"])
	say := "The resistors of Tour 1 are off since 14:32."
	for _, path := range []string{stop, "/resistors/" + h.tour.String(), "/readback/" + h.tour.String(), "/readback/" + h.tour.String() + "?after=yes"} {
		page := h.get(path)
		wants(t, page, say, "says nothing of this tour")
		if strings.Contains(page, "<form") || strings.Contains(page, "data-pad") {
			t.Errorf("%s takes something in", path)
		}
		if !strings.Contains(path, "readback") {
			wants(t, page, `href="late/`+h.tour.String(), "Late entry of what was read before")
		}
	}
	page := h.refused(stop, sayNotUnderOff, "letters", pattern.Letters("A02-01"), "ohm", "1.2k", "reading", ".hot.egc", "stop", "s1")
	wants(t, page, "You typed: letters "+pattern.Letters("A02-01")+" , value 1.2k", say)
	h.refused(stop, sayNotUnderOff, "answer", "open", "reading", ".hot.egc", "stop", "s1")
	h.refused("/resistors/"+h.tour.String(), sayNotUnderOff, "on", "0")
	at := string(h.panel) + ".1..hot"
	wants(t, h.refused("/readback/"+h.tour.String(), sayNotUnderOff, "at", at, "ohm", "1k"), "You typed: 1k")
	h.now = h.now.Add(24 * time.Hour)
	wants(t, h.get(stop), "off since May 28, 2031 14:32.")
}

// No ohmmeter on conductors shows more than its range: the value is refused at
// its field, and open is an answer as before.
func TestValueBeyondTheMeter(t *testing.T) {
	h := built(t).touring()
	stop := "/tour/" + h.tour.String() + "/" + string(h.opening["A02-01"])
	wants(t, h.refused(stop, sayTooMuch, "ohm", "99999999999", "reading", ".hot.egc", "stop", "s1"), `value="99999999999"`)
	back := "/readback/" + h.tour.String()
	at := string(h.panel) + ".1..hot"
	wants(t, h.refused(back, sayTooMuch, "at", at, "after", "yes", "ohm", "21M"), `value="21M"`)
	h.kept(back, "at", at, "after", "yes", "ohm", "open")
	h.kept(stop, "ohm", "20M", "reading", ".hot.egc", "stop", "s1")
	h.kept(stop, "answer", "open", "reading", ".hot.neutral", "stop", "s1")
}

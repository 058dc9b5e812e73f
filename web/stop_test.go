package web

import (
	"strings"
	"testing"

	"asfound/observation"
	"asfound/pattern"
)

// Two touches a reading: the value and Keep; then the next reading of the same
// opening stands there at once, with what the line says now and how firmly.
func TestStopAsksOneReadingAfterTheOther(t *testing.T) {
	h := built(t).touring()
	path := "/tour/" + h.tour.String() + "/" + string(h.opening["A02-01"])
	page := h.get(path)
	wants(t, page, "Letters on the tape", "hot to ground", "1 of 7")
	at := h.kept(path, "letters", pattern.Letters("A02-01"), "ohm", "1.0005k", "reading", ".hot.egc", "stop", "s1")
	page = h.get(at)
	wants(t, page, "hot to neutral", "the hot at A02-01 is on A1-1", `class="line likely"`, "False if one mistake was made")
	if strings.Contains(page, `name="letters"`) {
		t.Error("the letters are asked twice at one stop")
	}
	at = h.kept(path, "ohm", "1.0005k", "reading", ".hot.neutral", "stop", "s1")
	wants(t, h.get(at), "This opening is read.", "Next: A02-02")
	stops := h.found().Opening(h.opening["A02-01"]).Stops
	if len(stops) != 1 || len(stops[0].Ohms) != 2 || len(stops[0].Letters) != 1 {
		t.Fatalf("kept as %d stops", len(stops))
	}
	for _, e := range stops[0].Ohms {
		if b := e.Body.(observation.Ohm); b.Reprobed != observation.Yes || len(e.Under) != 1 || e.Under[0] != h.tour {
			t.Errorf("kept as %+v under %v", b, e.Under)
		}
	}
}

// An open reading is one touch and asks whether ground and neutral arrive.
func TestStopOpen(t *testing.T) {
	h := built(t).touring()
	path := "/tour/" + h.tour.String() + "/" + string(h.opening["A02-01"])
	h.kept(path, "answer", "open", "reading", ".hot.egc", "stop", "s1")
	at := h.kept(path, "answer", "open", "reading", ".hot.neutral", "stop", "s1")
	page := h.get(at)
	wants(t, page, "Again:", "ground to neutral", `value=".egc.neutral"`)
}

func TestStopAnswersThatAreNoValue(t *testing.T) {
	h := built(t).touring()
	path := "/tour/" + h.tour.String() + "/" + string(h.opening["A02-01"])
	at := h.kept(path, "answer", "cannot", "reading", ".hot.egc", "stop", "s1", "why", "too short")
	wants(t, h.get(at), "hot to neutral", "could not be read, too short")
	before := h.length()
	if at = h.kept(path, "answer", "later", "reading", ".hot.neutral", "stop", "s1"); !strings.HasSuffix(at, string(h.opening["A02-02"])) {
		t.Errorf("later leads to %s", at)
	}
	if h.length() != before {
		t.Error("later was kept as an entry")
	}
	h.kept("/tour/"+h.tour.String()+"/"+string(h.opening["A02-02"]), "answer", "notreached", "reading", ".hot.egc", "stop", "s2")
	if h.found().Opening(h.opening["A02-02"]).NotReached == nil {
		t.Error("not reached is not on record")
	}
}

// Letters of another opening: said at once, with the openings they fit.
func TestStopLettersOfAnotherOpening(t *testing.T) {
	h := built(t).touring()
	path := "/tour/" + h.tour.String() + "/" + string(h.opening["A02-01"])
	at := h.kept(path, "letters", pattern.Letters("A02-02"), "ohm", "1k", "reading", ".hot.egc", "stop", "s1")
	wants(t, h.get(at), "are not those of A02-01", "Those letters fit A02-02", "Withdraw the letters")
}

// A bad value does not lose the letters typed beside it.
func TestStopBadValueKeepsTheLetters(t *testing.T) {
	h := built(t).touring()
	path := "/tour/" + h.tour.String() + "/" + string(h.opening["A02-01"])
	r := h.send("POST", path, []string{"letters", "WM", "ohm", "-1", "reading", ".hot.egc", "stop", "s1"})
	if r.Status != statusUnusable {
		t.Fatalf("status %d", r.Status)
	}
	wants(t, string(r.Body), `value="-1"`, "letters on the tape: WM")
}

// Two cables: each has its own hot. Hots spliced together are read once.
func TestCableTags(t *testing.T) {
	h := built(t)
	at := h.opening["A02-01"]
	for _, tag := range []string{"1", "2"} {
		h.record(observation.Observation{Subject: at, Body: observation.CableEnd{Tag: tag, Conductors: []observation.Conductor{{Wire: observation.Hot, State: observation.Spliced}}}})
	}
	if got := strings.Join(cableTags(h.found().Opening(at)), " "); got != "1" {
		t.Errorf("spliced together: cables %q, want 1", got)
	}
	h.record(observation.Observation{Subject: at, Body: observation.CableEnd{Tag: "3", Conductors: []observation.Conductor{{Wire: observation.Hot, State: observation.Coiled}}}})
	if got := strings.Join(cableTags(h.found().Opening(at)), " "); got != "1 3" {
		t.Errorf("one more, coiled: cables %q, want 1 and 3", got)
	}
}

// A panel not on record as dead: the page says stop in words.
func TestStopWithoutADeadPanel(t *testing.T) {
	h := built(t).touring()
	h.record(observation.Observation{Subject: h.panel, Body: observation.ProvenDead{Before: observation.Yes, Absent: observation.No, After: observation.Yes}})
	wants(t, h.get("/tour/"+h.tour.String()+"/"+string(h.opening["A02-01"])), sayTourLive("A1"))
}

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

// The letters are asked for once in words when a reading was kept without them,
// stay a field, and can still be kept when the readings are done.
func TestStopRemindsOfTheLetters(t *testing.T) {
	h := built(t).touring()
	remind := "Read the two letters on the tape too."
	path := "/tour/" + h.tour.String() + "/" + string(h.opening["A02-01"])
	page := h.get(h.kept(path, "ohm", "1k", "reading", ".hot.egc", "stop", "s1"))
	wants(t, page, "Kept 1 kΩ.", remind, `name="letters"`)
	page = h.get(h.kept(path, "ohm", "1k", "reading", ".hot.neutral", "stop", "s1"))
	if strings.Contains(page, remind) {
		t.Error("it reminds twice")
	}
	wants(t, page, "This opening is read.", `name="letters"`, "Keep the letters")
	h.refused(path, sayNoLetters, "answer", "letters", "letters", " ", "stop", "s1")
	page = h.get(h.kept(path, "answer", "letters", "letters", pattern.Letters("A02-01"), "stop", "s1"))
	wants(t, page, "Kept letters.")
	if strings.Contains(page, `name="letters"`) || strings.Contains(page, remind) {
		t.Error("the letters are asked for though they were kept")
	}
	page = h.get(h.kept("/tour/"+h.tour.String()+"/"+string(h.opening["A02-02"]), "letters", pattern.Letters("A02-02"), "ohm", "1k", "reading", ".hot.egc", "stop", "s2"))
	if strings.Contains(page, remind) {
		t.Error("it reminds of letters that were kept with the reading")
	}
}

// What was kept is said as a value with its unit, whatever the unit was typed as.
func TestStopRepeatsTheValue(t *testing.T) {
	for typed, want := range map[string]string{"1.5": "Kept 1.5 Ω.", "1,5k": "Kept 1.5 kΩ.", "1k5": "Kept 1.5 kΩ.", "1500": "Kept 1.5 kΩ.", "2.2M": "Kept 2.2 MΩ.", "OL": "Kept open.", "0.15": "Kept 0.15 Ω."} {
		h := built(t).touring()
		path := "/tour/" + h.tour.String() + "/" + string(h.opening["A02-01"])
		wants(t, h.get(h.kept(path, "ohm", typed, "reading", ".hot.egc", "stop", "s1")), want)
	}
}

// The reading comes before every note about what was read before.
func TestStopReadingComesFirst(t *testing.T) {
	h := built(t).touring()
	path := "/tour/" + h.tour.String() + "/" + string(h.opening["A02-01"])
	page := h.get(h.kept(path, "letters", pattern.Letters("A02-02"), "ohm", "1k", "reading", ".hot.egc", "stop", "s1"))
	button := strings.Index(page, `value="open"`)
	for _, note := range []string{`class="now"`, "Mistyped? Withdraw the letters", "Those letters fit"} {
		if at := strings.Index(page, note); at < button {
			t.Errorf("%q stands at %d, before the button at %d", note, at, button)
		}
	}
	wants(t, page[:button], "The letters do not fit A02-01.")
}

// What package trace finds wrong at an opening is said where it was read: at the
// stop, on the line's page, and, where it has to be found before anything is
// energized, on the page of the panel whose tour it was read in.
func TestOddityIsSaidWhereItWasRead(t *testing.T) {
	h := built(t).touring()
	at := string(h.opening["A02-01"])
	path := "/tour/" + h.tour.String() + "/" + at
	for i, stop := range []string{"s1", "s2", "s3"} {
		h.kept(path, "letters", pattern.Letters("A02-01"), "ohm", "470", "reading", ".hot.egc", "stop", stop)
		if i == 2 {
			break
		}
		h.kept(path, "ohm", "470", "reading", ".hot.neutral", "stop", stop)
	}
	kept := h.kept(path, "ohm", "470", "reading", ".hot.neutral", "stop", "s3")
	closed := "/tour/" + h.tour.String() + "/" + string(h.opening["A02-02"])
	h.kept(closed, "letters", pattern.Letters("A02-02"), "ohm", "0.4", "reading", ".hot.egc", "stop", "s4")
	loaded := h.kept(closed, "ohm", "0.4", "reading", ".hot.neutral", "stop", "s4")
	for _, page := range []string{loaded, "/line/" + string(h.opening["A02-02"]) + "?wire=hot", "/panel/" + string(h.panel)} {
		wants(t, h.get(page), "reads closed: a load is still connected there, or a fault. Do not energize its circuit before it is found")
	}
	say := "A02-01 leads to something not on the list. Find it before anything is energized."
	for _, page := range []string{kept, "/line/" + at + "?wire=hot", "/panel/" + string(h.panel)} {
		wants(t, h.get(page), say)
	}
}

package web

import (
	"strings"
	"testing"

	"asfound/observation"
)

// A note is kept from the page of the thing, or about the whole job; one written
// late bears the time it is about.
func TestNote(t *testing.T) {
	h := built(t)
	at := string(h.opening["A02-01"])
	for _, page := range []string{"/opening/" + at, "/room/" + string(h.room), "/panel/" + string(h.panel), "/journal", "/note", "/note/" + at} {
		wants(t, h.get(page), "Keep note")
	}
	if to := h.kept("/note/"+at, "noted", "Drywall screw in the box"); to != "/opening/"+at+"?kept=yes" {
		t.Errorf("sent to %s", to)
	}
	wants(t, h.get("/opening/"+at), "A02-01: Drywall screw in the box")
	wants(t, h.get(h.kept("/note/"+string(h.room), "noted", "Floor is wet")), "Kept.")
	wants(t, h.get(h.kept("/note", "noted", "Builder comes on Tuesday")), "Kept the note.", "Builder comes on Tuesday")
	if n := len(h.found().Notes); n != 1 {
		t.Errorf("%d notes about the job", n)
	}
	h.kept("/note/"+at, "noted", "Heard a hum", "note_time", "8:05")
	story := h.found().Opening(h.opening["A02-01"]).Story
	if last := story[len(story)-1]; last.Taken.Format("2006-01-02 15:04") != "2031-05-28 08:05" || last.Body != (observation.Note{Text: "Heard a hum"}) {
		t.Errorf("kept as %v at %s", last.Body, last.Taken)
	}
	h.refused("/note/"+at, "Write the note.", "noted", "  ")
	body := h.refused("/note/"+at, sayClock, "noted", "Heard a hum again", "note_time", "noon")
	if !strings.Contains(body, `value="Heard a hum again"`) {
		t.Error("what was typed is lost")
	}
	h.refused("/note", sayFuture, "noted", "Tomorrow", "note_date", "2031-05-29", "note_time", "8:00")
	if r := h.send("GET", "/note/nothing-9", nil); r.Status != statusNotFound {
		t.Errorf("a note about nothing: status %d", r.Status)
	}
}

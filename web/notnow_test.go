package web

import (
	"strings"
	"testing"
)

// A step put off makes room for the next one, is said with its reason, and comes
// back when it is taken up again.
func TestNotNow(t *testing.T) {
	h := traced(t)
	steps := h.found().Trace.Next(h.found().Installation, "")
	if len(steps) < 2 {
		t.Fatalf("%d steps are proposed, want some to choose from", len(steps))
	}
	h.refused("/notnow", "Write the reason in a few words: it is kept with the line.", "key", steps[0].Key, "other", " ")
	for i, s := range steps {
		page := h.get("/?at=none")
		wants(t, page, `name="key" value="`+s.Key+`"`)
		h.kept("/notnow", "key", s.Key, "reason", notNowReasons[i%len(notNowReasons)])
		wants(t, h.get("/?at=none"), "Put off:", notNowReasons[i%len(notNowReasons)]+". Marit Sandvei")
	}
	wants(t, h.get("/?at=none"), "Every step proposed here is put off.")
	off := h.found().Decisions[0].ID.String()
	h.kept("/notnow/" + off)
	page := h.get("/?at=none")
	wants(t, page, `name="key" value="`+steps[0].Key+`"`)
	if strings.Contains(page, "/notnow/"+off) {
		t.Error("it is still listed as put off")
	}
}

func TestStepKeysAreSaidInWords(t *testing.T) {
	h := traced(t)
	in := h.found().Installation
	for key, want := range map[string]string{
		"dead A1": "Absence-of-voltage test of panel A1", "read " + string(h.opening["A02-04"]): "Read A02-04",
		"off " + h.tour.String(): "Read back and take off Tour 1", "look A02 Great room": "Look around A02 Great room", "new kind": "new kind",
	} {
		if got := stepKeyWords(in, key); got != want {
			t.Errorf("%s is said as %q, want %q", key, got, want)
		}
	}
}

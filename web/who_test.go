package web

import "testing"

func TestWho(t *testing.T) {
	h := built(t)
	h.who = ""
	wants(t, h.get("/who"), "Dell Amoah", "Somebody else")
	r := h.send("POST", "/who", []string{"name", "Dell Amoah"})
	if r.Who != "Dell Amoah" || r.Status != statusGoTo {
		t.Errorf("remembers %q, status %d", r.Who, r.Status)
	}
	if r := h.send("POST", "/who", nil); r.Status != statusUnusable {
		t.Errorf("no name: status %d", r.Status)
	}
}

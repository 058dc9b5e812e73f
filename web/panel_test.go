package web

import (
	"strings"
	"testing"
)

// The face is drawn, every space leads to its page, and the table beside it
// says the same with the same underline.
func TestPanel(t *testing.T) {
	h := traced(t)
	page := h.get("/panel/" + string(h.panel))
	wants(t, page, "<svg", "Great room", "A02-01, hot", `class="line clash"`, "not looked at", "Look at the spaces (22 left)", "Proven dead today")
	if n := strings.Count(page, "panel/"+string(h.panel)+"/space/"); n < 90 {
		t.Errorf("%d links to spaces on drawings and table, want 3 times 30", n)
	}
}

func TestPanelNotDeadSaysSo(t *testing.T) {
	h := built(t)
	wants(t, h.get("/panel/"+string(h.panel)), sayNotDead)
}

func TestColumnOrder(t *testing.T) {
	got := joinInts(columnOrder(8))
	if got != "1-3-5-7-2-4-6-8" {
		t.Errorf("spaces in the order %s", got)
	}
}

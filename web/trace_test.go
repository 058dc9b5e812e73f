package web

import (
	"strings"
	"testing"
)

func TestTrace(t *testing.T) {
	h := traced(t)
	page := h.get("/trace")
	wants(t, page, "Readings that cannot all be right", "3 likely", "1 clash", "3 openings untested.", "Tour 1", "the hot at A03-01 is on A1-3")
	only := h.get("/trace?standing=clash")
	if strings.Contains(text([]byte(only)), "A02-01") {
		t.Error("a likely line stands among the clashes")
	}
}

package web

import "testing"

func TestPapers(t *testing.T) {
	h := built(t)
	wants(t, h.get("/papers"), "Circuit directory, panel A1", h.found().State)
}

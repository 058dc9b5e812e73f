package web

import "testing"

func TestTour(t *testing.T) {
	h := traced(t)
	page := h.get("/tour/" + h.tour.String())
	wants(t, page, "7 on", "7 of 7 read", "2 not read yet", "0 of 7 read", "not reached", "looked around today", "Late entry from paper")
}

package web

import "testing"

func TestTakeOff(t *testing.T) {
	h := traced(t)
	path := "/takeoff/" + h.tour.String()
	wants(t, h.get(path), "7 of 7 resistors were not read back after the walk", "7 off, 7 in the bag")
	h.kept(path, "note", "all in the bag")
	if !h.found().Tours[0].Removed {
		t.Error("the tour still stands")
	}
	wants(t, h.get(path), "This tour is taken down.")
}

package web

import (
	"testing"

	"asfound/observation"
)

func TestLook(t *testing.T) {
	h := traced(t)
	path := "/look/" + h.tour.String() + "/" + string(h.study)
	wants(t, h.get(path), "A03-01", "Every one bears its mark")
	h.refused(path, sayMarks, "all", "yes", "without", string(h.opening["A03-01"]))
	h.kept(path, "all", "no", "without", string(h.opening["A03-01"]))
	check := h.found().Room(h.study).Checks[0].Body.(observation.RoomCheck)
	if check.All != observation.No || len(check.Without) != 1 {
		t.Errorf("kept as %+v", check)
	}
}

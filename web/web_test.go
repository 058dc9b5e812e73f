package web

import "testing"

// everyPage lists an address of each page of a traced house.
func (h *house) everyPage() []string {
	id, opening, panel := h.tour.String(), string(h.opening["A02-01"]), string(h.panel)
	out := []string{"/", "/who", "/property", "/building/" + string(h.building), "/room/" + string(h.room), "/opening/" + opening,
		"/panels", "/panel/" + panel, "/panel/" + panel + "/space/1", "/lockout/" + panel, "/dead/" + panel,
		"/isolation/" + panel, "/trace", "/trace?standing=likely", "/line/" + opening + "?wire=hot", "/tour", "/tour/" + id,
		"/tour/" + id + "/" + opening, "/tour/" + id + "/" + string(h.opening["A02-04"]), "/resistors/" + id, "/readback/" + id, "/readback/" + id + "?after=yes",
		"/look/" + id + "/" + string(h.room), "/takeoff/" + id, "/late/" + id, "/papers", "/sheet/directory-A1", "/sheet/directory-A1." + h.found().State, "/journal", "/entry/" + id,
		"/raceway/" + opening, "/raceway/" + panel, "/joined/" + opening, "/passthrough/" + panel, "/cabinet/" + panel, "/pairing"}
	for _, c := range h.found().Trace.Clashes {
		out = append(out, "/clash?key="+queryEscape(c.Key))
	}
	return out
}

// everyPairing lists the pages of a pairing tour: reading, putting on, done.
func (h *house) everyPairing(tour string) []string {
	out := []string{"/tour/" + tour, "/takeoff/" + tour}
	for _, number := range []string{"A02-01", "A02-02", "A02-03", "A02-04"} {
		out = append(out, "/tour/"+tour+"/"+string(h.opening[number]))
	}
	return out
}

// Every page of a job answers, well formed.
func TestEveryPageAnswers(t *testing.T) {
	h := traced(t)
	tour := h.pairing()
	for _, path := range append(h.everyPage(), h.everyPairing(tour)...) {
		t.Run(path, func(t *testing.T) { h.t = t; h.get(path) })
	}
}

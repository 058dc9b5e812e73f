package web

import "testing"

// everyPage lists an address of each page of a traced house.
func (h *house) everyPage() []string {
	id, opening, panel := h.tour.String(), string(h.opening["A02-01"]), string(h.panel)
	out := []string{"/", "/who", "/property", "/building/" + string(h.building), "/room/" + string(h.room), "/opening/" + opening,
		"/panels", "/panel/" + panel, "/panel/" + panel + "/space/1", "/lockout/" + panel, "/dead/" + panel,
		"/isolation/" + panel, "/trace", "/trace?standing=likely", "/line/" + opening + "?wire=hot", "/tour", "/tour/" + id,
		"/tour/" + id + "/" + opening, "/tour/" + id + "/" + string(h.opening["A02-04"]), "/resistors/" + id, "/readback/" + id, "/readback/" + id + "?after=yes",
		"/look/" + id + "/" + string(h.room), "/takeoff/" + id, "/late/" + id, "/papers", "/sheet/directory-A1", "/journal", "/entry/" + id}
	for _, c := range h.found().Trace.Clashes {
		out = append(out, "/clash?key="+queryEscape(c.Key))
	}
	return out
}

// Every page of a job answers, well formed.
func TestEveryPageAnswers(t *testing.T) {
	h := traced(t)
	for _, path := range h.everyPage() {
		t.Run(path, func(t *testing.T) { h.t = t; h.get(path) })
	}
}

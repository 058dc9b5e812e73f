package web

import "testing"

// Every page of a job answers, well formed, at every stage of the work.
func TestEveryPageAnswers(t *testing.T) {
	h := traced(t)
	id := h.tour.String()
	opening := string(h.opening["A02-01"])
	for _, path := range []string{"/", "/who", "/property", "/building/" + string(h.building), "/room/" + string(h.room), "/opening/" + opening,
		"/panels", "/panel/" + string(h.panel), "/panel/" + string(h.panel) + "/space/1", "/lockout/" + string(h.panel), "/dead/" + string(h.panel),
		"/isolation/" + string(h.panel), "/trace", "/trace?standing=likely", "/line/" + opening + "?wire=hot", "/tour", "/tour/" + id,
		"/tour/" + id + "/" + opening, "/tour/" + id + "/" + string(h.opening["A02-04"]), "/resistors/" + id, "/readback/" + id, "/readback/" + id + "?after=yes",
		"/look/" + id + "/" + string(h.room), "/takeoff/" + id, "/late/" + id, "/papers", "/sheet/directory-A1", "/journal", "/entry/" + id} {
		t.Run(path, func(t *testing.T) { h.t = t; h.get(path) })
	}
}

package web

import (
	"strings"
	"testing"

	"asfound/observation"
)

// everyPage lists an address of each page of a traced house.
func (h *house) everyPage() []string {
	id, opening, panel := h.tour.String(), string(h.opening["A02-01"]), string(h.panel)
	out := []string{"/", "/who", "/property", "/building/" + string(h.building), "/room/" + string(h.room), "/opening/" + opening,
		"/panels", "/panel/" + panel, "/panel/" + panel + "/space/1", "/lockout/" + panel, "/dead/" + panel,
		"/isolation/" + panel, "/trace", "/trace?standing=likely", "/line/" + opening + "?wire=hot", "/tour", "/tour/" + id,
		"/tour/" + id + "/" + opening, "/tour/" + id + "/" + string(h.opening["A02-04"]), "/resistors/" + id, "/readback/" + id, "/readback/" + id + "?after=yes",
		"/look/" + id + "/" + string(h.room), "/takeoff/" + id, "/late/" + id, "/papers", "/sheet/directory-A1", "/sheet/directory-A1." + h.found().State, "/journal", "/entry/" + id,
		"/raceway/" + opening, "/raceway/" + panel, "/joined/" + opening, "/passthrough/" + panel, "/cabinet/" + panel, "/coiled/" + panel, "/pairing",
		"/sources", "/safety", "/feeder/" + panel, "/door/" + panel, "/dead/" + opening, "/live/" + opening, "/live/" + string(h.opening["A02-04"]),
		"/told/" + panel, "/release/" + panel, "/energize/" + panel}
	out = append(out, "/story/"+opening, "/story/"+panel, "/story/"+string(h.room), "/note", "/note/"+opening, "/day/2031-05-28", "/survey/"+string(h.study),
		"/journal?words=a02&by=Marit+Sandvei&place=A02+Great+room&from=2031-05-28&to=2031-05-28&kind=ohm.1", "/journal?differ=yes", "/journal?gone=yes")
	list := h.bring("openings", "openings.csv", aList)
	_, file, _ := strings.Cut(h.kept(list), "&file=")
	out = append(out, "/lists", list, "/file/"+file, "/entry/"+file)
	out = append(out, "/plan/"+string(h.building), "/drawings", "/differences", "/differences?building="+string(h.building))
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

// later is a house further on: a tour taken down and another one set up, and all
// that is recorded beside the spaces; with the pages on which that shows.
func later(t *testing.T) (h *house, pages []string) {
	h = built(t).touring()
	opening, panel := string(h.opening["A02-01"]), string(h.panel)
	h.kept("/passthrough/"+panel, "count", "6", "from", "R1", "to", "R2")
	h.kept("/raceway/"+panel, "tag", "R1", "type", "EMT", "size", "3/4")
	h.kept("/cabinet/"+panel, "width", "14-3/8", "set", "1/4")
	h.kept("/coiled/"+panel, "tag", "7", "conductors", "hot,neutral,egc", "mark", "pump?")
	h.kept("/opening/"+opening+"/cable", "tag", "1", "conductors", "hot,neutral,egc")
	h.measure()
	first := h.tour.String()
	h.kept("/takeoff/" + first)
	tour := func(name string) string {
		return h.kept("/tour", "name", name, "panel", panel, "tolerance", "1", "meter", "0.9", "meter_ohm", "0.2", "neutral_joined", "yes")
	}
	second := tour("Tour 2")
	h.kept(second, "on", "0", "on", "7")
	third := tour("Tour 3")
	source := string(h.record(observation.Observation{Body: observation.Source{Name: "G1", Of: observation.Generator, Starts: observation.Yes}}).Thing())
	feeder := string(h.record(observation.Observation{Body: observation.Feeder{From: observation.Thing(source), To: h.panel, How: observation.BasisLabel}}).Thing())
	h.kept("/lockout/"+source, "device", "lock 9", "told", "everybody")
	h.kept("/told/"+source, "of", "power", "person", "Dell Amoah")
	h.kept("/energize/"+source, "found", "yes")
	pages = []string{"/tour/" + first + "/" + opening, "/resistors/" + first, "/readback/" + first, "/late/" + first, second, third,
		strings.Replace(second, "/resistors/", "/readback/", 1), "/tour", "/pairing", "/panel/" + panel, "/dead/" + panel, "/isolation/" + panel,
		"/door/" + panel, "/source/" + source, "/feeder/" + panel, "/feeder/" + panel + "?mend=" + feeder, "/energize/" + source + "?kept=yes", "/told/" + source, "/release/" + source, "/panels", "/safety",
		"/lockout/" + panel, "/coiled/" + panel + "?cable=7", "/raceway/" + panel + "?mend=R1", "/opening/" + opening, "/opening/" + opening + "?cable=1",
		"/plan/" + string(h.building), "/room/" + string(h.room), "/drawings", "/differences"}
	return h, pages
}

// Every page of a job answers, well formed.
func TestEveryPageAnswers(t *testing.T) {
	h := traced(t)
	tour := h.pairing()
	for _, path := range append(h.everyPage(), h.everyPairing(tour)...) {
		t.Run(path, func(t *testing.T) { h.t = t; h.get(path) })
	}
	h, pages := later(t)
	for _, path := range pages {
		t.Run("later "+path, func(t *testing.T) { h.t = t; h.get(path) })
	}
}

package web

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"asfound/observation"
)

// upstream adds a second panel A2 that is fed from the house's panel, spaces 6.
func (h *house) second() observation.Thing {
	a2 := h.record(observation.Observation{Body: observation.Panel{Building: h.building, Name: "A2", Spaces: 8}}).Thing()
	h.kept("/feeder/"+string(a2), "from", string(h.panel), "space", "6", "how", "label", "wires", "2 aluminum")
	return a2
}

// A source takes two touches: what it is, and Keep.
func TestSourceInTwoTouches(t *testing.T) {
	h := built(t)
	wants(t, h.get("/sources"), "No source is on record yet.")
	at := h.kept("/sources", "of", "generator")
	wants(t, h.get(at), "Source generator", "What it feeds is not on record", "Kept.")
	h.refused("/sources", sayNoSourceSort, "name", "G1")
	h.kept(at[:strings.Index(at, "?")], "of", "generator", "name", "G1", "disconnect", "the breaker on its frame", "starts", "yes")
	wants(t, h.get("/sources"), "G1", "the breaker on its frame", "can start by itself")
}

func TestFeeders(t *testing.T) {
	h := built(t)
	panel := string(h.panel)
	wants(t, h.get("/feeder/"+panel), "not on record: treat it as live", "Add a source first")
	wants(t, h.get("/panels"), sayUnfed, "Not known")
	source := strings.TrimSuffix(strings.TrimPrefix(h.kept("/sources", "of", "utility"), "/source/"), "?kept=yes")
	h.kept("/feeder/"+panel, "from", source, "how", "tested", "wires", "4/0 aluminum")
	wants(t, h.get("/feeder/"+panel), "Feeder from utility to A1, 4/0 aluminum, both ends tested")
	a2 := h.second()
	wants(t, h.get("/feeder/"+panel), "What it feeds", "Feeder from A1-6 to A2, 2 aluminum, as a label says")
	wants(t, h.get("/panels"), "fed from utility (both ends tested)", "feeds A2", "fed from A1-6 (as a label says)")
	feeder := h.found().Upstream(a2)[0]
	wants(t, h.get("/feeder/"+string(a2)+"?mend="+string(feeder.Thing)), "Put the feeder right", `value="6"`)
	h.kept("/feeder/"+string(a2), "mend", string(feeder.Thing), "from", panel, "space", "4", "how", "tested")
	if f := h.found().Upstream(a2); len(f) != 2 || f[0].Space != 4 {
		t.Errorf("%d feeders upstream of A2, the first on space %d", len(f), f[0].Space)
	}
	for range 2 { // the record put right, then the first one, which counts again
		for _, e := range h.found().Feeder(feeder.Thing).Story {
			if e.Live() {
				h.kept("/entry/"+e.ID.String(), "reason", "Misread")
			}
		}
	}
	wants(t, h.get("/panel/"+string(a2)), "Feeders")
	wants(t, h.get("/feeder/"+string(a2)), "not on record: treat it as live")
	h.refused("/feeder/"+panel, "Panel A2 has spaces 1 to 8; there is no space 30.", "from", string(a2), "space", "30")
}

// The door says first what is not on record, and never that the panel is dead.
func TestDoor(t *testing.T) {
	h := traced(t)
	panel := string(h.panel)
	page := h.get("/door/" + panel)
	wants(t, page, "What feeds panel A1 is not on record: treat it as live.", "Nobody looked at 22 of its 30 spaces", "Only the absence-of-voltage test does", "Proven dead today")
	if strings.Index(page, "Not on record") > strings.Index(page, "On record</h2>") {
		t.Error("what is on record stands before what is not")
	}
	h.kept("/passthrough/"+panel, "count", "6", "from", "R1", "to", "R2")
	h.kept("/coiled/"+panel, "tag", "7", "conductors", "hot,neutral,egc", "mark", "pump?")
	source := strings.TrimSuffix(strings.TrimPrefix(h.kept("/sources", "of", "generator", "starts", "yes"), "/source/"), "?kept=yes")
	a2 := h.second()
	h.kept("/feeder/"+string(a2), "from", source)
	wants(t, h.get("/door/"+panel), "6 conductors pass through this cabinet, in by R1, out by R2", "Cable 7 (marked “pump?”) lies loose in this cabinet",
		"generator feeds panel A2: power can come back from there into panel A1.", "Source generator, what opens it is not on record, it can start by itself.", "not known how")
	wants(t, h.get("/door/"+string(a2)), "A1-6 feeds panel A2, 2 aluminum.", "as a label says", "What feeds panel A1, and through it panel A2, is not on record.")
	h.record(observation.Observation{Subject: a2, Body: observation.Energized{}})
	wants(t, h.get("/door/"+panel), sayNotDead, "The test counts no more since: Power put on at A2", "<del>")
}

func TestLiveInABox(t *testing.T) {
	h := traced(t)
	wants(t, h.get("/live/"+string(h.opening["A02-04"])), "Nothing was read here: what feeds this box is not known.")
	wants(t, h.get("/live/"+string(h.opening["A02-01"])), "A1-1 is on the hot.", "No list says that something is dead.")
	wants(t, h.get("/live/"+string(h.opening["A02-03"])), "What the hot is on is not known.", "clash")
	h.kept("/opening/"+string(h.opening["A02-01"])+"/cable", "tag", "1", "conductors_typed", "black, red, neutral, ground")
	wants(t, h.get("/live/"+string(h.opening["A02-01"])), "2 hots and one neutral")
}

// Told is one touch for each person of the job.
func TestTold(t *testing.T) {
	h := built(t)
	panel := string(h.panel)
	page := h.get("/told/" + panel)
	wants(t, page, `name="person" value="Dell Amoah"`, "Nobody is on record as told.")
	at := h.kept("/told/"+panel, "of", "lock-out", "person", "Dell Amoah", "other", "")
	wants(t, h.get(at), "Kept: Dell Amoah was told.", "A1: Dell Amoah was told of the lock-out")
	h.refused("/told/"+panel, "Say who was told.", "of", "release", "person", "", "other", " ")
}

// The locks in the hand are counted; another's lock takes a reason.
func TestRelease(t *testing.T) {
	h := built(t)
	panel := string(h.panel)
	h.kept("/lockout/"+panel, "device", "lock 4", "clock", "8:30")
	h.kept("/lockout/"+panel, "device", "lock 5", "spaces", "2")
	var ids []string
	for _, e := range h.found().Panel(h.panel).Standing() {
		ids = append(ids, e.ID.String())
	}
	h.kept("/dead/"+panel, "before", "yes", "absent", "yes", "after", "yes")
	wants(t, h.get("/release/"+panel), "“lock 4”", "today 08:30", "Each lock is taken off by the person who put it on.")
	h.refused("/release/"+panel, sayWhichLocks, "count", "1")
	h.refused("/release/"+panel, sayCountLocks, "lock", ids[0])
	h.refused("/release/"+panel, sayCountedLocks(2, 1), "lock", ids[0], "lock", ids[1], "count", "1")
	h.who = "Dell Amoah"
	h.refused("/release/"+panel, sayOthersLock("lock 4", "Marit Sandvei"), "lock", ids[0], "count", "1")
	h.who = "Marit Sandvei"
	at := h.kept("/release/"+panel, "lock", ids[0], "count", "1", "told", "everybody")
	wants(t, h.get(at), "Kept. 1 lock stands here.", sayNotDead, "1 lock taken off")
	wants(t, h.get("/safety"), "1 lock stands.", "lock 5", "space 2", "Counts no more", "<del>")
}

// Power waits while resistors are on or a lock stands where it comes; the fact
// that it is on is kept all the same, and says what counts no more.
func TestEnergize(t *testing.T) {
	h := built(t).touring()
	panel := string(h.panel)
	page := h.get("/energize/" + panel)
	wants(t, page, "Stop: “lock 4” of Marit Sandvei stands at panel A1 and the resistors of Tour 1 are on.", "These tests count no more from then on", "A1 proven dead")
	h.refused("/energize/"+panel, sayNotOnNow, "found", "no", "shown", shown(page))
	if at := h.found().Panel(h.panel); len(at.Energized) != 0 {
		t.Fatal("power was kept as put on")
	}
	wants(t, h.get("/release/"+panel), "Stop: the resistors of Tour 1 are on.")
	at := h.kept("/energize/"+panel, "found", "yes")
	wants(t, h.get(at), "Kept as found on.", "Get everybody away", "Counts no more", "<del>", "Power found on at A1")
	wants(t, h.get("/tour/"+h.tour.String()), sayTourLive("A1"))
}

// What it does has to be read before it is kept: for other spaces it is shown
// anew.
func TestEnergizeShowsFirst(t *testing.T) {
	h := built(t)
	a2 := h.second()
	h.record(observation.Observation{Subject: h.found().Feeders[0].Thing, Body: observation.Feeder{From: h.panel, Space: 6, To: a2, How: observation.BasisTested}})
	h.record(observation.Observation{Subject: a2, Body: observation.ProvenDead{Before: observation.Yes, Absent: observation.Yes, After: observation.Yes}})
	panel := string(h.panel)
	page := h.get("/energize/" + panel)
	wants(t, page, "A2 proven dead", "Panel A2")
	back := h.refused("/energize/"+panel, sayLookFirst, "spaces", "2", "found", "no", "shown", shown(page))
	wants(t, back, "No absence-of-voltage test counts there now.", `value="2"`)
	h.kept("/energize/"+panel, "spaces", "2", "found", "no", "shown", shown(back))
	if _, dead := h.found().DeadSince(h.found().Panel(a2)); !dead {
		t.Error("A2's test is void, though only space 2 of A1 was closed")
	}
	page = h.get("/energize/" + panel)
	at := h.kept("/energize/"+panel, "found", "no", "shown", shown(page), "why", "heat")
	wants(t, h.get(at), "Kept. Treat all", "Counts no more", "Power put on at A1, heat")
}

// shown is what an energize page has told, as its form sends it.
func shown(page string) string {
	_, rest, _ := strings.Cut(page, `name="shown" value="`)
	out, _, _ := strings.Cut(rest, `"`)
	return out
}

// No page of power calls a panel dead unless a test holds that nothing voids.
func TestNothingIsCalledDead(t *testing.T) {
	h := built(t)
	a2 := h.second()
	source := strings.TrimSuffix(strings.TrimPrefix(h.kept("/sources", "of", "utility"), "/source/"), "?kept=yes")
	h.kept("/feeder/"+string(h.panel), "from", source, "how", "tested")
	h.kept("/lockout/"+source, "device", "lock 1")
	check := func(when string) {
		t.Helper()
		for _, path := range []string{"/panels", "/safety", "/door/" + string(h.panel), "/door/" + string(a2), "/release/" + source, "/energize/" + source, "/source/" + source,
			"/feeder/" + string(a2), "/lockout/" + source, "/told/" + source, "/dead/" + string(a2), "/live/" + string(h.opening["A02-01"])} {
			if page := text([]byte(h.get(path))); strings.Contains(page, "Proven dead") {
				t.Errorf("%s: %s says proven dead", when, path)
			}
		}
	}
	check("locked only")
	for i, p := range []observation.Thing{h.panel, a2} {
		h.kept("/dead/"+string(p), "before", "yes", "absent", "yes", "after", "yes", "tester", strconv.Itoa(i))
	}
	wants(t, h.get("/panels"), "Proven dead today")
	h.kept("/energize/"+source, "found", "yes")
	check("after power was found on")
}

// The form sends back what the page tells by name: each panel reached and each
// test that counts no more, and nothing when there is neither.
func TestEnergizeTellsWhatItShows(t *testing.T) {
	h := built(t)
	a2 := h.second()
	test := h.record(observation.Observation{Subject: a2, Body: observation.ProvenDead{Before: observation.Yes, Absent: observation.Yes, After: observation.Yes}})
	told := strings.Fields(shown(h.get("/energize/" + string(h.panel))))
	for _, want := range []string{string(h.panel), string(a2), test.String()} {
		if !slices.Contains(told, want) {
			t.Errorf("%q, want %s among it", told, want)
		}
	}
	if !slices.IsSorted(told) {
		t.Errorf("%q is in no order", told)
	}
}

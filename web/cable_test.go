package web

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"asfound/observation"
	"asfound/quantity"
)

// A cable whose tag is on record is not replaced by a second one typed under the
// same tag. It is put right on purpose, and what the form does not ask stays.
func TestACableTwice(t *testing.T) {
	h := built(t)
	at := h.opening["A02-01"]
	path := "/opening/" + string(at)
	old := observation.CableEnd{Tag: "1a", Jacket: "yellow", Mark: "kit", Conductors: []observation.Conductor{
		{Wire: observation.Hot, Color: "black", Size: "12"}, {Wire: observation.Neutral, State: observation.Spliced, Length: quantity.Inches(6)}, {Wire: observation.EGC}}}
	h.record(observation.Observation{Subject: at, Body: old})
	page := h.refused(path+"/cable", "Cable 1a is on record already: put it right there.", "tag", "1A", "conductors_typed", "hot", "mark", "den")
	wants(t, page, `value="1A"`, `value="den"`, `href="opening/`+string(at)+`?cable=1a#cable"`)
	if diff := cmp.Diff([]observation.CableEnd{old}, h.found().Opening(at).Cables); diff != "" {
		t.Errorf("the cable changed (-want +got):\n%s", diff)
	}
	wants(t, h.get(path+"?cable=1a"), "Put cable 1a right", `value="kit"`, `value="hot,neutral,egc" checked="checked"`)
	h.kept(path+"/cable", "cable", "1a", "tag", "1a", "conductors", "hot,red,neutral,egc", "hot_state", "capped", "mark", "kitchen")
	want := old
	want.Mark = "kitchen"
	want.Conductors = []observation.Conductor{{Wire: observation.Hot, Color: "black", Size: "12", State: observation.Capped}, {Wire: "red"}, old.Conductors[1], old.Conductors[2]}
	if diff := cmp.Diff([]observation.CableEnd{want}, h.found().Opening(at).Cables); diff != "" {
		t.Errorf("put right (-want +got):\n%s", diff)
	}
	wants(t, h.get(path), "replaced later", `name="tag" value="1"`)
}

// A cable that lies coiled in a panel is listed there and gets its resistor and
// its read-back under its own name.
func TestCoiledCable(t *testing.T) {
	h := built(t).dead()
	path := "/coiled/" + string(h.panel)
	page := h.get(path)
	wants(t, page, `value="1"`, `value="hot,neutral,egc" checked="checked"`, "Test each conductor for voltage")
	h.refused(path, sayConductorsCoiled, "tag", "7", "conductors", "")
	at := h.kept(path, "tag", "7", "conductors", "hot,neutral,egc", "mark", "pump?")
	wants(t, h.get(at), "Kept cable 7.", "A1, cable 7: hot coiled, neutral coiled, ground coiled, marked “pump?”")
	h.refused(path, "Cable 7 is on record already: put it right there.", "tag", "7", "conductors", "hot,neutral,egc")
	wants(t, h.get("/panel/"+string(h.panel)), `href="coiled/`+string(h.panel), "Cable 7: hot coiled, neutral coiled, ground coiled, marked “pump?”")
	h.kept(path, "cable", "7", "tag", "7", "conductors", "hot,red,neutral,egc")
	if c := h.found().Panel(h.panel).Cables; len(c) != 1 || len(c[0].Conductors) != 4 || c[0].Conductors[1].State != observation.Coiled {
		t.Errorf("put right as %+v", c)
	}
	at = h.kept("/tour", "name", "Tour 1", "panel", string(h.panel), "tolerance", "1", "meter", "0.9", "meter_ohm", "0.2", "neutral_joined", "yes")
	page = h.get(at)
	wants(t, page, "A1, cable 7", "A1, red of cable 7", "from its hot to its own ground, its neutral joined to that")
	if strings.Contains(page, "space 0") {
		t.Error("a space 0 is named")
	}
	h.kept(at, "on", "7") // after the seven spaces
	back := strings.Replace(at, "/resistors/", "/readback/", 1)
	wants(t, h.get(back), "A1, cable 7", "one on the ground of its cable")
}

// What stands at a panel beside its spaces is said there with its values, and on
// the page of each entry.
func TestPanelSaysWhatPassesAndHowBig(t *testing.T) {
	h := built(t)
	panel := string(h.panel)
	h.kept("/passthrough/"+panel, "count", "6", "from", "R1", "to", "R2", "spliced", "no", "note", "gray")
	h.kept("/raceway/"+panel, "tag", "R1", "type", "EMT", "size", "3/4", "side", "top", "count", "4")
	h.kept("/cabinet/"+panel, "width", "14-3/8", "depth", "3.75", "wall_height", "31", "set", "1/4")
	says := []string{"Panel A1: 6 conductors pass through, in by R1, out by R2, not spliced, gray",
		"A1, raceway R1 EMT, 3/4 in, enters at the top, 4 conductors",
		"Panel A1, cabinet 14-3/8 in wide, 3-3/4 in deep; opening in the wall 31 in high; 1/4 in behind the finished surface"}
	wants(t, h.get("/panel/"+panel), says...)
	story := h.found().Story(h.panel)
	for i, say := range says {
		wants(t, h.get("/entry/"+story[len(story)-3+i].ID.String()), say)
	}
	warn := "6 conductors pass through this cabinet and may be live with the panel dead: another source feeds them: test each."
	h.dead()
	for _, page := range []string{"/panel/", "/dead/", "/isolation/", "/lockout/"} {
		wants(t, h.get(page+panel), warn)
	}
	h.kept("/entry/"+story[len(story)-3].ID.String(), "reason", "Mistyped")
	if page := h.get("/panel/" + panel); strings.Contains(page, "pass through,") || strings.Contains(page, warn) {
		t.Error("a withdrawn entry is still said")
	}
}

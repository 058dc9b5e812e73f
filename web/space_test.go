package web

import (
	"testing"

	"asfound/observation"
)

// Space after space: keeping one leads to the next nobody looked at, down the
// left column and then the right.
func TestSpaces(t *testing.T) {
	h := built(t)
	base := "/panel/" + string(h.panel) + "/space/"
	at := h.kept(base+"9", "poles", "2", "amps", "30", "lands", "branch", "label", "Range?")
	if at != base+"11?kept=9" {
		t.Errorf("sent to %s", at)
	}
	s := h.found().Panel(h.panel).Seen[9]
	if s.Poles != 2 || s.Amps != 30 || s.Lands != observation.LandsBranch || s.Label != "Range?" {
		t.Errorf("kept as %+v", s)
	}
	if at = h.kept(base+"29", "empty", "yes"); at != base+"10?kept=29" {
		t.Errorf("after the left column sent to %s", at)
	}
	if s := h.found().Panel(h.panel).Seen[29]; s.Lands != observation.LandsNothing {
		t.Errorf("an empty space is kept as %+v", s)
	}
	wants(t, h.get(base+"9"), `value="2" checked`, `value="Range?"`)
}

func TestOtherAmperes(t *testing.T) {
	h := built(t)
	h.kept("/panel/"+string(h.panel)+"/space/9", "amps_typed", "35 A")
	if s := h.found().Panel(h.panel).Seen[9]; s.Amps != 35 {
		t.Errorf("kept as %v", s.Amps)
	}
}

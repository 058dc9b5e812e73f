package web

import (
	"strings"
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

// A breaker does not stand in a space that another one takes: the sentence comes
// back at the field with what was typed, and leads to the other space.
func TestBreakerInATakenSpace(t *testing.T) {
	h := built(t)
	base := "/panel/" + string(h.panel) + "/space/"
	h.kept(base+"9", "poles", "2", "amps", "30", "lands", "branch")
	page := h.refused(base+"11", "Space 11 belongs to the 2-pole breaker on record in space 9: check the number, or put space 9 right first.",
		"poles", "1", "amps", "20", "label", "Bath fan", "cable", "4")
	wants(t, page, `value="1" checked`, `value="20" checked`, `value="Bath fan"`, `value="4"`)
	if field := between(page, "<legend>Breaker</legend>", "</fieldset>"); !strings.Contains(field, "Space 11 belongs") {
		t.Error("the sentence does not stand at the breaker")
	}
	if n := strings.Count(page, "autofocus="); n != 1 {
		t.Errorf("the page goes to %d places, want the breaker", n)
	}
	wants(t, page, `href="panel/`+string(h.panel)+`/space/9">space 9</a> takes this space too`)
	h.kept(base+"11", "lands", "branch", "conductor", "red 10")
	h.kept(base+"9", "poles", "1", "amps", "30", "lands", "branch") // the earlier one put right
	if page := h.get(base + "11"); strings.Contains(page, "takes this space too") {
		t.Error("space 9 is put right, and the page still says it takes space 11")
	}
	h.kept(base+"11", "poles", "1", "amps", "20")
}

// The caution comes before the form, and before a sentence of a form that came
// back.
func TestSpaceCaution(t *testing.T) {
	h := built(t)
	path := "/panel/" + string(h.panel) + "/space/9"
	for _, page := range []string{h.get(path), string(h.send("POST", path, []string{"amps_typed", "x"}).Body)} {
		wants(t, page, "the line side of the main stays live", "tests for absence of voltage before", sayNotDead)
		if strings.Index(page, `class="caution"`) > strings.Index(page, "<form") {
			t.Error("the caution stands below the form")
		}
	}
}

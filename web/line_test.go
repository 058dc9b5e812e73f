package web

import (
	"strings"
	"testing"

	"asfound/trace"
)

// Touching a statement opens its words, its standing, what it rests on and the
// cheapest way for it to be false.
func TestLine(t *testing.T) {
	h := traced(t)
	path := "/line/" + string(h.opening["A02-01"]) + "?wire=hot"
	page := h.get(path)
	wants(t, page, "the hot at A02-01 is on A1-1", "likely : one answer stands", "False if one mistake was made", "Resistor of 1 kΩ put on A1-1", "To settle it")
	if n := strings.Count(page, `href="entry/`); n < 5 {
		t.Errorf("%d readings are linked", n)
	}
	wants(t, h.get("/line/"+string(h.opening["A03-02"])+"?wire=hot"), "nothing was read", "untested")
	h.refused(path, "Write the reason in a few words: it is kept with the line.", "about", "the hot at A02-01 is on A1-1", "answer", "on A1-2", "reason", "")
	h.kept(path, "about", "the hot at A02-01 is on A1-1", "answer", "on A1-2", "reason", "seen at the splice")
	wants(t, h.get(path), "The lead's decision: on A1-2. Reason: seen at the splice.", "Marit Sandvei", "likely : one answer stands")
	h.kept("/opening/"+string(h.opening["A02-01"]), "number", "A02-31")
	wants(t, h.get(path), "seen at the splice", "It was about “the hot at A02-01 is on A1-1”.")
}

// Two answers told by the same words are one for whoever reads them, and the
// best answer is not another one.
func TestOtherAnswersAreSaidOnce(t *testing.T) {
	h := built(t)
	space := func(n int) trace.Source {
		return trace.Source{Kind: trace.FromSpace, At: trace.SpacePoint(h.panel, n)}
	}
	outside := trace.Source{Kind: trace.Outside}
	l := &trace.Line{Source: space(1), Others: []trace.Source{space(3), outside, space(3), outside, space(1), space(5)}}
	got := strings.Join(otherAnswers(h.found().Installation, l), "; ")
	if want := "is on A1-3; leads to something that is not on the list; is on A1-5"; got != want {
		t.Errorf("other answers %q, want %q", got, want)
	}
}

package web

import (
	"strings"
	"testing"

	"asfound/observation"
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
	if page = h.get(path); !strings.Contains(page, "seen at the splice") || strings.Contains(page, "It was about") {
		t.Error("the decision does not follow the number")
	}
	h.kept(path, "about", "the hot at A02-31 is on A1-9", "answer", "", "reason", "seen at the panel")
	wants(t, h.get(path), "It was about “the hot at A02-31 is on A1-9”.")
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

// A line that reads closed and has another answer says both: the statement where
// it is on, the note that it reads closed.
func TestALineThatReadsClosedSaysSo(t *testing.T) {
	h := built(t).touring()
	h.read("A02-01", "s1", 1, 1)
	found := h.found()
	l := found.Trace.Line(observation.Point{At: h.opening["A02-01"], Wire: observation.Hot})
	for kind, want := range map[trace.SourceKind]int{trace.FromSpace: 1, trace.Nothing: 1, trace.Outside: 0} {
		line := *l
		line.Source.Kind = kind
		closed := []trace.Oddity{{Kind: trace.HotClosed, Place: h.opening["A02-01"], Lines: []*trace.Line{&line}, Say: "reads closed"}}
		if got := notSaid(closed, &line); len(got) != want {
			t.Errorf("source %d: %d notes beside the statement, want %d", kind, len(got), want)
		}
	}
	other := *l
	other.Source.Kind = trace.Outside
	if got := notSaid([]trace.Oddity{{Kind: trace.HotClosed, Lines: []*trace.Line{l}}}, &other); len(got) != 1 {
		t.Error("the note about another line is left out")
	}
}

package web

import (
	"net/url"
	"slices"
	"strconv"

	"asfound/evidence"
	"asfound/observation"
	"asfound/trace"
)

// statement is a line as a page prints it: the words underlined by standing.
type statement struct {
	Href, Say, Standing string
}

// statement says a line and where its evidence is shown.
func (v *visit) statement(l *trace.Line) statement {
	return statement{Href: lineHref(l.End), Say: trace.Say(v.found.Installation, l), Standing: standingWord(l.Verdict)}
}

func (v *visit) statements(lines []*trace.Line) []statement {
	out := make([]statement, len(lines))
	for i, l := range lines {
		out[i] = v.statement(l)
	}
	return out
}

// lineHref is the address of the page of a conductor end.
func lineHref(p observation.Point) string {
	q := url.Values{}
	if p.Cable != "" {
		q.Set("cable", p.Cable)
	}
	if p.Space > 0 {
		q.Set("space", strconv.Itoa(p.Space))
	}
	q.Set("wire", string(p.Wire))
	return "line/" + string(p.At) + "?" + q.Encode()
}

// entryView is an entry of the journal as a page lists it.
type entryView struct {
	ID, Href, Say       string
	Who, When           string
	Kind                string
	Withdrawn, Replaced bool
}

func (v *visit) entry(e observation.Event) entryView {
	kept, _ := v.job.Site.Event(e.ID)
	say := entryWords(v.found.Installation, e)
	if b, ok := e.Body.(observation.Withdrawal); ok && v.takesBack(e) {
		say = sayTakenBack(b.Reason)
	}
	return entryView{ID: e.ID.String(), Href: "entry/" + e.ID.String(), Say: say, Who: e.Who,
		When: dayAndTime(e.When(), v.ask.Now), Kind: kindWord(e.Kind), Withdrawn: len(kept.WithdrawnBy) > 0, Replaced: len(kept.ReplacedBy) > 0}
}

// takesBack reports whether a withdrawal withdraws another one.
func (v *visit) takesBack(e observation.Event) bool {
	return slices.ContainsFunc(e.Seen, func(id observation.ID) bool {
		before, ok := v.job.Site.Event(id)
		_, withdrew := before.Body.(observation.Withdrawal)
		return ok && withdrew
	})
}

// entries lists events by their names, those not held left out.
func (v *visit) entries(ids []observation.ID) []entryView {
	var out []entryView
	for _, id := range ids {
		if e, ok := v.job.Site.Event(id); ok {
			out = append(out, v.entry(e.Event))
		}
	}
	return out
}

// tally is how many lines have a standing.
type tally struct {
	Standing string
	Count    int
	Means    string
}

// tallies counts lines by standing, the firmest first; standings that no line
// has are left out.
func tallies(lines []*trace.Line) []tally {
	count := map[string]int{}
	for _, l := range lines {
		count[standingWord(l.Verdict)]++
	}
	var out []tally
	for _, s := range standingMeans {
		if count[s.Word] > 0 {
			out = append(out, tally{s.Word, count[s.Word], s.Means})
		}
	}
	return out
}

// doubtWords lists the doubts of each set, one sentence a set.
func doubtWords(sets [][]evidence.Doubt) [][]string {
	var out [][]string
	for _, set := range sets {
		var words []string
		for _, d := range set {
			words = append(words, d.Words)
		}
		out = append(out, words)
	}
	return out
}

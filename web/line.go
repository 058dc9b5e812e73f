package web

import (
	"slices"
	"strings"

	"asfound/evidence"
	"asfound/installation"
	"asfound/observation"
	"asfound/trace"
)

type linePage struct {
	Form      *form
	Action    string
	Say       string
	Standing  string
	Means     string
	FalseIf   string
	Against   [][]string
	Exact     bool
	Lacks     string
	Others    []string
	Oddities  []string
	Readings  []entryView
	Clash     string
	Place     navItem
	Decisions []decisionView
	Read      string
	Tour      string
	Kept      bool
}

// decisionView is the lead's word on a line: what holds instead, and why.
type decisionView struct {
	Href, About, Answer, Reason, Who, When string
}

// showLine is one statement: how firmly it stands, what it rests on, and what
// would have to be wrong for it to be false.
func showLine(v *visit) error { return lineWith(v, v.form()) }

func lineWith(v *visit, f *form) error {
	end := observation.Point{At: v.arg("thing"), Cable: v.query("cable"), Space: atoi(v.query("space")), Wire: observation.Wire(v.query("wire"))}
	if v.thingHref(end.At) == "" {
		return notFound{sayNoThing}
	}
	data := linePage{Form: f, Action: lineHref(end), Place: navItem{Href: v.thingHref(end.At), Name: placeTitle(v.found.Installation, end.At)}, Kept: v.query("kept") != ""}
	if t := v.openTour(); t != nil && v.found.Opening(end.At) != nil {
		data.Tour = "tour/" + t.ID.String()
		data.Read = "tour/" + t.ID.String() + "/" + string(end.At) + "?again=yes"
	}
	l := v.found.Trace.Line(end)
	if l == nil {
		data.Say, data.Standing = sayUntested(v.found.PointName(end)), evidence.Untested.String()
	} else {
		v.fillLine(&data, l)
	}
	data.Means = meansOf(data.Standing)
	data.Oddities = notSaid(v.oddities(end.At), l)
	data.Decisions = v.decided(end, data.Say)
	return v.renderForm("line", v.found.PointName(end), f, data)
}

// notSaid are the oddities of a place that the statement of a line, which may be
// nil, does not say itself: only one that leads to nothing known says that it
// reads closed.
func notSaid(oddities []trace.Oddity, l *trace.Line) []string {
	var out []string
	for _, odd := range oddities {
		said := odd.Kind == trace.HotClosed && l != nil && l.Source.Kind == trace.Outside && slices.Contains(odd.Lines, l)
		if !said {
			out = append(out, odd.Say)
		}
	}
	return out
}

func (v *visit) fillLine(data *linePage, l *trace.Line) {
	in := v.found.Installation
	data.Say, data.Standing = trace.Say(in, l), standingWord(l.Verdict)
	data.FalseIf, data.Lacks, data.Exact = l.FalseOnlyIf(), l.Lacks(), l.Verdict.Exact
	for _, way := range l.Against() {
		data.Against = append(data.Against, doubtWords([][]evidence.Doubt{way.Doubts})[0])
	}
	data.Readings = v.entries(l.RestsOn)
	data.Others = otherAnswers(in, l)
	for _, c := range v.found.Trace.Clashes {
		for _, at := range c.Lines {
			if at == l {
				data.Clash = "clash?key=" + queryEscape(c.Key)
			}
		}
	}
}

// otherAnswers are the other answers that stand, each said once: two sources may
// be told by the same words.
func otherAnswers(in *installation.Installation, l *trace.Line) []string {
	var out []string
	best := trace.SaySource(in, l.Source)
	for _, other := range l.Others {
		if say := trace.SaySource(in, other); say != best && !slices.Contains(out, say) {
			out = append(out, say)
		}
	}
	return out
}

func meansOf(standing string) string {
	for _, s := range standingMeans {
		if s.Word == standing {
			return s.Means
		}
	}
	return ""
}

// decided lists the lead's decisions on a conductor end, whatever its line said
// then, with the names of now. About is set where the line has said something
// else since.
func (v *visit) decided(end observation.Point, say string) []decisionView {
	var out []decisionView
	for _, d := range v.found.Decisions {
		b := d.Body.(observation.Decision)
		now := v.found.NamesSince(d)
		b.About, b.Answer = now.In(b.About), now.In(b.Answer)
		if b.Answer == observation.NotNow || b.About != say && (d.Subject != end.At || !strings.HasPrefix(b.About, "the "+end.String()+" at ")) {
			continue
		}
		row := decisionView{Href: "entry/" + d.ID.String(), Answer: b.Answer, Reason: b.Reason, Who: d.Who, When: dayAndTime(d.When(), v.ask.Now)}
		if b.About != say {
			row.About = b.About
		}
		out = append(out, row)
	}
	return out
}

// addDecision records the lead's word against what the readings say.
func addDecision(v *visit) error {
	f := v.typed()
	body := observation.Decision{About: f.Get("about"), Answer: strings.TrimSpace(f.Get("answer")), Reason: f.Get("reason")}
	if _, ok := v.record(f, observation.Observation{Subject: v.arg("thing"), Body: body}, nil); !ok {
		return lineWith(v, f)
	}
	end := observation.Point{At: v.arg("thing"), Cable: v.query("cable"), Space: atoi(v.query("space")), Wire: observation.Wire(v.query("wire"))}
	return v.goTo(lineHref(end) + "&kept=1")
}

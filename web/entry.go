package web

import (
	"strconv"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/site"
	"asfound/trace"
)

type entryPage struct {
	Form        *form
	ID          string
	Entry       entryView
	Taken, Wall string
	Place       *navItem
	From        *navItem // the file it was taken in from
	Stop        string   // all entries of its visit
	Story       *navItem
	Under, Seen []entryView
	WithdrawnBy []entryView
	ReplacedBy  []entryView
	Leans       []statement
	Reasons     []string
	Can         bool
	Fell        []fellRow
	Asked       bool
	ClashHref   string
	Photo       *observation.Photo
	Stands      bool // its withdrawal was just taken back
}

type fellRow struct {
	Before, After *statement
}

// showEntry is one entry with what leans on it. The reasons for withdrawing it
// are buttons: opening the page is the first touch, the reason the second.
func showEntry(v *visit) error { return entryWith(v, v.form()) }

func entryWith(v *visit, f *form) error {
	id, err := observation.ParseID(v.args["entry"])
	if err != nil {
		return notFound{sayNoEntry}
	}
	e, ok := v.job.Site.Event(id)
	if !ok {
		return notFound{sayNoEntry}
	}
	data := entryPage{Form: f, ID: id.String(), Entry: v.entry(e.Event), Wall: dayAndTime(e.Wall, v.ask.Now),
		Under: v.entries(e.Under), Seen: v.entries(e.Seen), WithdrawnBy: v.entries(e.WithdrawnBy), ReplacedBy: v.entries(e.ReplacedBy),
		Leans: v.statements(v.found.Trace.Leans(id)), Reasons: withdrawReasons, Can: e.Live(),
		Stands: e.Live() && v.query("stands") != ""}
	if !e.Taken.IsZero() {
		data.Taken = dayAndTime(e.Taken, v.ask.Now)
	}
	if p, ok := e.Body.(observation.Photo); ok {
		data.Photo = &p
	}
	if at := e.Place(); v.thingHref(at) != "" {
		data.Place = &navItem{Href: v.thingHref(at), Name: placeTitle(v.found.Installation, at)}
	}
	if _, line, ok := site.FromFile(e.Observation); ok {
		data.From = v.fromFile(id, line)
	}
	data.Stop, data.Story = visits([]*observation.Event{&e.Event}, v.ask.Now.Location())[0].href(), v.storyOf(e.Place())
	if c := v.clashOf(id); c != nil {
		data.ClashHref = "clash?key=" + queryEscape(c.Key)
	}
	if err := v.fillFallen(&data, e); err != nil {
		return err
	}
	return v.renderForm("entry", "Entry "+id.String(), f, data)
}

// fillFallen lists what stands less firmly since the revision in the address.
func (v *visit) fillFallen(data *entryPage, e installation.Entry) error {
	revision, err := strconv.ParseInt(v.query("fell"), 10, 64)
	if err != nil || e.Live() {
		return nil
	}
	before, err := v.job.Site.AsFoundAt(revision)
	if err != nil {
		return err
	}
	data.Asked = true
	for _, fell := range site.Fallen(before, v.found) {
		row := fellRow{Before: &statement{Href: lineHref(fell.Before.End), Say: trace.Say(before.Installation, fell.Before), Standing: standingWord(fell.Before.Verdict)}}
		if fell.After != nil {
			after := v.statement(fell.After)
			row.After = &after
		}
		data.Fell = append(data.Fell, row)
	}
	return nil
}

// withdrawEntry takes an entry back, with the reason that was touched, or takes
// its withdrawal back.
func withdrawEntry(v *visit) error {
	f := v.typed()
	id, err := observation.ParseID(v.args["entry"])
	if err != nil {
		return notFound{sayNoEntry}
	}
	e, ok := v.job.Site.Event(id)
	if !ok {
		return notFound{sayNoEntry}
	}
	if f.Get("stands") != "" {
		return v.takeBack(f, e)
	}
	revision := v.found.Revision
	if e.Live() {
		reason := strings.TrimSpace(f.Get("reason"))
		if reason == "" {
			reason = strings.TrimSpace(f.Get("other"))
		}
		o := observation.Observation{Seen: []observation.ID{id}, Subject: e.Place(), Body: observation.Withdrawal{Reason: reason}}
		if _, ok := v.record(f, o, map[string]string{"reason": "other"}); !ok {
			return entryWith(v, f)
		}
	}
	return v.goTo("entry/" + id.String() + "?fell=" + strconv.FormatInt(revision, 10))
}

// takeBack withdraws what withdraws an entry, so that the entry counts again.
// Both stay in the journal.
func (v *visit) takeBack(f *form, e installation.Entry) error {
	if len(e.WithdrawnBy) > 0 {
		o := observation.Observation{Seen: e.WithdrawnBy, Subject: e.Place(), Body: observation.Withdrawal{Reason: sayStands}}
		if _, ok := v.record(f, o, map[string]string{"reason": "other"}); !ok {
			return entryWith(v, f)
		}
	}
	return v.goTo("entry/" + e.ID.String() + "?stands=yes")
}

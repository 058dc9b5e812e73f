package web

import (
	"strings"

	"asfound/diary"
	"asfound/observation"
)

type notePage struct {
	Form  *form
	Thing observation.Thing
	About string
	Back  navItem
}

// showNote takes in a note about a thing, or about the whole job.
func showNote(v *visit) error { return noteWith(v, v.form().start("noted")) }

func noteWith(v *visit, f *form) error {
	thing := v.arg("thing")
	data := notePage{Form: f, Thing: thing, About: sayNoteJob, Back: navItem{Href: "journal", Name: titleJournal}}
	if thing != "" {
		if v.thingHref(thing) == "" {
			return notFound{sayNoThing}
		}
		name := placeTitle(v.found.Installation, thing)
		data.About, data.Back = sayNoteOf(name), navItem{Href: v.thingHref(thing), Name: name}
	}
	return v.renderForm("note", data.About, f, data)
}

// addNote keeps a note. One written later bears the time it is about.
func addNote(v *visit) error {
	f := v.typed()
	o := observation.Observation{Subject: v.arg("thing"), Body: observation.Note{Text: strings.TrimSpace(f.Get("noted"))}}
	if strings.TrimSpace(f.Get("note_date")) != "" || strings.TrimSpace(f.Get("note_time")) != "" {
		if strings.TrimSpace(f.Get("note_date")) == "" {
			f.values["note_date"] = []string{diary.Name(v.ask.Now)}
		}
		o.Taken = f.moment("note_date", "note_time", v.ask.Now)
	}
	if _, ok := v.record(f, o, map[string]string{"text": "noted", "taken": "note_time"}); !ok {
		return noteWith(v, f)
	}
	return v.goTo(v.afterNote(o.Subject))
}

// afterNote is the page to go back to, which says that it is kept.
func (v *visit) afterNote(t observation.Thing) string {
	href := v.thingHref(t)
	switch {
	case href == "":
		return "journal?kept=note"
	case v.found.Room(t) != nil:
		return href + "?mended=yes"
	}
	return href + "?kept=yes"
}

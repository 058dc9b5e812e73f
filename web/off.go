package web

import (
	"time"

	"asfound/installation"
	"asfound/observation"
)

// offPage stands in the place of a tour's pages for readings once it is taken
// down: its resistors are off, and a reading says nothing of it any more.
type offPage struct {
	Form       *form
	Tour, Name string
	Number     string
	Room       string
	Off        string
	Lines      []statement
	Pairing    bool
	Read       *navItem    // the same opening under a tour that stands
	Typed      []typedItem // what came in after the take-off, and was not kept
}

// typedItem is a value that somebody typed, under the name of its field.
type typedItem struct{ Name, Value string }

// offWith is the page of an opening in a tour that is taken down.
func offWith(v *visit, f *form, t *installation.Tour) error {
	o := v.found.Opening(v.arg("opening"))
	if o == nil {
		return notFound{sayNoThing}
	}
	data := offPage{Form: f, Tour: t.ID.String(), Name: t.Name, Number: o.Number, Room: v.found.Name(o.Room), Off: v.offWords(t),
		Lines: v.statements(v.found.Trace.At(o.Thing)), Pairing: t.Means == observation.ByPairing}
	if other := v.standingTour(t.Means); other != nil {
		data.Read = &navItem{Href: "tour/" + other.ID.String() + "/" + string(o.Thing), Name: other.Name}
	}
	if f.Bad() {
		data.Typed = typedHere(f)
	}
	return v.renderForm("off", o.Number+", "+t.Name, f, data)
}

// typedHere is what stood in the fields of a visit's page.
func typedHere(f *form) []typedItem {
	var out []typedItem
	for _, at := range []struct{ name, label string }{{"letters", "letters"}, {"ohm", "value"}, {"put", "resistor"}, {"other", "resistor"}, {"why", "why"}} {
		if value := f.Get(at.name); value != "" {
			out = append(out, typedItem{at.label, value})
		}
	}
	if answer := f.Get("answer"); answer == "open" || answer == "cannot" || answer == "notreached" {
		out = append(out, typedItem{"answer", answerWord(answer)})
	}
	return out
}

// offSince is when a tour was first said to be taken down.
func offSince(t *installation.Tour) (off time.Time) {
	for _, e := range t.TakenOff {
		if off.IsZero() || e.When().Before(off) {
			off = e.When()
		}
	}
	return off
}

// offWords says that the resistors of a tour are off, and since when; nothing
// while it stands.
func (v *visit) offWords(t *installation.Tour) string {
	if !t.Removed {
		return ""
	}
	return sayOff(t.Name, sinceWord(offSince(t), v.ask.Now))
}

// refuseOff notes on a form that its tour is taken down; true when it is.
func (v *visit) refuseOff(f *form, t *installation.Tour) bool {
	if t.Removed {
		f.fault("tour", sayNotUnderOff)
	}
	return t.Removed
}

package web

import (
	"asfound/installation"
	"asfound/observation"
	"asfound/trace"
	"strings"
)

// tour finds the tour that the address names.
func (v *visit) tour() (*installation.Tour, error) {
	id, err := observation.ParseID(v.args["tour"])
	if err != nil || v.found.Tour(id) == nil {
		return nil, notFound{sayNoTour}
	}
	return v.found.Tour(id), nil
}

// plan is the tour's resistors and walk.
func (v *visit) plan(t *installation.Tour) (trace.TourPlan, error) {
	return trace.PlanOf(v.found.Installation, v.found.Trace, t)
}

type tourPage struct {
	Thing    string
	Name     string
	Removed  bool
	Stop     string
	Put      int
	ReadBack int
	After    int
	Rooms    []tourRoom
	First    string
	Left     int
	Sheets   []Sheet
}

type tourRoom struct {
	Name, Look, Looked string
	Openings           []openingRow
	Left               int
}

// showTour is how far a tour has come, and where to go on.
func showTour(v *visit) error {
	t, err := v.tour()
	if err != nil {
		return err
	}
	if t.Means == observation.ByPairing {
		return v.pairingPage(t)
	}
	data := tourPage{Thing: t.ID.String(), Name: t.Name, Removed: t.Removed, Stop: v.tourStop(t), Put: len(t.Resistors),
		ReadBack: len(readAt(t, false)), After: len(readAt(t, true))}
	for _, walk := range v.walk(t) {
		room := tourRoom{Name: v.found.Name(walk.Room), Look: "look/" + t.ID.String() + "/" + string(walk.Room), Looked: v.lookedWords(t, walk.Room)}
		for _, thing := range walk.Openings {
			o := v.found.Opening(thing)
			row := openingRow{Href: "tour/" + t.ID.String() + "/" + string(thing), Number: o.Number, Lines: v.statements(v.found.Trace.At(thing)), State: v.openingState(o)}
			if len(row.Lines) == 0 && o.NotReached == nil {
				room.Left++
				if data.First == "" {
					data.First = row.Href
				}
			}
			room.Openings = append(room.Openings, row)
		}
		data.Left += room.Left
		data.Rooms = append(data.Rooms, room)
	}
	return v.render("tour", t.Name, data)
}

// walk is the openings of the tour's buildings in walking order; a tour without
// panels goes through all of them.
func (v *visit) walk(t *installation.Tour) []trace.RoomWalk {
	return trace.Walk(v.found.Installation, t.Panels)
}

// tourStop says which panel of the tour is not on record as dead.
func (v *visit) tourStop(t *installation.Tour) string {
	var live []string
	for _, thing := range t.Panels {
		p := v.found.Panel(thing)
		if p == nil {
			continue
		}
		if _, dead := v.found.DeadSince(p); !dead {
			live = append(live, p.Name)
		}
	}
	if len(live) == 0 {
		return ""
	}
	return sayTourLive(strings.Join(live, ", "))
}

// readAt lists the spaces of a tour's resistors that were read back, before or
// after the walk.
func readAt(t *installation.Tour, after bool) map[observation.Point]observation.ReadBack {
	out := map[observation.Point]observation.ReadBack{}
	for _, e := range t.ReadBacks {
		b := e.Body.(observation.ReadBack)
		switch {
		case b.After != after:
		case trace.Fits(t, b):
			out[b.At] = b
		default:
			delete(out, b.At) // another resistor showed: it has to be read again
		}
	}
	return out
}

func (v *visit) lookedWords(t *installation.Tour, room observation.Thing) string {
	r := v.found.Room(room)
	for i := len(r.Checks) - 1; i >= 0; i-- {
		if e := r.Checks[i]; len(e.Under) > 0 && e.Under[0] == t.ID {
			return "looked around " + dayAndTime(e.When(), v.ask.Now)
		}
	}
	return ""
}

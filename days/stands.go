package days

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"asfound/installation"
	"asfound/observation"
)

// Stand is where a person last recorded something.
type Stand struct {
	Who   string
	At    observation.Thing
	Since time.Time // when it was taken
}

// Stands lists where each person stands, by name: where what he took last was
// taken, whenever it was typed in. Withdrawn entries say nothing, nor do
// those that are made anywhere.
func Stands(in *installation.Installation) []Stand {
	last := map[string]*observation.Event{}
	at := map[string]observation.Thing{}
	in.EachThing(func(t observation.Thing, story installation.Story) {
		for i := range story {
			e := &story[i]
			place := e.Stood()
			if place == "" || !e.Live() || !isPlace(in, place) {
				continue
			}
			if had := last[e.Who]; had == nil || later(&e.Event, had) {
				last[e.Who], at[e.Who] = &e.Event, place
			}
		}
	})
	var out []Stand
	for who, e := range last {
		out = append(out, Stand{Who: who, At: at[who], Since: e.When()})
	}
	slices.SortFunc(out, func(a, b Stand) int { return strings.Compare(a.Who, b.Who) })
	return out
}

// later reports whether an event was taken after another; the one order of events
// decides where the times are the same.
func later(e, other *observation.Event) bool {
	return cmp.Or(e.When().Compare(other.When()), cmp.Compare(e.HLC, other.HLC), e.ID.Compare(other.ID)) > 0
}

func isPlace(in *installation.Installation, t observation.Thing) bool {
	return in.Opening(t) != nil || in.Panel(t) != nil || in.Room(t) != nil || in.Building(t) != nil || in.DrawnAs(t) != nil || in.Source(t) != nil
}

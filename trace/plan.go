package trace

import (
	"fmt"
	"slices"

	"asfound/installation"
	"asfound/observation"
	"asfound/pattern"
	"asfound/quantity"
)

// IsolationPlan is the panel isolation test of one panel in the order to do it:
// each branch conductor against all others joined, then against the bars.
type IsolationPlan struct {
	Panel observation.Thing
	Lines []IsolationLine
}

// IsolationLine is one reading to take. Why tells a hit being narrowed, or a
// join being read a second time, from the first round.
type IsolationLine struct {
	A       []int
	Against observation.Against
	B       []int
	Why     string
	Taken   bool                // somebody recorded it already
	Ohm     quantity.Resistance // what was read, the latest, once taken
}

// TourPlan is a resistor-coded dead tour over all its panels at once.
type TourPlan struct {
	Set   pattern.ResistorSet
	Puts  []Put               // in panel order, left column then right
	Back  []int               // indexes of Puts in the order to read back blind
	Rooms []RoomWalk          // in walking order
	Left  []observation.Point // spaces for which no value was left: a second tour
	Panel []observation.Thing
}

// Put is a resistor to put on a space. Joined spaces share one.
type Put struct {
	On   observation.Point
	Ohm  quantity.Ohms
	Also []int // spaces of the panel joined with it
}

// RoomWalk is the openings of a room in walking order.
type RoomWalk struct {
	Room     observation.Thing
	Openings []observation.Thing
}

// PlanTour chooses a resistor for each branch conductor of the panels, one for
// each group found joined, and for each hot of a cable that lies coiled in them;
// and the walk past all openings of their buildings and of buildings without a
// panel.
// The set is shortened to the values used. A panel with no branch recorded is
// refused in words.
func PlanTour(in *installation.Installation, tr *Trace, panels []observation.Thing, set pattern.ResistorSet) (TourPlan, error) {
	plan := TourPlan{Panel: panels}
	for _, thing := range panels {
		panel := in.Panel(thing)
		if panel == nil || len(panel.Branches())+len(coiled(panel)) == 0 {
			return TourPlan{}, observation.Unusable{Field: "panel",
				Say: fmt.Sprintf("Panel %s has no branch conductor on record. Record what lands on each space first.", in.Name(thing))}
		}
		plan.Puts = append(plan.Puts, puts(tr, panel)...)
	}
	if n := len(set.Values); len(plan.Puts) > n {
		for _, p := range plan.Puts[n:] {
			plan.Left = append(plan.Left, p.On)
		}
		plan.Puts = plan.Puts[:n]
	}
	for i := range plan.Puts {
		plan.Puts[i].Ohm = set.Values[i]
	}
	set.Values = set.Values[:len(plan.Puts)]
	plan.Set = set
	plan.Back = backOrder(plan.Puts)
	plan.Rooms = Walk(in, panels)
	return plan, nil
}

// puts lists the branch conductors of a panel, joined ones once.
func puts(tr *Trace, panel *installation.Panel) []Put {
	var out []Put
	groups := tr.JoinedGroups(panel.Thing)
	for _, s := range panel.Branches() {
		put := Put{On: SpacePoint(panel.Thing, s)}
		for _, g := range groups {
			if at := slices.Index(g, s); at > 0 {
				put.On.At = "" // shares the resistor of the first
			} else if at == 0 {
				put.Also = g[1:]
			}
		}
		if put.On.At != "" {
			out = append(out, put)
		}
	}
	for _, p := range coiled(panel) {
		out = append(out, Put{On: p})
	}
	return out
}

// coiled lists the hots of cables that lie in a panel and are landed nowhere.
func coiled(panel *installation.Panel) []observation.Point {
	var out []observation.Point
	for _, c := range panel.Cables {
		for _, w := range c.Conductors {
			if !isReturn(w.Wire) && w.State == observation.Coiled {
				out = append(out, observation.Point{At: panel.Thing, Cable: c.Tag, Wire: w.Wire})
			}
		}
	}
	return out
}

// SpacePoint is the branch hot of a space.
func SpacePoint(panel observation.Thing, space int) observation.Point {
	return observation.Point{At: panel, Space: space, Wire: observation.Hot}
}

// backOrder gives the indexes of puts in the order to read them back: panel by
// panel, and in each so that no two follow each other as they were placed.
func backOrder(puts []Put) []int {
	var out []int
	for from := 0; from < len(puts); {
		to := from
		for to < len(puts) && puts[to].On.At == puts[from].On.At {
			to++
		}
		for start := range 3 {
			for i := to - 1 - start; i >= from; i -= 3 {
				out = append(out, i)
			}
		}
		from = to
	}
	return out
}

// Walk lists the openings of the panels' buildings in walking order.
func Walk(in *installation.Installation, panels []observation.Thing) []RoomWalk {
	buildings := walked(in, panels)
	var out []RoomWalk
	for _, room := range in.Rooms {
		if !buildings[room.Building] {
			continue
		}
		w := RoomWalk{Room: room.Thing}
		for _, o := range in.In(room.Thing) {
			w.Openings = append(w.Openings, o.Thing)
		}
		if len(w.Openings) > 0 {
			out = append(out, w)
		}
	}
	return out
}

// walked are the buildings of panels, and those that have no panel of their own;
// all, without panels.
func walked(in *installation.Installation, panels []observation.Thing) map[observation.Thing]bool {
	out := map[observation.Thing]bool{}
	for _, b := range in.Buildings {
		out[b.Thing] = len(panels) == 0 || !slices.ContainsFunc(in.Panels, func(p *installation.Panel) bool { return p.Building == b.Thing })
	}
	for _, p := range panels {
		if panel := in.Panel(p); panel != nil {
			out[panel.Building] = true
		}
	}
	return out
}

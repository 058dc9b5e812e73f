package report

import (
	"slices"

	"asfound/installation"
	"asfound/observation"
	"asfound/pattern"
	"asfound/quantity"
	"asfound/site"
	"asfound/table"
	"asfound/trace"
)

// tourOf returns the tour a sheet is about; Sheets lists no other.
func tourOf(a *site.AsFound, k Kind) *installation.Tour {
	i := slices.IndexFunc(a.Tours, func(t *installation.Tour) bool { return t.ID.Thing() == k.Of })
	return a.Tours[i]
}

// tourPlan is the plan of a tour, with what is already on record in place of
// what was planned.
func tourPlan(a *site.AsFound, k Kind) (trace.TourPlan, error) {
	t := tourOf(a, k)
	var plan trace.TourPlan
	var err error
	for _, series := range []string{"E24", "E96"} {
		plan, err = trace.PlanTour(a.Installation, a.Trace, t.Panels, resistorSet(t, series))
		if err != nil {
			return plan, err
		}
		if len(plan.Left) == 0 {
			break
		}
	}
	recorded(&plan, t)
	return plan, nil
}

// The span of values in use and the conductor that a reading may include, as
// for a house: below 100 ohms conductors blur the values, above 100 kilohms
// leakage does, and 20 ohms is 4,000 feet of 14 AWG out and back (common
// practice, no source).
const (
	lowest    quantity.Ohms = 100
	highest   quantity.Ohms = 100e3
	conductor quantity.Ohms = 20
)

func resistorSet(t *installation.Tour, series string) pattern.ResistorSet {
	decade, _ := table.Preferred(series)
	meter := pattern.Meter{Relative: t.MeterRelative, AbsoluteOhm: t.MeterOhm}
	return pattern.Resistors(decade, t.Tolerance, meter, conductor, lowest, highest)
}

// recorded puts recorded resistors into the plan: a space keeps the value that was
// put on it, and no other space is given that value again.
func recorded(plan *trace.TourPlan, t *installation.Tour) {
	on := map[observation.Point]quantity.Ohms{}
	used := map[quantity.Ohms]bool{}
	for _, e := range t.Resistors {
		r := e.Body.(observation.Resistor)
		on[r.On] = r.Ohm
	}
	for _, ohm := range on {
		used[ohm] = true
	}
	var open []int
	for i, p := range plan.Puts {
		if ohm, ok := on[p.On]; ok {
			plan.Puts[i].Ohm = ohm
		} else if used[p.Ohm] {
			open = append(open, i)
		} else {
			used[p.Ohm] = true
		}
	}
	free := slices.DeleteFunc(slices.Clone(plan.Set.Values), func(o quantity.Ohms) bool { return used[o] })
	for n, i := range open {
		if n < len(free) {
			plan.Puts[i].Ohm = free[n]
		} else {
			plan.Puts[i].Ohm = 0
			plan.Left = append(plan.Left, plan.Puts[i].On)
		}
	}
	plan.Puts = slices.DeleteFunc(plan.Puts, func(p trace.Put) bool { return p.Ohm == 0 })
	plan.Back = slices.DeleteFunc(plan.Back, func(i int) bool { return i >= len(plan.Puts) })
}

// backOrder are the puts of each panel in the order to read them back blind.
func backOrder(plan trace.TourPlan, panel observation.Thing) []trace.Put {
	var out []trace.Put
	for _, i := range plan.Back {
		if plan.Puts[i].On.At == panel {
			out = append(out, plan.Puts[i])
		}
	}
	return out
}

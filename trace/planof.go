package trace

import (
	"cmp"
	"slices"

	"asfound/installation"
	"asfound/observation"
	"asfound/pattern"
	"asfound/quantity"
	"asfound/table"
)

// PlanOf is the plan of a tour on record, with the resistors already recorded
// in place of those planned. It draws values from the 24 series, and from the
// 96 series where those are too few (IEC 60063).
func PlanOf(in *installation.Installation, tr *Trace, t *installation.Tour) (TourPlan, error) {
	var plan TourPlan
	var err error
	for _, series := range []string{"E24", "E96"} {
		plan, err = PlanTour(in, tr, t.Panels, freeOf(in, t, SetOf(t, series)))
		if err != nil {
			return plan, err
		}
		if len(plan.Left) == 0 {
			break
		}
	}
	plan.keep(t)
	return plan, nil
}

// freeOf leaves out of a set the values that other standing tours have on.
func freeOf(in *installation.Installation, t *installation.Tour, set pattern.ResistorSet) pattern.ResistorSet {
	var others []*installation.Tour
	for _, o := range in.Tours {
		if o.ID != t.ID && !o.Removed {
			others = append(others, o)
		}
	}
	used := listOf(others)
	used.set.ConductorMax, used.set.Tolerance, used.set.Meter = set.ConductorMax, set.Tolerance, set.Meter
	set.Values = slices.DeleteFunc(slices.Clone(set.Values), func(v quantity.Ohms) bool {
		for i := range used.puts {
			if least, most := used.set.Accepts(i); v >= least && v <= most {
				return true
			}
		}
		return false
	})
	return set
}

// The span of values in use: below 100 ohms conductors blur the values, above
// 100 kilohms leakage does (common practice, no source).
const (
	lowest  quantity.Ohms = 100
	highest quantity.Ohms = 100e3
)

// SetOf is the set of values of a preferred series that a tour's meter and
// resistors can tell apart.
func SetOf(t *installation.Tour, series string) pattern.ResistorSet {
	decade, _ := table.Preferred(series)
	meter := pattern.Meter{Relative: t.MeterRelative, AbsoluteOhm: t.MeterOhm}
	return pattern.Resistors(decade, t.Tolerance, meter, conductorMax, lowest, highest)
}

// keep puts recorded resistors into the plan: a space keeps the value that was
// put on it, and no other space is given that value again.
func (plan *TourPlan) keep(t *installation.Tour) {
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
	plan.Puts = slices.DeleteFunc(plan.Puts, func(p Put) bool { return p.Ohm == 0 })
	for p, ohm := range on { // put on before its circuit was found joined
		if !slices.ContainsFunc(plan.Puts, func(x Put) bool { return x.On == p }) {
			plan.Puts = append(plan.Puts, Put{On: p, Ohm: ohm})
		}
	}
	slices.SortStableFunc(plan.Puts, func(a, b Put) int {
		return cmp.Or(cmp.Compare(slices.Index(plan.Panel, a.On.At), slices.Index(plan.Panel, b.On.At)), compareColumns(a.On, b.On))
	})
	plan.Back = backOrder(plan.Puts)
}

// compareColumns puts odd spaces before even ones, each from the top, and coiled
// cables after them by tag.
func compareColumns(a, b observation.Point) int {
	return cmp.Or(cmp.Compare(cables(a), cables(b)), cmp.Compare(b.Space%2, a.Space%2), cmp.Compare(a.Space, b.Space),
		compareTags(a.Cable, b.Cable), cmp.Compare(a.Wire, b.Wire))
}

func cables(p observation.Point) int {
	if p.Space > 0 {
		return 0
	}
	return 1
}

// compareTags orders tags that are numbers as numbers.
func compareTags(a, b string) int {
	return cmp.Or(cmp.Compare(len(a), len(b)), cmp.Compare(a, b))
}

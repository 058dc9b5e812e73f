package report

import (
	"slices"

	"asfound/installation"
	"asfound/observation"
	"asfound/site"
	"asfound/trace"
)

// tourOf returns the tour a sheet is about; Sheets lists no other.
func tourOf(a *site.AsFound, k Kind) *installation.Tour {
	i := slices.IndexFunc(a.Tours, func(t *installation.Tour) bool { return t.ID.Thing() == k.Of })
	return a.Tours[i]
}

// tourPlan is the plan of the tour a sheet is about.
func tourPlan(a *site.AsFound, k Kind) (trace.TourPlan, error) {
	return trace.PlanOf(a.Installation, a.Trace, tourOf(a, k))
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

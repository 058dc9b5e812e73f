package web

import (
	"strings"

	"asfound/drawing"
	"asfound/observation"
)

type lockOutPage struct {
	Form    *form
	Panel   navItem
	Thing   observation.Thing
	Locks   []entryView
	Passing string // conductors that may stay live with the panel dead
}

// showLockOut takes in a lock put on a panel's supply or on breakers.
func showLockOut(v *visit) error { return lockOutWith(v, v.form()) }

func lockOutWith(v *visit, f *form) error {
	p := v.found.Panel(v.arg("panel"))
	if p == nil {
		return notFound{sayNoThing}
	}
	data := lockOutPage{Form: f, Panel: navItem{Href: "panel/" + string(p.Thing), Name: p.Name}, Passing: drawing.Passing(p), Thing: p.Thing}
	for _, e := range p.LockOuts {
		data.Locks = append(data.Locks, v.entry(e))
	}
	return v.renderForm("lockout", "Lock-out, panel "+p.Name, f, data)
}

// addLockOut keeps it and goes on to the test.
func addLockOut(v *visit) error {
	f := v.typed()
	body := observation.LockOut{Spaces: f.spaces("spaces"), Device: f.Get("device"), Key: f.Get("key"), Told: f.Get("told")}
	if _, ok := v.record(f, observation.Observation{Subject: v.arg("panel"), Body: body}, nil); !ok {
		return lockOutWith(v, f)
	}
	return v.goTo("dead/" + v.args["panel"] + "?kept=1")
}

// spaces reads space numbers with commas between.
func (f *form) spaces(name string) []int {
	var out []int
	for _, part := range strings.FieldsFunc(f.Get(name), func(r rune) bool { return r == ',' || r == ' ' || r == ';' }) {
		n := atoi(part)
		if n == 0 {
			f.fault(name, sayNoSpaces)
		}
		out = append(out, n)
	}
	return out
}

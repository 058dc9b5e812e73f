package web

import (
	"strings"

	"asfound/observation"
)

type lockOutPage struct {
	Form *form
	At   supply
	Kept bool
	Off  []entryView // taken off again
}

// showLockOut takes in a lock put on a supply or on breakers.
func showLockOut(v *visit) error { return lockOutWith(v, v.form()) }

func lockOutWith(v *visit, f *form) error {
	at, err := v.supply()
	if err != nil {
		return err
	}
	data := lockOutPage{Form: f, At: at, Kept: v.query("kept") != ""}
	for _, e := range at.safety.LockOuts {
		if at.safety.Release(e.ID) != nil {
			data.Off = append(data.Off, v.entry(e))
		}
	}
	return v.renderForm("lockout", "Lock-out, "+at.Low, f, data)
}

// addLockOut keeps it and goes on to the test; a source has none of its own.
func addLockOut(v *visit) error {
	f := v.typed()
	o := v.when(f)
	o.Body = observation.LockOut{Spaces: f.spaces("spaces"), Device: f.Get("device"), Key: f.Get("key"), Told: f.Get("told")}
	if _, ok := v.record(f, o, map[string]string{"taken": "clock"}); !ok {
		return lockOutWith(v, f)
	}
	if v.found.Panel(v.arg("at")) == nil {
		return v.goTo("lockout/" + v.args["at"] + "?kept=1")
	}
	return v.goTo("dead/" + v.args["at"] + "?kept=1")
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

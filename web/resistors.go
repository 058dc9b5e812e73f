package web

import (
	"strconv"

	"asfound/installation"
	"asfound/observation"
	"asfound/quantity"
	"asfound/trace"
)

type resistorsPage struct {
	Form       *form
	Tour, Name string
	Live       string
	Rows       []resistorRow
	Left       []string
	Put        int
	Trouble    string
	Kept       string
	Off        string   // it is taken down, since when
	Neutral    bool     // neutral and ground bar are joined for it
	Cables     bool     // some lie coiled in a panel
	Busy       []string // panels that another tour's resistors are on
}

type resistorRow struct {
	Key, Space, Also, Ohm string
	Name, Value, Fault    string
	On                    bool
	Ticked, Start         bool // Start: the cursor goes to this row's fault
}

// showResistors is the list of resistors to put on, a tick for each.
func showResistors(v *visit) error { return resistorsWith(v, v.form()) }

func resistorsWith(v *visit, f *form) error {
	t, err := v.tour()
	if err != nil {
		return err
	}
	data := resistorsPage{Form: f, Tour: t.ID.String(), Name: t.Name, Live: v.tourStop(t), Kept: v.query("kept"),
		Off: v.offWords(t), Neutral: t.NeutralJoined == observation.Yes}
	if !t.Removed {
		for _, thing := range t.Panels {
			data.Busy = append(data.Busy, v.busyWords(thing, t.ID)...)
		}
	}
	plan, err := v.plan(t)
	if err != nil {
		data.Trouble = sentence(err)
	}
	on := resistorsOn(t)
	for i, put := range plan.Puts {
		row := resistorRow{Key: strconv.Itoa(i), Space: v.putName(put.On), Ohm: put.Ohm.String()}
		if len(put.Also) > 0 {
			row.Also = spaceList(put.Also)
		}
		row.Name = "ohm." + row.Key
		row.Value, row.Fault = f.Get(row.Name), f.Fault(row.Name)
		row.Ticked, row.Start = f.Has("on", row.Key), row.Fault != "" && f.first == row.Name
		r, there := on[put.On]
		if there {
			row.On, row.Ohm = true, r.String()
			data.Put++
		} else if t.Removed {
			continue
		}
		data.Cables = data.Cables || put.On.Space == 0
		data.Rows = append(data.Rows, row)
	}
	for _, p := range plan.Left {
		if t.Removed {
			break
		}
		data.Left = append(data.Left, v.putName(p))
	}
	return v.renderForm("resistors", "Resistors, "+t.Name, f, data)
}

// resistorsOn are the values put on, by conductor.
func resistorsOn(t *installation.Tour) map[observation.Point]quantity.Ohms {
	out := map[observation.Point]quantity.Ohms{}
	for _, e := range t.Resistors {
		r := e.Body.(observation.Resistor)
		out[r.On] = r.Ohm
	}
	return out
}

// sentence is what an error says to a person.
func sentence(err error) string {
	f := &form{faults: map[string]string{}}
	f.take(err, nil)
	for _, say := range f.faults {
		return say
	}
	return f.Failed
}

// addResistors keeps each ticked row once, with the value of the list or the
// one typed beside it.
func addResistors(v *visit) error {
	f := v.typed()
	t, err := v.tour()
	if err != nil {
		return err
	}
	plan, err := v.plan(t)
	if v.refuseOff(f, t) || err != nil {
		return resistorsWith(v, f)
	}
	kept, on := 0, resistorsOn(t)
	for i, put := range plan.Puts {
		if _, there := on[put.On]; there || !f.Has("on", strconv.Itoa(i)) {
			continue
		}
		if v.keepResistor(f, t, put, "ohm."+strconv.Itoa(i)) {
			kept++
		}
	}
	if err := v.afresh(); err != nil {
		return err
	}
	if f.Bad() {
		return resistorsWith(v, f)
	}
	return v.goTo("resistors/" + v.args["tour"] + "?kept=" + strconv.Itoa(kept))
}

func (v *visit) keepResistor(f *form, t *installation.Tour, put trace.Put, name string) bool {
	ohm := put.Ohm
	if typed := f.Get(name); typed != "" {
		r, ok := f.ohm(name)
		if !ok {
			return false
		}
		ohm = r.Ohm
	}
	return v.recordRow(f, name, observation.Observation{Under: []observation.ID{t.ID}, Body: observation.Resistor{On: put.On, Ohm: ohm}})
}

package web

import "asfound/observation"

type takeOffPage struct {
	Form       *form
	Tour, Name string
	Live       string
	Put, After int
	Left       int
	Removed    bool
	Pairing    bool
	Joins      []navItem
	Where      []string
	On         string // "3 resistors"
}

// showTakeOff ends a tour: the last read-back, then the resistors come off.
func showTakeOff(v *visit) error { return takeOffWith(v, v.form()) }

func takeOffWith(v *visit, f *form) error {
	t, err := v.tour()
	if err != nil {
		return err
	}
	data := takeOffPage{Form: f, Tour: t.ID.String(), Name: t.Name, Live: v.tourStop(t), Removed: t.Removed, After: len(readAt(t, true))}
	for _, p := range v.backOrder(t) {
		data.Where = append(data.Where, v.found.PointName(p))
	}
	data.Put, data.Joins = len(data.Where), v.joinsOf(t)
	data.On = counted(data.Put, "resistor")
	data.Left = max(0, data.Put-data.After)
	if t.Means == observation.ByPairing { // its resistors were read at the other end
		data.Left, data.Pairing = 0, true
	}
	return v.renderForm("takeoff", "Take off, "+t.Name, f, data)
}

// addTakeOff records that the tour is taken down.
func addTakeOff(v *visit) error {
	f := v.typed()
	t, err := v.tour()
	if err != nil {
		return err
	}
	if _, ok := v.record(f, observation.Observation{Under: []observation.ID{t.ID}, Body: observation.Removed{Note: f.Get("note")}}, nil); !ok {
		return takeOffWith(v, f)
	}
	return v.goTo("tour/" + v.args["tour"])
}

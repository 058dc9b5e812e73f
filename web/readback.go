package web

import (
	"strconv"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/quantity"
	"asfound/trace"
)

type readBackPage struct {
	Form       *form
	Tour, Name string
	After      bool
	Live       string
	Space      string
	Cable      bool   // a cable that lies coiled, not a space
	Wrong      string // the space at which another resistor was just read
	Key        string
	Done, All  int
	Kept       string
	Next       string
	Off        string // the tour is taken down, since when
}

// showReadBack names one space after the other, in another order than placed,
// and never the value: the person reads and types it.
func showReadBack(v *visit) error { return readBackWith(v, v.form()) }

func readBackWith(v *visit, f *form) error {
	t, err := v.tour()
	if err != nil {
		return err
	}
	after := v.query("after") != ""
	data := readBackPage{Form: f, Tour: t.ID.String(), Name: t.Name, After: after, Live: v.tourStop(t), Kept: v.query("kept"), Off: v.offWords(t), Next: "tour/" + t.ID.String()}
	order := v.backOrder(t)
	read := readAt(t, after)
	skip := v.query("skip")
	data.All = len(order)
	var left []observation.Point
	for _, p := range order {
		if _, done := read[p]; done {
			data.Done++
			continue
		}
		left = append(left, p)
	}
	wrong := v.query("wrong")
	at := pointAfter(left, skip)
	for _, p := range left {
		if pointKey(p) == wrong {
			at, data.Wrong = &p, v.putName(p)
		}
	}
	if at != nil {
		data.Space, data.Key = v.putName(*at), pointKey(*at)
		data.Cable = at.Space == 0
	}
	f.start("ohm")
	return v.renderForm("readback", "Blind read-back, "+t.Name, f, data)
}

// putName names where a resistor goes: "A1-34", "A1, cable 7".
func (v *visit) putName(p observation.Point) string {
	if p.Cable != "" && p.Wire == observation.Hot && v.found.Panel(p.At) != nil {
		return v.found.Name(p.At) + ", cable " + p.Cable
	}
	return v.found.PointName(p)
}

// pointAfter is the first of the points after the one put off, or the first.
func pointAfter(points []observation.Point, skip string) *observation.Point {
	for i, p := range points {
		if pointKey(p) == skip && i+1 < len(points) {
			return &points[i+1]
		}
	}
	if len(points) == 0 {
		return nil
	}
	return &points[0]
}

// pointKey names a panel's space in a form.
func pointKey(p observation.Point) string {
	return string(p.At) + "." + strconv.Itoa(p.Space) + "." + p.Cable + "." + string(p.Wire)
}

// backOrder is where resistors are on, in the order to read them back.
func (v *visit) backOrder(t *installation.Tour) []observation.Point {
	on := resistorsOn(t)
	var out []observation.Point
	add := func(p observation.Point) {
		if _, there := on[p]; there {
			out = append(out, p)
			delete(on, p)
		}
	}
	if plan, err := v.plan(t); err == nil {
		for _, i := range plan.Back {
			add(plan.Puts[i].On)
		}
	}
	for i := len(t.Resistors) - 1; i >= 0; i-- {
		add(t.Resistors[i].Body.(observation.Resistor).On)
	}
	return out
}

// addReadBack keeps one value and names the next space.
func addReadBack(v *visit) error {
	f := v.typed()
	t, err := v.tour()
	if err != nil {
		return err
	}
	var at *observation.Point
	for _, p := range v.backOrder(t) {
		if pointKey(p) == f.Get("at") {
			at = &p
		}
	}
	if at == nil {
		return notFound{sayNoThing}
	}
	address := "readback/" + v.args["tour"] + "?"
	after := f.Get("after") != ""
	if after {
		address += "after=yes&"
	}
	if f.Get("answer") == "later" {
		return v.goTo(address + "skip=" + queryEscape(pointKey(*at)))
	}
	if v.refuseOff(f, t) {
		return readBackWith(v, f)
	}
	ohm, ok := f.answerOhm("ohm")
	if ok {
		_, ok = v.record(f, observation.Observation{Under: []observation.ID{t.ID}, Body: observation.ReadBack{At: *at, Ohm: ohm, Blind: true, After: after}}, map[string]string{"at": "ohm"})
	}
	if !ok {
		return readBackWith(v, f)
	}
	if !trace.Fits(t, observation.ReadBack{At: *at, Ohm: ohm}) {
		return v.goTo(address + "wrong=" + queryEscape(pointKey(*at)))
	}
	return v.goTo(address + "kept=" + queryEscape(v.putName(*at)))
}

// answerOhm reads a value, or the answer open.
func (f *form) answerOhm(name string) (quantity.Resistance, bool) {
	if f.Get("answer") == "open" {
		return quantity.Resistance{Open: true}, true
	}
	if strings.TrimSpace(f.Get(name)) == "" {
		f.fault(name, sayNoValue)
		return quantity.Resistance{}, false
	}
	return f.shows(name)
}

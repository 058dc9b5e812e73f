package web

import (
	"cmp"
	"slices"
	"strings"

	"asfound/observation"
)

type toldPage struct {
	Form   *form
	At     supply
	Kept   string
	People []string
	Of     []option
}

// showTold takes in who was told of a lock-out, a release, of power or a live
// test: one touch for each person of the job.
func showTold(v *visit) error { return toldWith(v, v.form()) }

func toldWith(v *visit, f *form) error {
	at, err := v.supply()
	if err != nil {
		return err
	}
	data := toldPage{Form: f, At: at, Kept: v.query("kept")}
	data.People = slices.DeleteFunc(v.people(), func(p string) bool { return p == v.who })
	for _, of := range toldOf {
		data.Of = append(data.Of, option{Value: of, Say: strings.ToUpper(of[:1]) + of[1:]})
	}
	of := v.query("of")
	if !slices.Contains(toldOf, of) {
		of = toldOf[0]
	}
	f.set("of", of)
	return v.renderForm("told", "Who was told, "+at.Low, f, data)
}

// addTold keeps that one person was told.
func addTold(v *visit) error {
	f := v.typed()
	o := v.when(f)
	body := observation.Told{Person: strings.TrimSpace(cmp.Or(f.Get("person"), f.Get("other"))), Of: f.Get("of")}
	o.Body = body
	if _, ok := v.record(f, o, map[string]string{"person": "other", "taken": "clock"}); !ok {
		return toldWith(v, f)
	}
	return v.goTo("told/" + v.args["at"] + "?kept=" + queryEscape(body.Person) + "&of=" + queryEscape(body.Of))
}

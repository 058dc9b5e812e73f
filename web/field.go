package web

import (
	"cmp"
	"strconv"
	"strings"
)

// field is one field of a form as its template prints it.
type field struct {
	Form                    *form
	Name, Label, Hint, ID   string
	Value, Fault            string
	Options                 []option
	Multiple, Start, Figure bool
	Describe                string
}

type option struct {
	Value, Say, ID string
	On             bool
}

// newField makes a text field; more may hold a hint.
func newField(f *form, name, label string, more ...string) field {
	out := field{Form: f, Name: name, Label: label, ID: "f-" + name, Value: f.Get(name), Fault: f.Fault(name), Start: f.first == name}
	if len(more) > 0 {
		out.Hint = more[0]
	}
	if out.Hint != "" {
		out.Describe = out.ID + "-hint"
	}
	if out.Fault != "" {
		out.Describe = out.ID + "-fault"
	}
	return out
}

// newChoice makes a group of big buttons of which one is chosen.
func newChoice(f *form, name, label string, options []option) field {
	out := newField(f, name, label)
	for _, o := range options {
		o.ID = out.ID + "-" + o.Value
		o.On = f.Get(name) == o.Value
		out.Options = append(out.Options, o)
	}
	return out
}

// newOptions pairs values with what people read.
func newOptions(pairs ...string) []option {
	var out []option
	for i := 0; i+1 < len(pairs); i += 2 {
		out = append(out, option{Value: pairs[i], Say: pairs[i+1]})
	}
	return out
}

// newDict passes several values to a part of a page.
func newDict(pairs ...any) map[string]any {
	out := map[string]any{}
	for i := 0; i+1 < len(pairs); i += 2 {
		out[pairs[i].(string)] = pairs[i+1]
	}
	return out
}

// beginning is what each form starts with: its mark, whether it was not kept,
// and who took it, unless that is known.
type beginning struct {
	Once, Say               string
	Known, Typed, ID, Fault string
	People                  []string
}

// newBeginning starts the form with this action. What went wrong is said in the
// form that was sent, not in the others of the page.
func newBeginning(f *form, action string) beginning {
	f.asked++
	f.here = strings.Split(action, "?")[0]
	out := beginning{Once: f.Once, Known: f.Who, ID: "f-who-" + strconv.Itoa(f.asked), People: f.People}
	if f.sent != f.here {
		return out
	}
	out.Typed, out.Fault = f.Get("who"), f.Fault("who")
	if f.Bad() {
		out.Say = cmp.Or(f.Say, sayNotKept)
	}
	if f.Failed != "" {
		out.Say = f.Failed
	}
	return out
}

package web

import (
	"errors"
	"strconv"
	"strings"
	"sync/atomic"
	"time"

	"asfound/journal"
	"asfound/observation"
	"asfound/quantity"
)

// form is what stands in a page's fields: as prefilled, or as somebody typed it,
// with one sentence at each field that cannot be used.
type form struct {
	values map[string][]string
	faults map[string]string
	shown  map[string]bool // faults that a field has printed
	Failed string          // the machine could not keep it: one sentence
	Say    string          // what is said over a form that comes back, when not sayNotKept
	Once   string
	Who    string
	People []string
	sent   string // the action of the form that was sent
	here   string // the action of the form that is being printed
	asked  int    // how many forms of the page have begun
	full   bool
	first  string // the first field at fault, or the one to start in
}

var forms atomic.Int64

// form makes an empty form for this visit.
func (v *visit) form() *form {
	once := strconv.FormatInt(v.ask.Now.UnixMilli(), 36) + "-" + strconv.FormatInt(forms.Add(1), 36)
	return &form{values: map[string][]string{}, faults: map[string]string{}, shown: map[string]bool{},
		Once: once, Who: v.who, People: v.people()}
}

// typed makes a form that holds what was typed.
func (v *visit) typed() *form {
	f := v.form()
	f.sent = strings.TrimPrefix(v.ask.Path, v.job.base)
	for name, values := range v.ask.Form {
		f.values[name] = values
	}
	if v.who == "" {
		f.fault("who", sayWho)
	}
	return f
}

// Get is what stands in a field.
func (f *form) Get(name string) string {
	if v := f.values[name]; len(v) > 0 {
		return v[0]
	}
	return ""
}

// Has reports whether a tick box or choice of this name holds value.
func (f *form) Has(name, value string) bool {
	for _, v := range f.values[name] {
		if v == value {
			return true
		}
	}
	return false
}

// set prefills a field unless somebody typed in it.
func (f *form) set(name, value string) *form {
	if _, typed := f.values[name]; !typed && value != "" {
		f.values[name] = []string{value}
	}
	return f
}

// start says which field the cursor starts in.
func (f *form) start(name string) *form {
	if f.first == "" {
		f.first = name
	}
	return f
}

// fault puts a sentence at a field; the first one stays.
func (f *form) fault(name, say string) {
	if _, had := f.faults[name]; had {
		return
	}
	if len(f.faults) == 0 {
		f.first = name
	}
	f.faults[name] = say
}

// Sent reports whether the form with this action is the one that came back.
func (f *form) Sent(action string) bool { return f.sent == action }

// Bad reports whether something on the form has to be mended first.
func (f *form) Bad() bool { return len(f.faults) > 0 || f.Failed != "" }

// Fault is the sentence at a field, and notes that it is being shown there.
func (f *form) Fault(name string) string {
	f.shown[name] = true
	return f.faults[name]
}

// Rest is the sentences that no field has shown, for the form that was sent.
func (f *form) Rest() []string {
	var out []string
	if f.sent != "" && f.here != "" && f.here != f.sent {
		return nil
	}
	for name, say := range f.faults {
		if !f.shown[name] {
			out = append(out, say)
		}
	}
	return out
}

func (f *form) status() int {
	switch {
	case f.full:
		return statusFull
	case f.Failed != "":
		return statusFailed
	case len(f.faults) > 0:
		return statusUnusable
	}
	return statusOK
}

// take notes an error on the form: at a field when it is about what was typed,
// else as what the machine could not do. at renames fields of the observation
// to those of the page.
func (f *form) take(err error, at map[string]string) {
	var unusable observation.Unusable
	switch {
	case errors.As(err, &unusable):
		name := unusable.Field
		if to, ok := at[name]; ok {
			name = to
		}
		f.fault(name, unusable.Say)
	case errors.Is(err, journal.ErrFull):
		f.full, f.Failed = true, sayFull
	default:
		f.Failed = sayFailed
	}
}

// ohm reads a resistance from a field.
func (f *form) ohm(name string) (quantity.Resistance, bool) {
	r, err := quantity.ParseResistance(f.Get(name))
	if err != nil {
		f.unread(name, err)
		return r, false
	}
	return r, true
}

// mostShown is beyond what a hand-held ohmmeter shows of conductors before it
// shows no path (common practice, no source).
const mostShown quantity.Ohms = 20e6

// shows reads what an ohmmeter shows from a field.
func (f *form) shows(name string) (quantity.Resistance, bool) {
	r, ok := f.ohm(name)
	if ok && !r.Open && r.Ohm > mostShown {
		f.fault(name, sayTooMuch)
		return r, false
	}
	return r, ok
}

// inches reads a length on a tape; an empty field is zero, which is not measured.
func (f *form) inches(name string) quantity.Inches {
	if strings.TrimSpace(f.Get(name)) == "" {
		return 0
	}
	size, err := quantity.ParseInches(f.Get(name))
	if err != nil {
		f.unread(name, err)
	}
	return size
}

// setInches prefills a length, unless it was not measured.
func (f *form) setInches(name string, size quantity.Inches) {
	if size > 0 {
		f.set(name, size.String())
	}
}

// unread notes what a parser of package quantity says of a field.
func (f *form) unread(name string, err error) {
	var unusable *quantity.Unusable
	if errors.As(err, &unusable) {
		f.fault(name, unusable.Say)
		return
	}
	f.fault(name, err.Error())
}

// count reads a whole number; an empty field is zero, which is not known.
func (f *form) count(name, say string) int {
	text := strings.TrimSpace(f.Get(name))
	if text == "" {
		return 0
	}
	n, err := strconv.Atoi(text)
	if err != nil {
		f.fault(name, say)
	}
	return n
}

// percent reads a share typed as percent.
func (f *form) percent(name string) float64 {
	text := strings.TrimSuffix(strings.ReplaceAll(strings.TrimSpace(f.Get(name)), ",", "."), "%")
	if text == "" {
		return 0
	}
	x, err := strconv.ParseFloat(strings.TrimSpace(text)+"e-2", 64)
	if err != nil {
		f.fault(name, sayPercent)
	}
	return x
}

// moment reads a date and a time of day in the person's zone. No time is no
// moment: it was then taken when it was recorded.
func (f *form) moment(date, clock string, now time.Time) time.Time {
	at := strings.TrimSpace(f.Get(clock))
	if at == "" {
		return time.Time{}
	}
	day := strings.TrimSpace(f.Get(date))
	if day == "" {
		day = now.Format(time.DateOnly)
	}
	d, err := time.ParseInLocation(time.DateOnly, day, now.Location())
	if err != nil {
		f.fault(date, sayDate)
		return time.Time{}
	}
	t, err := clockTime(at)
	if err != nil {
		f.fault(clock, sayClock)
		return time.Time{}
	}
	taken := time.Date(d.Year(), d.Month(), d.Day(), t.Hour(), t.Minute(), 0, 0, now.Location())
	if taken.After(now.Add(10 * time.Minute)) {
		f.fault(clock, sayFuture)
		return time.Time{}
	}
	return taken
}

// clockTime reads 14:32, 1432 or 9.05.
func clockTime(text string) (time.Time, error) {
	text = strings.NewReplacer(".", ":", " ", "").Replace(text)
	if !strings.Contains(text, ":") && len(text) >= 3 && len(text) <= 4 {
		text = text[:len(text)-2] + ":" + text[len(text)-2:]
	}
	return time.Parse("15:04", text)
}

// takeRow is take for a row of a table: whatever the field, the sentence stands
// at the row's own.
func (f *form) takeRow(err error, name string) {
	var unusable observation.Unusable
	if errors.As(err, &unusable) {
		f.fault(name, unusable.Say)
		return
	}
	f.take(err, nil)
}

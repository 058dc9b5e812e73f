package web

import (
	"slices"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/pattern"
	"asfound/trace"
)

// copyOf is the copy of the tour sheet that a late entry is made from: as the
// person says by its code or the letters of its state, else one printed now, nil.
func (v *visit) copyOf(f *form) (*printed, error) {
	typed := stateTyped(f.Get("sheet"))
	if typed == "" {
		return nil, nil
	}
	copied, err := v.printed(typed)
	if copied == nil && err == nil {
		f.fault("sheet", sayNoCopy)
	}
	return copied, err
}

// stateTyped takes the state out of what stands under a square code: the code
// with the letters of the state, or the state itself.
func stateTyped(text string) string {
	parts := strings.Split(strings.ToLower(strings.Join(strings.Fields(text), "")), "-")
	const codeSigns = 4
	switch {
	case len(parts) > 1 && len(parts[0]) == codeSigns:
		return parts[1]
	case len(parts) > 1:
		return parts[0] + "-" + parts[1]
	}
	return parts[0]
}

// lateRooms are the rows of the sheet in its own order, numbered as on the copy.
// What came in since stands behind, without a number.
func (v *visit) lateRooms(f *form, t *installation.Tour, copied *printed) []lateRoom {
	in := v.found.Installation
	if copied != nil {
		in = copied.Installation
	}
	r := &sheetRows{v: v, f: f, t: t, in: in, stood: map[string]bool{}}
	var out []lateRoom
	looked := map[observation.Thing]bool{}
	for _, walk := range trace.Walk(in, t.Panels) {
		out = append(out, r.room(walk, looked))
	}
	if copied == nil {
		return out
	}
	r.since = true
	for _, walk := range v.walk(t) {
		if room := r.room(walk, looked); len(room.Rows) > 0 {
			out = append(out, room)
		}
	}
	return out
}

// sheetRows makes the rows of a copy, or with since those that are not on it.
type sheetRows struct {
	v     *visit
	f     *form
	t     *installation.Tour
	in    *installation.Installation // as the copy has it
	stood map[string]bool            // rows made before, by their key
	no    int
	since bool
}

func (r *sheetRows) room(walk trace.RoomWalk, looked map[observation.Thing]bool) lateRoom {
	now := r.v.found.Installation
	out := lateRoom{Name: now.Name(walk.Room), None: looked[walk.Room] || now.Room(walk.Room) == nil}
	if was := r.in.Name(walk.Room); !r.since && was != out.Name {
		out.Name = sayOnCopy(out.Name, was)
	}
	if r.since {
		out.Name = saySince(out.Name)
	}
	for _, thing := range walk.Openings {
		out.Rows = append(out.Rows, r.rows(thing)...)
	}
	if !out.None && len(out.Rows) > 0 {
		looked[walk.Room] = true
		out.Look = r.v.lateLook(r.f, r.t, walk.Room)
	}
	return out
}

// rows are the lines that the copy has for an opening, then the cables read
// beside them.
func (r *sheetRows) rows(thing observation.Thing) []lateRow {
	o := r.v.found.Opening(thing)
	var lined, more []string
	if was := r.in.Opening(thing); was != nil && !r.since {
		lined, more = lateTags(was)
	}
	if o != nil {
		all, beside := lateTags(o)
		if len(lined) == 1 && len(all) == 1 {
			lined, all = all, nil // the one line of the opening, whose cable may have got its tag since
		}
		more = append(slices.Concat(more, all), beside...)
	}
	var out []lateRow
	for i, tag := range append(slices.Clone(lined), more...) {
		numbered := i < len(lined)
		if numbered {
			r.no++
		}
		key := string(thing) + "." + tag
		if r.stood[key] || !numbered && tag == "" && r.stood[string(thing)] {
			continue
		}
		r.stood[key], r.stood[string(thing)] = true, true
		row := r.row(thing, o, tag)
		if numbered {
			row.No = r.no
		}
		out = append(out, row)
	}
	return out
}

func (r *sheetRows) row(thing observation.Thing, o *installation.Opening, tag string) lateRow {
	was := r.in.Name(thing)
	if o == nil {
		return lateRow{At: thing, Number: was, Cable: tag, Key: string(thing) + "." + tag, Gone: sayGoneRow}
	}
	row := r.v.lateRow(r.f, r.t, o, tag)
	if r.in.Opening(thing) != nil && was != o.Number {
		row.Was = was
	}
	return row
}

// numberBefore is a number that an opening bore before and that letters fit.
func numberBefore(o *installation.Opening, letters string) string {
	for _, e := range slices.Backward(o.Story) {
		if b, ok := e.Body.(observation.Opening); ok && len(e.WithdrawnBy) == 0 && pattern.LettersMatch(b.Number, letters) {
			return b.Number
		}
	}
	return ""
}

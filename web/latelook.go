package web

import (
	"slices"
	"strings"
	"time"

	"asfound/installation"
	"asfound/observation"
)

// lateLook is the field at the end of a room of the sheet: whether every opening
// bears its mark. Kept is what the latest look under this tour saw.
func (v *visit) lateLook(f *form, t *installation.Tour, room observation.Thing) lateCell {
	cell := lateCell{Name: "look." + string(room), Label: sayLookOf(v.found.Name(room))}
	cell.Value, cell.Fault = f.Get(cell.Name), f.Fault(cell.Name)
	for _, e := range v.found.Room(room).Checks {
		if slices.Contains(e.Under, t.ID) {
			cell.Kept = roomCheckWords(v.found.Installation, e, e.Body.(observation.RoomCheck))
		}
	}
	return cell
}

// keepLook keeps the look around a room, unless it is kept already.
func (v *visit) keepLook(f *form, t *installation.Tour, room lateRoom, taken time.Time) bool {
	name := room.Look.Name
	if strings.TrimSpace(f.Get(name)) == "" {
		return false
	}
	at := observation.Thing(strings.TrimPrefix(name, "look."))
	body, ok := v.lookTyped(f, name, at)
	if !ok {
		return false
	}
	o := observation.Observation{Taken: taken, Under: []observation.ID{t.ID}, Subject: at, Body: body}
	said := roomCheckWords(v.found.Installation, observation.Event{Observation: o}, body)
	switch room.Look.Kept {
	case "":
		if !v.recordRow(f, name, o) {
			return false
		}
		delete(f.values, name)
		return true
	case said:
		delete(f.values, name) // kept before: the sheet was sent twice
	default:
		f.fault(name, sayKeptAs(room.Look.Kept))
	}
	return false
}

// lookTyped reads yes, no, or the numbers of the openings without a mark.
func (v *visit) lookTyped(f *form, name string, room observation.Thing) (observation.RoomCheck, bool) {
	switch text := strings.ToLower(strings.TrimSpace(f.Get(name))); text {
	case "yes", "y":
		return observation.RoomCheck{All: observation.Yes}, true
	case "no", "n":
		return observation.RoomCheck{All: observation.No}, true
	}
	body := observation.RoomCheck{All: observation.No}
	apart := func(r rune) bool { return strings.ContainsRune(",; ", r) }
	for _, number := range strings.FieldsFunc(f.Get(name), apart) {
		i := slices.IndexFunc(v.found.In(room), func(o *installation.Opening) bool { return strings.EqualFold(o.Number, number) })
		if i < 0 {
			f.fault(name, sayNotInRoom(number))
			return body, false
		}
		body.Without = append(body.Without, v.found.In(room)[i].Thing)
	}
	return body, true
}

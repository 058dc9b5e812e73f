package installation

import (
	"fmt"
	"slices"
	"strconv"

	"asfound/observation"
)

// SpaceName is how a space is called on sheets: "A1-34".
func SpaceName(p *Panel, space int) string { return p.Name + "-" + strconv.Itoa(space) }

// Admit returns an Unusable error when o cannot be right in this property: it
// names a thing that was never recorded, or a space the panel has not. What
// only looks odd is admitted and asked about later.
func (in *Installation) Admit(o observation.Observation) error {
	return admission(func(t observation.Thing) any { return in.things[t] }).admit(o)
}

// Admit is Installation.Admit for the property as folded so far, without making
// the rest of it anew.
func (f *Fold) Admit(o observation.Observation) error {
	return admission(func(t observation.Thing) any {
		if f.dirty[t] {
			return f.make(t)
		}
		return f.last.things[t]
	}).admit(o)
}

// admission finds things for judging an observation.
type admission func(observation.Thing) any

// admit judges by what an observation is about.
func (in admission) admit(o observation.Observation) error {
	for _, judge := range []func(observation.Observation) (bool, error){in.admitThing, in.admitPowered, in.admitReading} {
		if is, err := judge(o); is {
			return err
		}
	}
	if _, ok := o.Body.(observation.Withdrawal); ok && len(o.Seen) == 0 {
		return observation.Unusable{Field: "seen", Say: "Say which entry is withdrawn."}
	}
	return nil
}

// admitThing judges what records a thing, or something of one, at its place.
func (in admission) admitThing(o observation.Observation) (is bool, err error) {
	switch b := o.Body.(type) {
	case observation.Room:
		err = known[*Building](in, "building", b.Building, noBuilding)
	case observation.Opening:
		err = known[*Room](in, "room", b.Room, noRoom)
	case observation.Panel:
		err = known[*Building](in, "building", b.Building, noBuilding)
	case observation.Space:
		err = in.admitSpace(o, b)
	case observation.Cabinet, observation.PassThrough:
		err = known[*Panel](in, "panel", o.Subject, noPanel)
	case observation.Letters:
		err = known[*Opening](in, "opening", o.Subject, noOpening)
	case observation.RoomCheck:
		err = known[*Room](in, "room", o.Subject, noRoom)
	case observation.Drawn:
		err = known[*Room](in, "room", b.Room, noRoom)
	case observation.RoomSize, observation.Doorway, observation.Spot, observation.Plate, observation.Path, observation.Reconciled:
		err = in.admitMeasure(o)
	case observation.Note:
		if o.Subject != "" && in(o.Subject) == nil {
			err = observation.Unusable{Field: "place", Typed: string(o.Subject), Say: noThing}
		}
	default:
		return false, nil
	}
	return true, err
}

// admitPowered judges sources, feeders, locks, and power put on.
func (in admission) admitPowered(o observation.Observation) (is bool, err error) {
	switch b := o.Body.(type) {
	case observation.Source:
		if b.Building != "" {
			err = known[*Building](in, "building", b.Building, noBuilding)
		}
	case observation.Feeder:
		err = firstOf(known[*Panel](in, "to", b.To, noPanel), in.admitFrom(b))
	case observation.LockOut:
		err = in.admitPower(o.Subject, b.Spaces)
	case observation.Energized:
		err = in.admitPower(o.Subject, b.Spaces)
	case observation.Released:
		err = in.admitReleased(o.Subject, b)
	case observation.Told:
		err = in.admitPower(o.Subject, nil)
	default:
		return false, nil
	}
	return true, err
}

// admitReading judges what was read or seen at a point, and the set-ups that
// readings are taken under.
func (in admission) admitReading(o observation.Observation) (is bool, err error) {
	switch b := o.Body.(type) {
	case observation.Isolation:
		err = in.admitSpaces("a", o.Subject, slices.Concat(b.A, b.B))
	case observation.Resistor:
		err = firstOf(in.admitTour(o), in.admitPoint("on", b.On))
	case observation.ReadBack:
		err = firstOf(in.admitTour(o), in.admitPoint("at", b.At))
	case observation.Removed:
		err = in.admitTour(o)
	case observation.Ohm:
		err = in.admitPoint("a", b.A)
	case observation.Joined:
		err = in.admitPoint("feed", b.Feed)
	case observation.CableEnd, observation.Raceway, observation.ProvenDead, observation.CannotRead, observation.NotReached, observation.Photo:
		if _, gone := in(o.Subject).(*Gone); gone || in(o.Subject) == nil {
			err = observation.Unusable{Field: "place", Typed: string(o.Subject), Say: noOpening}
		}
	default:
		return false, nil
	}
	return true, err
}

const (
	noOpening  = "No opening has that number. Check the number on the tape, or record the opening first."
	noBuilding = "That building is not recorded. Choose one from the list or record it first."
	noRoom     = "That room is not recorded. Choose one from the list or record it first."
	noThing    = "What it is about is not recorded. Choose it from the list or record it first."
	noDrawn    = "That is not on a drawing on record. Choose it from the list."
	noPanel    = "That panel is not recorded. Choose one from the list or record it first."
)

func known[T any](in admission, field string, t observation.Thing, say string) error {
	if _, ok := in(t).(T); !ok {
		return observation.Unusable{Field: field, Typed: string(t), Say: say}
	}
	return nil
}

// admitTour wants a set-up to name the tour it belongs to.
func (in admission) admitTour(o observation.Observation) error {
	for _, id := range o.Under {
		if _, ok := in(id.Thing()).(*Tour); ok {
			return nil
		}
	}
	return observation.Unusable{Field: "tour", Say: "Say which tour it belongs to. Set up the tour first."}
}

func firstOf(a, b error) error {
	if a != nil {
		return a
	}
	return b
}

func (in admission) admitSpaces(field string, panel observation.Thing, spaces []int) error {
	if err := known[*Panel](in, "panel", panel, noPanel); err != nil {
		return err
	}
	p, _ := in(panel).(*Panel)
	for _, s := range spaces {
		if s < 1 || s > p.Spaces {
			return p.noSpace(field, s)
		}
	}
	return nil
}

func (in admission) admitSpace(o observation.Observation, s observation.Space) error {
	if err := in.admitSpaces("space", o.Subject, []int{s.Number}); err != nil {
		return err
	}
	return in(o.Subject).(*Panel).admitBreaker(s, o.Seen)
}

// Admit judges what was seen at a space by the panel alone, as it stands in Seen.
func (p *Panel) Admit(s observation.Space) error {
	if s.Number < 1 || s.Number > p.Spaces {
		return p.noSpace("space", s.Number)
	}
	return p.admitBreaker(s, nil)
}

func (p *Panel) noSpace(field string, space int) error {
	return observation.Unusable{Field: field, Typed: strconv.Itoa(space),
		Say: fmt.Sprintf("Panel %s has spaces 1 to %d; there is no space %d.", p.Name, p.Spaces, space)}
}

func (p *Panel) admitBreaker(s observation.Space, seen []observation.ID) error {
	if s.Poles == 2 && s.Number+2 > p.Spaces {
		return observation.Unusable{Field: "poles", Typed: "2",
			Say: fmt.Sprintf("A 2-pole breaker takes spaces %d and %d, and panel %s ends at %d. Check the space.", s.Number, s.Number+2, p.Name, p.Spaces)}
	}
	return p.admitBeside(s, seen)
}

// admitBeside refuses a breaker that would stand where another one is on record.
// An entry that the new one replaces holds nothing any more.
func (p *Panel) admitBeside(s observation.Space, seen []observation.ID) error {
	if upper := p.UpperHalf(s.Number); upper > 0 && s.Poles == 1 && !p.replaced(upper, seen) {
		return observation.Unusable{Field: "poles", Typed: "1",
			Say: fmt.Sprintf("Space %d belongs to the 2-pole breaker on record in space %d: check the number, or put space %d right first.", s.Number, upper, upper)}
	}
	lower := s.Number + 2
	if s.Poles == 2 && p.UpperHalf(s.Number) == 0 && p.Seen[lower].Poles == 1 && !p.replaced(lower, seen) {
		return observation.Unusable{Field: "poles", Typed: "2",
			Say: fmt.Sprintf("A 2-pole breaker in space %d takes space %d too, where a 1-pole breaker is on record: check the number, or put space %d right first.", s.Number, lower, lower)}
	}
	return nil
}

// replaced reports whether a new entry stands in the place of the latest one of
// a space.
func (p *Panel) replaced(space int, seen []observation.ID) bool {
	for _, e := range slices.Backward(p.Story) {
		if b, ok := e.Body.(observation.Space); ok && b.Number == space && e.Live() {
			return slices.Contains(seen, e.ID)
		}
	}
	return false
}

func (in admission) admitPoint(field string, p observation.Point) error {
	if p.Space > 0 {
		return in.admitSpaces(field, p.At, []int{p.Space})
	}
	switch in(p.At).(type) {
	case *Opening, *Panel:
	default:
		return observation.Unusable{Field: field, Typed: string(p.At), Say: noOpening}
	}
	return nil
}

// admitMeasure judges what was measured or looked for at a place.
func (in admission) admitMeasure(o observation.Observation) error {
	switch b := o.Body.(type) {
	case observation.Path:
		return firstOf(known[*Building](in, "building", o.Subject, noBuilding), known[*Building](in, "to", b.To, noBuilding))
	case observation.RoomSize, observation.Doorway:
		return firstOf(known[*Room](in, "room", o.Subject, noRoom), in.admitFit(o))
	case observation.Reconciled:
		if err := known[*Drawn](in, "drawn", o.Subject, noDrawn); err != nil || b.As == "" {
			return err
		}
		return known[*Opening](in, "as", b.As, noOpening)
	}
	return firstOf(known[*Opening](in, "opening", o.Subject, noOpening), in.admitFit(o))
}

// admitPower wants a panel, with those spaces, or a source.
func (in admission) admitPower(at observation.Thing, spaces []int) error {
	if _, ok := in(at).(*Source); ok && len(spaces) == 0 {
		return nil
	}
	return in.admitSpaces("spaces", at, spaces)
}

// admitFrom wants the beginning of a feeder on record, if it is known.
func (in admission) admitFrom(f observation.Feeder) error {
	if _, ok := in(f.From).(*Source); f.From == "" || ok && f.Space == 0 {
		return nil
	}
	if f.Space == 0 {
		return known[*Panel](in, "from", f.From, noPanel)
	}
	return in.admitSpaces("space", f.From, []int{f.Space})
}

// admitReleased wants locks that were put on there.
func (in admission) admitReleased(at observation.Thing, b observation.Released) error {
	if err := in.admitPower(at, nil); err != nil {
		return err
	}
	var put []observation.Event
	switch x := in(at).(type) {
	case *Panel:
		put = x.LockOuts
	case *Source:
		put = x.LockOuts
	}
	for _, lock := range b.Locks {
		if !slices.ContainsFunc(put, func(e observation.Event) bool { return e.ID == lock }) {
			return observation.Unusable{Field: "locks", Typed: lock.String(), Say: "That lock is not on record here. Choose one from the list."}
		}
	}
	return nil
}

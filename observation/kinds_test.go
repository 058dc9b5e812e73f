package observation

import (
	"maps"
	"reflect"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"asfound/quantity"
)

const opening, panel, room, building = Thing("k7m3qd8x2a-44"), Thing("k7m3qd8x2a-9"), Thing("k7m3qd8x2a-2"), Thing("k7m3qd8x2a-1")

// examples has one usable body of each kind, with every field filled in.
var examples = map[string]Body{
	"building.1": Building{Name: "A"},
	"room.1":     Room{Building: building, Name: "kitchen", Floor: 1, Order: 3},
	"opening.1": Opening{Room: room, Number: "A02-08", Use: Receptacle, Gangs: 2, Order: 4, Height: 42.5, Depth: 0.25,
		Note: "behind the stove"},
	"panel.1": Panel{Building: building, Room: room, Name: "A1", Spaces: 42, FedFrom: "main", Note: "cover bent"},
	"space.1": Space{Number: 34, Poles: 2, Amps: 20, Tied: Yes, Label: "Kitchen?", Lands: LandsBranch, Cable: "7", Wire: "black 12"},
	"cable.1": CableEnd{Tag: "2", Jacket: "yellow", Mark: "to den", Conductors: []Conductor{
		{Wire: Hot, Color: "black", Size: "12", State: Capped, Length: 6.5},
		{Wire: "hot 2", Color: "red", Size: "1/0", State: Landed, Length: 8}}},
	"raceway.1":     Raceway{Tag: "R1", Type: "EMT", Size: 0.75, Side: "top", Count: 4, Note: "bushing missing"},
	"passthrough.1": PassThrough{From: "R1", To: "R2", Count: 3, Spliced: No, Note: "blue, red, black"},
	"cabinet.1":     Cabinet{Width: 14.375, Height: 32, Depth: 3.75, WallWidth: 14.5, WallHeight: 32.25, Set: new(quantity.Inches(0.125))},
	"photo.1": Photo{Hash: "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", Type: "image/jpeg", Bytes: 3,
		Caption: "the back of the box"},
	"isolation.1": Isolation{A: []int{1, 3}, Against: AgainstSpaces, B: []int{2, 4}, Ohm: quantity.Resistance{Ohm: 12.5},
		SwitchesOn: Yes, LoadsOff: No},
	"tour.1": Tour{Name: "A, first", Means: ByResistor, Panels: []Thing{panel}, Tolerance: 0.01, MeterRelative: 0.009,
		MeterOhm: 0.3, NeutralJoined: Yes},
	"resistor.1": Resistor{On: Point{At: panel, Space: 34, Cable: "7", Wire: Hot}, Ohm: 2490, Label: "2k49"},
	"removed.1":  Removed{Note: "before lunch"},
	"readback.1": ReadBack{At: Point{At: panel, Space: 34, Cable: "7", Wire: Hot}, Ohm: quantity.Resistance{Ohm: 2487}, Blind: true, After: true},
	"ohm.1": Ohm{A: Point{At: opening, Space: 2, Cable: "2", Wire: Hot}, B: Point{At: opening, Space: 2, Cable: "2", Wire: EGC},
		Ohm: quantity.Resistance{Ohm: 2490.5}, Reprobed: Yes},
	"letters.1":   Letters{Letters: "KT"},
	"roomcheck.1": RoomCheck{All: No, Without: []Thing{opening}},
	"joined.1": Joined{Feed: Point{At: opening, Space: 1, Cable: "1", Wire: Hot},
		Leg: Point{At: opening, Space: 1, Cable: "2", Wire: Hot}, Note: "red connector"},
	"lockout.1":    LockOut{Spaces: []int{1, 3}, Device: "lock 4", Key: "in my pocket", Told: "everybody at eight"},
	"dead.1":       ProvenDead{Spaces: []int{1}, Before: Yes, Absent: Yes, After: Yes, Tester: "tester 2"},
	"cannotread.1": CannotRead{What: "hot to ground", Why: "conductors too short"},
	"notreached.1": NotReached{Why: "buried"},
	"decision.1":   Decision{About: "A1-34 feeds A02-08", Answer: "it feeds A02-07", Reason: "traced by hand"},
	"roomsize.1":   RoomSize{Width: 168, Depth: 144.5, Ceiling: 108, Corner: &Corner{Right: -12, Back: 240}, Spaced: Yes},
	"doorway.1":    Doorway{Wall: BackWall, From: 30, To: 66, What: "fireplace"},
	"spot.1":       Spot{Wall: Overhead, Along: 72, Out: 60},
	"plate.1":      Plate{On: Yes},
	"path.1":       Path{To: building, Feet: 175, Snow: Yes},
	"drawn.1":      Drawn{Room: room, Use: Receptacle, Mark: "R7", What: "floor box", Sheet: "E2"},
	"reconciled.1": Reconciled{Is: FoundAs, As: opening, How: "behind the shelf"},
	"source.1": Source{Name: "generator", Of: Generator, Building: building, Disconnect: "breaker on its frame", Starts: Yes,
		Note: "propane"},
	"feeder.1":     Feeder{From: panel, Space: 1, To: "k7m3qd8x2a-10", How: BasisTested, Way: "1-1/4 in PVC", Wires: "3 x 3 Cu"},
	"energized.1":  Energized{Spaces: []int{2, 4}, Why: "first light", Told: "everybody"},
	"released.1":   Released{Locks: []ID{{"p2x", 7}}, Told: "everybody", Note: "lock back in the bag"},
	"told.1":       Told{Person: "Tomas Veil", Of: "lock-out"},
	"note.1":       Note{Text: "eight whites, one nut"},
	"withdrawal.1": Withdrawal{Reason: "wrong opening"},
}

// example is an event around a body, with every field filled in.
func example(b Body) Event {
	return Event{ID: ID{"k7m3qd8x2a", 1204}, Prev: "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
		HLC:  uint64(1773063000000) << 16,
		Wall: time.Date(2026, 3, 9, 8, 30, 0, 125e6, time.FixedZone("", -5*60*60)), After: []ID{{"p2x", 11}, {"q8y", 2}}, Kind: b.Kind(),
		Observation: Observation{Who: "Marit Sandvei", Taken: time.Date(2026, 3, 9, 8, 10, 0, 0, time.FixedZone("", -5*60*60)),
			Stop: "k7m3qd8x2a-1200", Under: []ID{{"k7m3qd8x2a", 17}, {"p2x", 3}}, Seen: []ID{{"p2x", 9}}, Subject: opening, Body: b}}
}

func TestEveryKindHasAnExample(t *testing.T) {
	if diff := cmp.Diff(slices.Sorted(slices.Values(Kinds())), slices.Sorted(maps.Keys(examples))); diff != "" {
		t.Errorf("kinds (-) and examples (+) differ:\n%s", diff)
	}
	for kind, body := range examples {
		if body.Kind() != kind {
			t.Errorf("the example of %s is of kind %s", kind, body.Kind())
		}
		if err := body.Check(); err != nil {
			t.Errorf("the example of %s is refused: %v", kind, err)
		}
		filledIn(t, kind, reflect.ValueOf(body))
	}
}

// filledIn demands that no field of an example is left at its zero value, where
// a missing field name or a wrong one would not show.
func filledIn(t *testing.T, path string, v reflect.Value) {
	t.Helper()
	if v.IsZero() {
		t.Errorf("%s is not filled in", path)
	}
	if v.Type() == reflect.TypeFor[quantity.Resistance]() {
		return // a value or open, never both
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			filledIn(t, path+"."+v.Type().Field(i).Name, v.Field(i))
		}
	case reflect.Slice:
		for i := range v.Len() {
			filledIn(t, path, v.Index(i))
		}
	default: // a plain value, not zero
	}
}

func TestRoundTrip(t *testing.T) {
	for kind, body := range examples {
		t.Run(kind, func(t *testing.T) {
			roundTrip(t, example(body))
			bare := example(body)
			bare.Prev, bare.Taken, bare.Stop, bare.Under, bare.Seen, bare.Subject = "", time.Time{}, "", nil, nil, ""
			roundTrip(t, bare)
		})
	}
}

// roundTrip demands that e comes back equal, by both readers, and gives the
// same bytes again.
func roundTrip(t *testing.T, e Event) {
	t.Helper()
	raw, err := e.Encode()
	if err != nil {
		t.Fatal(err)
	}
	for name, decode := range map[string]func([]byte) (Event, error){"Decode": Decode, "decodeAny": decodeAny} {
		got, err := decode(raw)
		if err != nil {
			t.Fatalf("%s of %s: %v", name, raw, err)
		}
		if diff := cmp.Diff(e, got); diff != "" {
			t.Errorf("%s (-recorded +read):\n%s", name, diff)
		}
		again, err := got.Encode()
		if err != nil || string(again) != string(raw) {
			t.Errorf("%s, then encoded again: %s (%v), want %s", name, again, err, raw)
		}
	}
	if _, fast := scanEvent(raw); !fast {
		t.Errorf("the scanner left %s to the slow reader", raw)
	}
}

func TestRoundTripOfOddText(t *testing.T) {
	for name, text := range map[string]string{
		"HTML is text":         `<script>alert("x")</script> & <b>A</b>`,
		"quotes and backslash": `3/4" \ 'EMT'`,
		"two lines":            "left\nright\tmiddle",
		"other letters":        "Küche 台所 \u2028 kΩ",
		"braces":               `}{][","data":{"dev":`,
	} {
		t.Run(name, func(t *testing.T) {
			e := example(Building{Name: text})
			e.Who = text
			if err := e.Check(e.Wall); err != nil {
				t.Fatal(err)
			}
			raw, err := e.Encode()
			if err != nil {
				t.Fatal(err)
			}
			got, err := Decode(raw)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(e, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestOpenIsNotZero(t *testing.T) {
	at := Point{At: opening, Cable: "2", Wire: Hot}
	for _, r := range []quantity.Resistance{{Open: true}, {}, {Ohm: 0.1}, {Ohm: 1e21}, {Ohm: 1e-9}} {
		raw, err := example(Ohm{A: at, B: Point{At: opening, Cable: "2", Wire: EGC}, Ohm: r}).Encode()
		if err != nil {
			t.Fatal(err)
		}
		got, err := Decode(raw)
		if err != nil || got.Body.(Ohm).Ohm != r {
			t.Errorf("%v came back as %v (%v)", r, got.Body, err)
		}
	}
}

func TestNegativeResistanceIsNotKept(t *testing.T) {
	at, below := Point{At: opening, Cable: "2", Wire: Hot}, quantity.Resistance{Ohm: -1}
	for _, b := range []Body{
		Ohm{A: at, B: Point{At: opening, Cable: "2", Wire: EGC}, Ohm: below},
		ReadBack{At: at, Ohm: below},
		Isolation{A: []int{1}, Against: AgainstEGC, Ohm: below},
	} {
		if raw, err := example(b).Encode(); err == nil {
			t.Errorf("%s: kept as %s", b.Kind(), raw)
		}
	}
}

func TestUnknownKind(t *testing.T) {
	raw := []byte(`{"dev":"p2x","seq":1,"hlc":5,"wall":"2026-03-09T08:30:00-05:00","who":"Dell Amoah","kind":"drone.3","data":{"height":[12.50]}}`)
	e, err := Decode(raw)
	if err != nil || e.Body != nil || e.Kind != "drone.3" || string(e.Unknown) != `{"height":[12.50]}` {
		t.Errorf("got %+v, %v", e, err)
	}
	if _, err := e.Encode(); err == nil {
		t.Error("an event of an unknown kind was encoded: its received bytes are what counts")
	}
}

func TestDecodeRefuses(t *testing.T) {
	const line = `{"dev":"p2x","seq":1,"hlc":5,"wall":"2026-03-09T08:30:00-05:00","who":"Dell Amoah","kind":"building.1","data":{"name":"A"}}`
	if _, err := Decode([]byte(line)); err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		raw  string
		body bool // only the body cannot be read: the event comes with the error
	}{
		"nothing":             {``, false},
		"cut off":             {line[:len(line)-1], false},
		"two of them":         {line + line, false},
		"no device":           {`{"seq":1,"kind":"building.1","data":{"name":"A"}}`, false},
		"no number":           {`{"dev":"p2x","kind":"building.1","data":{"name":"A"}}`, false},
		"no kind":             {`{"dev":"p2x","seq":1,"data":{"name":"A"}}`, false},
		"number below zero":   {`{"dev":"p2x","seq":-1,"kind":"building.1","data":{"name":"A"}}`, false},
		"no such day":         {`{"dev":"p2x","seq":1,"wall":"2026-02-30T08:30:00Z","kind":"building.1","data":{"name":"A"}}`, false},
		"no data":             {`{"dev":"p2x","seq":1,"kind":"building.1"}`, true},
		"name is a number":    {`{"dev":"p2x","seq":1,"kind":"building.1","data":{"name":1}}`, true},
		"resistance is empty": {`{"dev":"p2x","seq":1,"kind":"ohm.1","data":{"ohm":null}}`, true},
		"resistance below":    {`{"dev":"p2x","seq":1,"kind":"ohm.1","data":{"ohm":-1}}`, true},
	} {
		t.Run(name, func(t *testing.T) {
			e, err := Decode([]byte(c.raw))
			if err == nil {
				t.Fatalf("read as %+v", e)
			}
			if (e.ID == ID{"p2x", 1}) != c.body || e.Body != nil {
				t.Errorf("came with %+v", e)
			}
		})
	}
}

package observation

import "testing"

func TestStood(t *testing.T) {
	at := Point{At: "k-1", Wire: Hot}
	for name, c := range map[string]struct {
		body Body
		want Thing
	}{
		"reading":     {Ohm{A: at, B: at}, "k-1"},
		"resistor":    {Resistor{On: at}, "k-1"},
		"read-back":   {ReadBack{At: at}, "k-1"},
		"feeder":      {Feeder{To: "k-3"}, "k-3"},
		"lock":        {LockOut{}, "k-2"},
		"power":       {Energized{}, "k-2"},
		"withdrawal":  {Withdrawal{}, ""},
		"put off":     {Decision{}, ""},
		"person told": {Told{}, ""},
	} {
		e := Event{ID: ID{Device: "k", Seq: 7}, Observation: Observation{Subject: "k-2", Body: c.body}}
		if got := e.Stood(); got != c.want {
			t.Errorf("%s: stood at %q, want %q", name, got, c.want)
		}
	}
	if got := (Event{ID: ID{Device: "k", Seq: 7}, Observation: Observation{Body: Room{}}}).Stood(); got != "k-7" {
		t.Errorf("a new room: stood at %q, want the room itself", got)
	}
}

package journal_test

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"asfound/journal"
	"asfound/journal/journaltest"
	"asfound/observation"
)

func TestHashOf(t *testing.T) {
	// FIPS 180-4, example B.1.
	const want = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
	if got := journal.HashOf([]byte("abc")).String(); got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestDeviceIdsReadAlikeToEverybody(t *testing.T) {
	for i := range 100 {
		id := journal.DeviceOf([]byte{byte(i)})
		if strings.Trim(id, "0123456789abcdefghjkmnpqrstvwxyz") != "" || len(id) != 10 {
			t.Errorf("device id %q has a sign that reads like another", id)
		}
	}
}

func TestMemoryRepeats(t *testing.T) {
	one, two := journal.NewMemory([32]byte{1}, journaltest.NewClock().Now), journal.NewMemory([32]byte{1}, journaltest.NewClock().Now)
	other := journal.NewMemory([32]byte{2}, journaltest.NewClock().Now)
	if one.Device() != two.Device() || one.Device() == other.Device() {
		t.Errorf("devices %s, %s, %s: want the first two alike", one.Device(), two.Device(), other.Device())
	}
	a, err := one.Append(journaltest.Room("kitchen"))
	if err != nil {
		t.Fatal(err)
	}
	b, err := two.Append(journaltest.Room("kitchen"))
	if err != nil || a.Hash != b.Hash {
		t.Errorf("the same seed and clock gave %s and %s (%v)", a.Raw, b.Raw, err)
	}
}

func TestState(t *testing.T) {
	marks := map[string]uint64{"k7m3qd8x2a": 2, "phone": 1}
	state := journal.State(marks)
	if len(state) != len("k7m3qd-3") || !strings.HasSuffix(state, "-3") {
		t.Errorf("state %q: want six signs and the count 3", state)
	}
	for name, other := range map[string]map[string]uint64{
		"one more":           {"k7m3qd8x2a": 3, "phone": 1},
		"marks exchanged":    {"k7m3qd8x2a": 1, "phone": 2},
		"names run together": {"k7m3qd8x2a 2\nphone": 1},
		"nothing":            {},
	} {
		if journal.State(other) == state {
			t.Errorf("%s: the state is %s too", name, state)
		}
	}
	marks["unheard"] = 0
	if journal.State(marks) != state {
		t.Error("a device without events changed the state")
	}
}

func TestClockTime(t *testing.T) {
	at := time.Date(2026, 3, 9, 13, 30, 0, 0, time.UTC)
	if got := journal.ClockTime(uint64(at.UnixMilli())<<16 + 7); !got.Equal(at) {
		t.Errorf("got %v, want %v", got, at)
	}
}

// FuzzMerge gives a store two lines of anything; it must keep only events, each
// once, byte for byte, and stay whole.
func FuzzMerge(f *testing.F) {
	lines := journaltest.NewWriter("phone").Rooms(2)
	f.Add(lines[0], lines[1])
	f.Add(lines[1], lines[0])
	f.Add(lines[0], lines[0])
	f.Add([]byte(`{"dev":"a","seq":1,"kind":"x","hlc":18446744073709551615,"wall":"2026-03-09T08:30:00Z","who":""}`), []byte("{"))
	f.Add([]byte(`{"dev":"a","seq":1,"kind":"x","data":{}}`), []byte(`{"dev":"a","seq":1,"kind":"y","data":{}}`))
	f.Fuzz(func(t *testing.T, one, two []byte) {
		s := journal.NewMemory([32]byte{1}, journaltest.NewClock().Now)
		got, err := s.Merge([][]byte{one, two})
		if err != nil {
			t.Fatal(err)
		}
		if n := got.Added + got.Held + len(got.Waiting) + len(got.Refused) + len(got.Forks); n != 2 {
			t.Errorf("2 lines, %d accounted for: %+v", n, got)
		}
		err = s.Read(0, func(e journal.Entry) error {
			if !bytes.Equal(e.Raw, one) && !bytes.Equal(e.Raw, two) {
				t.Errorf("kept %q, which nobody sent", e.Raw)
			}
			return nil
		})
		if report, fault := journal.Check(s); err != nil || fault != nil || !report.Whole() {
			t.Errorf("%v %v %v", err, report, fault)
		}
	})
}

func TestReport(t *testing.T) {
	s := journal.NewMemory([32]byte{1}, journaltest.NewClock().Now)
	if _, err := s.Append(observation.Observation{Who: "Dell Amoah", Body: observation.Building{Name: "A"}}); err != nil {
		t.Fatal(err)
	}
	report, err := journal.Check(s)
	if err != nil {
		t.Fatal(err)
	}
	const want = "1 observation from 1 phone or laptop, 0 photographs.\nEvery chain of observations is whole.\n"
	if report.String() != want {
		t.Errorf("got %q, want %q", report.String(), want)
	}
}

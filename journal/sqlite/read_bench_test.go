package sqlite_test

import (
	"fmt"
	"path/filepath"
	"testing"

	"asfound/journal"
	"asfound/journal/journaltest"
	"asfound/journal/sqlite"
)

// BenchmarkRead reads and decodes 100,000 ohm readings, as at each start; each
// round opens the file anew.
func BenchmarkRead(b *testing.B) {
	const events = 100_000
	clock := journaltest.NewClock()
	path := filepath.Join(b.TempDir(), "pellam.job")
	s, err := sqlite.Open(path, clock.Now)
	if err != nil {
		b.Fatal(err)
	}
	w := journaltest.NewWriter("k7m3qd8x2a")
	lines := make([][]byte, events)
	for i := range lines {
		lines[i] = w.Line("ohm.1", fmt.Sprintf(
			`{"a":{"at":"k7m3qd8x2a-%d","cable":"2","wire":"hot"},"b":{"at":"k7m3qd8x2a-%[1]d","cable":"2","wire":"egc"},"ohm":%d,"reprobed":"yes"}`, i%400+1, 20*i+1))
	}
	got, err := s.Merge(lines)
	if err != nil || got.Added != events {
		b.Fatal(err, got.Added)
	}
	if err := s.Close(); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		s, err := sqlite.Open(path, clock.Now)
		if err != nil {
			b.Fatal(err)
		}
		count := 0
		err = s.Read(0, func(e journal.Entry) error {
			if e.Event.Body != nil {
				count++
			}
			return nil
		})
		if err != nil || count != events {
			b.Fatal(err, count)
		}
		if err := s.Close(); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Milliseconds())/float64(b.N), "ms/100k")
}

// BenchmarkAppend records one observation in a journal and waits for the disk.
func BenchmarkAppend(b *testing.B) {
	s, err := sqlite.Open(filepath.Join(b.TempDir(), "pellam.job"), journaltest.NewClock().Now)
	if err != nil {
		b.Fatal(err)
	}
	defer s.Close()
	for b.Loop() {
		if _, err := s.Append(journaltest.Room("kitchen")); err != nil {
			b.Fatal(err)
		}
	}
}

package site

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"asfound/journal/sqlite"
)

// longList is a list of openings with this many lines: 40 to a room, 50 rooms to
// a building, a bad line in each hundred.
func longList(lines int) string {
	var out strings.Builder
	out.WriteString("building,floor,room,number,use,gangs,height,note\n")
	for n := range lines {
		use := "receptacle"
		if n%100 == 99 {
			use = "lamp"
		}
		fmt.Fprintf(&out, "Building %d,0,Room %d,%d-%02d,%s,1,16,by the door\n", n/2000, n/40%50, n/40, n%40, use)
	}
	return out.String()
}

// BenchmarkTakeIn takes 100,000 lines into a job on disk, asks for the site as
// found, and takes them in again. The peak is of the whole process, as Linux tells it.
func BenchmarkTakeIn(b *testing.B) {
	text := longList(100_000)
	for b.Loop() {
		store, err := sqlite.Open(filepath.Join(b.TempDir(), "long.job"), time.Now)
		if err != nil {
			b.Fatal(err)
		}
		s, err := Open(store, time.Now)
		if err != nil {
			b.Fatal(err)
		}
		began := time.Now()
		got := bring(b, s, ListOpenings, text)
		if got.Count(Kept) != 99_000 || got.Count(Bad) != 1000 {
			b.Fatalf("%d kept, %d bad", got.Count(Kept), got.Count(Bad))
		}
		b.ReportMetric(time.Since(began).Seconds(), "s/take")
		b.ReportMetric(peakMB(), "MB/taken")
		began = time.Now()
		asFound(b, s)
		b.ReportMetric(time.Since(began).Seconds(), "s/asfound")
		b.ReportMetric(peakMB(), "MB/asfound")
		began = time.Now()
		if again := bring(b, s, ListOpenings, text); again.Entries != 0 {
			b.Fatalf("%d entries the second time", again.Entries)
		}
		b.ReportMetric(time.Since(began).Seconds(), "s/again")
		b.ReportMetric(peakMB(), "MB/peak")
		if err := store.Close(); err != nil {
			b.Fatal(err)
		}
	}
}

var peakLine = regexp.MustCompile(`VmHWM:\s+(\d+) kB`)

// peakMB is the most memory this process had, 0 where it is not told.
func peakMB() float64 {
	status, _ := os.ReadFile("/proc/self/status")
	if m := peakLine.FindSubmatch(status); m != nil {
		kb, _ := strconv.ParseFloat(string(m[1]), 64)
		return kb / 1024
	}
	return 0
}

package sqlite_test

import (
	"bufio"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"asfound/journal"
	"asfound/journal/journaltest"
	"asfound/journal/sqlite"
	"asfound/observation"
)

// recordInto names the journal for the test program started as a recorder.
const recordInto = "ASFOUND_TEST_RECORD_INTO"

func TestMain(m *testing.M) {
	if path := os.Getenv(recordInto); path != "" {
		if err := record(path, os.Stdout); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// record records 1,000 observations, every tenth with a photograph, and writes
// the id of each when it is acknowledged.
func record(path string, out io.Writer) error {
	s, err := sqlite.Open(path, time.Now)
	if err != nil {
		return err
	}
	for i := range 1000 {
		o := journaltest.Room(fmt.Sprint("room ", i))
		if i%10 == 0 {
			picture := strings.Repeat("picture ", 5000) + time.Now().String()
			hash, size, err := s.PutBlob(strings.NewReader(picture))
			if err != nil {
				return err
			}
			o = observation.Observation{Who: "Tomas Veil", Subject: "k7m3qd8x2a-1",
				Body: observation.Photo{Hash: hash, Type: "image/jpeg", Bytes: size}}
		}
		e, err := s.Append(o)
		if err != nil {
			return err
		}
		if _, err := fmt.Fprintln(out, e.Event.ID); err != nil {
			return err
		}
	}
	return s.Close()
}

// TestKilled kills the recorder after a number of acknowledgements that the seed
// gives, while it goes on recording; the last round runs to its end.
func TestKilled(t *testing.T) {
	path := filepath.Join(t.TempDir(), "pellam.job")
	chance := rand.New(rand.NewPCG(1, 0))
	acknowledged := map[string]bool{}
	const rounds = 8
	for round := range rounds {
		killAt := 1 + chance.IntN(300)
		if round == rounds-1 {
			killAt = 0
		}
		for _, id := range recordUntil(t, path, killAt) {
			if acknowledged[id] {
				t.Errorf("round %d: %s was acknowledged twice", round, id)
			}
			acknowledged[id] = true
		}
		survived(t, path, acknowledged)
	}
	t.Logf("%d acknowledged over %d kills, all there", len(acknowledged), rounds-1)
}

// recordUntil gives the ids acknowledged by one recorder.
func recordUntil(t *testing.T, path string, killAt int) []string {
	t.Helper()
	program, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	child := exec.Command(program)
	child.Env = append(os.Environ(), recordInto+"="+path)
	child.Stderr = os.Stderr
	out, err := child.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := child.Start(); err != nil {
		t.Fatal(err)
	}
	var ids []string
	for lines := bufio.NewScanner(out); lines.Scan(); {
		ids = append(ids, lines.Text())
		if len(ids) == killAt {
			if err := child.Process.Kill(); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := child.Wait(); (err != nil) != (killAt > 0) {
		t.Fatalf("recorder to be killed at %d ended with: %v", killAt, err)
	}
	return ids
}

// survived demands that everything acknowledged is there, whole, and nothing
// torn; one event that nobody was told of may be.
func survived(t *testing.T, path string, acknowledged map[string]bool) {
	t.Helper()
	s, err := sqlite.Open(path, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	held := map[string]bool{}
	err = s.Read(0, func(e journal.Entry) error {
		if e.Event.Body == nil || e.Event.Body.Check() != nil {
			t.Errorf("event %s is torn: %s", e.Event.ID, e.Raw)
		}
		held[e.Event.ID.String()] = true
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for id := range acknowledged {
		if !held[id] {
			t.Errorf("%s was acknowledged and is gone", id)
		}
	}
	report, err := journal.Check(s)
	if err != nil || !report.Whole() || len(report.Missing) > 0 {
		t.Errorf("%v\n%v", report, err)
	}
}

// TestPowerCut cuts the power at many places of what was being written: it opens
// copies of the file whose write-ahead log ends, or turns into nought, at that
// byte. Where the log reached the disk as far as it stood when an event was
// acknowledged, the event must be there; what is there must be a beginning of
// what was recorded.
func TestPowerCut(t *testing.T) {
	path := filepath.Join(t.TempDir(), "pellam.job")
	clock := journaltest.NewClock()
	s, err := sqlite.Open(path, clock.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	var want [][]byte
	var safe []int // length of the log when as many events were acknowledged
	for i := range 12 {
		e, err := s.Append(journaltest.Room(fmt.Sprint("room ", i)))
		if err != nil {
			t.Fatal(err)
		}
		want = append(want, e.Raw)
		safe = append(safe, len(contents(t, path+"-wal")))
	}
	file, wal := contents(t, path), contents(t, path+"-wal")
	if safe[0] == len(wal) {
		t.Fatal("the log did not grow: this test shows nothing")
	}
	const step = 2741 // two thirds of a page, so that cuts fall at every part of one
	for cut := 0; cut <= len(wal); cut += step {
		rest := append([]byte{}, wal[:cut]...)
		if cut/step%2 == 1 {
			rest = append(rest, make([]byte, len(wal)-cut)...)
		}
		least := 0
		for least < len(safe) && safe[least] <= cut {
			least++
		}
		afterCut(t, file, rest, want, least)
	}
}

func contents(t *testing.T, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func afterCut(t *testing.T, file, wal []byte, want [][]byte, least int) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "pellam.job")
	if err := os.WriteFile(path, file, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path+"-wal", wal, 0o600); err != nil {
		t.Fatal(err)
	}
	s, err := sqlite.Open(path, time.Now)
	if err != nil {
		t.Fatalf("log cut at %d: %v", len(wal), err)
	}
	defer s.Close()
	if _, err := s.Append(journaltest.Room("after the cut")); err != nil {
		t.Fatal(err)
	}
	held := 0
	err = s.Read(0, func(e journal.Entry) error {
		if held < len(want) && string(e.Raw) == string(want[held]) {
			held++
		} else if e.Position != int64(held)+1 {
			t.Errorf("log cut at %d: entry %d is %s", len(wal), e.Position, e.Raw)
		}
		return nil
	})
	if err != nil || held < least {
		t.Errorf("log cut at %d: %d events held, %d acknowledged (%v)", len(wal), held, least, err)
	}
	if report, err := journal.Check(s); err != nil || !report.Whole() {
		t.Errorf("log cut at %d: %v %v", len(wal), report, err)
	}
}

// TestDamage changes what is kept behind the store's back; the check must say so.
func TestDamage(t *testing.T) {
	path := filepath.Join(t.TempDir(), "pellam.job")
	s, err := sqlite.Open(path, journaltest.NewClock().Now)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	hash, size, err := s.PutBlob(strings.NewReader("a picture"))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.Append(observation.Observation{Who: "Dell Amoah", Subject: "k7m3qd8x2a-1",
		Body: observation.Photo{Hash: hash, Type: "image/png", Bytes: size}}); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(filepath.Dir(path), "pellam.photos", hash[:2], hash)
	sum := sha256.Sum256([]byte("a picture"))
	if hash != hex.EncodeToString(sum[:]) || string(contents(t, file)) != "a picture" {
		t.Fatalf("photograph %s is not the file %s", hash, file)
	}
	if err := os.WriteFile(file, []byte("b picture"), 0o600); err != nil {
		t.Fatal(err)
	}
	report, err := journal.Check(s)
	if err != nil || len(report.Faults) != 1 || !strings.Contains(report.Faults[0], s.Device()+"-1") {
		t.Errorf("got %v, %v; want the changed photograph named", report, err)
	}
	if err := os.Remove(file); err != nil {
		t.Fatal(err)
	}
	report, err = journal.Check(s)
	if err != nil || len(report.Missing) != 1 || !report.Whole() {
		t.Errorf("got %v, %v; want the photograph missing", report, err)
	}
}

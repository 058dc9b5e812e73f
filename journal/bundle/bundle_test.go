package bundle_test

import (
	"archive/zip"
	"bytes"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"asfound/journal"
	"asfound/journal/bundle"
	"asfound/journal/journaltest"
	"asfound/observation"
)

func store(seed byte) *journal.Memory {
	return journal.NewMemory([32]byte{seed}, journaltest.NewClock().Now)
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// job is a journal of two devices with an unknown kind, a photograph, an extra
// photograph and a line kept aside.
func job(t *testing.T) *journal.Memory {
	t.Helper()
	s := store(1)
	hash, size, err := s.PutBlob(strings.NewReader("a picture"))
	must(t, err)
	_, _, err = s.PutBlob(strings.NewReader("named by nothing"))
	must(t, err)
	_, err = s.Append(observation.Observation{Who: "Marit Sandvei", Body: observation.Building{Name: "A"}})
	must(t, err)
	phone := journaltest.NewWriter("phone")
	lines := phone.Rooms(3)
	copied := *phone
	lines = append(lines, phone.Line("drone.3", `{ "height": 12.50 }`), copied.Line("room.1", `{"building":"x","name":"other"}`))
	_, err = s.Merge(lines)
	must(t, err)
	_, err = s.Append(observation.Observation{Who: "Tomas Veil", Subject: "k7m3qd8x2a-1",
		Body: observation.Photo{Hash: hash, Type: "image/png", Bytes: size}})
	must(t, err)
	return s
}

func exported(t *testing.T, s journal.Store) map[string]string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "export")
	must(t, bundle.Export(s, dir))
	return files(t, os.DirFS(dir))
}

func files(t *testing.T, from fs.FS) map[string]string {
	t.Helper()
	out := map[string]string{}
	must(t, fs.WalkDir(from, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(from, path)
		out[path] = string(data)
		return err
	}))
	return out
}

func fileSystem(files map[string]string) fstest.MapFS {
	out := fstest.MapFS{}
	for name, data := range files {
		out[name] = &fstest.MapFile{Data: []byte(data)}
	}
	return out
}

func TestExportImportExport(t *testing.T) {
	want := exported(t, job(t))
	if len(want) != 5 {
		t.Fatalf("%d files exported, want events, forks, two photographs and README: %v", len(want), maps.Keys(want))
	}
	s := store(2)
	got, err := bundle.Import(s, fileSystem(want))
	must(t, err)
	if got.Added != 6 || len(got.Forks) != 1 || got.Photos != 2 || len(got.Say) != 0 {
		t.Errorf("imported %+v", got)
	}
	if diff := cmp.Diff(want, exported(t, s)); diff != "" {
		t.Errorf("exported again (-first +second):\n%s", diff)
	}
	again, err := bundle.Import(s, fileSystem(want))
	must(t, err)
	if diff := cmp.Diff(bundle.Imported{Held: 7}, again); diff != "" {
		t.Errorf("imported twice:\n%s", diff)
	}
	if diff := cmp.Diff(want, exported(t, s)); diff != "" {
		t.Errorf("exported after the second import:\n%s", diff)
	}
}

func TestZipHoldsTheSameFiles(t *testing.T) {
	s := job(t)
	var first, second bytes.Buffer
	must(t, bundle.ExportZip(s, &first))
	must(t, bundle.ExportZip(s, &second))
	if !bytes.Equal(first.Bytes(), second.Bytes()) {
		t.Error("the same job gave two different zip files")
	}
	opened, err := zip.NewReader(bytes.NewReader(first.Bytes()), int64(first.Len()))
	must(t, err)
	if diff := cmp.Diff(exported(t, s), files(t, opened)); diff != "" {
		t.Errorf("folder and zip differ:\n%s", diff)
	}
	copied := store(2)
	_, err = bundle.Import(copied, opened)
	must(t, err)
	if diff := cmp.Diff(exported(t, s), exported(t, copied)); diff != "" {
		t.Errorf("through the zip:\n%s", diff)
	}
}

func TestOrderOfArrivalDoesNotShow(t *testing.T) {
	phone, tablet := journaltest.NewWriter("phone").Rooms(3), journaltest.NewWriter("tablet").Rooms(2)
	one, two := store(1), store(2)
	for _, lines := range [][][]byte{phone, tablet} {
		_, err := one.Merge(lines)
		must(t, err)
	}
	for _, lines := range [][][]byte{tablet, phone} {
		_, err := two.Merge(lines)
		must(t, err)
	}
	if diff := cmp.Diff(exported(t, one), exported(t, two)); diff != "" {
		t.Error(diff)
	}
}

func TestExportRefusesAFullFolder(t *testing.T) {
	dir := t.TempDir()
	must(t, os.WriteFile(filepath.Join(dir, "taxes.txt"), nil, 0o600))
	if err := bundle.Export(job(t), dir); err == nil || !strings.Contains(err.Error(), "not empty") {
		t.Errorf("got %v, want the folder refused", err)
	}
}

func TestImportSaysWhatItLeavesOut(t *testing.T) {
	good := exported(t, job(t))
	lines := strings.SplitAfter(strings.TrimSuffix(good["events.jsonl"], "\n"), "\n")
	last := lines[len(lines)-1]
	all := strings.Join(lines, "") + "\n"
	for name, c := range map[string]struct {
		events string
		added  int
		say    string
	}{
		"last line cut off":        {all[:len(all)-20], 5, "events.jsonl line 6: The last line is cut off"},
		"last line without an end": {strings.TrimSuffix(all, "\n"), 6, ""},
		"words among the lines":    {lines[0] + "kitchen 2.49 k\n" + strings.Join(lines[1:], ""), 6, "events.jsonl line 2: This line is not an observation"},
		"line of 200 MB":           {lines[0] + strings.Repeat("x", 200_000_000) + "\n" + strings.Join(lines[1:], ""), 6, "events.jsonl line 2: This line is longer than"},
		"lines in another order":   {last + "\n" + strings.Join(lines[:len(lines)-1], ""), 6, ""},
		"ends of line of Windows":  {strings.ReplaceAll(all, "\n", "\r\n"), 6, ""},
		"a line is missing":        {strings.Join(lines[:4], "") + strings.Join(lines[5:], "") + "\n", 4, "events.jsonl line 5: An earlier observation of its phone is missing"},
		"a line was changed":       {strings.Replace(all, "room 1", "room 7", 1), 3, "does not follow the one before it"},
		"nothing":                  {"", 0, ""},
	} {
		t.Run(name, func(t *testing.T) {
			got, err := bundle.Import(store(2), fileSystem(map[string]string{"events.jsonl": c.events}))
			must(t, err)
			if got.Added != c.added {
				t.Errorf("%d added, want %d: %+v", got.Added, c.added, got)
			}
			if said := strings.Join(got.Say, "\n"); !strings.Contains(said, c.say) || (c.say == "") != (said == "") || len(said) > 1000 {
				t.Errorf("says %q, want %q", said, c.say)
			}
		})
	}
}

func TestImportOfLongFile(t *testing.T) {
	// More than one batch, the first device last: what waits comes in at the end.
	lines := journaltest.NewWriter("phone").Rooms(12_000)
	events := append(bytes.Join(lines[6000:], []byte("\n")), '\n')
	events = append(append(events, bytes.Join(lines[:6000], []byte("\n"))...), '\n')
	got, err := bundle.Import(store(2), fileSystem(map[string]string{"events.jsonl": string(events)}))
	must(t, err)
	if diff := cmp.Diff(bundle.Imported{Added: 12_000}, got); diff != "" {
		t.Error(diff)
	}
}

func TestImportRefusesWhatIsNoBundle(t *testing.T) {
	for name, c := range map[string]struct {
		files map[string]string
		say   string
	}{
		"an empty folder":          {nil, "there is no events.jsonl here"},
		"a picture with that name": {map[string]string{"events.jsonl": strings.Repeat("\x89PNG\x00\n", 5000)}, "not a file of observations"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := bundle.Import(store(2), fileSystem(c.files))
			if err == nil || !strings.Contains(err.Error(), c.say) {
				t.Errorf("got %v, want %q", err, c.say)
			}
		})
	}
}

func TestImportOfPhotographs(t *testing.T) {
	good := exported(t, job(t))
	for name := range good {
		if strings.HasPrefix(name, "blobs/") {
			good[name] += "changed"
		}
	}
	good["blobs/holiday.jpg"] = "beach"
	s := store(2)
	got, err := bundle.Import(s, fileSystem(good))
	must(t, err)
	blobs, err := s.Blobs()
	must(t, err)
	if len(blobs) != 0 || got.Photos != 0 || len(got.Say) != 3 || got.Added != 6 {
		t.Errorf("held %v, %+v; want three photographs left out and the events kept", blobs, got)
	}
}

// FuzzImport reads any file of events; it must not panic, and what it kept must
// come through an export and an import unchanged.
func FuzzImport(f *testing.F) {
	lines := bytes.Join(journaltest.NewWriter("phone").Rooms(3), []byte("\n"))
	f.Add(lines)
	f.Add(lines[:len(lines)-9])
	f.Add([]byte("\r\n\n{}\n"))
	f.Fuzz(func(t *testing.T, events []byte) {
		s := store(2)
		if _, err := bundle.Import(s, fileSystem(map[string]string{"events.jsonl": string(events)})); err != nil {
			return
		}
		var first, second bytes.Buffer
		must(t, bundle.ExportZip(s, &first))
		opened, err := zip.NewReader(bytes.NewReader(first.Bytes()), int64(first.Len()))
		must(t, err)
		copied := store(3)
		_, err = bundle.Import(copied, opened)
		must(t, err)
		must(t, bundle.ExportZip(copied, &second))
		if !bytes.Equal(first.Bytes(), second.Bytes()) {
			t.Error("the second export differs from the first")
		}
	})
}

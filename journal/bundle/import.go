package bundle

import (
	"bufio"
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"strings"

	"asfound/journal"
	"asfound/observation"
)

// Imported says what an import brought.
type Imported struct {
	Added   int              // events new here
	Held    int              // events already here
	Forks   []journal.Fork   // newly kept aside
	Ahead   []observation.ID // from a clock more than 10 minutes ahead, not followed
	Renewed string           // new id of this device, see journal.Merged
	Photos  int              // photographs new here
	Say     []string         // one sentence for each thing left out, with file and line
}

// Import merges the bundle in from: os.DirFS of the folder, or a zip.Reader. What
// is good is kept; what is not is named in Say. The error is for a folder that
// is no bundle and for a store that does not take it; what was merged until then
// stays.
func Import(s journal.Store, from fs.FS) (Imported, error) {
	var out Imported
	if err := out.lines(s, from, eventsFile); err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			return out, fmt.Errorf("there is no %s here: choose the folder or zip file that an export wrote (%w)", eventsFile, err)
		}
		return out, err
	}
	if err := out.lines(s, from, forksFile); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return out, err
	}
	return out, out.blobs(s, from)
}

func (i *Imported) add(m journal.Merged) {
	i.Added += m.Added
	i.Held += m.Held
	i.Forks = append(i.Forks, m.Forks...)
	i.Ahead = append(i.Ahead, m.Ahead...)
	i.Renewed = cmp.Or(m.Renewed, i.Renewed)
}

// lines merges one file of lines.
func (i *Imported) lines(s journal.Store, from fs.FS, name string) error {
	file, err := from.Open(name)
	if err != nil {
		return err
	}
	defer file.Close()
	l := lines{store: s, name: name, out: i, from: bufio.NewReaderSize(file, 64<<10)}
	if err := l.merge(); err != nil {
		return fmt.Errorf("import %s: %w", name, err)
	}
	return nil
}

// blobs keeps the photographs that are not here yet.
func (i *Imported) blobs(s journal.Store, from fs.FS) error {
	files, err := fs.ReadDir(from, blobFolder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return fmt.Errorf("import photographs: %w", err)
	}
	for _, f := range files {
		name := blobFolder + "/" + f.Name()
		switch {
		case strings.HasPrefix(f.Name(), "."): // what file managers leave behind
		case f.IsDir() || !journal.IsBlobName(f.Name()):
			i.say("%s is not a photograph of a job and was left out.", name)
		case s.HasBlob(f.Name()):
		default:
			if err := i.blob(s, from, name); err != nil {
				return fmt.Errorf("import photograph %s: %w", f.Name(), err)
			}
		}
	}
	return nil
}

func (i *Imported) blob(s journal.Store, from fs.FS, name string) error {
	file, err := from.Open(name)
	if err != nil {
		return err
	}
	defer file.Close()
	_, _, err = s.PutBlob(journal.Verified(file, path.Base(name)))
	if errors.Is(err, journal.ErrWrongBlob) {
		i.say("%s does not hold the photograph it is named for and was left out: export it again.", name)
		return nil
	}
	if err == nil {
		i.Photos++
	}
	return err
}

// mostSaid is how many faults are named one by one; a file of something else
// has thousands.
const mostSaid = 100

func (i *Imported) say(format string, args ...any) {
	switch {
	case len(i.Say) < mostSaid:
		i.Say = append(i.Say, fmt.Sprintf(format, args...))
	case len(i.Say) == mostSaid:
		i.Say = append(i.Say, "More was left out, which is not listed.")
	}
}

// lines merges a file of lines in batches.
type lines struct {
	store journal.Store
	from  *bufio.Reader
	name  string
	out   *Imported

	line    int // lines read
	good    int // lines that were events
	batch   [][]byte
	numbers []int // line number of each in batch
	waiting [][]byte
	waits   []int
}

// batch is how many lines are merged at once: one transaction of the store.
const batch = 5000

func (l *lines) merge() error {
	for {
		raw, whole, err := l.next()
		ended := errors.Is(err, io.EOF)
		if err != nil && !ended {
			return err
		}
		if len(raw) > 0 {
			l.take(raw, whole)
		}
		if ended || len(l.batch) == batch {
			if err := l.flush(); err != nil {
				return err
			}
		}
		if ended {
			return l.retry()
		}
		if l.good == 0 && l.line >= mostSaid {
			return fmt.Errorf("this is not a file of observations: none of its first %d lines is one", mostSaid)
		}
	}
}

// next reads a line without its end; whole is false for a last line that has
// none. Of a line that is too long it gives as much as shows that it is.
func (l *lines) next() (raw []byte, whole bool, err error) {
	for {
		piece, err := l.from.ReadSlice('\n')
		if room := journal.LongestLine + 2 - len(raw); room > 0 {
			raw = append(raw, piece[:min(room, len(piece))]...)
		}
		switch {
		case err == nil:
			l.line++
			return trimEnd(raw), true, nil
		case errors.Is(err, io.EOF):
			if len(raw) > 0 {
				l.line++
			}
			return raw, false, err
		case !errors.Is(err, bufio.ErrBufferFull):
			return nil, false, err
		}
	}
}

// trimEnd cuts the end of line, also the longer one that some programs write.
func trimEnd(raw []byte) []byte {
	if n := len(raw); n > 0 && raw[n-1] == '\n' {
		raw = raw[:n-1]
	}
	if n := len(raw); n > 0 && raw[n-1] == '\r' {
		raw = raw[:n-1]
	}
	return raw
}

func (l *lines) take(raw []byte, whole bool) {
	if _, say := journal.Decode(raw); say != "" {
		if !whole {
			say = "The last line is cut off and was left out: export again, or copy the file again."
		}
		l.out.say("%s line %d: %s", l.name, l.line, say)
		return
	}
	l.good++
	l.batch = append(l.batch, raw)
	l.numbers = append(l.numbers, l.line)
}

// flush merges the batch and keeps what has to wait.
func (l *lines) flush() error {
	if len(l.batch) == 0 {
		return nil
	}
	merged, err := l.store.Merge(l.batch)
	if err != nil {
		return err
	}
	for _, r := range merged.Refused {
		l.out.say("%s line %d: %s", l.name, l.numbers[r.Line], r.Say)
	}
	for _, w := range merged.Waiting {
		l.waiting = append(l.waiting, l.batch[w.Line])
		l.waits = append(l.waits, l.numbers[w.Line])
	}
	l.out.add(merged)
	l.batch, l.numbers = nil, nil
	return nil
}

// retry merges what waited for lines that stood after it, until nothing moves.
func (l *lines) retry() error {
	for before := -1; len(l.waiting) > 0 && before != len(l.waiting); {
		before = len(l.waiting)
		l.batch, l.numbers, l.waiting, l.waits = l.waiting, l.waits, nil, nil
		if err := l.flush(); err != nil {
			return err
		}
	}
	for _, line := range l.waits {
		l.out.say("%s line %d: An earlier observation of its phone is missing, so this one was left out: import the whole export.", l.name, line)
	}
	return nil
}

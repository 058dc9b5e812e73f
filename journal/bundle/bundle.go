// Package bundle writes a whole job as plain, documented files and reads them
// back: a folder, or the same folder as a zip file. docs/job-files.md describes
// the files.
//
// It refuses to replace anything: an export wants an empty place, and an import
// is a merge, so that the same files twice change nothing. The device's key
// never leaves its store.
//
// Start with Export and Import.
package bundle

import (
	"archive/zip"
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"

	"asfound/journal"
)

// Names of the files of a bundle.
const (
	eventsFile = "events.jsonl"
	forksFile  = "forks.jsonl"
	readmeFile = "README.txt"
	blobFolder = "blobs"
)

const readme = `asfound job, state %s: %d observations, %d kept aside, %d photographs.

events.jsonl  every observation, one JSON object a line, sorted by device and
              number. The bytes of a line are what was recorded: the next line of
              the device holds their SHA-256 as "prev". Do not change them.
forks.jsonl   lines that bear the number of another; kept, never counted.
              Only there when there are any.
blobs/        photographs, each named by the SHA-256 of its bytes.

To bring all of it into a job:  asfound import JOB THIS_FOLDER
Doing so twice changes nothing.
`

// Export writes the job into the folder dir, which must be empty or not there.
// What it wrote is on the disk when it returns.
func Export(s journal.Store, dir string) error {
	if err := emptyFolder(dir); err != nil {
		return err
	}
	return write(s, func(name string, fill func(io.Writer) error) error {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		if err != nil {
			return err
		}
		return errors.Join(fill(file), file.Sync(), file.Close())
	})
}

func emptyFolder(dir string) error {
	held, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return os.MkdirAll(dir, 0o755)
	}
	if err != nil {
		return fmt.Errorf("export: %w", err)
	}
	if len(held) > 0 {
		return fmt.Errorf("the folder %s is not empty: name an empty or a new one", dir)
	}
	return nil
}

// ExportZip writes the same files as a zip. The same job gives the same bytes.
func ExportZip(s journal.Store, w io.Writer) error {
	out := zip.NewWriter(w)
	err := write(s, func(name string, fill func(io.Writer) error) error {
		// A fixed day, the first that a zip can hold: the time of export is no
		// part of the job.
		header := zip.FileHeader{Name: name, Method: zip.Deflate, Modified: time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)}
		part, err := out.CreateHeader(&header)
		if err != nil {
			return err
		}
		return fill(part)
	})
	return errors.Join(err, out.Close())
}

// write gives each file of the bundle to file, the events first.
func write(s journal.Store, file func(name string, fill func(io.Writer) error) error) error {
	entries, err := sorted(s)
	if err != nil {
		return err
	}
	forks, err := s.Forks()
	if err != nil {
		return err
	}
	blobs, err := s.Blobs()
	if err != nil {
		return err
	}
	marks := map[string]uint64{}
	lines := make([][]byte, len(entries))
	for i, e := range entries {
		lines[i] = e.Raw
		marks[e.Event.Device] = e.Event.Seq
	}
	if err := file(eventsFile, writeLines(lines)); err != nil {
		return fmt.Errorf("export events: %w", err)
	}
	if len(forks) > 0 {
		aside := make([][]byte, len(forks))
		for i, f := range forks {
			aside[i] = f.Raw
		}
		if err := file(forksFile, writeLines(aside)); err != nil {
			return fmt.Errorf("export events kept aside: %w", err)
		}
	}
	for _, hash := range blobs {
		if err := file(blobFolder+"/"+hash, writeBlob(s, hash)); err != nil {
			return fmt.Errorf("export photograph %s: %w", hash, err)
		}
	}
	return file(readmeFile, func(w io.Writer) error {
		_, err := fmt.Fprintf(w, readme, journal.State(marks), len(entries), len(forks), len(blobs))
		return err
	})
}

func sorted(s journal.Store) ([]journal.Entry, error) {
	var entries []journal.Entry
	err := s.Read(0, func(e journal.Entry) error {
		entries = append(entries, e)
		return nil
	})
	slices.SortFunc(entries, func(a, b journal.Entry) int { return a.Event.ID.Compare(b.Event.ID) })
	return entries, err
}

func writeLines(lines [][]byte) func(io.Writer) error {
	return func(to io.Writer) error {
		w := bufio.NewWriter(to)
		for _, line := range lines {
			w.Write(line) //nolint:errcheck // Flush returns the first error
			w.WriteByte('\n')
		}
		return w.Flush()
	}
}

func writeBlob(s journal.Store, hash string) func(io.Writer) error {
	return func(w io.Writer) error {
		r, err := s.Blob(hash)
		if err != nil {
			return err
		}
		_, err = io.Copy(w, journal.Verified(r, hash))
		return errors.Join(err, r.Close())
	}
}

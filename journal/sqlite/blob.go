package sqlite

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"time"

	"asfound/journal"
)

// arriving begins the names of photographs that are not yet whole.
const arriving = "arriving-"

// PutBlob writes a photograph under another name, renames it when it is on the
// disk, and returns when the new name is too.
func (s *Store) PutBlob(r io.Reader) (hash string, size int64, err error) {
	hash, size, err = s.putBlob(r)
	if noSpace(err) {
		err = fmt.Errorf("%w (%w)", journal.ErrFull, err)
	}
	if err != nil {
		return "", 0, fmt.Errorf("keep photograph: %w", err)
	}
	return hash, size, nil
}

// noSpace reports whether the disk is full; Windows has a number of its own.
func noSpace(err error) bool {
	const windowsDiskFull = syscall.Errno(112)
	return errors.Is(err, syscall.ENOSPC) || runtime.GOOS == "windows" && errors.Is(err, windowsDiskFull)
}

func (s *Store) putBlob(r io.Reader) (string, int64, error) {
	if err := makeFolder(s.photos); err != nil {
		return "", 0, err
	}
	file, err := os.CreateTemp(s.photos, arriving)
	if err != nil {
		return "", 0, err
	}
	defer os.Remove(file.Name()) // gone already when all went well
	sum := sha256.New()
	size, err := io.Copy(io.MultiWriter(file, sum), r)
	if err = errors.Join(err, file.Sync(), file.Close()); err != nil {
		return "", 0, err
	}
	hash := hex.EncodeToString(sum.Sum(nil))
	to := s.blobPath(hash)
	if err := makeFolder(filepath.Dir(to)); err != nil {
		return "", 0, err
	}
	if err := os.Rename(file.Name(), to); err != nil {
		return "", 0, err
	}
	return hash, size, syncFolder(filepath.Dir(to))
}

func (s *Store) blobPath(hash string) string {
	return filepath.Join(s.photos, hash[:2], hash)
}

// Blob opens a photograph.
func (s *Store) Blob(hash string) (io.ReadCloser, error) {
	if !journal.IsBlobName(hash) {
		return nil, fmt.Errorf("photograph %q: %w", hash, journal.ErrNoBlob)
	}
	file, err := os.Open(s.blobPath(hash))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("photograph %s: %w", hash, journal.ErrNoBlob)
	}
	if err != nil {
		return nil, fmt.Errorf("photograph %s: %w", hash, err)
	}
	return file, nil
}

// HasBlob reports whether a photograph is held.
func (s *Store) HasBlob(hash string) bool {
	if !journal.IsBlobName(hash) {
		return false
	}
	info, err := os.Stat(s.blobPath(hash))
	return err == nil && info.Mode().IsRegular()
}

// Blobs lists the photographs held.
func (s *Store) Blobs() ([]string, error) {
	files, err := filepath.Glob(filepath.Join(escape(s.photos), "??", "*"))
	if err != nil {
		return nil, fmt.Errorf("list photographs: %w", err)
	}
	var out []string
	for _, file := range files {
		if name := filepath.Base(file); journal.IsBlobName(name) {
			out = append(out, name)
		}
	}
	slices.Sort(out)
	return out, nil
}

// escape makes a folder's name stand for itself in a pattern.
func escape(folder string) string {
	if runtime.GOOS == "windows" {
		return folder // there no sign in a pattern can be escaped
	}
	return strings.NewReplacer(`\`, `\\`, `*`, `\*`, `?`, `\?`, `[`, `\[`).Replace(folder)
}

// sweep removes what was left of photographs that never became whole: a day old,
// so that none is still being written.
func (s *Store) sweep() error {
	files, err := filepath.Glob(filepath.Join(escape(s.photos), arriving+"*"))
	if err != nil {
		return err
	}
	const abandoned = 24 * time.Hour
	for _, file := range files {
		info, err := os.Stat(file)
		if err != nil || time.Since(info.ModTime()) < abandoned {
			continue
		}
		if err := os.Remove(file); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return nil
}

// makeFolder makes a folder whose name is on the disk when it returns.
func makeFolder(path string) error {
	err := os.Mkdir(path, 0o755)
	if errors.Is(err, fs.ErrExist) {
		return nil
	}
	if err != nil {
		return err
	}
	return syncFolder(filepath.Dir(path))
}

// syncFolder puts the names in a folder on the disk. Windows has no such call;
// its file system keeps names in order by itself.
func syncFolder(path string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	folder, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(folder.Sync(), folder.Close())
}

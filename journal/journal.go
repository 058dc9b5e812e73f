// Package journal keeps the observations of a job: an append-only log in which
// each device numbers and chains its own events, and a merge that makes any two
// stores hold the same ones, whatever the order, doubling or loss on the way.
//
// It refuses to change or drop an event, to read a meaning into one (whether an
// observation makes sense is for package site to ask before Append), and to
// order devices by their clocks. Bytes it received it keeps and hands on as they
// were, also of kinds this program does not know.
//
// Start with Store, then Append and Merge, which hold the rules that every
// store shares. Memory is the store for tests, phones and simulations; the file
// of a laptop is journal/sqlite; folders and zip files are journal/bundle.
package journal

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"

	"asfound/observation"
)

// Entry is an event with its place in one store.
type Entry struct {
	Position int64 // order of arrival in this store, from 1 without gaps
	Event    observation.Event
	Raw      []byte // the exact bytes; not to be written to
	Hash     Hash   // of Raw
}

// Store is the journal of one job on one device. It is safe for several
// goroutines, and two stores opened on one file agree.
type Store interface {
	// Append stamps o with this device's next number, the hash of its event
	// before, and the clocks, and returns when it is durable. The event is the
	// one that a later Read gives. On a full disk the error is ErrFull, and
	// nothing is kept.
	Append(o observation.Observation) (Entry, error)
	// Merge keeps lines of other stores by the rules of [Merge].
	Merge(raws [][]byte) (Merged, error)
	// Read calls each for every entry after that position, in order of arrival,
	// until each returns an error, which Read returns. Each may append.
	Read(after int64, each func(Entry) error) error
	// Length is the position of the last entry, 0 in an empty journal.
	Length() (int64, error)
	// Marks says for each device the number up to which its events are held
	// without a gap.
	Marks() (map[string]uint64, error)
	// Forks lists the lines kept aside, ordered by device, number and hash.
	Forks() ([]Fork, error)
	// Device is the id under which Append records now.
	Device() string
	// PutBlob keeps a photograph and returns when it is durable: hash is the
	// hexadecimal SHA-256 of what r gave. An error of r keeps nothing.
	PutBlob(r io.Reader) (hash string, size int64, err error)
	// Blob opens a photograph; the error is ErrNoBlob when it is not held.
	Blob(hash string) (io.ReadCloser, error)
	// HasBlob reports whether Blob would find it.
	HasBlob(hash string) bool
	// Blobs lists the hashes held, sorted.
	Blobs() ([]string, error)
	Close() error
}

// Errors that callers tell apart with errors.Is.
var (
	ErrFull        = errors.New("the disk is full: free some space, then press again")
	ErrNoBlob      = errors.New("this photograph is not here yet")
	ErrNumberTaken = errors.New("this device's number is already taken")
)

// LongestLine is how many bytes one event may take. The longest text of an
// observation is 2,000 bytes, so that only a wrong file comes near.
const LongestLine = 1 << 20

// Hash is the SHA-256 of an event's exact bytes.
type Hash [sha256.Size]byte

// String is the hash in hexadecimal, as the next event's Prev holds it.
func (h Hash) String() string { return hex.EncodeToString(h[:]) }

// HashOf hashes the exact bytes of an event.
func HashOf(raw []byte) Hash { return sha256.Sum256(raw) }

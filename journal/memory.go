package journal

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"maps"
	"math/rand/v2"
	"slices"
	"sync"
	"time"

	"asfound/observation"
)

// Memory is a Store that lasts as long as the program.
type Memory struct {
	now func() time.Time

	mu      sync.Mutex
	random  *rand.ChaCha8
	device  string
	clock   uint64
	entries []Entry                  // entries[i] has position i+1; never changed once there
	chains  map[string][]int64       // device → positions by number, number 1 first
	forks   map[string]map[Hash]Fork // device → kept aside
	blobs   map[string][]byte        // hash → photograph
}

// NewMemory makes an empty journal whose device id comes from the seed, so that
// a simulation repeats; now is the device's clock.
func NewMemory(seed [32]byte, now func() time.Time) *Memory {
	m := &Memory{now: now, random: rand.NewChaCha8(seed), chains: map[string][]int64{},
		forks: map[string]map[Hash]Fork{}, blobs: map[string][]byte{}}
	m.device = m.newDevice()
	return m
}

// newDevice makes an id as a public key would give it; a Memory has no key,
// since it lasts too short to sign anything.
func (m *Memory) newDevice() string {
	var public [32]byte
	m.random.Read(public[:])
	return DeviceOf(public[:])
}

// Append records o.
func (m *Memory) Append(o observation.Observation) (Entry, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	return Append(memoryTx{m}, m.now(), o)
}

// Merge keeps lines of other stores.
func (m *Memory) Merge(raws [][]byte) (Merged, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	return Merge(memoryTx{m}, m.now(), raws)
}

// Read gives the entries there were when it was called.
func (m *Memory) Read(after int64, each func(Entry) error) error {
	m.mu.Lock()
	entries := m.entries
	m.mu.Unlock()
	for _, e := range entries[min(max(after, 0), int64(len(entries))):] {
		if err := each(e); err != nil {
			return err
		}
	}
	return nil
}

// Length is the number of entries.
func (m *Memory) Length() (int64, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	return int64(len(m.entries)), nil
}

// Marks says how far each device is held.
func (m *Memory) Marks() (map[string]uint64, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	return memoryTx{m}.Marks()
}

// Marks is that under the lock.
func (m memoryTx) Marks() (map[string]uint64, error) {
	marks := make(map[string]uint64, len(m.chains))
	for dev, chain := range m.chains {
		marks[dev] = uint64(len(chain))
	}
	return marks, nil
}

// Forks lists the lines kept aside.
func (m *Memory) Forks() ([]Fork, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	var out []Fork
	for _, forks := range m.forks {
		out = slices.AppendSeq(out, maps.Values(forks))
	}
	slices.SortFunc(out, func(a, b Fork) int {
		return cmp.Or(a.ID.Compare(b.ID), bytes.Compare(a.Hash[:], b.Hash[:]))
	})
	return out, nil
}

// Device is this store's id.
func (m *Memory) Device() string {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.device
}

// PutBlob keeps a photograph.
func (m *Memory) PutBlob(r io.Reader) (string, int64, error) {
	data, err := io.ReadAll(r)
	if err != nil {
		return "", 0, fmt.Errorf("keep photograph: %w", err)
	}
	hash := HashOf(data).String()
	m.mu.Lock()
	defer m.mu.Unlock()
	m.blobs[hash] = data
	return hash, int64(len(data)), nil
}

// Blob opens a photograph.
func (m *Memory) Blob(hash string) (io.ReadCloser, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	data, ok := m.blobs[hash]
	if !ok {
		return nil, fmt.Errorf("photograph %s: %w", hash, ErrNoBlob)
	}
	return io.NopCloser(bytes.NewReader(data)), nil
}

// HasBlob reports whether a photograph is held.
func (m *Memory) HasBlob(hash string) bool {
	m.mu.Lock()
	defer m.mu.Unlock()
	_, ok := m.blobs[hash]
	return ok
}

// Blobs lists the photographs held.
func (m *Memory) Blobs() ([]string, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	return slices.Sorted(maps.Keys(m.blobs)), nil
}

// Close does nothing: what is in memory stays until the program ends.
func (m *Memory) Close() error { return nil }

// memoryTx is Memory under its lock. It needs no way back: the rules call Add,
// SetAside and SetClock only after every step that can fail here.
type memoryTx struct{ *Memory }

func (m memoryTx) Own() (string, error) { return m.device, nil }

func (m memoryTx) Renew() (string, error) {
	m.device = m.newDevice()
	return m.device, nil
}

func (m memoryTx) Clock() (uint64, error) { return m.clock, nil }

func (m memoryTx) SetClock(c uint64) error {
	m.clock = c
	return nil
}

func (m memoryTx) Tail(device string) (Tail, error) {
	chain := m.chains[device]
	if len(chain) == 0 {
		return Tail{}, nil
	}
	return Tail{Seq: uint64(len(chain)), Hash: m.entries[chain[len(chain)-1]-1].Hash}, nil
}

func (m memoryTx) Hash(id observation.ID) (Hash, bool, error) {
	chain := m.chains[id.Device]
	if id.Seq == 0 || id.Seq > uint64(len(chain)) {
		return Hash{}, false, nil
	}
	return m.entries[chain[id.Seq-1]-1].Hash, true, nil
}

func (m memoryTx) Aside(device string, h Hash) (bool, error) {
	_, aside := m.forks[device][h]
	return aside, nil
}

func (m memoryTx) Add(e Entry) (int64, error) {
	id := e.Event.ID
	if held := uint64(len(m.chains[id.Device])); id.Seq != held+1 {
		return 0, fmt.Errorf("event %s when %d are held: %w", id, held, ErrNumberTaken)
	}
	e.Position = int64(len(m.entries)) + 1
	m.entries = append(m.entries, e)
	m.chains[id.Device] = append(m.chains[id.Device], e.Position)
	return e.Position, nil
}

func (m memoryTx) SetAside(f Fork) error {
	if m.forks[f.ID.Device] == nil {
		m.forks[f.ID.Device] = map[Hash]Fork{}
	}
	m.forks[f.ID.Device][f.Hash] = f
	return nil
}

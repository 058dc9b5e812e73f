package journal

// Together records several observations, all or none.
func (m *Memory) Together(do func(Adder) error) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	entries, own := len(m.entries), len(m.chains[m.device])
	err := Together(memoryTx{m}, m.now, do)
	if err != nil { // memory has no way back of its own
		m.entries, m.chains[m.device] = m.entries[:entries:entries], m.chains[m.device][:own:own]
	}
	return err
}

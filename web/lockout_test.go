package web

import "testing"

func TestLockOutLeadsToTheTest(t *testing.T) {
	h := built(t)
	wants(t, h.get("/lockout/"+string(h.panel)), "First:", "A lock is no test")
	at := h.kept("/lockout/"+string(h.panel), "device", "lock 4", "spaces", "2, 4", "told", "the builder")
	wants(t, h.get(at), "Absence-of-voltage test", "space 2 and 4 locked out: “lock 4”", sayNotDead)
}

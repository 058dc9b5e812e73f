package trace

import (
	"flag"
	"os"
	"testing"
)

// TestMain plays fewer made-up jobs for each property than rapid would by itself:
// each is a whole job traced several times over. -rapid.checks asks for more.
func TestMain(m *testing.M) {
	flag.Parse()
	asked := false
	flag.Visit(func(f *flag.Flag) { asked = asked || f.Name == "rapid.checks" })
	if !asked {
		flag.Set("rapid.checks", "30")
	}
	os.Exit(m.Run())
}

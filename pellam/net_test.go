package pellam

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// Known bridges. The balanced one carries nothing in the middle; the other is
// worked with the delta-wye change (Kennelly 1899): 1, 2, 3, 4 and 5 ohms.
func TestBridges(t *testing.T) {
	for _, c := range []struct {
		name string
		ohms [5]float64 // top to left, top to right, left to right, left to bottom, right to bottom
		want float64
	}{
		{"balanced", [5]float64{1, 2, 7, 2, 4}, 2},
		{"unbalanced", [5]float64{1, 2, 3, 4, 5}, 61.0 / 21},
	} {
		t.Run(c.name, func(t *testing.T) {
			var links []link
			for i, p := range [][2]int{{0, 1}, {0, 2}, {1, 2}, {1, 3}, {2, 3}} {
				links = append(links, link{p[0], p[1], 1 / c.ohms[i]})
			}
			if got, ok := factor(4, links, nil).between(0, 3); !ok || math.Abs(got-c.want) > 1e-12 {
				t.Errorf("%v, want %v", got, c.want)
			}
		})
	}
}

// The net agrees with the node equations solved in exact fractions.
func TestNetAgainstExactSolver(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 9).Draw(t, "joints")
		var links []link
		for range rapid.IntRange(1, 16).Draw(t, "links") {
			a, b := rapid.IntRange(0, n-1).Draw(t, "a"), rapid.IntRange(0, n-1).Draw(t, "b")
			if a != b {
				links = append(links, link{a, b, float64(rapid.IntRange(1, 64).Draw(t, "siemens")) / 8})
			}
		}
		a, b := rapid.IntRange(0, n-1).Draw(t, "from"), rapid.IntRange(0, n-1).Draw(t, "to")
		if a == b {
			return
		}
		got, ok := factor(n, links, nil).between(a, b)
		want, reached := exact(n, links, a, b)
		if ok != reached || ok && math.Abs(got-want) > 1e-9*want {
			t.Fatalf("%v (reached %v), exactly %v (reached %v)", got, ok, want, reached)
		}
		held := map[int]float64{a: 120, b: -120}
		volts := factor(n, links, held).potentials(held)
		for i := range n {
			checkCurrents(t, n, links, held, volts, i)
		}
	})
}

// checkCurrents wants what flows into a joint to flow out again (Kirchhoff), and
// NaN only where nothing held is reached.
func checkCurrents(t *rapid.T, n int, links []link, held map[int]float64, volts []float64, at int) {
	if math.IsNaN(volts[at]) {
		for h := range held {
			if _, reached := exact(n, links, at, h); reached && at != h {
				t.Fatalf("joint %d floats and reaches %d", at, h)
			}
		}
		return
	}
	if _, is := held[at]; is {
		return
	}
	sum := 0.0
	for _, l := range links {
		if l.a == at {
			sum += (volts[l.b] - volts[at]) * l.siemens
		}
		if l.b == at {
			sum += (volts[l.a] - volts[at]) * l.siemens
		}
	}
	if math.Abs(sum) > 1e-9 {
		t.Fatalf("%g A vanish at joint %d", sum, at)
	}
}

// exact is the resistance between two joints in fractions: joint b is held at
// zero, one ampere goes in at a, and the node equations are solved by Gauss and
// Jordan. Joints that b does not reach have no equation of rank.
func exact(n int, links []link, a, b int) (float64, bool) {
	m := make([][]*big.Rat, n)
	for i := range m {
		m[i] = make([]*big.Rat, n+1)
		for j := range m[i] {
			m[i][j] = new(big.Rat)
		}
	}
	for _, l := range links {
		g := new(big.Rat).SetFloat64(l.siemens)
		m[l.a][l.a].Add(m[l.a][l.a], g)
		m[l.b][l.b].Add(m[l.b][l.b], g)
		m[l.a][l.b].Sub(m[l.a][l.b], g)
		m[l.b][l.a].Sub(m[l.b][l.a], g)
	}
	for j := range m[b] {
		m[b][j].SetInt64(0)
		m[j%n][b].SetInt64(0)
	}
	m[b][b].SetInt64(1)
	m[a][n].SetInt64(1)
	done := make([]bool, n)
	for col := range n {
		row := -1
		for i := range n {
			if !done[i] && m[i][col].Sign() != 0 {
				row = i
				break
			}
		}
		if row < 0 {
			continue
		}
		done[row] = true
		eliminate(m, row, col)
		m[row], m[col], done[row], done[col] = m[col], m[row], done[col], done[row]
	}
	for i := range n {
		if !done[i] && m[i][n].Sign() != 0 {
			return 0, false // the ampere has nowhere to go
		}
	}
	if m[a][a].Sign() == 0 {
		return 0, false
	}
	r, _ := new(big.Rat).Quo(m[a][n], m[a][a]).Float64()
	return r, true
}

func eliminate(m [][]*big.Rat, row, col int) {
	for i := range m {
		if i == row || m[i][col].Sign() == 0 {
			continue
		}
		f := new(big.Rat).Quo(m[i][col], m[row][col])
		for j := range m[i] {
			m[i][j].Sub(m[i][j], new(big.Rat).Mul(f, m[row][j]))
		}
	}
}

package table

import (
	"math"
	"testing"

	"asfound/quantity"
)

// Constants of the International Annealed Copper Standard at 20 °C as used in NBS
// Handbook 100 (1966); both from memory.
const (
	ohmCircularMilPerFoot = 10.371
	perDegree             = 0.00393
	// Stranding makes the path about 2 % longer: allowance of ASTM B8, from memory.
	stranding = 1.02
)

func near(got, want, within float64) bool { return math.Abs(got/want-1) <= within }

// TestPrintedBranchSizes repeats three cells typed independently of the file:
// NBS Handbook 100 values for the branch circuit sizes, 10 AWG from memory.
func TestPrintedBranchSizes(t *testing.T) {
	for size, want := range map[quantity.Gauge]quantity.Ohms{"14": 2.525, "12": 1.588, "10": 0.9989} {
		if got, found := CopperAt20C(size); !found || got != want {
			t.Errorf("%v: %v, found %v; want %v", size, got, found, want)
		}
	}
	// National Electrical Code chapter 9 table 8, typed from memory.
	for size, want := range map[quantity.Gauge]quantity.Ohms{"14": 3.07, "12": 1.93, "10": 1.21, "8": 0.764} {
		if got, found := CopperAt75C(size, Solid); !found || got != want {
			t.Errorf("%v: %v, found %v; want %v", size, got, found, want)
		}
	}
	for size, want := range map[quantity.Gauge]quantity.Ohms{"14": 3.14, "12": 1.98, "6": 0.491, "1/0": 0.122, "4/0": 0.0608, "500 kcmil": 0.0258} {
		if got, found := CopperAt75C(size, Stranded); !found || got != want {
			t.Errorf("%v stranded: %v, found %v; want %v", size, got, found, want)
		}
	}
}

func TestCopperAt20CAgainstFormula(t *testing.T) {
	for key, ohms := range copper20() {
		want := 1000 * ohmCircularMilPerFoot / key.size.CircularMils()
		if !near(float64(ohms), want, 0.006) {
			t.Errorf("%v: table %v per 1000 ft, formula %.4f", key.size, ohms, want)
		}
	}
}

func TestCopperAt75CAgainstFormula(t *testing.T) {
	for key, ohms := range copper75() {
		want := 1000 * ohmCircularMilPerFoot / key.size.CircularMils() * (1 + perDegree*55)
		if key.make == Stranded {
			want *= stranding
		}
		if !near(float64(ohms), want, 0.006) {
			t.Errorf("%+v: table %v per 1000 ft, formula %.4f", key, ohms, want)
		}
	}
}

func TestHotterByTheTemperatureCoefficient(t *testing.T) {
	compared := 0
	for key, cold := range copper20() {
		hot, found := CopperAt75C(key.size, Solid)
		if !found {
			continue
		}
		compared++
		if ratio := float64(hot / cold); !near(ratio, 1+perDegree*55, 0.006) {
			t.Errorf("%v: 75 °C over 20 °C is %.4f, want %.4f", key.size, ratio, 1+perDegree*55)
		}
	}
	if compared < 6 { // 18 to 8 AWG are printed in both
		t.Errorf("only %d sizes stand in both tables", compared)
	}
}

func TestResistanceFallsAsTheConductorGrows(t *testing.T) {
	for name, sheet := range map[string]map[conductor]quantity.Ohms{"20 °C": copper20(), "75 °C": copper75()} {
		for a, ohmsA := range sheet {
			for b, ohmsB := range sheet {
				if a.make == b.make && a.size.Less(b.size) && ohmsA <= ohmsB {
					t.Errorf("%s: %v has %v, larger %v has %v", name, a.size, ohmsA, b.size, ohmsB)
				}
				if a.size == b.size && a.make == Solid && b.make == Stranded && ohmsA >= ohmsB {
					t.Errorf("%s: %v solid %v, stranded %v", name, a.size, ohmsA, ohmsB)
				}
			}
		}
	}
}

func TestSizeNotPrintedIsNotFound(t *testing.T) {
	for _, size := range []quantity.Gauge{"", "11", "900 kcmil", "thick"} {
		if ohms, found := CopperAt20C(size); found {
			t.Errorf("%q at 20 °C: %v", size, ohms)
		}
		if ohms, found := CopperAt75C(size, Stranded); found {
			t.Errorf("%q at 75 °C: %v", size, ohms)
		}
	}
	if ohms, found := CopperAt75C("4/0", Solid); found {
		t.Errorf("4/0 solid is not printed, found %v", ohms)
	}
}

package quantity

import "strings"

// ParseVolts reads one voltmeter reading: a number with a decimal point or
// comma, and V, volts, VAC, mV or kV or no unit (then volts). A sign is refused:
// the readings kept here are rms values. Every refusal is an [*Unusable].
func ParseVolts(raw string) (Volts, error) {
	t := take(raw)
	if t.negative() {
		return 0, t.refuse("Type the voltage without a minus sign.")
	}
	digits, rest, err := t.number("what the voltmeter shows")
	if err != nil {
		return 0, err
	}
	exponent, ok := voltPrefix(rest)
	if !ok {
		return 0, t.leftover(rest, "V, mV or no unit (volts)")
	}
	volts, err := t.scaled(digits, exponent)
	if err != nil {
		return 0, err
	}
	return Volts(volts), nil
}

func voltPrefix(unit string) (exponent int, ok bool) {
	switch strings.ReplaceAll(unit, " ", "") {
	case "mV", "mv":
		return -3, true
	case "kV", "KV", "kv":
		return 3, true
	}
	switch strings.ToLower(strings.ReplaceAll(unit, " ", "")) {
	case "", "v", "volt", "volts", "vac":
		return 0, true
	}
	return 0, false
}

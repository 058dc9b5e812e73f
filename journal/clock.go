package journal

import "time"

// A hybrid clock reading has 48 bits of milliseconds since 1970 (UTC) and 16
// bits of counter. It never goes back, and an event's reading is later than
// that of every event its device had seen. After Kulkarni, Demirbas and others,
// "Logical Physical Clocks" (2014). A full counter carries into the milliseconds.

// maxAhead is how far another device's clock may run ahead and still be
// followed. Two clocks on one site differ by minutes; one that is hours ahead
// would carry every device with it for good.
const maxAhead = 10 * time.Minute

// counterBits is the width of the counter.
const counterBits = 16

// tick gives the reading for an event recorded now, when last was the latest
// reading given or followed.
func tick(last uint64, now time.Time) uint64 {
	return max(physical(now), last+1)
}

// follow gives the latest reading after seen was heard, and whether seen is too
// far ahead of now to be followed.
func follow(last, seen uint64, now time.Time) (latest uint64, ahead bool) {
	if seen > physical(now.Add(maxAhead)) {
		return last, true
	}
	return max(last, seen), false
}

func physical(now time.Time) uint64 {
	return uint64(max(now.UnixMilli(), 0)) << counterBits
}

// ClockTime is the time of day in a hybrid clock reading.
func ClockTime(hlc uint64) time.Time {
	return time.UnixMilli(int64(hlc >> counterBits)).UTC()
}

package paper

import "strings"

const ellipsis = "…"

// Fit returns the text if it is no wider than width millimeters, or else as much
// of its beginning as leaves room for an ellipsis.
func (st Style) Fit(s string, width float64) string {
	s = Clean(s)
	if st.Width(s) <= width {
		return s
	}
	room := width - st.Width(ellipsis)
	n := st.prefix(s, room)
	return strings.TrimRight(s[:n], " ") + ellipsis
}

// prefix returns the number of bytes of the longest beginning of s that is no
// wider than width.
func (st Style) prefix(s string, width float64) int {
	for i, r := range s {
		w := st.Width(string(r))
		if w > width {
			return i
		}
		width -= w
	}
	return len(s)
}

// Wrap breaks the text into lines no wider than width millimeters: at spaces,
// and inside a word only when the word alone is too wide. A line break in the
// text is kept. There is always at least one line, and every character other
// than a space is in exactly one of them.
func (st Style) Wrap(s string, width float64) []string {
	var lines []string
	for part := range strings.SplitSeq(strings.ReplaceAll(s, "\r\n", "\n"), "\n") {
		lines = append(lines, st.wrapLine(Clean(part), width)...)
	}
	return lines
}

func (st Style) wrapLine(s string, width float64) []string {
	const slack = 1e-6 // sums in another order differ in the last digits
	var lines []string
	line := ""
	for word := range strings.SplitSeq(s, " ") {
		if word == "" {
			continue
		}
		if line != "" && st.Width(line+" "+word) <= width+slack {
			line += " " + word
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for st.Width(word) > width+slack {
			n := st.breakAt(word, width)
			if n == len(word) {
				break
			}
			lines, word = append(lines, word[:n]), word[n:]
		}
		line = word
	}
	return append(lines, line)
}

// breakAt returns where to break a word: at least one character from its start,
// so that a column too narrow for a letter still ends.
func (st Style) breakAt(word string, width float64) int {
	if n := st.prefix(word, width); n > 0 {
		return n
	}
	for i := range word {
		if i > 0 {
			return i
		}
	}
	return len(word)
}

package pattern

import (
	"strings"
	"unicode"
)

// alphabet are the letters used for check letters, one for each value from 0 to
// 12. Left out because they are taken for a figure or for each other when written
// by hand on tape: B (8), D and O and Q (0), G (6), I and J and L (1), S (5), Z (2),
// F (E), U and V (each other). Common practice, no source.
const alphabet = "ACEHKMNPRTWXY"

// field is the prime number of letters.
const field = len(alphabet)

// points gives each place of a number its own factor in the second letter: all
// values but zero, in an order found by search so that numbers close to each
// other keep apart (see the tests). Changing it would spoil tapes already written.
var points = [field - 1]int{11, 7, 1, 9, 6, 12, 8, 10, 3, 2, 5, 4}

// Letters returns the two check letters written beside an opening's number on its
// tape, "A02-08" for example. Whoever notes a reading notes the letters too; when
// they do not match the number, the number or the place is wrong.
//
// The number is read as groups: each run of figures is a group and so is each
// letter; anything else only separates. Small and capital letters count the same,
// and so does a number with or without leading zeros: "a2-8" has the letters of
// "A02-08". Text without any letter or figure has no check letters.
//
// The first letter is the sum of all figures modulo 13, the second the sum of the
// figures each times the factor of its place: a code of distance three over the
// field of 13 elements as long as the places do not outnumber its 12 factors (a
// letter takes two places, a group of figures four). So for a number such as a
// letter and two groups of up to four figures:
//   - one figure changed changes both letters;
//   - any two figures changed or exchanged change at least one letter;
//   - one letter of the number changed changes at least one letter;
//   - a wrong figure and one misread check letter together still do not match.
//
// Beyond the code's guarantee, and tested one by one: in any one group of such a
// number, two numbers no more than 59 apart never share their letters. Three wrong
// figures go unnoticed about once in 169.
func Letters(number string) string {
	first, second := 0, 0
	place, groups := 0, 0
	for _, group := range groupsOf(number) {
		scale := 1 + groups%(field-1) // keeps the exchange of two neighboring letters apart; never zero
		groups++
		for i, value := range group {
			scaled := scale * value
			first += scaled
			second += scaled * points[(place+i)%len(points)]
		}
		place += len(group)
	}
	if groups == 0 {
		return ""
	}
	// A group that is zero must still count.
	first, second = (first+groups)%field, (second+groups)%field
	return alphabet[first:first+1] + alphabet[second:second+1]
}

// LettersMatch reports whether typed are the check letters of number; capitals and
// spaces do not matter.
func LettersMatch(number, typed string) bool {
	want := Letters(number)
	return want != "" && strings.ToUpper(strings.Join(strings.Fields(typed), "")) == want
}

// groupsOf splits a number into its groups, each a list of values: for figures the
// units first and at least four, for a letter its place in the alphabet in two
// values below 13.
func groupsOf(number string) [][]int {
	var groups [][]int
	var figures []int
	end := func() {
		if figures != nil {
			groups = append(groups, unitsFirst(figures))
			figures = nil
		}
	}
	for _, r := range number {
		switch {
		case '0' <= r && r <= '9':
			figures = append(figures, int(r-'0'))
		case unicode.IsLetter(r):
			end()
			k := int(unicode.ToUpper(r)-'A') % (field * field)
			if k < 0 {
				k += field * field
			}
			groups = append(groups, []int{k / field, k % field})
		default:
			end()
		}
	}
	end()
	return groups
}

// unitsFirst turns figures as written into units, tens, hundreds and thousands,
// and more only when the number has them.
func unitsFirst(figures []int) []int {
	for len(figures) > 4 && figures[0] == 0 {
		figures = figures[1:]
	}
	group := make([]int, max(4, len(figures)))
	for i, figure := range figures {
		group[len(figures)-1-i] = figure
	}
	return group
}

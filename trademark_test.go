package asfound_test

import (
	"crypto/sha256"
	"encoding/hex"
	"slices"
	"strings"
	"testing"
)

// Some everyday names of tools, cables and connectors are trade marks. The tree
// does not name them, so the list holds the first half of the SHA-256 of each,
// in small letters and without spaces: markOf makes one.

func markOf(word string) string {
	sum := sha256.Sum256([]byte(word))
	return hex.EncodeToString(sum[:8])
}

// tradeMarks finds single words and pairs of words that are in the list.
func tradeMarks(text string, list []string) []string {
	var found []string
	before := ""
	for _, word := range strings.Fields(plain(text)) {
		for _, try := range []string{word, strings.TrimSuffix(word, "s"), before + word} {
			if slices.Contains(list, markOf(try)) && !slices.Contains(found, try) {
				found = append(found, try)
			}
		}
		before = word
	}
	return found
}

func TestNoTradeMarks(t *testing.T) {
	for _, name := range treeFiles(t) {
		for _, word := range tradeMarks(readText(t, name), markedWords) {
			t.Errorf("%s says %q, a trade mark: see docs/words.md for the plain word", name, word)
		}
	}
}

func TestPlantedTradeMarkIsCaught(t *testing.T) {
	list := []string{markOf("clickbrass"), markOf("gripwell")}
	cases := []struct {
		name, text, want string
	}{
		{"single word", "a Clickbrass connector", "clickbrass"},
		{"plural", "three gripwells", "gripwell"},
		{"two words", "a click brass connector", "clickbrass"},
		{"hyphen", "Grip-well pliers", "gripwell"},
		{"plain words", "click, then brass; grip it well", ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := strings.Join(tradeMarks(c.text, list), " "); got != c.want {
				t.Errorf("found %q, want %q", got, c.want)
			}
		})
	}
}

var markedWords = []string{
	"0342ece2896ca1c6",
	"07d0397490d21c11",
	"2283ae30c2742575",
	"35358ffeee1217b5",
	"3e24f1f167fd1fd4",
	"40b232104de9cb9e",
	"45efeb0ffc6c19e2",
	"50ff4435fa013dd5",
	"56a0ce0be65ebcba",
	"5882c4effae89647",
	"68c390fa064f44c3",
	"6c296fde55b85278",
	"71ffac2d9e6d3538",
	"7625d82f19095a28",
	"7c2ad0e72fa72ef2",
	"81a10b2213360b90",
	"9224d1b474c29fcf",
	"9338438b5752ad7c",
	"939689a4fa928e3d",
	"97fbc39619a35833",
	"997f8bf7f7b4bf39",
	"a33b7db992dbbfbd",
	"a60087b935a3d6bb",
	"b7ba8c1f6f9e38b1",
	"bbd5df5f4da2c914",
	"bd06e0108a69f323",
	"bf6cf143c37374f9",
	"c0b0edcce5993667",
	"c1f32b57d6f4108c",
	"c37b79a051e32d4c",
	"db6f876a3ecee6bd",
	"dfbfbbee5ba01ce6",
	"e99ca634bf06b7dc",
	"ea8925af21b7d365",
	"fce291c747e58267",
}

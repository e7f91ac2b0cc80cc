// Package words takes numbers and returns the words for them that several commands print.
package words

import "fmt"

// Count is a number with a noun, which takes an s unless the number is 1: "1 bar",
// "12 bars".
func Count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

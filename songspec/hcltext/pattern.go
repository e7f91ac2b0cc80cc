package songspec

import (
	"regexp"
	"sync"
)

// pattern is a regular expression that is made when it is first needed: most songs
// have nothing wrong with them, and should not wait for it.
func pattern(src string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(src) })
}

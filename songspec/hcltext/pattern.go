package hcltext

import (
	"regexp"
	"sync"
)

// Pattern is a regular expression that is made when it is first needed: most files
// have nothing wrong with them, and should not wait for it.
func Pattern(src string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(src) })
}

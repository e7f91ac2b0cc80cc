package main

import (
	"fmt"
	"io"
	"strings"
	"sync"
	"time"
	"unicode/utf8"
)

// statusLine is a line on a terminal that says what is being done, written over again. What takes less than
// statusAfter is not worth one.
type statusLine struct {
	to io.Writer // nil: no terminal

	mu    sync.Mutex
	next  time.Time // when it may be written
	width int       // of what stands there
}

const (
	statusAfter = 500 * time.Millisecond
	statusEvery = 100 * time.Millisecond
)

func newStatusLine(to io.Writer, terminal bool) *statusLine {
	s := &statusLine{next: time.Now().Add(statusAfter)}
	if terminal {
		s.to = to
	}
	return s
}

// show says what is being done.
func (s *statusLine) show(text string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if now := time.Now(); s.to != nil && !now.Before(s.next) {
		s.next = now.Add(statusEvery)
		s.write(text)
	}
}

// clear takes the line away.
func (s *statusLine) clear() {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.width > 0 {
		s.write("")
		fmt.Fprint(s.to, "\r")
	}
}

func (s *statusLine) write(text string) {
	width := utf8.RuneCountInString(text)
	fmt.Fprint(s.to, "\r"+text+strings.Repeat(" ", max(s.width-width, 0)))
	s.width = width
}

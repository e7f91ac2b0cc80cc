// Package live is what `plinth watch` does: it lets the watcher find the saves,
// builds with bed, puts the files in place, and says in a line what changed.
package live

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"time"

	"plinth/cmd/internal/bed"
	"plinth/cmd/internal/files"
	"plinth/cmd/internal/then"
	"plinth/cmd/internal/watch"
	"plinth/groove"
	"plinth/songspec/hcltext"
	"plinth/songspec/outline"
)

// Options say what to keep up to date and how.
type Options struct {
	Song string // the song file, as the user named it
	Out  string // the folder to write to; empty: bed, beside the song
	// Poll looks at the files every PollEvery (0: the watcher's default) instead of
	// waiting for the system's word.
	Poll      bool
	PollEvery time.Duration
	Then      string // a command line to run after each good build; may be empty

	To       io.Writer // all that is said
	Color    bool
	MaxDiags int // how many mistakes are shown

	// Build makes the outputs; nil: bed.Build.
	Build func(bed.Request) (*bed.Result, error)
	// Good is told of each good build after its files are in place; may be nil. It
	// is called by one goroutine at a time and must not keep it waiting.
	Good func(*bed.Result)
	// Bad is told of each build that failed, with what was said about it.
	Bad func(said string)
}

// session is one run of watch.
type session struct {
	Options
	out   *lines
	then  *then.Runner
	cache groove.Cache

	good    *bed.Result // the last one that was written
	failing bool
	doubts  string // the last warnings shown
}

// Run builds, and builds again after every save, until ctx is done. What goes
// wrong with a song is said and is no error.
func Run(ctx context.Context, o Options) error {
	if info, err := os.Stat(o.Song); err == nil && !info.Mode().IsRegular() {
		return &bed.SongError{Path: o.Song, Err: files.ErrNotFile}
	}
	if o.Out == "" {
		o.Out = filepath.Join(filepath.Dir(o.Song), "bed")
	}
	if o.Build == nil {
		o.Build = bed.Build
	}
	s := &session{Options: o, out: &lines{to: o.To}}
	if o.Then != "" {
		s.then = then.New(o.Then, s.out)
		defer s.then.Close()
	}
	return watch.Run(ctx, watch.Options{
		Song: o.Song, Poll: o.Poll, PollEvery: o.PollEvery,
		Build: s.build,
		Tell:  func(n watch.Notice) { s.say(n.String()) },
	})
}

// build is one build from a snapshot. A panic in it is our own mistake, and no
// reason to stop watching.
func (s *session) build(_ context.Context, snapshot *watch.Snapshot) (out watch.Outcome) {
	start := time.Now()
	defer func() {
		if p := recover(); p != nil {
			s.fail(fmt.Sprintf("this is a mistake in plinth, not in your song. Please report it with the song file and these lines:\n%v\n%s", p, debug.Stack()))
			out.Read = append(out.Read, s.Song)
		}
	}()
	res, err := s.Build(bed.Request{Song: s.Song, ReadFile: snapshot.ReadFile, Cache: &s.cache})
	out.Read = res.Read
	diags := s.diagnostics(res)
	switch {
	case err != nil:
		s.fail(diags + err.Error())
		return out
	case res.Failed():
		s.fail(diags)
		return out
	}
	if _, err := files.WriteAll(s.Out, res.Outputs); err != nil {
		s.fail(diags + err.Error())
		out.Again = true
		return out
	}
	s.succeed(res, diags, start)
	return out
}

// fail says what is wrong and what is still there.
func (s *session) fail(what string) {
	what = strings.TrimRight(what, "\n") + "\n"
	s.out.write(what)
	s.failing, s.doubts = true, ""
	if s.good != nil || s.older() {
		s.say("still playing the last good one")
	} else {
		s.say("nothing to play yet")
	}
	if s.Bad != nil {
		s.Bad(what)
	}
}

// older reports whether an earlier run has left a file.
func (s *session) older() bool {
	_, err := os.Stat(filepath.Join(s.Out, bed.Name(s.Song)+".mid"))
	return err == nil
}

func (s *session) succeed(res *bed.Result, doubts string, start time.Time) {
	if doubts != s.doubts { // a doubt that stays need not be said at every save
		s.out.write(doubts)
		s.doubts = doubts
	}
	text := fmt.Sprintf("%s  %s", s.bars(res), s.news(res))
	s.say(fmt.Sprintf("%s  (%d ms)", text, time.Since(start).Milliseconds()))
	s.good, s.failing = res, false
	if s.then != nil {
		s.then.Start()
	}
	if s.Good != nil {
		s.Good(res)
	}
}

func (s *session) bars(res *bed.Result) string {
	n := res.Timeline.SongBars()
	if n == 1 {
		return "1 bar"
	}
	return fmt.Sprintf("%d bars", n)
}

// news is what is new about a good build, in a few words.
func (s *session) news(res *bed.Result) string {
	if s.good == nil {
		names := make([]string, len(res.Outputs))
		for i, o := range res.Outputs {
			names[i] = filepath.Join(s.Out, o.Name)
		}
		return strings.Join(names, ", ") + ": " + res.Summary()
	}
	var parts []string
	if text := outline.Summary(outline.Diff(s.good.Timeline, res.Timeline)); text != "" {
		parts = append(parts, text)
	}
	parts = append(parts, s.otherFiles(res)...)
	text := strings.Join(parts, "; ")
	if text == "" {
		text = "nothing that is heard"
	}
	if s.failing {
		text = "fixed: " + text
	}
	return text
}

// otherFiles are the song's groove files that changed.
func (s *session) otherFiles(res *bed.Result) []string {
	var out []string
	for _, name := range slices.Sorted(maps.Keys(res.Sources)) {
		old, known := s.good.Sources[name]
		if name != s.Song && known && string(old) != string(res.Sources[name]) {
			out = append(out, filepath.Base(name))
		}
	}
	return out
}

func (s *session) diagnostics(res *bed.Result) string {
	if len(res.Diags) == 0 {
		return ""
	}
	var b strings.Builder
	if err := hcltext.WriteDiagnostics(&b, res.Sources, res.Diags, hcltext.DiagOptions{Color: s.Color, Max: s.MaxDiags}); err != nil {
		panic(errors.Join(errors.New("live: a strings.Builder failed"), err))
	}
	return b.String()
}

// say writes one line with the time of day in front.
func (s *session) say(text string) {
	s.out.write(time.Now().Format("15:04:05") + "  " + text + "\n")
}

// lines is a writer that several goroutines write whole lines to. An error
// cannot be told to anybody: what could not be written is where it would be said.
type lines struct {
	mu sync.Mutex
	to io.Writer
}

func (l *lines) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.to.Write(p)
}

func (l *lines) write(text string) { io.WriteString(l, text) }

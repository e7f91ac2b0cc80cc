// Package live takes a song file and keeps its outputs up to date until it is stopped, as
// `plinth watch` does: the watcher finds the saves, bed builds, files writes, and one line
// says what changed.
package live

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
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
	"plinth/cmd/internal/serve"
	"plinth/cmd/internal/then"
	"plinth/cmd/internal/watch"
	"plinth/groove"
	"plinth/songspec"
	"plinth/songspec/hcltext"
	"plinth/songspec/outline"
	"plinth/songspec/wording"
)

// Options say which song to keep up to date and how.
type Options struct {
	Song string // the song file, as the user named it
	Out  string // the folder to write to; empty: bed, beside the song
	// Poll looks at the files every PollEvery (0: the watcher's default) instead of
	// waiting for events.
	Poll      bool
	PollEvery time.Duration
	// Only and Override are those of bed.Request.
	Only     string
	Override songspec.Override
	Then     string // a command line to run after each good build; may be empty
	// Page, when not nil, serves the song to browsers.
	Page *Page

	To       io.Writer // everything is written to it
	Color    bool
	MaxDiags int // how many mistakes are shown

	builder func(bed.Request) (*bed.Result, error) // for tests; nil: bed.Build
}

// session is one run of plinth watch.
type session struct {
	Options
	out   *lineWriter
	then  *then.Runner
	page  *serve.Server // nil without a page
	cache groove.Cache

	good    *bed.Result // the last one that was written
	failing bool
	doubts  string // the last warnings shown
}

// Run builds at once and again after every save, until ctx is done. Mistakes in the song
// are printed and are no error; an error means that watching could not begin.
func Run(ctx context.Context, o Options) error {
	if info, err := os.Stat(o.Song); err == nil && !info.Mode().IsRegular() {
		return &bed.SongError{Path: o.Song, Err: files.ErrNotFile}
	} else if errors.Is(err, fs.ErrNotExist) { // a song that is still to be written is waited for
		if _, same := bed.Meant(o.Song); same {
			return &bed.SongError{Path: o.Song, Err: err}
		}
	}
	if o.Out == "" {
		o.Out = filepath.Join(filepath.Dir(o.Song), "bed")
	}
	if o.builder == nil {
		o.builder = bed.Build
	}
	s := &session{Options: o, out: &lineWriter{to: o.To}}
	if o.Then != "" {
		s.then = then.New(o.Then, s.out)
		defer s.then.Close()
	}
	if o.Page != nil {
		if err := s.openPage(); err != nil {
			return err
		}
		defer s.page.Close()
	}
	return watch.Run(ctx, watch.Options{
		Song: o.Song, Poll: o.Poll, PollEvery: o.PollEvery,
		Build: s.build,
		Tell: func(n watch.Notice) {
			n.Kept = s.hasOutput()
			text := n.String()
			if n.Kind == watch.Missing && s.good == nil {
				text += bed.IsIt(o.Song)
			}
			s.say(text)
			s.pageNotice(n.Kind, text)
		},
	})
}

// build builds once from a snapshot. A panic is a mistake in plinth: it is printed, and
// watching goes on.
func (s *session) build(_ context.Context, snapshot *watch.Snapshot) (out watch.Outcome) {
	start := time.Now()
	defer func() {
		if p := recover(); p != nil {
			s.fail(ourMistake(fmt.Sprintf("%v\n%s", p, debug.Stack())))
			s.pageBroken()
			out.Read = append(out.Read, s.Song)
		}
	}()
	res, err := s.builder(bed.Request{Song: s.Song, ReadFile: snapshot.ReadFile, Cache: &s.cache,
		Override: s.Override, Only: s.Only})
	out.Read = res.Read
	var b strings.Builder // which never fails
	hcltext.WriteDiagnostics(&b, res.Sources, res.Diags, hcltext.DiagOptions{Color: s.Color, Max: s.MaxDiags})
	diags := b.String()
	if err == nil && !res.Failed() {
		_, err = files.WriteAll(s.Out, res.Outputs)
		out.Again = err != nil
	}
	switch {
	case err != nil:
		s.fail(diags + err.Error())
		s.pageWrong(res, err)
	case res.Failed():
		s.fail(diags)
		s.pageWrong(res, nil)
	default:
		s.succeed(res, diags, start)
	}
	return out
}

// fail says what is wrong and which output is still there.
func (s *session) fail(what string) {
	s.out.write(strings.TrimRight(what, "\n") + "\n")
	s.failing, s.doubts = true, ""
	s.say(stillPlaying(s.hasOutput()))
}

// stillPlaying says what is played after a save that is wrong, where there is something.
func stillPlaying(something bool) string {
	if something {
		return "still playing the last good one"
	}
	return "nothing to play yet"
}

// hasOutput reports whether what a good build has written is there. An earlier run may have left
// it; of a part of the song only those of this run are known.
func (s *session) hasOutput() bool {
	if s.good != nil || s.Only != "" {
		return s.good != nil
	}
	_, err := os.Stat(filepath.Join(s.Out, bed.Name(s.Song)+".mid"))
	return err == nil
}

// succeed says what a good build has changed, and runs the command.
func (s *session) succeed(res *bed.Result, doubts string, start time.Time) {
	if doubts != s.doubts { // a doubt that stays need not be said at every save
		s.out.write(doubts)
		s.doubts = doubts
	}
	what, file := s.whatIsNew(res), ""
	if s.good == nil { // the first line has the whole summary
		file = filepath.Join(s.Out, res.Outputs[0].Name) + ": "
	} else {
		what = wording.Count(res.Timeline.SongBars(), "bar") + "  " + what
	}
	s.say(fmt.Sprintf("%s%s  (%d ms)", file, what, time.Since(start).Milliseconds()))
	s.pageGood(res, what)
	s.good, s.failing = res, false
	if s.then != nil {
		s.then.Start()
	}
}

// whatIsNew says in a few words what a good build has changed.
func (s *session) whatIsNew(res *bed.Result) string {
	if s.good == nil {
		return res.Summary()
	}
	var parts []string
	if text := outline.Summary(outline.Diff(s.good.Timeline, res.Timeline)); text != "" {
		parts = append(parts, text)
	}
	for _, name := range slices.Sorted(maps.Keys(res.Sources)) { // its groove files
		old, known := s.good.Sources[name]
		if name != s.Song && known && string(old) != string(res.Sources[name]) {
			parts = append(parts, filepath.Base(name))
		}
	}
	text := strings.Join(parts, "; ")
	if text == "" {
		text = "nothing that is heard"
	}
	if s.failing {
		text = "fixed: " + text
	}
	return text
}

// say writes one line with the time of day in front.
func (s *session) say(text string) {
	s.out.write(time.Now().Format("15:04:05") + "  " + text + "\n")
}

// lineWriter lets several goroutines write whole lines. Its errors are lost: there is no
// other place to report them.
type lineWriter struct {
	mu sync.Mutex
	to io.Writer
}

func (l *lineWriter) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.to.Write(p)
}

func (l *lineWriter) write(text string) { io.WriteString(l, text) }

package live

import (
	"errors"
	"path/filepath"

	"plinth/cmd/internal/bed"
	"plinth/cmd/internal/files"
	"plinth/cmd/internal/serve"
	"plinth/cmd/internal/watch"
	"plinth/render/page"
)

// Page says how the song is served to browsers.
type Page struct {
	Ports  []int // as those of serve.Options
	Sounds page.Sounds
}

// openPage begins to serve the song, and says where.
func (s *session) openPage() error {
	server, err := serve.Start(serve.Options{Ports: s.Page.Ports, Sounds: s.Page.Sounds, File: filepath.Base(s.Song),
		Only: s.Only, Mistake: func(text string) { s.out.write(ourMistake(text) + "\n") }})
	if err != nil {
		return err
	}
	s.page = server
	s.out.write("hear it in a browser: " + server.Address() + "\n")
	return nil
}

// ourMistake is a panic in words.
func ourMistake(text string) string {
	return "this is a mistake in plinth, not in your song. Please report it with the song file and these lines:\n" +
		text
}

// pageWrong tells the page of a build that failed by the mistakes of the song, or by err. The words for the
// page have no folders.
func (s *session) pageWrong(res *bed.Result, err error) {
	if s.page == nil {
		return
	}
	wrong, doubts := serve.Diags(res.Diags, res.Sources)
	if err != nil {
		d := page.Diag{Severity: "error", Summary: "The song could not be built", Detail: files.Reason(err)}
		var notPlayed *bed.NotPlayedError
		switch {
		case errors.As(err, &notPlayed):
			d.Summary = "The song does not play this part"
		case len(res.Outputs) > 0:
			d.Summary, d.Detail = "The files could not be written", "Where plinth watch runs it is printed why."
		}
		wrong = append([]page.Diag{d}, wrong...)
	}
	s.page.Wrong(stillPlaying(s.good != nil), wrong, doubts)
}

// pageBroken tells the page of a mistake of ours in a build.
func (s *session) pageBroken() {
	if s.page != nil {
		s.page.Wrong(stillPlaying(s.good != nil), []page.Diag{{Severity: "error",
			Summary: "This is a mistake in plinth, not in your song. It is printed where plinth watch runs."}}, nil)
	}
}

// pageNotice tells the page what is no build.
func (s *session) pageNotice(kind watch.NoticeKind, text string) {
	switch {
	case s.page == nil:
	case kind == watch.Missing, kind == watch.Blank:
		s.page.Lost(stillPlaying(s.good != nil), text)
	case kind == watch.Back:
		s.page.Back()
	}
}

// pageGood tells the page of a good build.
func (s *session) pageGood(res *bed.Result, says string) {
	if s.page != nil {
		_, doubts := serve.Diags(res.Diags, res.Sources)
		s.page.Good(res.Timeline, res.Performance, says, doubts)
	}
}

package live

import (
	"errors"
	"path/filepath"

	"plinth/cmd/internal/bed"
	"plinth/cmd/internal/files"
	"plinth/cmd/internal/serve"
	"plinth/render/page"
)

// Page says how the song is served to browsers.
type Page struct {
	Port   int // 0: any that is free
	Sounds page.Sounds
}

// openPage begins to serve the song, and says where.
func (s *session) openPage() error {
	server, err := serve.Start(serve.Options{Port: s.Page.Port, Sounds: s.Page.Sounds, File: filepath.Base(s.Song),
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

// stillPlaying says what is heard after a save that is wrong.
func (s *session) stillPlaying() string {
	if s.good != nil {
		return "still playing the last good one"
	}
	return "nothing to play yet"
}

// pageWrong tells the page of a build that failed by the mistakes of the song, or by err. The words for the
// page have no folders.
func (s *session) pageWrong(res *bed.Result, err error) {
	if s.page == nil {
		return
	}
	if err == nil {
		s.page.Wrong(s.stillPlaying(), serve.Diags(res.Diags, res.Sources))
		return
	}
	summary, reason := "The song could not be built", files.Reason(err)
	var notPlayed *bed.NotPlayedError
	if errors.As(err, &notPlayed) {
		summary = "The song does not play this part"
	}
	s.page.Wrong(s.stillPlaying(), append([]page.Diag{{Severity: "error", Summary: summary, Detail: reason}},
		serve.Diags(res.Diags, res.Sources)...))
}

// pageLost tells the page what keeps plinth from building that is in no file.
func (s *session) pageLost(what string) {
	if s.page != nil {
		s.page.Wrong(s.stillPlaying(), []page.Diag{{Severity: "error", Summary: what}})
	}
}

// pageGood tells the page of a good build.
func (s *session) pageGood(res *bed.Result, says string) {
	if s.page != nil {
		s.page.Good(res.Timeline, res.Performance, says, serve.Diags(res.Diags, res.Sources))
	}
}

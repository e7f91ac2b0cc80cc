package serve

import (
	"fmt"
	"io"
	"net/http"
	"runtime/debug"
	"strconv"
	"time"

	"plinth/render/page"
)

// serveEvents is the stream of a page: the whole state at once and after each change, and the room after
// it. A page that is slow misses states and gets the newest.
func (s *Server) serveEvents(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Content-Type", "text/event-stream")
	if r.Method == http.MethodHead {
		return
	}
	notice, end := s.story.listen()
	if notice == nil {
		refuse(w, http.StatusServiceUnavailable)
		return
	}
	defer end()
	out := http.NewResponseController(w)
	out.Flush() // the page knows at once that it is connected
	send := func(event string, id int, data []byte) bool {
		out.SetWriteDeadline(time.Now().Add(writeTime))
		if data == nil {
			_, err := io.WriteString(w, ":\n\n")
			return err == nil && out.Flush() == nil
		}
		if _, err := fmt.Fprintf(w, "id: %d\nevent: %s\ndata: %s\n\n", id, event, data); err != nil {
			return false
		}
		return out.Flush() == nil
	}
	// A browser that lost the stream says how far it came.
	seen, _ := strconv.Atoi(r.Header.Get("Last-Event-ID"))
	has := told{rev: seen}
	first := true
	beat := time.NewTicker(s.heartbeat)
	defer beat.Stop()
	for {
		state, room, now := s.story.news(has, first)
		first, has = false, now
		if state != nil && !send("state", now.rev, state) || room != nil && !send("room", now.rev, room) {
			return
		}
		select {
		case <-notice:
		case <-beat.C:
			if !send("", 0, nil) {
				return
			}
		case <-r.Context().Done():
			return
		}
	}
}

// room measures the room of a bed. A panic is a mistake of ours, and costs only the room.
func (s *Server) room(b *page.Bed) (out []byte) {
	defer func() {
		if p := recover(); p != nil && s.Mistake != nil {
			s.Mistake(fmt.Sprintf("%v\n%s", p, debug.Stack()))
		}
	}()
	return page.Room(b)
}

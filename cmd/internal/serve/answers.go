package serve

import (
	"io/fs"
	"net/http"
	"path"
	"strconv"
	"time"

	"plinth/render/page"
)

// immutable is for what has its hash in its name.
const immutable = "private, max-age=31536000, immutable"

// types are the sorts of the page's files. What the system says of their endings does not count.
var types = map[string]string{
	".css": "text/css; charset=utf-8",
	".js":  "text/javascript; charset=utf-8",
	".svg": "image/svg+xml",
	".png": "image/png",
}

// servePage sends the page, and in exchange for the key first the cookie.
func (s *Server) servePage(w http.ResponseWriter, r *http.Request) {
	if s.entering(r) {
		http.SetCookie(w, &http.Cookie{Name: s.cookie(), Value: s.pass, Path: "/", HttpOnly: true,
			SameSite: http.SameSiteStrictMode})
		w.Header().Set("Location", "/")
		w.WriteHeader(http.StatusSeeOther)
		return
	}
	s.file(w, r, "page.html", "text/html; charset=utf-8")
}

// serveApp sends what the page loads.
func (s *Server) serveApp(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("name")
	s.file(w, r, name, types[path.Ext(name)])
}

// file sends an embedded file.
func (s *Server) file(w http.ResponseWriter, r *http.Request, name, sort string) {
	data, err := fs.ReadFile(page.Files(), name)
	if err != nil || sort == "" {
		refuse(w, http.StatusNotFound)
		return
	}
	send(w, r, sort, data)
}

// serveChunk sends a pass.
func (s *Server) serveChunk(w http.ResponseWriter, r *http.Request) {
	data, ok := s.story.chunk(r.PathValue("hash"))
	if !ok {
		refuse(w, http.StatusNotFound)
		return
	}
	w.Header().Set("Cache-Control", immutable)
	send(w, r, "application/json", data)
}

// serveNote sends a note of the bank, or the impulse of the reverb.
func (s *Server) serveNote(w http.ResponseWriter, r *http.Request) {
	name, query := r.PathValue("note"), r.URL.RawQuery
	if r.PathValue("bank") != s.Sounds.Bank.ID() {
		refuse(w, http.StatusNotFound)
		return
	}
	var data []byte
	if name == "room" && query == "" {
		data = s.hall()
	} else if note, ok := s.story.note(name); ok {
		if hold, ok := holdOf(query); ok {
			data = s.note(r.Context(), note, hold)
		}
	}
	if data == nil {
		refuse(w, http.StatusNotFound)
		return
	}
	w.Header().Set("Cache-Control", immutable)
	send(w, r, "application/octet-stream", data)
}

// send answers with some bytes.
func send(w http.ResponseWriter, r *http.Request, sort string, data []byte) {
	http.NewResponseController(w).SetWriteDeadline(time.Now().Add(writeTime))
	w.Header().Set("Content-Type", sort)
	w.Header().Set("Content-Length", strconv.Itoa(len(data)))
	if r.Method != http.MethodHead {
		w.Write(data) // who has gone needs no answer
	}
}

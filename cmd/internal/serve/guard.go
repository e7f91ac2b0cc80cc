package serve

import (
	"crypto/subtle"
	"fmt"
	"net"
	"net/http"
	"runtime/debug"
	"slices"
	"time"
)

// headers are in every answer: the page loads what it needs from here alone, and no other page may
// load or frame it.
var headers = [][2]string{
	{"Content-Security-Policy", "default-src 'none'; script-src 'self'; worker-src 'self'; style-src 'self'; " +
		"connect-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"},
	{"Cross-Origin-Resource-Policy", "same-origin"},
	{"Cross-Origin-Opener-Policy", "same-origin"},
	{"X-Content-Type-Options", "nosniff"},
	{"Referrer-Policy", "no-referrer"},
	{"Permissions-Policy", "midi=(self)"},
	{"Cache-Control", "no-store"},
}

// refusals are what is said with a status.
var refusals = map[int]string{
	http.StatusForbidden: "This page is for who started plinth watch.\n" +
		"Open the address that it printed, with its key, in a new tab.\n",
	http.StatusNotFound:            "There is nothing here.\n",
	http.StatusMethodNotAllowed:    "This can only be read.\n",
	http.StatusServiceUnavailable:  "The song is open in too many tabs. Close some of them.\n",
	http.StatusInternalServerError: "This is a mistake in plinth. It is printed where plinth watch runs.\n",
}

// refuse answers with words alone.
func refuse(w http.ResponseWriter, status int) {
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	fmt.Fprint(w, refusals[status])
}

// guarded lets only those through who may see the song, and keeps a panic from ending plinth.
func (s *Server) guarded(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		for _, h := range headers {
			w.Header().Set(h[0], h[1])
		}
		answer := &answered{ResponseWriter: w}
		defer func() {
			p := recover()
			if p == nil {
				return
			}
			if p != http.ErrAbortHandler && s.Mistake != nil {
				s.Mistake(fmt.Sprintf("%v\n%s", p, debug.Stack()))
			}
			if answer.begun {
				panic(http.ErrAbortHandler) // the answer is cut off, so that nobody takes it for whole
			}
			refuse(w, http.StatusInternalServerError)
		}()
		if status := s.check(r); status != 0 {
			w.Header().Set("Connection", "close")
			if status == http.StatusMethodNotAllowed {
				w.Header().Set("Allow", "GET, HEAD")
			}
			refuse(w, status)
			return
		}
		http.NewResponseController(w).SetReadDeadline(time.Time{}) // it is read, and the answer may take its time
		next.ServeHTTP(answer, r)
	})
}

// check says with which status a request is refused; 0: it is not.
func (s *Server) check(r *http.Request) int {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	site := r.Header["Sec-Fetch-Site"]
	switch {
	case err != nil || !net.ParseIP(host).IsLoopback():
		return http.StatusForbidden
	case !slices.Contains(s.hosts, r.Host): // another name for this address is a trick
		return http.StatusForbidden
	case len(site) > 1 || len(site) == 1 && site[0] != "same-origin" && site[0] != "none":
		return http.StatusForbidden
	case r.Method != http.MethodGet && r.Method != http.MethodHead:
		return http.StatusMethodNotAllowed
	case !s.entering(r) && !s.known(r):
		return http.StatusForbidden
	}
	return 0
}

// entering reports whether a request brings the right key.
func (s *Server) entering(r *http.Request) bool {
	return r.URL.Path == "/" && equal(r.URL.Query().Get("key"), s.key)
}

// known reports whether a request brings the cookie.
func (s *Server) known(r *http.Request) bool {
	c, err := r.Cookie(s.cookie())
	return err == nil && equal(c.Value, s.pass)
}

// equal compares secrets in a time that tells nothing of them.
func equal(a, b string) bool { return subtle.ConstantTimeCompare([]byte(a), []byte(b)) == 1 }

// answered remembers whether an answer has begun.
type answered struct {
	http.ResponseWriter
	begun bool
}

func (a *answered) WriteHeader(status int) {
	a.begun = true
	a.ResponseWriter.WriteHeader(status)
}

func (a *answered) Write(b []byte) (int, error) {
	a.begun = true
	return a.ResponseWriter.Write(b)
}

// Unwrap is for http.ResponseController.
func (a *answered) Unwrap() http.ResponseWriter { return a.ResponseWriter }

package serve

import (
	"bufio"
	"fmt"
	"net"
	"net/http"
	"strings"
	"testing"
)

// raw sends a request as it is written, and gives the answer.
func raw(t *testing.T, s *Server, request string) *http.Response {
	t.Helper()
	c, err := net.Dial("tcp", fmt.Sprintf("127.0.0.1:%d", s.port))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Close() })
	fmt.Fprint(c, strings.ReplaceAll(request, "\n", "\r\n"))
	r, err := http.ReadResponse(bufio.NewReader(c), nil)
	if err != nil {
		t.Fatalf("%v for %q", err, request)
	}
	return r // its body would be read to its end by Close, and a stream has none
}

// Who is let in and who is not.
func TestGuard(t *testing.T) {
	s := serving(t, nil)
	good(t, s, weir, "")
	host := fmt.Sprintf("Host: 127.0.0.1:%d\n", s.port)
	cookie := fmt.Sprintf("Cookie: %s=%s\n", s.cookie(), s.pass)
	for _, row := range []struct {
		what, request string
		want          int
	}{
		{"the page", "GET / HTTP/1.1\n" + host + cookie, 200},
		{"its head alone", "HEAD / HTTP/1.1\n" + host + cookie, 200},
		{"by name", fmt.Sprintf("GET / HTTP/1.1\nHost: localhost:%d\n", s.port) + cookie, 200},
		{"by the page", "GET /events HTTP/1.1\n" + host + cookie + "Sec-Fetch-Site: same-origin\n", 200},
		{"typed", "GET / HTTP/1.1\n" + host + cookie + "Sec-Fetch-Site: none\n", 200},
		{"the key", "GET /?key=" + s.key + " HTTP/1.1\n" + host, 303},

		{"no cookie", "GET / HTTP/1.1\n" + host, 403},
		{"no cookie, a pass", "GET /pass/x HTTP/1.1\n" + host, 403},
		{"no cookie, the stream", "GET /events HTTP/1.1\n" + host, 403},
		{"no cookie, nothing there", "GET /x HTTP/1.1\n" + host, 403},
		{"a wrong key", "GET /?key=" + s.pass + " HTTP/1.1\n" + host, 403},
		{"no key", "GET /?key= HTTP/1.1\n" + host, 403},
		{"the key elsewhere", "GET /events?key=" + s.key + " HTTP/1.1\n" + host, 403},
		{"the key as cookie", fmt.Sprintf("GET / HTTP/1.1\n%sCookie: %s=%s\n", host, s.cookie(), s.key), 403},
		{"a cookie of another port", "GET / HTTP/1.1\n" + host + "Cookie: plinth-1=" + s.pass + "\n", 403},
		{"another site", "GET / HTTP/1.1\n" + host + cookie + "Sec-Fetch-Site: cross-site\n", 403},
		{"another port", "GET / HTTP/1.1\n" + host + cookie + "Sec-Fetch-Site: same-site\n", 403},
		{"two sites", "GET / HTTP/1.1\n" + host + cookie +
			"Sec-Fetch-Site: none\nSec-Fetch-Site: cross-site\n", 403},
		{"another site with the key", "GET /?key=" + s.key + " HTTP/1.1\n" + host +
			"Sec-Fetch-Site: cross-site\n", 403},
		{"a name that leads here", fmt.Sprintf("GET / HTTP/1.1\nHost: evil.test:%d\n", s.port) + cookie, 403},
		{"no port", "GET / HTTP/1.1\nHost: 127.0.0.1\n" + cookie, 403},
		{"a port that is not ours", "GET / HTTP/1.1\nHost: 127.0.0.1:1\n" + cookie, 403},
		{"an address like it", fmt.Sprintf("GET / HTTP/1.1\nHost: 127.1:%d\n", s.port) + cookie, 403},
		{"a whole address in the line", "GET http://evil.test/ HTTP/1.1\n" + host + cookie, 403},
		{"POST", "POST / HTTP/1.1\nContent-Length: 0\n" + host + cookie, 405},
		{"PUT", "PUT /pass/x HTTP/1.1\nContent-Length: 0\n" + host + cookie, 405},
		{"OPTIONS", "OPTIONS / HTTP/1.1\n" + host + cookie, 405},
		{"a word of its own", "SING / HTTP/1.1\n" + host + cookie, 405},
		{"no host", "GET / HTTP/1.1\n" + cookie, 400},
	} {
		r := raw(t, s, row.request+"\n")
		if r.StatusCode != row.want {
			t.Errorf("%s: %d instead of %d", row.what, r.StatusCode, row.want)
		}
		if row.want >= 403 {
			if r.Header.Get("Set-Cookie") != "" || r.Header.Get("Access-Control-Allow-Origin") != "" || !r.Close {
				t.Errorf("%s: %v", row.what, r.Header)
			}
		}
		if row.want == 405 && r.Header.Get("Allow") != "GET, HEAD" {
			t.Errorf("%s: %v", row.what, r.Header)
		}
	}
}

// Paths that lead elsewhere lead nowhere.
func TestPaths(t *testing.T) {
	s := serving(t, nil)
	good(t, s, weir, "")
	for _, path := range []string{"/x", "/app/", "/app", "/app/page.html", "/app/../page.html", "/app/..",
		"/../../etc/passwd", "/app/%2e%2e/%2e%2e/etc/passwd", "/app/..%2f..%2fetc%2fpasswd", "/app/web/page.html",
		"/app//page.css", "//", "/./", "/app/%00", `/app/..\..\x.js`, "/app/x.js", "/page.html", "/weir.song.hcl",
		"/bed/weir.mid", "/events/", "/events/x", "/pass/", "/pass/x", "/pass/x/y", "/note/", "/note/tones1",
		"/note/tones1/", "/note/tones1/p0-1-0", "/note/other/room", "/note/tones1/room/x",
		"/note/tones1/../tones1/room", "/debug/pprof/", "/favicon.ico"} {
		r := raw(t, s, fmt.Sprintf("GET %s HTTP/1.1\nHost: localhost:%d\nCookie: %s=%s\n\n", path, s.port,
			s.cookie(), s.pass))
		if r.StatusCode != http.StatusNotFound && r.StatusCode != http.StatusBadRequest ||
			r.Header.Get("Location") != "" {
			t.Errorf("%s: %d", path, r.StatusCode)
		}
	}
}

// The headers of each sort of answer, value by value.
func TestHeaders(t *testing.T) {
	s := serving(t, nil)
	good(t, s, weir, "")
	b := open(t, s)
	state := b.listen("").until("")
	name := ""
	for n := range s.story.notes {
		name = n
	}
	for path, row := range map[string][2]string{
		"/":                                {"text/html; charset=utf-8", "no-store"},
		"/pass/" + state.Chunks[0].Hash:    {"application/json", "private, max-age=31536000, immutable"},
		"/note/tones1/" + name + "?hold=1": {"application/octet-stream", "private, max-age=31536000, immutable"},
		"/note/tones1/room":                {"application/octet-stream", "private, max-age=31536000, immutable"},
		"/nothing":                         {"text/plain; charset=utf-8", "no-store"},
		"/note/tones1/p0-0-99":             {"text/plain; charset=utf-8", "no-store"},
	} {
		_, h, body := b.get(path)
		for key, want := range map[string]string{
			"Content-Type":  row[0],
			"Cache-Control": row[1],
			"Content-Security-Policy": "default-src 'none'; script-src 'self'; worker-src 'self'; style-src 'self'; " +
				"connect-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
			"Cross-Origin-Resource-Policy": "same-origin",
			"Cross-Origin-Opener-Policy":   "same-origin",
			"X-Content-Type-Options":       "nosniff",
			"Referrer-Policy":              "no-referrer",
			"Permissions-Policy":           "midi=(self)",
			"Content-Length":               fmt.Sprint(len(body)),
			"Server":                       "",
			"Access-Control-Allow-Origin":  "",
			"Set-Cookie":                   "",
		} {
			if got := strings.Join(h.Values(key), "|"); got != want {
				t.Errorf("%s: %s is %q instead of %q", path, key, got, want)
			}
		}
	}
	r := raw(t, s, fmt.Sprintf("GET /?key=%s HTTP/1.1\nHost: 127.0.0.1:%d\n\n", s.key, s.port))
	want := fmt.Sprintf("plinth-%d=%s; Path=/; HttpOnly; SameSite=Strict", s.port, s.pass)
	if r.Header.Get("Set-Cookie") != want || r.Header.Get("Location") != "/" ||
		r.Header.Get("Referrer-Policy") != "no-referrer" {
		t.Errorf("%v", r.Header)
	}
	if len(s.key) != 22 || s.key == s.pass { // 128 bits
		t.Error(s.key, s.pass)
	}
}

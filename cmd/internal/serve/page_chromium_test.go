package serve

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"plinth/groove"
	"plinth/groove/songfiletest"
	"plinth/render/audio/bank"
	"plinth/render/page"
)

// plucks is a bank of short tones that die away: each key has its own pitch, hats have a class.
type plucks struct{}

func (plucks) Name() string { return "plucks" }
func (plucks) ID() string   { return "plucks1" }
func (plucks) Note(p bank.Patch, key, _ uint8) bank.Note {
	return bank.Note{Patch: p, Key: key}
}

func (plucks) Sound(n bank.Note, _ int) bank.Sound {
	out := bank.Sound{Left: make([]float32, bank.Rate/2), Release: 0.02}
	if n.Drums && (n.Key == 42 || n.Key == 44 || n.Key == 46) {
		out.Class = 1
	}
	for i := range out.Left {
		at := float64(i) / bank.Rate
		out.Left[i] = float32(0.3 * math.Exp(-at/0.1) * math.Sin(2*math.Pi*at*440*math.Exp2((float64(n.Key)-69)/12)))
	}
	out.Right = out.Left
	return out
}

// chromium is a browser of its own for a test, with a new profile: the one that PLINTH_CHROMIUM names. Without it
// the test is skipped, because what a machine has as a browser is not known.
func chromium(t testing.TB) context.Context {
	t.Helper()
	path := os.Getenv("PLINTH_CHROMIUM")
	if path == "" {
		t.Skip("PLINTH_CHROMIUM names no Chromium to open the page in")
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox,
		chromedp.DisableGPU, chromedp.UserDataDir(t.TempDir()), chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("enable-precise-memory-info", true),
		chromedp.Flag("js-flags", "--expose-gc"))
	ctx, end := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(end)
	ctx, close := chromedp.NewContext(ctx)
	t.Cleanup(close)
	t.Cleanup(func() { chromedp.Cancel(ctx) }) // the browser is gone before its folder is
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	return ctx
}

// tab is a tab of a browser.
type tab struct {
	t   testing.TB
	ctx context.Context
}

// bare opens a tab that may load the page's files, but has nothing of the page itself in it.
func bare(t testing.TB, browser context.Context, s *Server) *tab {
	t.Helper()
	return bareAt(t, browser, s, s.port)
}

// bareAt is the same at another port, which leads to the server.
func bareAt(t testing.TB, browser context.Context, s *Server, port int) *tab {
	t.Helper()
	ctx, close := chromedp.NewContext(browser)
	t.Cleanup(close)
	base := fmt.Sprintf("http://127.0.0.1:%d/", port)
	enter, leave := chromedp.Navigate(base+"?key="+s.key), chromedp.Navigate(base+"app/ticker.js")
	if err := chromedp.Do(ctx, enter, leave); err != nil {
		t.Fatal(err)
	}
	w := &tab{t, ctx}
	w.file("lib.js")
	return w
}

// eval evaluates an expression; a promise is waited for.
func eval[T any](w *tab, expression string) (out T) {
	w.t.Helper()
	ctx, stop := context.WithTimeout(w.ctx, 4*time.Minute)
	defer stop()
	out, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise, hasGesture))
	if err != nil {
		w.t.Fatal(failed(expression, err))
	}
	return out
}

// do evaluates what gives nothing back.
func (w *tab) do(expression string) {
	w.t.Helper()
	eval[chromedp.Void](w, expression)
}

// hasGesture has the page take it for something that a person does.
func hasGesture(p *runtime.EvaluateParams) {
	yes := true
	p.UserGesture = &yes
}

// file evaluates a script of testdata/page; it makes its functions members of the global T.
func (w *tab) file(name string) {
	w.t.Helper()
	script, err := os.ReadFile(filepath.Join("testdata", "page", name))
	if err != nil {
		w.t.Fatal(err)
	}
	w.do(string(script))
}

// call calls a function of the global T with values as its arguments.
func call[R any](w *tab, function string, args ...any) R {
	w.t.Helper()
	var texts []string
	for _, a := range args {
		b, err := json.Marshal(a)
		if err != nil {
			w.t.Fatal(err)
		}
		texts = append(texts, string(b))
	}
	return eval[R](w, "T."+function+"("+strings.Join(texts, ", ")+")")
}

// failed is what a script threw, with its stack.
func failed(expression string, err error) error {
	var thrown *chromedp.ExceptionError
	if errors.As(err, &thrown) && thrown.Exception != nil {
		return fmt.Errorf("%.60s: %s", expression, thrown.Exception.Description)
	}
	return fmt.Errorf("%.60s: %w", expression, err)
}

// playing is a server whose songs sound of plucks.
func playing(t testing.TB) *Server {
	t.Helper()
	s, err := Start(Options{Sounds: page.Sounds{Bank: plucks{}}, File: "page.song.hcl"})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(s.Close)
	return s
}

// saved tells a server of a song's text, as a save that was built.
func saved(t testing.TB, s *Server, text, says string) {
	t.Helper()
	tl, set, err := songfiletest.ExampleText("page.song.hcl", text)
	if err != nil {
		t.Fatal(err)
	}
	s.Good(tl, groove.Perform(tl, set), says, nil)
}

// living is how many objects of a class are left when the garbage is collected.
func (w *tab) living(class string) (n int) {
	w.t.Helper()
	w.do("gc()")
	prototype, err := chromedp.Run(w.ctx, chromedp.Evaluate[*runtime.RemoteObject](class+".prototype"))
	if err != nil {
		w.t.Fatal(err)
	}
	found, err := chromedp.Call(w.ctx, runtime.QueryObjects, runtime.QueryObjectsParams{
		PrototypeObjectID: prototype.ObjectID})
	if err != nil {
		w.t.Fatal(err)
	}
	length, err := chromedp.Call(w.ctx, runtime.CallFunctionOn, runtime.CallFunctionOnParams{
		FunctionDeclaration: "function() { return this.length; }", ObjectID: found.Objects.ObjectID})
	if err != nil {
		w.t.Fatal(err)
	}
	if err := json.Unmarshal(length.Result.Value, &n); err != nil {
		w.t.Fatal(err)
	}
	return n
}

// await waits for what must come, without hurry.
func await(t testing.TB, what string, is func() bool) {
	t.Helper()
	for end := time.Now().Add(time.Minute); !is(); time.Sleep(10 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatal("waited in vain: " + what)
		}
	}
}

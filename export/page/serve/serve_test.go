//go:build !js

package serve_test

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io"
	"net"
	"net/http"
	"strings"
	"sync"
	"testing"
	"time"

	"armwright/export/draw"
	"armwright/export/folder"
	"armwright/export/page"
	"armwright/export/page/drawn"
	"armwright/export/page/serve"
	"armwright/solver"
	"armwright/solver/solvertest"
	"armwright/specs"
	"armwright/testdata"
)

// begind is a page on a port of its own.
type served struct {
	t    testing.TB
	at   string // 127.0.0.1:port
	quit context.CancelFunc
	end  chan error
}

func begin(t testing.TB, b specs.Brief) *served {
	t.Helper()
	return beginWith(t, b, func(r *solver.Result) ([]folder.File, error) { return draw.All(r, nil, draw.Options{}) })
}

// beginWith serves a page whose files are made by the given function.
func beginWith(t testing.TB, b specs.Brief, files func(*solver.Result) ([]folder.File, error)) *served {
	t.Helper()
	p, err := page.New(b, page.Options{Program: "armwright test", Files: files, Views: drawn.Views})
	if err != nil {
		t.Fatal(err)
	}
	l, err := net.Listen("tcp4", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, quit := context.WithCancel(context.Background())
	s := &served{t, l.Addr().String(), quit, make(chan error, 1)}
	go func() { s.end <- serve.Serve(ctx, l, p) }()
	t.Cleanup(quit)
	return s
}

// do sends a request, changed by with, and returns status, head and body.
func (s *served) do(method, path, body string, with func(*http.Request)) (int, http.Header, []byte) {
	s.t.Helper()
	r, err := http.NewRequest(method, "http://"+s.at+path, strings.NewReader(body))
	if err != nil {
		s.t.Fatal(err)
	}
	if with != nil {
		with(r)
	}
	a, err := http.DefaultTransport.RoundTrip(r)
	if err != nil {
		s.t.Fatal(err)
	}
	defer a.Body.Close()
	data, err := io.ReadAll(a.Body)
	if err != nil {
		s.t.Fatal(err)
	}
	return a.StatusCode, a.Header, data
}

// answer is what the tests look at of an answer.
type answer struct {
	Station, Verdict, Shown string
	Solved, Solve           bool
	Parts                   struct{ Verdict, Head, Conflict, Held, Table string }
	Plots, Views            []struct{ Name, SVG string }
	Scene                   *struct {
		Parts []struct{ Mesh string }
	}
	Figures []struct {
		Name  string
		Value *float64
	}
	Motion *struct {
		Steps []struct{ Flexion, Arm, Delivered float64 }
	}
	Problems []struct{ Path, Message, Hint string }
}

func state(station string, changes map[string]string) string {
	b, _ := json.Marshal(map[string]any{"station": station, "changes": changes})
	return string(b)
}

// solve solves and returns the last line.
func (s *served) solve(station string, changes map[string]string) answer {
	s.t.Helper()
	status, _, body := s.do("POST", "/solve", state(station, changes), nil)
	lines := bytes.Split(bytes.TrimSpace(body), []byte("\n"))
	var last struct{ Answer, Trouble *answer }
	if err := json.Unmarshal(lines[len(lines)-1], &last); err != nil || status != http.StatusOK || last.Answer == nil {
		s.t.Fatalf("solve: %d, %v, %.200s", status, err, lines[len(lines)-1])
	}
	return *last.Answer
}

func (s *served) evaluate(station string, changes map[string]string) (int, answer) {
	s.t.Helper()
	status, _, body := s.do("POST", "/evaluate", state(station, changes), nil)
	var a struct{ Answer, Trouble *answer }
	if err := json.Unmarshal(body, &a); err != nil || (a.Answer == nil) == (a.Trouble == nil) {
		s.t.Fatalf("evaluate: %d, %v, %.200s", status, err, body)
	}
	if a.Answer != nil {
		return status, *a.Answer
	}
	return status, *a.Trouble
}

// Browsers send a request to whatever address a name resolves to; a name that
// is not ours is a page elsewhere that was pointed here.
func TestForeignHostIsRefused(t *testing.T) {
	s := begin(t, solvertest.Brief(t, "cam-study"))
	_, port, _ := net.SplitHostPort(s.at)
	for host, want := range map[string]int{
		s.at: 200, "localhost:" + port: 200,
		"elsewhere.example": 421, "elsewhere.example:" + port: 421, "127.0.0.1": 421, "localhost": 421, "127.0.0.1:1": 421,
		"127.0.0.1." + port: 421, "127.0.0.2:" + port: 421, "[::1]:" + port: 421, "localhost.elsewhere.example:" + port: 421,
	} {
		for _, path := range []string{"/", "/assets/page.js"} {
			if got, _, _ := s.do("GET", path, "", func(r *http.Request) { r.Host = host }); got != want {
				t.Errorf("GET %s of host %q: %d, want %d", path, host, got, want)
			}
		}
		if got, _, _ := s.do("POST", "/brief", state("", nil), func(r *http.Request) { r.Host = host }); got != want {
			t.Errorf("POST of host %q: %d, want %d", host, got, want)
		}
	}
}

func TestPostAcrossOriginsIsRefused(t *testing.T) {
	s := begin(t, solvertest.Brief(t, "cam-study"))
	for _, c := range []struct {
		head, value string
		want        int
	}{
		{"Sec-Fetch-Site", "same-origin", 200}, {"Origin", "http://" + s.at, 200},
		{"Sec-Fetch-Site", "cross-site", 403}, {"Sec-Fetch-Site", "same-site", 403},
		{"Origin", "http://elsewhere.example", 403}, {"Origin", "http://127.0.0.1:1", 403}, {"Origin", "null", 403},
	} {
		for _, path := range []string{"/brief", "/solve", "/evaluate", "/files", "/controls"} {
			got, _, _ := s.do("POST", path, state("", nil), func(r *http.Request) { r.Header.Set(c.head, c.value) })
			if refused := got == 403; refused != (c.want == 403) {
				t.Errorf("POST %s with %s %s: %d, want %d", path, c.head, c.value, got, c.want)
			}
		}
	}
}

func TestLargeBodyIsRefused(t *testing.T) {
	s := begin(t, solvertest.Brief(t, "cam-study"))
	for size, want := range map[int]int{60_000: 200, 70_000: 413, 10_000_000: 413} {
		body := state("", map[string]string{"resistance.curve_table": strings.Repeat("1", size)})
		for _, path := range []string{"/brief", "/solve", "/evaluate", "/files", "/controls"} {
			if got, _, _ := s.do("POST", path, body, nil); got != want {
				t.Errorf("POST %s of %d bytes: %d, want %d", path, size, got, want)
			}
		}
	}
}

// A body that trickles in is cut off; meanwhile others are served.
func TestSlowBodyIsCutOff(t *testing.T) {
	s := begin(t, solvertest.Brief(t, "cam-study"))
	c, err := net.Dial("tcp", s.at)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	if _, err := io.WriteString(c, "POST /evaluate HTTP/1.1\r\nHost: "+s.at+"\r\nContent-Length: 1000\r\n\r\n{"); err != nil {
		t.Fatal(err)
	}
	if got, _, _ := s.do("GET", "/", "", nil); got != 200 {
		t.Errorf("another request meanwhile: %d", got)
	}
	const patience = 20 * time.Second // the server's is 5 s
	_ = c.SetReadDeadline(time.Now().Add(patience))
	all, err := io.ReadAll(c)
	if err != nil {
		t.Fatalf("the connection is still open: %v", err)
	}
	if len(all) > 0 && !bytes.HasPrefix(all, []byte("HTTP/1.1 400")) {
		t.Errorf("a slow body is answered with %.60q", all)
	}
}

func TestPathsReachNoFiles(t *testing.T) {
	s := begin(t, solvertest.Brief(t, "cam-study"))
	for _, path := range []string{
		"/assets/../page.go", "/assets/..%2fpage.go", "/assets/%2e%2e/page.go", "/assets/..%5cpage.go", "/assets/%5c..%5cpage.go", "/assets//etc/passwd",
		"/assets/%2fetc%2fpasswd", "/assets/front.tmpl", "/assets/", "/etc/passwd", "//etc/passwd", "/files/../../go.mod", "/files/x/..%2f..%2fgo.mod", "/files/x/%2fetc%2fpasswd",
		"/assets/page.js%00.css", "/page.go",
	} {
		got, _, body := s.do("GET", path, "", nil)
		if got < 400 && got != http.StatusTemporaryRedirect && got != http.StatusMovedPermanently || bytes.Contains(body, []byte("package page")) || bytes.Contains(body, []byte("root:")) {
			t.Errorf("GET %s: %d, %.60q", path, got, body)
		}
	}
	// A brief may name a file as its strength curve; the page does not open it.
	for _, name := range []string{"own.csv", "../../go.csv", "/etc/passwd.csv"} {
		_, a := s.evaluate("", map[string]string{"resistance.curve": name})
		if len(a.Problems) != 1 || a.Problems[0].Path != "resistance.curve" || !strings.Contains(a.Problems[0].Message, "opens no files") {
			t.Errorf("curve %s: %+v", name, a.Problems)
		}
	}
	b := solvertest.Brief(t, "cam-study")
	b.Resistance.Curve = "own.csv"
	if _, err := page.New(b, page.Options{}); err == nil || !strings.Contains(err.Error(), "opens no files") {
		t.Errorf("a page of a brief with a file in it: %v", err)
	}
}

func TestEveryAnswerIsGuarded(t *testing.T) {
	s := begin(t, solvertest.Brief(t, "cam-study"))
	for _, path := range []string{"/", "/assets/page.js", "/assets/page.css", "/nothing"} {
		_, h, _ := s.do("GET", path, "", nil)
		csp := h.Get("Content-Security-Policy")
		if !strings.Contains(csp, "default-src 'none'") || strings.Contains(csp, "unsafe") || strings.Contains(csp, "*") {
			t.Errorf("%s: policy %q", path, csp)
		}
		for name, want := range map[string]string{"X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer", "Cache-Control": "no-store"} {
			if h.Get(name) != want {
				t.Errorf("%s: %s is %q", path, name, h.Get(name))
			}
		}
	}
	for _, c := range []struct{ method, path string }{{"POST", "/"}, {"GET", "/solve"}, {"PUT", "/brief"}, {"DELETE", "/files"}, {"GET", "/evaluate"}} {
		if got, _, _ := s.do(c.method, c.path, "", nil); got != http.StatusMethodNotAllowed {
			t.Errorf("%s %s: %d", c.method, c.path, got)
		}
	}
	for _, body := range []string{"", "{", "[]", `{"station":1}`, `{"other":""}`, `{}{}`, "\x00"} {
		if got, _, _ := s.do("POST", "/evaluate", body, nil); got != http.StatusBadRequest {
			t.Errorf("body %q: %d", body, got)
		}
	}
}

// Only the loopback address is served.
func TestOtherAddressesAreNotServed(t *testing.T) {
	p, err := page.New(solvertest.Brief(t, "cam-study"), page.Options{})
	if err != nil {
		t.Fatal(err)
	}
	l, err := net.Listen("tcp4", "0.0.0.0:0")
	if err != nil {
		t.Fatal(err)
	}
	if err := serve.Serve(t.Context(), l, p); err == nil || !strings.Contains(err.Error(), "not a loopback address") {
		t.Errorf("served on every address: %v", err)
	}
}

// A search that nobody waits for any more ends, and lets the next begin.
func TestAbandonedSearchEnds(t *testing.T) {
	testdata.Long(t)
	s := begin(t, solvertest.Brief(t, "arm-pad-station"))
	// begin is the first line of a search that is then let go of.
	first := func() string {
		ctx, quit := context.WithCancel(t.Context())
		defer quit()
		r, err := http.NewRequestWithContext(ctx, "POST", "http://"+s.at+"/solve", strings.NewReader(state("", map[string]string{"limits.hand_path": "1 mm"})))
		if err != nil {
			t.Fatal(err)
		}
		a, err := http.DefaultClient.Do(r)
		if err != nil {
			t.Fatal(err)
		}
		defer a.Body.Close()
		line, err := bufio.NewReader(a.Body).ReadString('\n')
		if err != nil {
			t.Fatal(err)
		}
		return line
	}
	if line := first(); !strings.Contains(line, `{"progress":`) {
		t.Fatalf("first line %q", line)
	}
	// The next search comes after it, so had it gone on to its end, its station
	// would be known by then and be told at once.
	if a := s.solve("", nil); a.Verdict != "met" {
		t.Errorf("the next search: %s", a.Verdict)
	}
	if line := first(); !strings.Contains(line, `{"progress":`) {
		t.Errorf("the abandoned search went on to its end: %.80s", line)
	}
}

// The page closes at once although a search is under way.
func TestClosesGracefully(t *testing.T) {
	s := begin(t, solvertest.Brief(t, "arm-pad-station"))
	r, err := http.Post("http://"+s.at+"/solve", "application/json", strings.NewReader(state("", map[string]string{"limits.hand_path": "3 mm"})))
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	if _, err := r.Body.Read(make([]byte, 1)); err != nil {
		t.Fatal(err) // the first sign of progress
	}
	s.quit()
	select {
	case err := <-s.end:
		if err != nil {
			t.Errorf("closing: %v", err)
		}
	case <-time.After(20 * time.Second):
		t.Fatal("still serving")
	}
	if c, err := net.Dial("tcp", s.at); err == nil {
		c.Close()
		t.Error("the port is still open")
	}
}

// Files are made for one request at a time, for every request that waits, and for
// none that has let go.
func TestFilesTakeTurns(t *testing.T) {
	var mu sync.Mutex
	var now, most, made int
	gate := make(chan struct{})
	s := beginWith(t, solvertest.Brief(t, "cam-study"), func(*solver.Result) ([]folder.File, error) {
		mu.Lock()
		now, made = now+1, made+1
		most = max(most, now)
		mu.Unlock()
		<-gate
		mu.Lock()
		now--
		mu.Unlock()
		return []folder.File{{Path: "a.txt", Data: []byte("a")}}, nil
	})
	body := state(s.solve("", nil).Station, nil)
	post := func(ctx context.Context) (int, error) {
		r, err := http.NewRequestWithContext(ctx, "POST", "http://"+s.at+"/files", strings.NewReader(body))
		if err != nil {
			return 0, err
		}
		a, err := http.DefaultClient.Do(r)
		if err != nil {
			return 0, err
		}
		return a.StatusCode, a.Body.Close()
	}
	const patient, hasty = 6, 6
	var all, left sync.WaitGroup
	for range patient {
		all.Go(func() {
			if status, err := post(t.Context()); status != http.StatusOK || err != nil {
				t.Errorf("one who waits: %d, %v", status, err)
			}
		})
	}
	for busy := 0; busy == 0; time.Sleep(time.Millisecond) { // until the first is at the desk
		mu.Lock()
		busy = now
		mu.Unlock()
	}
	for range hasty {
		left.Go(func() {
			ctx, quit := context.WithTimeout(t.Context(), 200*time.Millisecond)
			defer quit()
			if _, err := post(ctx); !errors.Is(err, context.DeadlineExceeded) {
				t.Errorf("one who goes: %v", err)
			}
		})
	}
	left.Wait()
	time.Sleep(100 * time.Millisecond) // the server learns of it
	close(gate)
	all.Wait()
	if most != 1 || made != patient {
		t.Errorf("%d at a time, %d made; want 1 and %d", most, made, patient)
	}
}

//go:build !js

package serve_test

import (
	"encoding/json"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"armwright/solver/solvertest"
)

// FuzzBody demands that whatever is sent to the page, it answers with JSON or a
// plain refusal, finds no fault of its own, and gives away no file but those it
// made. STATION in a body stands for a station that is kept.
func FuzzBody(f *testing.F) {
	s := begin(f, solvertest.Brief(f, "cam-study"))
	first := s.solve("", nil)
	for _, body := range []string{
		"", "{", "null", "[]", `{"station": ""} {}`, `{"station": 1}`, `{"unknown": true}`, strings.Repeat("[", 1000),
		`{"station": "STATION", "changes": {}}`,
		`{"station": "STATION", "changes": {"limits.torque_match": "5 %"}, "shown": "cam"}`,
		`{"station": "STATION", "changes": {"resistance.ratio": "2..1"}}`,
		`{"station": "STATION", "changes": {"resistance.curve": "/etc/passwd.csv"}}`,
		`{"station": "STATION", "changes": {"name": "<script>alert(1)</script>"}}`,
		`{"station": "STATION", "changes": {"resistance.loaded": "NaN..inf", "": "", "geometry": "x"}}`,
	} {
		for _, path := range []string{"/evaluate", "/brief", "/files"} {
			f.Add(path, body)
		}
	}
	f.Add("/files/1/../../go.mod", "")
	f.Add("/assets/..%2f..%2fpage.go", "")
	f.Add("/#?\x9c\xff\xa15%", "") // no address: a client refuses to send it
	f.Add("/ 5 ?? ? ", strings.Repeat("{", 20000))
	f.Fuzz(func(t *testing.T, path, body string) {
		u, err := url.Parse("http://127.0.0.1:80" + path)
		switch {
		case err != nil, u.Host != "127.0.0.1:80", !strings.HasPrefix(path, "/"), len(path) > 200, strings.Contains(u.RawQuery, " "):
			t.Skip() // no address; a space in a query ends it, and the rest is no HTTP, which the server refuses by hanging up
		case strings.HasPrefix(path, "/solve"):
			t.Skip() // a search takes seconds; it reads its body as the others do
		}
		method := "POST"
		if body == "" {
			method = "GET"
		}
		asked := *s
		asked.t = t
		status, head, answer := asked.do(method, path, strings.ReplaceAll(body, "STATION", first.Station), nil)
		switch {
		case status >= http.StatusInternalServerError:
			t.Fatalf("%s %s: %d, %s", method, path, status, answer)
		case status == http.StatusOK && strings.HasPrefix(head.Get("Content-Type"), "application/json") && method == "POST" && !json.Valid(answer):
			t.Fatalf("%s %s: not JSON: %s", method, path, answer)
		case head.Get("Content-Security-Policy") == "" && status == http.StatusOK:
			t.Fatalf("%s %s: without a policy", method, path)
		case strings.Contains(string(answer), "root:x:") || strings.Contains(string(answer), "module armwright"):
			t.Fatalf("%s %s: a file of the machine: %.200s", method, path, answer)
		}
	})
}

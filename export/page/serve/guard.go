package serve

import (
	"net/http"
	"strconv"
	"strings"
	"time"
)

// largestBody is far above any change of a brief; the longest is a table of a
// strength curve, of 6000 characters.
const largestBody = 64 << 10

// policy lets the page load its own files and nothing else. Images may also be
// written into it.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; " +
	"base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// guard lets through what the page itself asks. A page elsewhere that had its
// own name resolved to this machine would be of one origin with this server, so
// the name asked for must be exactly ours; a page elsewhere that posts here is
// refused by the origin that browsers declare.
func guard(next http.Handler, port int) http.Handler {
	at := ":" + strconv.Itoa(port)
	hosts := map[string]bool{"127.0.0.1" + at: true, "localhost" + at: true}
	next = http.NewCrossOriginProtection().Handler(next)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cache-Control", "no-store")
		switch {
		case !hosts[r.Host]:
			http.Error(w, "this page answers to 127.0.0.1"+at+" and localhost"+at+" only", http.StatusMisdirectedRequest)
			return
		case strings.ContainsAny(r.URL.Path, "\\\x00") || strings.Contains(r.URL.Path, ".."):
			http.Error(w, "no such place", http.StatusBadRequest)
			return
		}
		// Times for the one request; what takes longer says so itself.
		control := http.NewResponseController(w)
		_ = control.SetReadDeadline(time.Now().Add(bodyTime))
		_ = control.SetWriteDeadline(time.Now().Add(answerTime))
		r.Body = http.MaxBytesReader(w, r.Body, largestBody)
		next.ServeHTTP(w, r)
	})
}

package page

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"net"
	"net/http"
	"slices"
	"sync"
	"time"

	"armwright/export/draw"
	"armwright/solver"
	"armwright/solver/judge"
	"armwright/specs"
)

// Options are what a page needs from its command.
type Options struct {
	Program string                                    // name and version, for reports
	Files   func(*solver.Result) ([]draw.File, error) // everything that design would write for a station
}

// Page is one brief being played with. Its methods may be called at the same
// time.
type Page struct {
	brief   specs.Brief // as opened
	options Options
	turn    chan struct{} // held while solving: one search at a time
	desk    chan struct{} // held while all files of a station are made

	mu       sync.Mutex
	stations shelf[*solver.Result]
	solved   shelf[string] // number of a station by the brief it was solved for
	bundles  shelf[map[string][]byte]
	last     *judge.Judge // of the brief judged last, nil at first
	drawn    drawing      // last
}

// What is kept: stations for the designs that are compared, and the files of
// the last ones that were asked for.
const (
	mostStations = 64
	mostBundles  = 4
)

// New returns the page of a valid brief. A brief whose strength curve is a
// file's is a *specs.Problems: the page opens no files.
func New(b specs.Brief, o Options) (*Page, error) {
	b = b.Quantised()
	if err := refuse(b); err != nil {
		return nil, err
	}
	return &Page{
		brief: b, options: o, turn: make(chan struct{}, 1), desk: make(chan struct{}, 1),
		stations: newShelf[*solver.Result](mostStations), solved: newShelf[string](mostStations), bundles: newShelf[map[string][]byte](mostBundles),
	}, nil
}

// Times that a request may take. A search has its own.
const (
	headerTime = 5 * time.Second
	bodyTime   = 5 * time.Second
	answerTime = 30 * time.Second
	idleTime   = 2 * time.Minute
	searchTime = 10 * time.Minute
	leaveTime  = 3 * time.Second // for requests under way when the page is closed
)

// Serve answers requests on the listener, which must be on a loopback address,
// until the context ends; then it lets what is under way come to its end, for a
// moment, and returns nil. The listener is closed.
func (p *Page) Serve(ctx context.Context, l net.Listener) error {
	at, ok := l.Addr().(*net.TCPAddr)
	if !ok || !at.IP.IsLoopback() {
		l.Close()
		return fmt.Errorf("page: %s is not a loopback address", l.Addr())
	}
	s := &http.Server{
		Handler:           p.Handler(at.Port),
		ReadHeaderTimeout: headerTime,
		IdleTimeout:       idleTime,
		MaxHeaderBytes:    16 << 10,
		// Searches under way end with the context.
		BaseContext: func(net.Listener) context.Context { return ctx },
	}
	served := make(chan error, 1)
	go func() { served <- s.Serve(l) }()
	select {
	case err := <-served:
		return err
	case <-ctx.Done():
	}
	leave, cancel := context.WithTimeout(context.WithoutCancel(ctx), leaveTime)
	defer cancel()
	if s.Shutdown(leave) != nil {
		return s.Close()
	}
	return nil
}

// Handler answers the requests of a page served on the given port.
func (p *Page) Handler(port int) http.Handler {
	m := http.NewServeMux()
	m.HandleFunc("GET /{$}", p.front)
	m.HandleFunc("GET /assets/{name}", asset)
	m.HandleFunc("POST /evaluate", p.evaluate)
	m.HandleFunc("POST /solve", p.solve)
	m.HandleFunc("POST /brief", p.saveBrief)
	m.HandleFunc("POST /files", p.makeFiles)
	m.HandleFunc("GET /files/{number}/{path...}", p.file)
	return guard(m, port)
}

// keep stores a station and returns its number, which depends on its frame
// alone.
func (p *Page) keep(r *solver.Result) (string, error) {
	h := sha256.New()
	if err := specs.WriteFrame(h, r.Frame); err != nil {
		return "", err
	}
	number := hex.EncodeToString(h.Sum(nil)[:8])
	p.mu.Lock()
	defer p.mu.Unlock()
	p.stations.put(number, r)
	return number, nil
}

// station is the station of a number.
func (p *Page) station(number string) (*solver.Result, bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.stations.get(number)
}

// shelf holds the last few values put on it or taken from it.
type shelf[T any] struct {
	most  int
	by    map[string]T
	order []string // the longest untouched first
}

func newShelf[T any](most int) shelf[T] { return shelf[T]{most: most, by: map[string]T{}} }

func (s *shelf[T]) put(key string, v T) {
	s.by[key] = v
	s.touch(key)
	if len(s.order) > s.most {
		delete(s.by, s.order[0])
		s.order = s.order[1:]
	}
}

func (s *shelf[T]) get(key string) (T, bool) {
	v, ok := s.by[key]
	if ok {
		s.touch(key)
	}
	return v, ok
}

func (s *shelf[T]) touch(key string) {
	if i := slices.Index(s.order, key); i >= 0 {
		s.order = slices.Delete(s.order, i, i+1)
	}
	s.order = append(s.order, key)
}

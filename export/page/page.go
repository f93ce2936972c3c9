package page

import (
	"crypto/sha256"
	"encoding/hex"
	"slices"
	"sync"

	"armwright/export/folder"
	"armwright/export/viewer"
	"armwright/solver"
	"armwright/solver/judge"
	"armwright/specs"
)

// Options are what a page needs from its command.
type Options struct {
	Program string                                      // name and version, for reports
	Files   func(*solver.Result) ([]folder.File, error) // everything that design would write for a station
	Views   func(*solver.Result) ([]Picture, error)     // drawn in lines; nil where another program draws them
}

// Page is what a browser plays with: a brief, and others that are opened in it. Its
// methods may be called at the same time.
type Page struct {
	own     string // number of the brief it was made of
	options Options
	turn    chan struct{} // held while solving: one search at a time
	desk    *Desk

	mu       sync.Mutex
	briefs   shelf[specs.Brief]
	stations shelf[*solver.Result]
	solved   shelf[string]        // number of a station by the brief it was solved for
	scenes   shelf[*viewer.Scene] // by mark
	last     *judge.Judge         // of the brief judged last, nil at first
	at       *solver.Result       // judged last and not solved, nil at first
	drawn    drawing              // last
	spaced   spaced               // last
}

// spaced is the frame of a scene, without what shows in none, with its mark.
type spaced struct {
	frame specs.Frame
	mark  string
}

// drawing is the pictures of a frame, with a mark that tells them from others.
type drawing struct {
	frame    specs.Frame // without its limits, which show in no picture
	pictures []Picture
}

// What is kept: briefs of a few tabs, stations for the designs that are compared,
// scenes whose bodies a tab may still ask for, and the files asked for last.
const (
	mostBriefs   = 16
	mostStations = 64
	mostScenes   = 8
	mostBundles  = 4
)

// New returns the page of a valid brief. A brief whose strength curve is a
// file's is a *specs.Problems: the page opens no files.
func New(b specs.Brief, o Options) (*Page, error) {
	p := &Page{
		options: o, turn: make(chan struct{}, 1), desk: NewDesk(o.Files),
		briefs: newShelf[specs.Brief](mostBriefs), stations: newShelf[*solver.Result](mostStations), solved: newShelf[string](mostStations),
		scenes: newShelf[*viewer.Scene](mostScenes),
	}
	var err error
	p.own, err = p.lay(b)
	return p, err
}

// lay puts a valid brief where questions find it and returns its number, which
// depends on its text alone: an address holds it beside the changes.
func (p *Page) lay(b specs.Brief) (string, error) {
	b = b.Quantised()
	if err := refuse(b); err != nil {
		return "", err
	}
	own, err := text(b)
	if err != nil {
		return "", err
	}
	number := numbered(own)
	p.mu.Lock()
	defer p.mu.Unlock()
	p.briefs.put(number, b)
	if p.own != "" {
		p.briefs.touch(p.own) // stays as long as the page
	}
	return number, nil
}

// brief is the brief of a number, the page's own for none.
func (p *Page) brief(number string) (specs.Brief, bool) {
	if number == "" {
		number = p.own
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.briefs.get(number)
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

// judge makes a brief ready for judging, from the one before: while a control
// is dragged, most stays as it is.
func (p *Page) judge(a specs.Asked) (j *judge.Judge, err error) {
	p.mu.Lock()
	last := p.last
	p.mu.Unlock()
	if last == nil {
		j, err = judge.New(&a)
	} else {
		j, err = last.For(&a)
	}
	if err == nil {
		p.mu.Lock()
		p.last = j
		p.mu.Unlock()
	}
	return j, err
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

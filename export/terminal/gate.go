package terminal

import (
	"io"
	"sync"
)

// Gate lets writes through until it is shut, from several at a time: a command that is
// left where it is says no more.
type Gate struct {
	To   io.Writer
	mu   sync.Mutex
	shut bool
}

func (g *Gate) Write(p []byte) (int, error) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.shut {
		return len(p), nil
	}
	return g.To.Write(p)
}

// Shut drops what is written from now on.
func (g *Gate) Shut() {
	g.mu.Lock()
	defer g.mu.Unlock()
	g.shut = true
}

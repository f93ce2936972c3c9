package serve

import (
	"context"
	"fmt"
	"net"
	"net/http"
	"time"

	"armwright/export/page"
)

// Times that a request may take. A search has its own.
const (
	headerTime = 5 * time.Second
	bodyTime   = 5 * time.Second
	answerTime = 30 * time.Second
	searchTime = 11 * time.Minute // the page's own ends sooner
	idleTime   = 2 * time.Minute
	leaveTime  = 3 * time.Second // for requests under way when the page is closed
)

// Serve answers requests on the listener, which must be on a loopback address,
// until the context ends; then it lets what is under way come to its end, for a
// moment, and returns nil. The listener is closed.
func Serve(ctx context.Context, l net.Listener, p *page.Page) error {
	at, ok := l.Addr().(*net.TCPAddr)
	if !ok || !at.IP.IsLoopback() {
		l.Close()
		return fmt.Errorf("page: %s is not a loopback address", l.Addr())
	}
	s := &http.Server{
		Handler:           Handler(p, at.Port),
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

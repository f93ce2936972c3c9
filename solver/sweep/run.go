package sweep

import (
	"context"
	"iter"
	"sync"
)

// Shard is one part of a study spread over several machines: every Of-th
// design from the Number-th on. The zero Shard is the whole study.
type Shard struct{ Number, Of int } // 1 <= Number <= Of

// Designs yields the shard's designs of n, in order, after leaving out the
// first done of them.
func (s Shard) Designs(n, done int) iter.Seq[int] {
	first, step := 0, 1
	if s.Of > 0 {
		first, step = s.Number-1, s.Of
	}
	return func(yield func(int) bool) {
		for i := first + done*step; i < n; i += step {
			if !yield(i) {
				return
			}
		}
	}
}

// Len is how many of n designs are the shard's.
func (s Shard) Len(n int) int {
	if s.Of == 0 {
		return n
	}
	return (n - s.Number + s.Of) / s.Of
}

// ahead is how many designs a worker may be ahead of the oldest that is not
// done: what bounds the memory of a run.
const ahead = 16

// Run has the workers judge designs and emits the outcomes in the order of the
// designs, whatever the number of workers. When ctx ends, or emit fails, what
// was emitted is the beginning of the whole, and the error is that one.
func Run(ctx context.Context, plan *Plan, designs iter.Seq[int], workers []Worker, emit func(design int, o *Outcome) error) error {
	type job struct {
		design int
		out    Outcome
		err    error
		done   chan struct{}
	}
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	todo, order := make(chan *job), make(chan *job, ahead*len(workers))
	var group sync.WaitGroup
	var unfinished error // why designs were left
	group.Go(func() {
		defer close(order)
		defer close(todo)
		for i := range designs {
			j := &job{design: i, done: make(chan struct{})}
			select {
			case todo <- j:
				order <- j // the consumer reads to the end
			case <-ctx.Done():
				unfinished = ctx.Err()
				return
			}
		}
	})
	for _, w := range workers {
		group.Go(func() {
			for j := range todo {
				j.out, j.err = w.Judge(ctx, plan.Design(make([]string, 0, len(plan.Axes)), j.design))
				close(j.done)
			}
		})
	}
	var failed error
	for j := range order {
		if failed != nil {
			continue
		}
		if <-j.done; j.err != nil {
			failed = j.err
		} else {
			failed = emit(j.design, &j.out)
		}
		if failed != nil {
			stop()
		}
	}
	group.Wait()
	if failed == nil {
		failed = unfinished
	}
	return failed
}

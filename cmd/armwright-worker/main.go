//go:build js

// Command armwright-worker is the program as it runs in a browser, behind the page's
// static edition: built for js/wasm and started by worker.js, it answers what package
// serve answers over HTTP, but for the files of a station: those armwright-files makes.
package main

import (
	"context"
	"encoding/json"
	"runtime/debug"
	"sync"
	"syscall/js"
	"time"

	"armwright/export/page"
	"armwright/export/viewer"
	"armwright/specs"
)

// memoryLimit, bytes, is what a browser's tab is not to be held to: above it the heap is
// collected at once.
const memoryLimit = 512 << 20

func main() {
	debug.SetMemoryLimit(memoryLimit)
	js.Global().Set("armwright", map[string]any{"begin": js.FuncOf(begin)})
	select {} // until the worker ends
}

// begin makes the page of a brief's text and the program's name, and returns the
// function that answers it, or what is wrong with the brief.
func begin(_ js.Value, args []js.Value) any {
	b, err := specs.ParseBrief("brief.yaml", []byte(args[0].String()))
	if err != nil {
		return err.Error()
	}
	p, err := page.New(b, page.Options{Program: args[1].String()})
	if err != nil {
		return err.Error()
	}
	w := &worker{page: p, ends: map[int]context.CancelFunc{}}
	return js.FuncOf(w.ask)
}

type worker struct {
	page *page.Page
	mu   sync.Mutex
	ends map[int]context.CancelFunc // of searches under way
}

// ask answers ask(id, path, body, send). Send is called with "reply" and JSON or a
// file's bytes, and before that with "step" and JSON for each sign of a search. The
// path "cancel" ends the search of an id.
func (w *worker) ask(_ js.Value, args []js.Value) any {
	id, path, body := args[0].Int(), args[1].String(), args[2].String()
	if path == "cancel" {
		w.mu.Lock()
		defer w.mu.Unlock()
		if end := w.ends[id]; end != nil {
			end()
		}
		return nil
	}
	send := args[3]
	go w.answer(id, path, []byte(body), send)
	return nil
}

// turn lets the worker hear of what has come meanwhile.
func turn() { time.Sleep(time.Millisecond) }

func (w *worker) answer(id int, path string, body []byte, send js.Value) {
	reply := func(v any, t *page.Trouble) {
		if t != nil {
			v = page.Step{Trouble: t}
		}
		data, err := json.Marshal(v)
		if err != nil {
			panic(err) // all of it are our own plain types
		}
		send.Invoke("reply", string(data))
	}
	var s page.State
	read := func(into any) bool {
		err := json.Unmarshal(body, into)
		if err != nil {
			reply(nil, &page.Trouble{Problems: []page.Problem{{Message: err.Error()}}})
		}
		return err == nil
	}
	switch path {
	case "open":
		var a page.Ask
		if read(&a) {
			reply(w.page.Open(a))
		}
	case "controls":
		if read(&s) {
			reply(w.page.Controls(s))
		}
	case "evaluate":
		if read(&s) {
			out := w.page.Evaluate(s)
			reply(out, out.Trouble)
		}
	case "solve":
		if !read(&s) {
			return
		}
		ctx, end := context.WithCancel(context.Background())
		w.mu.Lock()
		w.ends[id] = end
		w.mu.Unlock()
		turn()
		w.page.Solve(ctx, s, func(step page.Step) {
			data, err := json.Marshal(step)
			if err != nil {
				panic(err)
			}
			send.Invoke("step", string(data))
			turn()
		})
		end()
		w.mu.Lock()
		delete(w.ends, id)
		w.mu.Unlock()
		send.Invoke("reply", "{}")
	case "meshes":
		var keys []string
		if read(&keys) {
			out, err := w.page.Meshes(keys)
			if err != nil {
				out = map[string]viewer.Mesh{}
			}
			reply(out, nil)
		}
	case "persons":
		var table page.Table
		if read(&table) {
			reply(w.page.Persons(table))
		}
	case "curve":
		var f struct{ Name, Text string }
		if read(&f) {
			table, t := w.page.Curve(f.Name, f.Text)
			reply(map[string]string{"table": table}, t)
		}
	case "brief":
		if read(&s) {
			data, t := w.page.Brief(s)
			reply(map[string]string{"text": string(data)}, t)
		}
	case "hand":
		if read(&s) {
			data, t := w.page.Hand(s)
			reply(json.RawMessage(data), t)
		}
	}
}

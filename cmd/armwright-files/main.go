//go:build js

// Command armwright-files makes drawings and files of a station in a browser, behind the page's
// static edition: built for js/wasm and started by worker.js when the first are asked
// for. What the page is played with, armwright-worker, is smaller without it by a third.
package main

import (
	"context"
	"encoding/json"
	"runtime/debug"
	"syscall/js"

	"armwright/export/draw"
	"armwright/export/folder"
	"armwright/export/handed"
	"armwright/export/output"
	"armwright/export/page"
	"armwright/export/page/drawn"
	"armwright/solver"
)

// memoryLimit, bytes, is what a browser's tab is not to be held to: above it the heap is
// collected at once.
const memoryLimit = 512 << 20

func main() {
	debug.SetMemoryLimit(memoryLimit)
	js.Global().Set("armwright", map[string]any{"begin": js.FuncOf(begin)})
	select {} // until the worker ends
}

// begin returns the function that answers for a program of a name; the brief before it
// is the page's.
func begin(_ js.Value, args []js.Value) any {
	name := args[1].String()
	desk := page.NewDesk(func(r *solver.Result) ([]folder.File, error) {
		files, _, err := output.Files(r, name, draw.Options{})
		return files, err
	})
	return js.FuncOf(func(_ js.Value, args []js.Value) any {
		go answer(desk, args[1].String(), []byte(args[2].String()), args[3])
		return nil
	})
}

// answer makes the files of a station that was handed over ("files") or its views in
// lines ("views"), or hands on one of the files ("file"): send is called with "reply"
// and JSON or a file's bytes.
func answer(desk *page.Desk, path string, body []byte, send js.Value) {
	switch path {
	case "files", "views":
		out, err := made(desk, path, body)
		if err != nil {
			out = page.Failed(err)
		}
		data, err := json.Marshal(out)
		if err != nil {
			panic(err) // all of it are our own plain types
		}
		send.Invoke("reply", string(data))
	case "file":
		var f struct{ Number, Path string }
		var data []byte
		if json.Unmarshal(body, &f) == nil {
			data, _ = desk.File(f.Number, f.Path)
		}
		bytes := js.Global().Get("Uint8Array").New(len(data))
		js.CopyBytesToJS(bytes, data)
		send.Invoke("reply", bytes)
	}
}

func made(desk *page.Desk, what string, station []byte) (any, error) {
	r, err := handed.Read(station)
	if err != nil {
		return nil, err
	}
	if what == "files" {
		return desk.Make(context.Background(), r, nil)
	}
	list, err := drawn.Views(r)
	return map[string][]page.Picture{"views": list}, err
}

//go:build !js

package main

import "log"

func main() {
	log.Fatal("armwright-worker runs in a browser: GOOS=js GOARCH=wasm go build -o armwright-worker.wasm ./cmd/armwright-worker, then armwright page --static DIR")
}

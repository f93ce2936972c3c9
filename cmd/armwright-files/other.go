//go:build !js

package main

import "log"

func main() {
	log.Fatal("armwright-files runs in a browser: GOOS=js GOARCH=wasm go build -o armwright-files.wasm ./cmd/armwright-files, then armwright page --static DIR")
}

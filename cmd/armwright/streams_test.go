package main

import (
	"bytes"

	"armwright/cmd/armwright/storage"
)

// testStreams returns streams over buffers, and the machine's disk.
func testStreams(in string) (s *streams, out, err *bytes.Buffer) {
	out, err = new(bytes.Buffer), new(bytes.Buffer)
	return &streams{in: bytes.NewBufferString(in), out: out, err: err, disk: storage.Machine{}}, out, err
}

package dxf

import "fmt"

// Code numbers a kind of defect. The hundreds tell where it lies: 1 tags,
// 2 structure, 3 handles, 4 references, 5 entities.
type Code int

const (
	BadTag         Code = 101 // a group code that is empty or no number, or a missing value
	NoEOF          Code = 102 // the file does not end with 0/EOF, or goes on after it
	NotASCII       Code = 103 // a byte outside printable ASCII
	BadNumber      Code = 104 // NaN, Inf or no number at all
	LongValue      Code = 105 // a text longer than one group may hold
	BadVersion     Code = 201 // a version this audit does not know
	BadSection     Code = 202 // sections missing, doubled, out of order or not closed
	BadTable       Code = 203 // tables missing, doubled, out of order or not closed
	MissingEntry   Code = 204 // a table or dictionary lacks an entry it must have
	DoubleEntry    Code = 205 // a name defined twice
	MissingHeader  Code = 206 // a header variable that must be there
	NoHandle       Code = 301
	DoubleHandle   Code = 302
	BadHandle      Code = 303 // not a hexadecimal number above zero
	HighHandle     Code = 304 // not below $HANDSEED
	BadOwner       Code = 305 // the owner is missing or is not the right kind of object
	BadPointer     Code = 306 // points to no object
	NoLayer        Code = 401
	NoLinetype     Code = 402
	NoTextStyle    Code = 403
	NoDimStyle     Code = 404
	NoBlock        Code = 405
	NoPicture      Code = 501 // DIMENSION without a filled *Dn block of its own
	NestedDim      Code = 502 // DIMENSION inside a block
	VertexCount    Code = 503 // group 90 missing, late, or not the number of vertices
	FewVertices    Code = 504 // polyline of fewer than two vertices
	OpenChain      Code = 505 // POLYLINE without SEQEND, or VERTEX outside a POLYLINE
	BadSize        Code = 506 // radius, text height or scale not above zero
	BadColor       Code = 507
	BadWeight      Code = 508
	NoSubclass     Code = 509 // subclass markers missing or wrong
	WrongVersion   Code = 510 // entity or group that the version does not have
	BadMeasurement Code = 511 // stored measurement against the points measured
	NoText         Code = 512 // empty text of a TEXT or DIMENSION
	UnknownEntity  Code = 513 // entity this audit cannot vouch for
)

// Finding is a defect in a file.
type Finding struct {
	Code    Code
	Line    int    // of the group code or object, from 1
	Object  string // kind of the object, "LAYER"
	Message string
}

func (f Finding) String() string {
	return fmt.Sprintf("D%d line %d %s: %s", int(f.Code), f.Line, f.Object, f.Message)
}

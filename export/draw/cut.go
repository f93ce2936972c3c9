package draw

import (
	"bytes"

	"armwright/export/draw/platework"
	"armwright/export/dxf"
	"armwright/export/folder"
	"armwright/solver"
)

// CutFiles writes the files for a cutting machine. Errors: those of [platework.Cuts], and
// an *AuditError.
func CutFiles(r *solver.Result, o Options) ([]folder.File, error) {
	cuts, err := platework.Cuts(r, o.Nest)
	if err != nil {
		return nil, err
	}
	var out []folder.File
	for _, c := range cuts {
		var b bytes.Buffer
		if err := dxf.Write(&b, c.Document, o.dxf().Version); err != nil {
			return nil, err
		}
		f, err := audited(c.Path, b.Bytes())
		if err != nil {
			return nil, err
		}
		out = append(out, f)
	}
	return out, nil
}

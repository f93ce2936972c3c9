package draw

import "armwright/solver/fit"

func CutFiles(r *fit.Result, o Options) ([]File, error) { return nil, nil }

package storage

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"armwright/export/folder"
)

// Folder is an output folder on its way: everything is written to a temporary
// folder beside it, which takes its place in one step. Until Commit nothing
// is to be seen; Discard leaves nothing.
type Folder struct {
	disk     Disk
	name     string // as the user wrote it
	path     string // absolute, symbolic links resolved
	temp     string
	existing bool
	seen     View // what an existing folder held
}

// OpenFolder checks that the folder may be written, before any work is done.
// A folder that exists must be empty or hold an earlier output unchanged;
// changed is fine by force. It must not hold any of the inputs or the working directory,
// which the rename would pull from under somebody's feet, nor be where a disk is
// mounted, which cannot be renamed.
func OpenFolder(disk Disk, inputs []string, path string, force bool) (*Folder, error) {
	refuse := func(hint, format string, args ...any) (*Folder, error) {
		return nil, &Fault{"cannot write to " + path, fmt.Errorf(format, args...), hint}
	}
	f := &Folder{disk: disk, name: path}
	var err error
	if f.path, err = filepath.Abs(path); err != nil {
		return refuse(Advice(err), "%w", err)
	}
	info, err := os.Stat(f.path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if _, err := os.Lstat(f.path); err == nil {
			return refuse("remove the link, or choose another folder", "it is a link to nothing")
		}
	case err != nil:
		return refuse(Advice(err), "%w", Reason(err))
	case !info.IsDir():
		return refuse("name a folder", "it is a file")
	default:
		f.existing = true
		if f.path, err = filepath.EvalSymlinks(f.path); err != nil {
			return refuse(Advice(err), "%w", Reason(err))
		}
		for _, input := range inputs {
			if within(info, input) {
				return refuse("choose a folder beside it", "it holds %s", input)
			}
		}
		if within(info, ".") {
			return refuse("name a new folder inside it", "it holds the working directory")
		}
		if Mounted(f.path) {
			return refuse("name a new folder inside it", "a disk is mounted there")
		}
		switch f.seen, err = Inspect(f.path); {
		case err != nil:
			return refuse(Advice(err), "%w", Reason(err))
		case f.seen.State == Foreign:
			return refuse("choose another folder, or an empty one", "it is not empty, and not an earlier output of armwright")
		case f.seen.State == Changed && !force:
			return refuse("move what you want to keep, or replace it all with --force", "%s was changed or added after armwright wrote the folder", f.seen.Name)
		}
	}
	// The temporary folder goes to the nearest folder that exists: making it
	// proves that there is room to write, and parents are made at the end.
	near := filepath.Dir(f.path)
	for {
		if info, err := os.Stat(near); err == nil && info.IsDir() {
			break
		} else if err == nil {
			return refuse("name a folder", "%s is a file", near)
		} else if !errors.Is(err, fs.ErrNotExist) || near == filepath.Dir(near) {
			return refuse(Advice(err), "%w", Reason(err))
		}
		near = filepath.Dir(near)
	}
	if f.temp, err = disk.MkdirTemp(near, TempPattern); err != nil {
		return refuse(Advice(err), "%w", Reason(err))
	}
	return f, nil
}

// within says whether path, which need not exist, lies in the folder.
func within(folder os.FileInfo, path string) bool {
	path, err := filepath.Abs(path)
	if err != nil {
		return false
	}
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	for {
		if info, err := os.Stat(path); err == nil && os.SameFile(info, folder) {
			return true
		}
		parent := filepath.Dir(path)
		if parent == path {
			return false
		}
		path = parent
	}
}

// next is where the output stands until Commit. It is made anew so that it
// has ordinary permissions, which a temporary folder has not.
func (f *Folder) next() string { return filepath.Join(f.temp, "new") }

// Write writes files and, last, the manifest of them.
func (f *Folder) Write(files []folder.File) error {
	var written []string
	for _, file := range append(files, Manifest(files)) {
		path := filepath.Join(f.next(), filepath.FromSlash(file.Path))
		if err := f.disk.MkdirAll(filepath.Dir(path)); err != nil {
			return f.failed(err)
		}
		if err := WriteFile(f.disk, path, file.Data); err != nil {
			return f.failed(err)
		}
		written = append(written, path)
	}
	if err := f.disk.Sync(written); err != nil {
		return f.failed(err)
	}
	return nil
}

// Commit puts the output in its place. Where the file system can exchange two
// folders in one step, whoever looks, and whatever ends the process, finds the
// old output or the new; elsewhere there is a moment with neither, and a
// process killed in it leaves the old one under TempPattern.
func (f *Folder) Commit() error {
	defer f.Discard()
	if !f.existing {
		made, err := f.makeParents(filepath.Dir(f.path))
		if err == nil {
			err = f.disk.Rename(f.next(), f.path)
		}
		if err != nil {
			for _, dir := range made {
				_ = f.disk.Remove(dir) // only what is empty, so only what was made here
			}
			return f.failed(err)
		}
		return nil
	}
	err := f.same(f.path)
	if err == nil {
		err = f.disk.Keep(f.path, f.next())
	}
	if err == nil {
		err = f.exchange()
	}
	if errors.Is(err, errors.ErrUnsupported) {
		err = f.replace()
	}
	if err != nil {
		return f.failed(err)
	}
	return nil
}

// ErrTouched says that somebody else worked in the folder meanwhile.
var ErrTouched = errors.New("its files were changed while armwright was at work; they are as they were left")

// same says whether the existing folder's files, now in the folder at path, are
// those that were there when the run began.
func (f *Folder) same(path string) error {
	now, err := Inspect(path)
	if err == nil && now != f.seen {
		err = ErrTouched
	}
	return err
}

// exchange puts the output in the place of an earlier one in one step. What came
// into the earlier one at the last moment is not thrown away: it is put back.
func (f *Folder) exchange() error {
	if err := f.disk.Swap(f.next(), f.path); err != nil {
		return err
	}
	err := f.same(f.next())
	if err == nil {
		return nil
	}
	if back := f.disk.Swap(f.next(), f.path); back != nil {
		defer func() { f.temp = "" }() // it holds the only copy of the earlier output
		return fmt.Errorf("%w; the earlier output is in %s", Reason(err), f.next())
	}
	return err
}

// replace puts the output in the place of an earlier one in two steps.
func (f *Folder) replace() error {
	old := filepath.Join(f.temp, "old")
	if err := f.disk.Rename(f.path, old); err != nil {
		return err
	}
	err := f.same(old)
	if err == nil {
		err = f.disk.Rename(f.next(), f.path)
	}
	if err == nil {
		return nil
	}
	if back := f.disk.Rename(old, f.path); back != nil {
		f.temp = "" // it holds the only copy of the earlier output
		return fmt.Errorf("%w; the earlier output is in %s", Reason(err), old)
	}
	return err
}

// makeParents makes a folder with its parents and returns those that were
// missing, innermost first.
func (f *Folder) makeParents(path string) (made []string, err error) {
	for p := path; ; p = filepath.Dir(p) {
		if _, err := os.Stat(p); err == nil || p == filepath.Dir(p) {
			break
		}
		made = append(made, p)
	}
	return made, f.disk.MkdirAll(path)
}

// Discard removes what is temporary.
func (f *Folder) Discard() {
	if f.temp != "" {
		_ = f.disk.RemoveAll(f.temp)
	}
}

func (f *Folder) failed(err error) error {
	return Unwritable(f.name, err)
}

package file

import (
	"io"
	"io/fs"
	"path"

	"standclear/limits/source"
)

// Read is a file that an assessment was built from, with its bytes.
type Read struct {
	Name string // within the folder of the assessment, with slashes
	Data []byte
}

// Kept keeps what is read from the folders of the user, each file once, in the
// order of reading.
type Kept struct{ Files []Read }

// Add keeps a file.
func (k *Kept) Add(name string, data []byte) {
	for i := range k.Files {
		if k.Files[i].Name == name {
			return
		}
	}
	k.Files = append(k.Files, Read{name, data})
}

// FS is a folder of the user whose files are kept once they are read. name is
// the folder as the assessment names it. Where only is not empty, that file is
// all there is in the folder.
func (k *Kept) FS(fsys fs.FS, name, only string) fs.FS { return &keptFS{k, fsys, name, only} }

type keptFS struct {
	kept *Kept
	fs   fs.FS
	name string
	only string
}

// Open opens a file or folder.
func (f *keptFS) Open(name string) (fs.File, error) { return f.fs.Open(name) }

// ReadDir lists a folder.
func (f *keptFS) ReadDir(name string) ([]fs.DirEntry, error) {
	list, err := fs.ReadDir(f.fs, name)
	if f.only == "" {
		return list, err
	}
	for _, e := range list {
		if e.Name() == f.only {
			return []fs.DirEntry{e}, err
		}
	}
	return nil, err
}

// ReadFile reads a file and keeps it. Of one that is larger than may be read
// there is one byte too many, which its reader refuses.
func (f *keptFS) ReadFile(name string) ([]byte, error) {
	file, err := f.fs.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, source.MaxSize+1))
	if err == nil && len(data) <= source.MaxSize {
		f.kept.Add(path.Join(f.name, name), data)
	}
	return data, err
}

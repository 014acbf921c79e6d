package main

import (
	"cmp"
	"path/filepath"
	"strings"

	"standclear/hazards"
	"standclear/hazards/file"
	"standclear/limits/sheet"
	"standclear/limits/source"
	"standclear/templates"
)

// library loads the embedded data. A problem in it is an internal error.
func library() *sheet.Library {
	lib, problems := sheet.Load(templates.FS)
	if len(problems) > 0 {
		panic("embedded data: " + problems[0].Pos.String() + ": " + problems[0].Message)
	}
	return lib
}

// assess loads and judges one file and gives its bytes too; the error lists
// every problem of it.
func assess(path string) (*hazards.Result, []byte, error) {
	hazards.Prefetch()
	a, data, problems := file.Open(path)
	if len(problems) > 0 {
		return nil, data, refused(path, data, problems)
	}
	r, err := assessLoaded(path, a, data)
	return r, data, err
}

func assessLoaded(path string, a *file.Assessment, data []byte) (*hazards.Result, error) {
	kept := &file.Kept{Files: []file.Read{{Name: filepath.Base(path), Data: data}}}
	shelf, err := stock(ownOf(path, a), kept)
	if err != nil {
		return nil, err
	}
	r, problems := hazards.Assess(a, data, shelf.Library, hazards.Options{Name: baseName(path), Version: Version, Methods: shelf.Methods, Files: kept.Files})
	if len(problems) > 0 {
		return nil, refused(path, data, problems)
	}
	return r, nil
}

func refused(path string, data []byte, problems []source.Problem) error {
	return &failure{code: exitInput, problems: problems, texts: map[string][]byte{path: data}}
}

// baseName is the name of the outputs: that of the file without its ending. A
// name that is nothing but an ending stays as it is.
func baseName(path string) string {
	b := filepath.Base(path)
	return cmp.Or(strings.TrimSuffix(b, filepath.Ext(b)), b)
}

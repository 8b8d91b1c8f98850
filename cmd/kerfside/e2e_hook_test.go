package main

import (
	"bytes"
	_ "embed"
	"io/fs"
	"testing/fstest"
)

// The hook of the tests, and where the page has room for it.
//
//go:embed testdata/hook.js
var hookScript []byte

const (
	hookName  = "hook.js"
	hookPlace = `<script type="module" src="/a/HASH/app.js"></script>`
	hookLink  = `<script type="module" src="/a/HASH/` + hookName + `"></script>`
)

// withHook adds the hook to the app's files. The app stays what it is, joined or
// as it lies: the hook is one more module that imports from its first.
func withHook(app fs.FS) fs.FS { return hooked{app} }

type hooked struct{ fs.FS }

func (h hooked) Open(name string) (fs.File, error) {
	switch name {
	case hookName:
		return fstest.MapFS{name: {Data: hookScript}}.Open(name)
	case "index.html":
		page, err := fs.ReadFile(h.FS, name)
		if err != nil {
			return nil, err
		}
		page = bytes.Replace(page, []byte(hookPlace), []byte(hookPlace+"\n"+hookLink), 1)
		return fstest.MapFS{name: {Data: page}}.Open(name)
	}
	return h.FS.Open(name)
}

// ReadDir lists the hook as well.
func (h hooked) ReadDir(name string) ([]fs.DirEntry, error) {
	list, err := fs.ReadDir(h.FS, name)
	if err != nil || name != "." {
		return list, err
	}
	hook, err := fstest.MapFS{hookName: {Data: hookScript}}.ReadDir(".")
	return append(list, hook...), err
}

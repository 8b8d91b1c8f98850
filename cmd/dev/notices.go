package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

// noticesFile is what the task writes and kerfside notices prints.
const noticesFile = "cmd/kerfside/notices/linked.txt"

// writeNotices writes anew the licences of all that is linked into the program and
// into the sums that it sends to phones.
func writeNotices([]string) error {
	text, err := linkedNotices()
	if err != nil {
		return err
	}
	if old, err := os.ReadFile(noticesFile); err == nil && bytes.Equal(old, text) {
		say("%s is as it should be", noticesFile)
		return nil
	}
	say("%s", noticesFile)
	return os.WriteFile(noticesFile, text, 0o644)
}

// linkedNotices is the text: first Go, then the modules by name.
func linkedNotices() ([]byte, error) {
	all, err := linked()
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	for _, l := range all {
		texts, err := l.licences()
		if err != nil {
			return nil, err
		}
		if len(texts) == 0 {
			return nil, fail("no licence lies beside "+l.name, "Look in "+l.root+" for what it is called there.")
		}
		fmt.Fprintf(&out, "%s\n%s\nIn %s.\n", strings.Repeat("=", 72), l.title(), strings.Join(l.in, " and "))
		for _, t := range texts {
			fmt.Fprintf(&out, "\n--- %s\n\n%s\n", t.name, t.text)
		}
		out.WriteString("\n")
	}
	return out.Bytes(), nil
}

// licence is one text, called by its path in what it is the licence of.
type licence struct{ name, text string }

// licenceFile is what files with licences are called.
var licenceFile = regexp.MustCompile(`(?i)^(licen[cs]e|copying|notice|patents|unlicense)([._-].*)?$`)

// licences reads the texts that lie in the folders of the linked packages, above
// them up to the root, and in the folder for those of others.
func (l *linkedCode) licences() ([]licence, error) {
	dirs := []string{l.root, filepath.Join(l.root, "THIRD_PARTY_LICENSES")}
	for _, dir := range l.dirs {
		for ; strings.HasPrefix(dir, l.root+string(filepath.Separator)); dir = filepath.Dir(dir) {
			dirs = append(dirs, dir)
		}
	}
	slices.Sort(dirs)
	var texts []licence
	for _, dir := range slices.Compact(dirs) {
		files, err := os.ReadDir(dir)
		if err != nil && !os.IsNotExist(err) {
			return nil, err
		}
		for _, f := range files {
			others := filepath.Base(dir) == "THIRD_PARTY_LICENSES"
			if f.IsDir() || !others && !licenceFile.MatchString(f.Name()) {
				continue
			}
			text, err := readLicence(filepath.Join(dir, f.Name()))
			if err != nil {
				return nil, err
			}
			if !slices.ContainsFunc(texts, func(t licence) bool { return t.text == text }) {
				name, err := filepath.Rel(l.root, filepath.Join(dir, f.Name()))
				if err != nil {
					return nil, err
				}
				texts = append(texts, licence{name: filepath.ToSlash(name), text: text})
			}
		}
	}
	return l.withSQLite(texts)
}

// readLicence reads a text without what differs between machines.
func readLicence(path string) (string, error) {
	text, err := os.ReadFile(path)
	return strings.Trim(strings.ReplaceAll(string(text), "\r\n", "\n"), "\n"), err
}

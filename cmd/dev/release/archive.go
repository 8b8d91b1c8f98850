package release

import (
	"archive/tar"
	"archive/zip"
	"cmp"
	"compress/gzip"
	"io"
	"io/fs"
	"slices"
	"time"
)

// Entry is a file or folder in an archive.
type Entry struct {
	Name string      // with / and no first stroke
	Mode fs.FileMode // its rights, and whether it is a folder
	Data []byte
}

// sorted returns the entries in the order of their names, which is the same for
// every build.
func sorted(entries []Entry) []Entry {
	return slices.SortedFunc(slices.Values(entries), func(a, b Entry) int { return cmp.Compare(a.Name, b.Name) })
}

// WriteTarGz packs the entries. They belong to root and were all changed at that
// time, so that the same entries give the same bytes.
func WriteTarGz(w io.Writer, entries []Entry, at time.Time) error {
	packed, err := gzip.NewWriterLevel(w, gzip.BestCompression)
	if err != nil {
		return err
	}
	archive := tar.NewWriter(packed)
	for _, e := range sorted(entries) {
		header := &tar.Header{
			Typeflag: tar.TypeReg, Name: e.Name, Size: int64(len(e.Data)), Mode: int64(e.Mode.Perm()),
			Uname: "root", Gname: "root", ModTime: at.Truncate(time.Second), Format: tar.FormatUSTAR,
		}
		if e.Mode.IsDir() {
			header.Typeflag, header.Name = tar.TypeDir, e.Name+"/"
		}
		if err := archive.WriteHeader(header); err != nil {
			return err
		}
		if _, err := archive.Write(e.Data); err != nil {
			return err
		}
	}
	if err := archive.Close(); err != nil {
		return err
	}
	return packed.Close()
}

// WriteZip packs the entries with the same promise.
func WriteZip(w io.Writer, entries []Entry, at time.Time) error {
	archive := zip.NewWriter(w)
	for _, e := range sorted(entries) {
		if e.Mode.IsDir() {
			continue
		}
		header := &zip.FileHeader{Name: e.Name, Method: zip.Deflate, Modified: at.UTC().Truncate(time.Second)}
		header.SetMode(e.Mode)
		file, err := archive.CreateHeader(header)
		if err != nil {
			return err
		}
		if _, err := file.Write(e.Data); err != nil {
			return err
		}
	}
	return archive.Close()
}

package server

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"

	"kerfside/calc/problem"
	"kerfside/server/disk"
	"kerfside/server/store"
)

// photoFiles keeps pictures as files beside the database, each under its crew
// and its hash: DIR/CREW/ab/abcd…. They belong into every backup of it.
type photoFiles struct {
	dir   string
	quota int64 // bytes for each crew

	mu   sync.Mutex
	used map[string]int64 // bytes by crew; counted when first needed
}

func newPhotoFiles(dir string, quota int64) *photoFiles {
	return &photoFiles{dir: dir, quota: quota, used: map[string]int64{}}
}

// path returns where a picture lies. crew comes from the store and sum has been
// through isSum: neither can hold a way out of the folder.
func (p *photoFiles) path(crew, sum string) string {
	return filepath.Join(p.dir, store.PictureFile(crew, sum))
}

// isSum reports whether text is a SHA-256 in lower-case hex.
func isSum(text string) bool {
	if len(text) != 2*sha256.Size {
		return false
	}
	for _, c := range text {
		if (c < '0' || c > '9') && (c < 'a' || c > 'f') {
			return false
		}
	}
	return true
}

// read returns a picture. One whose bytes went bad on the disk counts as not
// there, so that a phone sends it again.
func (p *photoFiles) read(crew, sum string) ([]byte, error) {
	file, err := os.ReadFile(p.path(crew, sum))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("read picture: %w", err)
	}
	if err != nil || store.PictureName(file) != sum {
		return nil, problem.New(problem.NotFound, "sha256", "this picture is not on the server", "It may still wait on the phone that took it.")
	}
	return file, nil
}

// write stores a picture whose bytes fit sum. It is on the disk under its whole
// name or not at all. Writing what is there changes nothing.
func (p *photoFiles) write(crew, sum string, file []byte) error {
	p.mu.Lock()
	defer p.mu.Unlock()
	if _, err := p.read(crew, sum); err == nil {
		return nil
	}
	used, err := p.count(crew)
	if err != nil {
		return err
	}
	size := int64(len(file))
	if used+size > p.quota {
		return problem.Newf(problem.DiskFull, "", "the crew's pictures fill their %d MB on the server", p.quota/1e6).
			WithHint("The picture stays on this phone. Whoever runs the server can give more room.")
	}
	path := p.path(crew, sum)
	damaged, err := os.Stat(path)
	if err == nil {
		used -= damaged.Size()
	}
	if err := disk.WriteWhole(path, file); err != nil {
		return pictureTrouble(err)
	}
	p.used[crew] = used + size
	return nil
}

// pictureTrouble says why a picture could not be stored. Of a disk that takes no
// more the phone is told as of a full one: it keeps the picture and goes on.
func pictureTrouble(err error) error {
	if !store.IsFull(err) {
		return fmt.Errorf("store picture: %w", err)
	}
	p := problem.New(problem.DiskFull, "", "the server's disk takes no more pictures",
		"The picture stays on this phone. Make room on the server.").WithCause(err)
	p.Retry = 60
	return p
}

// count adds up what a crew's pictures take; call it with mu held.
func (p *photoFiles) count(crew string) (int64, error) {
	if used, ok := p.used[crew]; ok {
		return used, nil
	}
	var used int64
	err := filepath.WalkDir(filepath.Join(p.dir, crew), func(_ string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		if err == nil {
			used += info.Size()
		}
		return err
	})
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return 0, fmt.Errorf("count pictures: %w", err)
	}
	p.used[crew] = used
	return used, nil
}

// total adds up what the pictures of all crews take.
func (p *photoFiles) total() (int64, error) {
	crews, err := os.ReadDir(p.dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return 0, fmt.Errorf("list the crews' pictures: %w", err)
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	var all int64
	for _, crew := range crews {
		used, err := p.count(crew.Name())
		if err != nil {
			return 0, err
		}
		all += used
	}
	return all, nil
}

// forget forgets how much a crew's pictures take: the crew is away, and may come back
// with others.
func (p *photoFiles) forget(crew string) {
	if p == nil {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	delete(p.used, crew)
}

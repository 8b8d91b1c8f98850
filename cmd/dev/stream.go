package main

import (
	"os"
	"path/filepath"
	"time"
)

// streamer is what the page on backups says copies a database continuously. It is
// in no Debian and too large to be built for each test.
const streamer = "github.com/benbjohnson/litestream/cmd/litestream@v0.5.18"

// soakStream builds it and runs the blocks that show it.
func soakStream() error {
	heading("continuous copies")
	cache, err := os.UserCacheDir()
	if err != nil {
		return err
	}
	bin := filepath.Join(cache, "kerfside", "bin")
	if err := os.MkdirAll(bin, 0o755); err != nil {
		return err
	}
	if err := cmd("go", "install", streamer).with("GOBIN=" + bin).quiet(); err != nil {
		return err
	}
	began := time.Now()
	var total score
	goTest(&total, cmd("go", "test", "-json", "-count=1", "-run", "^TestPageStream$", "./cmd/kerfside").with("PATH="+bin+string(os.PathListSeparator)+os.Getenv("PATH")))
	return total.end(time.Since(began))
}

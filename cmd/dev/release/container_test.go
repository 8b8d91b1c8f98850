package release

import (
	"bytes"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"kerfside/cmd/internal/process"
	"kerfside/server/help"
)

// TestInstalledContainer builds the image as the page says, from an unpacked archive,
// and runs the program in the image's own root, where there is nothing else, by the
// image's user.
func TestInstalledContainer(t *testing.T) {
	if os.Getenv(TryRoot) == "" {
		t.Skip("not run: go run ./cmd/dev test -only release makes what it needs")
	}
	b := builder{dir: t.TempDir()}
	archives, err := filepath.Glob(filepath.Join(os.Getenv(TryNew), "*.tar.gz"))
	if err != nil || len(archives) != 1 {
		t.Fatalf("archives %v, %v", archives, err)
	}
	if said, err := b.run("tar", "-xzf", archives[0]); err != nil {
		t.Fatalf("tar: %v\n%s", err, said)
	}
	conf := fmt.Sprintf("[storage]\ndriver = \"vfs\"\ngraphroot = %q\nrunroot = %q\n", filepath.Join(b.dir, "images"), filepath.Join(b.dir, "run"))
	put(t, b.dir, "storage.conf", conf)
	if said, err := b.run("sh", "-eu", "-c", help.Block("install", "container")); err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	name, err := b.run("buildah", "from", "--quiet", "localhost/kerfside")
	if err != nil {
		t.Fatalf("%v\n%s", err, name)
	}
	name = strings.TrimSpace(name)
	addr := fmt.Sprintf("127.0.0.1:%d", process.OwnPort())
	var told bytes.Buffer
	serve := b.command("buildah", "run", name, "--", "/usr/bin/kerfside", "serve", "-addr", addr)
	serve.Stdout, serve.Stderr = &told, &told
	if err := serve.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- serve.Wait() }()
	defer func() {
		serve.Process.Signal(os.Interrupt)
		<-ended
	}()
	for deadline := time.Now().Add(time.Minute); ; {
		reply, err := http.Get("http://" + addr + "/api/status")
		if err == nil {
			body, _ := io.ReadAll(reply.Body) // shown below
			reply.Body.Close()
			if reply.StatusCode != http.StatusOK {
				t.Errorf("%s: %s", reply.Status, body)
			}
			break
		}
		select {
		case err := <-ended:
			ended <- err
			t.Fatalf("it ended: %v\n%s", err, told.String())
		case <-time.After(50 * time.Millisecond):
		}
		if time.Now().After(deadline) {
			t.Fatalf("it does not answer: %v", err)
		}
	}
	said, err := exec.Command("ps", "-e", "-o", "uid=,args=").Output()
	if err != nil || !regexp.MustCompile(`(?m)^ *480 /usr/bin/kerfside serve -addr `+regexp.QuoteMeta(addr)+`$`).Match(said) {
		t.Errorf("it does not run as user 480: %v\n%s", err, said)
	}
}

// builder runs buildah with a store of its own.
type builder struct{ dir string }

func (b builder) command(words ...string) *exec.Cmd {
	c := exec.Command(words[0], words[1:]...)
	c.Dir = b.dir
	c.Env = append(os.Environ(), "CONTAINERS_STORAGE_CONF="+filepath.Join(b.dir, "storage.conf"), "BUILDAH_ISOLATION=chroot")
	return c
}

func (b builder) run(words ...string) (string, error) {
	said, err := b.command(words...).CombinedOutput()
	return string(said), err
}

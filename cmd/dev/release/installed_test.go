package release

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"kerfside/server/help"
)

// blocks are the commands of the pages that are run in a fresh Debian.
var blocks = map[string]string{
	"check":   help.Block("install", "check"),
	"deb":     help.Block("install", "deb"),
	"restart": help.Block("install", "restart"),
	"backup":  help.Block("install", "backup"),
	"upgrade": help.Block("install", "upgrade"),
	"remove":  help.Block("install", "remove"),
	"archive": help.Block("install", "archive"),
	"which":   help.Block("board", "which"),
}

// TestInstalled installs, upgrades and removes the package in a fresh Debian root that
// systemd has started: the service serves, as a user of its own, confined, and what it
// holds stays. systemd-analyze looks at its unit. Each check of installed.sh is a subtest.
func TestInstalled(t *testing.T) {
	archive := os.Getenv(TryRoot)
	if archive == "" {
		t.Skip("not run: go run ./cmd/dev test -only release makes what it needs")
	}
	root := freshRoot(t, archive)
	for name, dir := range map[string]string{"old": os.Getenv(TryOld), "new": os.Getenv(TryNew)} {
		if err := os.CopyFS(filepath.Join(root, "root", name), os.DirFS(dir)); err != nil {
			t.Fatal(err)
		}
	}
	for name, text := range blocks {
		put(t, root, "root/blocks/"+name, text)
	}
	script, err := os.ReadFile(filepath.Join("testdata", "installed.sh"))
	if err != nil {
		t.Fatal(err)
	}
	put(t, root, "root/installed.sh", string(script))
	put(t, root, "etc/apt/apt.conf.d/99yes", "APT::Get::Assume-Yes \"true\";\n") // nobody is there to ask
	said, why := boot(t, root)
	if !strings.HasPrefix(said, "booted\n") {
		t.Logf("systemd does not start here, so the service is started by hand: %s", why)
		said = enter(t, root)
	}
	passed := 0
	lines := strings.Split(strings.TrimSpace(said), "\n")
	for i, line := range lines {
		what, failed := strings.CutPrefix(line, "not ok ")
		if !failed {
			if strings.HasPrefix(line, "ok ") {
				passed++
			}
			continue
		}
		notes := i + 1
		for notes < len(lines) && strings.HasPrefix(lines[notes], "#") {
			notes++
		}
		t.Errorf("%s:\n%s", what, strings.Join(lines[i+1:notes], "\n"))
	}
	if !slices.Contains(lines, "end") || passed == 0 {
		t.Errorf("it did not come to its end:\n%s\n%s", said, why)
	}
	t.Logf("tally: %d checks of the installed package", passed)
}

// freshRoot unpacks a Debian root.
func freshRoot(t *testing.T, archive string) string {
	t.Helper()
	root := filepath.Join(t.TempDir(), "root")
	if err := os.Mkdir(root, 0o755); err != nil {
		t.Fatal(err)
	}
	if said, err := exec.Command("tar", "--numeric-owner", "--directory", root, "--extract", "--file", archive).CombinedOutput(); err != nil {
		t.Fatalf("tar: %v\n%s", err, said)
	}
	return root
}

// put writes a file of the root.
func put(t *testing.T, root, name, text string) {
	t.Helper()
	path := filepath.Join(root, filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o755); err != nil {
		t.Fatal(err)
	}
}

// tryUnit runs the script once the root has started, and ends the root with it.
const tryUnit = `[Unit]
After=multi-user.target
[Service]
Type=oneshot
ExecStart=/bin/bash /root/installed.sh
ExecStopPost=/bin/systemctl poweroff --force
StandardOutput=file:/root/said
StandardError=file:/root/trouble
[Install]
WantedBy=default.target
`

// boot starts the root with systemd, without a network, and returns what the script
// printed. why is what there was to say if it could not.
func boot(t *testing.T, root string) (said, why string) {
	t.Helper()
	put(t, root, "etc/systemd/system/try.service", tryUnit)
	if err := os.Chmod(filepath.Join(root, "etc/systemd/system/try.service"), 0o644); err != nil { // systemd minds
		t.Fatal(err)
	}
	link := filepath.Join(root, "etc/systemd/system/default.target.wants/try.service")
	if err := os.MkdirAll(filepath.Dir(link), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("/etc/systemd/system/try.service", link); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(t.Context(), 10*time.Minute)
	defer cancel()
	var told bytes.Buffer
	c := exec.CommandContext(ctx, "systemd-nspawn", "--quiet", "--register=no", "--keep-unit", "--private-network", "--link-journal=no",
		"--console=pipe", "--directory="+root, "--boot")
	c.Stdout, c.Stderr = &told, &told
	c.Cancel = func() error { return c.Process.Signal(os.Interrupt) }
	c.WaitDelay = 30 * time.Second
	if err := c.Run(); err != nil {
		told.WriteString(err.Error())
	}
	text, err := os.ReadFile(filepath.Join(root, "root", "said"))
	if err != nil {
		told.WriteString(err.Error())
	}
	trouble, _ := os.ReadFile(filepath.Join(root, "root", "trouble")) // to be shown if there is any
	return string(text), told.String() + string(trouble)
}

// enter runs the script in the root without starting it.
func enter(t *testing.T, root string) string {
	t.Helper()
	c := exec.Command("unshare", "--mount", "--pid", "--fork", "--net", "--mount-proc="+filepath.Join(root, "proc"),
		"sh", "-c", `ip link set lo up; exec chroot "$0" /usr/bin/env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin HOME=/root DEBIAN_FRONTEND=noninteractive bash /root/installed.sh`, root)
	said, err := c.CombinedOutput()
	if err != nil {
		t.Logf("it ended with %v", err)
	}
	return string(said)
}

// TestInstalledFromSource builds the program from a copy of the sources, as the page
// says for machines that no release is for. What is slow to make anew is brought along.
func TestInstalledFromSource(t *testing.T) {
	if os.Getenv(TryRoot) == "" {
		t.Skip("not run: go run ./cmd/dev test -only release runs it")
	}
	dir := t.TempDir()
	top := filepath.Join("..", "..", "..")
	if said, err := exec.Command("git", "clone", "--quiet", "--no-local", top, dir).CombinedOutput(); err != nil {
		t.Fatalf("git: %v\n%s", err, said)
	}
	for _, name := range []string{"calc.wasm", "calc.wasm.gz", "calc.wasm.br"} {
		data, err := os.ReadFile(filepath.Join(top, "pwa", "gen", name))
		if err != nil {
			t.Fatal(err)
		}
		put(t, dir, "pwa/gen/"+name, string(data))
	}
	c := exec.Command("sh", "-eu", "-c", help.Block("install", "source"))
	c.Dir = dir
	said, err := c.CombinedOutput()
	if err != nil || !bytes.Contains(said, []byte("kerfside ")) {
		t.Errorf("%v\n%s", err, said)
	}
}

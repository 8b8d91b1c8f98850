package main

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// What a fresh Debian has, in which the package is tried: Debian's smallest, with what
// the commands of the pages need. What is beside the package itself comes along,
// for there is no network when it is tried.
const (
	rootSuite = "bookworm"
	rootHas   = "adduser,ca-certificates,curl,procps,sudo,systemd,systemd-sysv"
)

// needRoot makes sure of what makes a Debian root and starts it, and of what makes an
// image of the program.
func needRoot() error {
	if err := need("debootstrap", onPath("debootstrap"), "debootstrap", "debian-archive-keyring"); err != nil {
		return err
	}
	if err := need("systemd-nspawn", onPath("systemd-nspawn"), "systemd-container"); err != nil {
		return err
	}
	return need("buildah", onPath("buildah"), "buildah")
}

// debianRoot returns a tar archive with a fresh Debian root. It is made once and kept
// in the user's cache.
func debianRoot() (string, error) {
	cache, err := os.UserCacheDir()
	if err != nil {
		return "", err
	}
	kept := filepath.Join(cache, "kerfside", "debian-"+rootSuite+"-"+runtime.GOARCH+"-"+strings.ReplaceAll(rootHas, ",", "-")+".tar")
	if _, err := os.Stat(kept); err == nil {
		return kept, nil
	}
	if err := os.MkdirAll(filepath.Dir(kept), 0o755); err != nil {
		return "", err
	}
	dir, err := os.MkdirTemp(filepath.Dir(kept), "root-")
	if err != nil {
		return "", err
	}
	root, half := filepath.Join(dir, "root"), filepath.Join(dir, "root.tar")
	defer func() { asRoot("rm", "-r", "--one-file-system", dir).quiet() }() // what is left of it is in the cache
	words := []string{"debootstrap", "--variant=minbase", "--include=" + rootHas, rootSuite, root}
	if mirror := aptMirror(); mirror != "" {
		words = append(words, mirror)
	}
	if err := asRoot(words...).quiet(); err != nil {
		return "", err
	}
	if err := asRoot("tar", "--numeric-owner", "--one-file-system", "--directory", root, "--create", "--file", half, ".").quiet(); err != nil {
		return "", err
	}
	return kept, os.Rename(half, kept)
}

// aptMirror is where this machine has its Debian from; "" for Debian's own.
func aptMirror() string {
	said, err := cmd("apt-get", "indextargets", "--format", "$(ORIGIN) $(SUITE) $(REPO_URI)").output()
	if err != nil {
		return ""
	}
	for line := range strings.Lines(said) {
		if f := strings.Fields(line); len(f) == 3 && f[0] == "Debian" && !strings.Contains(f[1], "-") {
			return f[2]
		}
	}
	return ""
}

// asRoot is a command that root runs.
func asRoot(words ...string) command {
	if os.Geteuid() != 0 {
		words = append([]string{"sudo", "-n"}, words...)
	}
	return cmd(words[0], words[1:]...)
}

package release

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// dpkgDeb runs Debian's own reader of packages.
func dpkgDeb(t *testing.T, args ...string) string {
	t.Helper()
	said, err := exec.Command("dpkg-deb", args...).CombinedOutput()
	if err != nil {
		t.Fatalf("dpkg-deb %s: %v\n%s", strings.Join(args, " "), err, said)
	}
	return string(said)
}

// dpkg-deb, the reference for the form, reads the package: what it says of itself, its
// files with rights and owner, and their bytes.
func TestPackageReads(t *testing.T) {
	if _, err := exec.LookPath("dpkg-deb"); err != nil {
		t.Skip("not compared: there is no dpkg-deb")
	}
	p := Debian(Targets[1], "v0.2.0-rc.1", []byte("odd"), []Entry{{Name: "usr/share/man/man1/kerfside.1.gz", Mode: 0o644, Data: []byte("man")}}, at)
	var first, second bytes.Buffer
	for _, b := range []*bytes.Buffer{&first, &second} {
		if err := p.Write(b); err != nil {
			t.Fatal(err)
		}
		slices.Reverse(p.Files)
	}
	if !bytes.Equal(first.Bytes(), second.Bytes()) {
		t.Error("in another order the same files give other bytes")
	}
	path := filepath.Join(t.TempDir(), "k.deb")
	if err := os.WriteFile(path, first.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	for field, want := range map[string]string{"Version": "0.2.0~rc.1", "Architecture": "arm64", "Package": "kerfside"} {
		if got := strings.TrimSpace(dpkgDeb(t, "--field", path, field)); got != want {
			t.Errorf("%s is %q, want %q", field, got, want)
		}
	}
	var names []string
	for line := range strings.Lines(dpkgDeb(t, "--contents", path)) {
		f := strings.Fields(line)
		names = append(names, f[0]+" "+f[1]+" "+f[5])
	}
	for _, want := range []string{
		"drwxr-xr-x root/root ./", "drwxr-xr-x root/root ./usr/bin/", "-rwxr-xr-x root/root ./usr/bin/kerfside",
		"-rw-r--r-- root/root ./etc/default/kerfside", "-rw-r--r-- root/root ./usr/lib/systemd/system/kerfside.service",
	} {
		if !slices.Contains(names, want) {
			t.Errorf("it has no %s but\n%s", want, strings.Join(names, "\n"))
		}
	}
	out := t.TempDir()
	dpkgDeb(t, "--raw-extract", path, out)
	if got, err := os.ReadFile(filepath.Join(out, "usr", "bin", "kerfside")); err != nil || string(got) != "odd" {
		t.Errorf("the program came out as %q, %v", got, err)
	}
	if got, err := os.ReadFile(filepath.Join(out, "DEBIAN", "conffiles")); err != nil || string(got) != "/etc/default/kerfside\n" {
		t.Errorf("conffiles came out as %q, %v", got, err)
	}
	sums := exec.Command("md5sum", "--check", "--strict", filepath.Join("DEBIAN", "md5sums"))
	sums.Dir = out
	if said, err := sums.CombinedOutput(); err != nil || bytes.Count(said, []byte(": OK")) != len(p.Files)-1 {
		t.Errorf("md5sum: %v\n%s", err, said)
	}
}

// dpkg orders versions as they came to be.
func TestDebianVersion(t *testing.T) {
	versions := []string{"(devel)", "v0.0.0-20261130085234-d5640ba70108", "v0.1.0", "v0.2.0-rc.1", "v0.2.0", "v0.2.1-0.20261130085234-d5640ba70108", "v0.2.1", "v0.10.0"}
	for i, later := range versions[1:] {
		a, b := DebianVersion(versions[i]), DebianVersion(later)
		if err := exec.Command("dpkg", "--compare-versions", a, "lt", b).Run(); err != nil {
			t.Errorf("dpkg does not order %s before %s: %v", a, b, err)
		}
	}
}

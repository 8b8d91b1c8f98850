package main

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"kerfside/cmd/internal/process"
)

// proxyShell is a server as a block of the page starts it, and what stands in
// front of it.
type proxyShell struct {
	*shell
	t        *testing.T
	kerfside string // where the server listens, or what hands on to it
	socket   string
	watch    string    // where it tells its figures
	front    frontDoor // what phones reach
	conf     string    // the file that nginx reads
}

// frontDoor is where a proxy listens.
type frontDoor struct{ http, https string }

// newProxyShell starts the server. Phones come from 127.0.0.2 and so on here, so
// that of this machine's addresses only the proxies' is trusted.
func newProxyShell(t *testing.T, serve string) *proxyShell {
	t.Helper()
	s := &proxyShell{t: t, shell: newShell(t, nil)}
	s.watch = freePort()
	words := " -trusted-proxy 127.0.0.1 -metrics " + s.watch
	s.socket = filepath.Join(s.dir, "k.sock")
	if len(s.socket) > maxSocketPath {
		s.socket = filepath.Join(shortDir(t), "k.sock")
	}
	if strings.Contains(serve, "unix:") {
		serve = strings.Replace(serve, "/run/kerfside/kerfside.sock", s.socket, 1)
	} else {
		s.kerfside = freePort()
		words += " -addr " + s.kerfside
	}
	s.shell.serve(t, strings.TrimSpace(serve)+words, served)
	selfSigned(t, s.dir, "fullchain.pem", "privkey.pem")
	return s
}

// shortDir is a folder whose name leaves room for a socket.
func shortDir(t *testing.T) string {
	t.Helper()
	dir, err := os.MkdirTemp("", "k")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	return dir
}

// freePort is an address of this machine that no other test is given.
func freePort() string { return fmt.Sprintf("127.0.0.1:%d", process.OwnPort()) }

// yours puts what is this test's in the place of what the page says stands for it.
func (s *proxyShell) yours(text string) string {
	return strings.NewReplacer(
		"127.0.0.1:8480", s.kerfside,
		"/run/kerfside/kerfside.sock", s.socket,
		"/etc/ssl/kerfside/", s.dir+"/",
		"10.88.0.2", "127.0.0.1",
	).Replace(text)
}

// nginx runs nginx on a file as Debian includes it from sites-enabled.
func (s *proxyShell) nginx(site string) frontDoor {
	s.t.Helper()
	program := debianProgram(s.t, "nginx")
	s.front = frontDoor{http: freePort(), https: freePort()}
	s.conf = filepath.Join(s.t.TempDir(), "nginx.conf")
	s.putSite(site)
	s.start(exec.Command(program, "-p", filepath.Dir(s.conf), "-e", "stderr", "-c", s.conf), s.front.http)
	return s.front
}

// putSite writes what nginx reads, which it does when it starts and when it is told to.
func (s *proxyShell) putSite(site string) {
	s.t.Helper()
	site = s.yours(site)
	for said, listens := range map[string]string{"listen 80;": s.front.http, "listen 8080;": s.front.http, "listen 443 ": s.front.https} {
		site = strings.ReplaceAll(site, said, "listen "+listens+said[len(said)-1:])
	}
	dir := filepath.Dir(s.conf)
	user := ""
	if os.Geteuid() == 0 {
		user = "user root;" // so that its workers may go into this test's folders
	}
	main := fmt.Sprintf("daemon off; pid %[1]s/pid; error_log stderr; %[2]s\nevents {}\nhttp {\naccess_log off;\n", dir, user)
	for _, kind := range []string{"client_body", "proxy", "fastcgi", "uwsgi", "scgi"} {
		main += fmt.Sprintf("%s_temp_path %s/%s;\n", kind, dir, kind)
	}
	s.put(s.conf, main+site+"}\n")
}

// caddy runs Caddy, told beside its file which ports to take.
func (s *proxyShell) caddy(site string) {
	s.t.Helper()
	program := debianProgram(s.t, "caddy")
	s.front = frontDoor{http: freePort(), https: freePort()}
	ports := "{\n\tadmin off\n\thttp_port " + port(s.front.http) + "\n\thttps_port " + port(s.front.https) + "\n\tdefault_bind 127.0.0.1\n}\n"
	file := filepath.Join(s.t.TempDir(), "Caddyfile")
	s.put(file, ports+s.yours(site))
	c := exec.Command(program, "run", "--config", file, "--adapter", "caddyfile")
	c.Env = append(os.Environ(), "HOME="+s.t.TempDir(), "XDG_DATA_HOME="+s.t.TempDir(), "XDG_CONFIG_HOME="+s.t.TempDir())
	s.start(c, s.front.https)
}

func port(address string) string {
	_, port, _ := net.SplitHostPort(address)
	return port
}

func (s *proxyShell) put(file, text string) {
	s.t.Helper()
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		s.t.Fatal(err)
	}
}

// start runs a proxy until the test ends, once it listens.
func (s *proxyShell) start(c *exec.Cmd, address string) {
	t := s.t
	t.Helper()
	said := &watched{want: regexp.MustCompile(`^$.`), found: make(chan []string, 1)} // matches nothing
	c.Stdout, c.Stderr = said, said
	process.EndWithUs(c)
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- c.Wait() }()
	t.Cleanup(func() {
		c.Process.Signal(os.Interrupt)
		<-ended
		if t.Failed() {
			said.mu.Lock()
			defer said.mu.Unlock()
			t.Logf("%s said\n%s", c.Path, said.text.String())
		}
	})
	for {
		if l, err := net.Dial("tcp", address); err == nil {
			l.Close()
			return
		}
		select {
		case err := <-ended:
			ended <- err
			t.Fatalf("%s ended with %v after\n%s", c.Path, err, said.text.String())
		case <-time.After(20 * time.Millisecond):
		}
	}
}

// secret makes an invitation and returns the secret of its link.
func (s *proxyShell) secret(kind string) string {
	s.t.Helper()
	m := regexp.MustCompile(`https://` + regexp.QuoteMeta(publicName) + `/join#(\S+)`).FindStringSubmatch(s.run(s.t, "kerfside crew "+kind))
	if m == nil {
		s.t.Fatal("no link under the public name")
	}
	return m[1]
}

// phone is a phone at an address of its own, which trusts the certificate.
func (s *proxyShell) phone(at string) *proxyPhone {
	s.t.Helper()
	roots := x509.NewCertPool()
	text, err := os.ReadFile(filepath.Join(s.dir, "fullchain.pem"))
	if err != nil || !roots.AppendCertsFromPEM(text) {
		s.t.Fatal("no certificate: ", err)
	}
	transport := &http.Transport{
		TLSClientConfig: &tls.Config{RootCAs: roots}, ForceAttemptHTTP2: true,
		DialContext: func(ctx context.Context, network, asked string) (net.Conn, error) {
			front := s.front.https
			if port(asked) == strconv.Itoa(80) {
				front = s.front.http
			}
			d := net.Dialer{LocalAddr: &net.TCPAddr{IP: net.ParseIP(at)}}
			return d.DialContext(ctx, network, front)
		},
	}
	s.t.Cleanup(transport.CloseIdleConnections)
	return &proxyPhone{t: s.t, client: &http.Client{Transport: transport, CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}}
}

// debianProgram finds a program of Debian's, which the long test installs.
func debianProgram(t *testing.T, name string) string {
	t.Helper()
	for _, at := range []string{name, "/usr/sbin/" + name} {
		if path, err := exec.LookPath(at); err == nil {
			return path
		}
	}
	if os.Getenv("KERFSIDE_LONG") != "" {
		t.Fatalf("%s is missing: apt-get install %s", name, name)
	}
	t.Skipf("NOT TESTED: %s is missing", name)
	return ""
}

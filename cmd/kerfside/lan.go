package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"net"
	"os"
	"os/signal"
	"slices"
	"strings"
	"syscall"
	"time"

	"kerfside/calc/problem"
	"kerfside/cmd/internal/command"
	"kerfside/server"
	"kerfside/server/lan"
	"kerfside/server/qr"
)

// Ports that phones on the shop's network use: the app's, since a change of
// port is a new, empty app to a phone, and that of the page with the root.
const (
	lanPort  = "8443"
	pagePort = "8482"
)

var lanCommand = command.Command{
	Name: "lan", About: "make the certificate for a shop's network, and give it to phones",
	More: "The certificate is made once and renews by itself. The page for phones is shown until Ctrl-C.",
	Declare: func(flags *flag.FlagSet) command.Action {
		l := &lanRun{}
		dbFlag(flags, &l.db, "; the certificates lie beside it, in FILE.lan")
		flags.StringVar(&l.page, "page", ":"+pagePort, "`address` where the page for phones is served until Ctrl-C, or none")
		flags.StringVar(&l.port, "app", lanPort, "`port` at which kerfside serve -lan listens")
		flags.Func("host", "`name` or private address by which phones call this machine; may stand more than once, the first is the app's", func(name string) error {
			l.hosts = append(l.hosts, name)
			return nil
		})
		return l.run
	},
	Examples: []command.Example{
		{Line: "kerfside lan -host shop.local -host 192.168.1.20", Does: "make it, and show the page"},
		{Line: "kerfside lan -page none", Does: "say what it is good for, and until when"},
	},
}

// lanRun is what stands on the command line of "kerfside lan".
type lanRun struct {
	db, page, port string
	hosts          []string
}

// run makes the shop's root and certificate, once, and shows the page from which
// phones install the root until it is stopped.
func (n *lanRun) run(_ []string, out io.Writer) error {
	a, err := makeAuthority(lanFolder(n.db), n.hosts)
	if err != nil {
		return err
	}
	names := a.Names().Hosts()
	app := "https://" + server.JoinPort(names[0], n.port)
	fmt.Fprintf(out, "%s\nGood for %s until %s; the server's own certificate until %s, renewed by itself.\n\nSHA-256 of the root, to compare on each phone:\n\n  %s\n\nkerfside serve -lan -db %s serves the app at %s\n",
		a.Root.Subject.CommonName, strings.Join(names, ", "), a.Root.NotAfter.Format(time.DateOnly), a.Ends().Format(time.DateOnly),
		strings.Join(a.Fingerprint(), "\n  "), n.db, app)
	if net.ParseIP(names[0]) != nil {
		fmt.Fprintf(out, "%s is a bare address: if the router hands out another, every phone starts empty there. Keep it fixed in the router, or use a name.\n", names[0])
	}
	if n.page == "none" {
		return nil
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	return showPage(ctx, out, a, n.page, app)
}

// makeAuthority opens the shop's root, or makes it; with hosts, for those.
func makeAuthority(folder string, hosts []string) (*lan.Authority, error) {
	names, err := lan.ParseNames(hosts)
	if err != nil {
		return nil, err
	}
	if _, err := os.Stat(folder); os.IsNotExist(err) {
		if len(hosts) == 0 {
			return nil, problem.New(problem.Missing, "host", "say by what name or address phones will call this machine",
				"For example: kerfside lan -host shop.local"+suggestAddress())
		}
		return lan.Create(folder, names, time.Now)
	}
	a, err := lan.Open(folder, time.Now)
	if err != nil {
		return nil, err
	}
	if len(hosts) > 0 && !slices.Equal(names.Hosts(), a.Names().Hosts()) {
		return a, a.Rename(names)
	}
	return a, a.Renew()
}

// suggestAddress returns this machine's first private address as a flag.
func suggestAddress() string {
	addresses, _ := net.InterfaceAddrs() // none is an answer
	for _, one := range addresses {
		if n, ok := one.(*net.IPNet); ok && n.IP.IsPrivate() && n.IP.To4() != nil {
			return " -host " + n.IP.String()
		}
	}
	return ""
}

// showPage serves the page until the context ends.
func showPage(ctx context.Context, out io.Writer, a *lan.Authority, addr, app string) error {
	l, err := net.Listen("tcp", addr)
	if err != nil {
		return problem.Newf(problem.Busy, "page", "cannot listen on %s", addr).
			WithHint("Another program may hold the port: stop it, or take another one with -page :8483.").WithCause(err)
	}
	self := pageURL(a.Names(), l.Addr().String())
	page, err := lan.NewPage(a, self, app)
	if err != nil {
		l.Close()
		return err
	}
	fmt.Fprintf(out, "\nOn each phone, in the shop's network, open  %s\nStop with Ctrl-C once all have installed the root.\n", self)
	if isTerminal(out) {
		code, err := qr.Encode(self)
		if err != nil {
			l.Close()
			return err
		}
		fmt.Fprintf(out, "\n%s", code.Terminal())
	}
	s := serverWith(page, slog.Default())
	served := make(chan error, 1)
	go func() { served <- s.Serve(l) }()
	select {
	case <-ctx.Done():
		return s.Close()
	case err := <-served:
		return err
	}
}

// pageURL is where phones find the page: by address if there is one, since not
// every phone finds names on a shop's network.
func pageURL(names lan.Names, listen string) string {
	host := names.Hosts()[0]
	if len(names.IPs) > 0 {
		host = names.IPs[0].String()
	}
	_, port, _ := net.SplitHostPort(listen)
	return "http://" + net.JoinHostPort(host, port)
}

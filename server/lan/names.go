package lan

import (
	"net"
	"net/netip"
	"regexp"
	"slices"
	"strings"

	"kerfside/calc/problem"
)

// Names are what phones may call the server by: names and addresses of the
// shop's own network.
type Names struct {
	DNS []string
	IPs []net.IP
}

// dnsName is a name of two labels or more. One label alone would, as a
// constraint, cover everything below a top-level domain of that name.
var dnsName = regexp.MustCompile(`^([a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?\.)+[a-z]([a-z0-9-]{0,61}[a-z0-9])?$`)

// ParseNames sorts hosts into names and addresses. It takes private addresses
// only: for others, certificates that every phone knows are to be had.
func ParseNames(hosts []string) (Names, error) {
	var n Names
	for _, host := range hosts {
		host = strings.ToLower(strings.Trim(host, "[]"))
		if ip := net.ParseIP(host); ip != nil {
			if !ip.IsPrivate() && !ip.IsLinkLocalUnicast() {
				return Names{}, problem.Newf(problem.Range, "host", "%s is no address of a private network", host).
					WithHint("Give this machine's address in the shop, like 192.168.1.20, or a name like shop.local. A server on the open internet needs a public name with -acme or -cert.")
			}
			n.IPs = append(n.IPs, ip)
			continue
		}
		if len(host) > 253 || !dnsName.MatchString(host) {
			return Names{}, problem.Newf(problem.Malformed, "host", "%q is no name that phones could call this machine by", host).
				WithHint("Write a name with a dot and without port, like shop.local, or an address like 192.168.1.20.")
		}
		n.DNS = append(n.DNS, host)
	}
	return n, nil
}

// Hosts returns all of them as text, names first.
func (n Names) Hosts() []string {
	hosts := slices.Clone(n.DNS)
	for _, ip := range n.IPs {
		hosts = append(hosts, ip.String())
	}
	return hosts
}

// ranges returns the networks that the addresses lie in: the router may hand
// out another one of the same network without every phone having to install a
// new root.
func (n Names) ranges() []*net.IPNet {
	var all []*net.IPNet
	for _, ip := range n.IPs {
		bits, size := 64, 128
		if four := ip.To4(); four != nil {
			ip, bits, size = four, 24, 32
		}
		mask := net.CIDRMask(bits, size)
		all = append(all, &net.IPNet{IP: ip.Mask(mask), Mask: mask})
	}
	return all
}

// everything is all addresses of a family, to be excluded.
func everything(p netip.Prefix) *net.IPNet {
	return &net.IPNet{IP: p.Addr().AsSlice(), Mask: net.CIDRMask(0, p.Addr().BitLen())}
}

// excluded returns the families of addresses of which none is permitted. A
// family that constraints do not mention at all would be open.
func (n Names) excluded() []*net.IPNet {
	four := slices.ContainsFunc(n.IPs, func(ip net.IP) bool { return ip.To4() != nil })
	six := slices.ContainsFunc(n.IPs, func(ip net.IP) bool { return ip.To4() == nil })
	var all []*net.IPNet
	if !four {
		all = append(all, everything(netip.MustParsePrefix("0.0.0.0/0")))
	}
	if !six {
		all = append(all, everything(netip.MustParsePrefix("::/0")))
	}
	return all
}

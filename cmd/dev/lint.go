package main

import "strings"

// lintTools pins staticcheck by sum, in a module of its own: the product does
// not depend on it. A newer one, in that folder:
//
//	go get -tool honnef.co/go/tools/cmd/staticcheck@latest
const lintTools = "cmd/dev/lint/go.mod"

// lintChecks are all checks but QF: those are rewritings that an editor offers,
// and which of two ways reads better is for who writes it. Package comments,
// names, messages (ST), what is wrong (SA), what can be said shorter (S) and
// what nobody uses (U1000) are all held.
const lintChecks = "all,-QF*"

// needStaticcheck builds staticcheck, into the build cache of Go, and returns
// where it lies. Only the first time needs the network.
func needStaticcheck() (string, error) {
	out, err := cmd("go", "tool", "-modfile="+lintTools, "-n", "staticcheck").output()
	return strings.TrimSpace(out), err
}

// checkStatic runs staticcheck for this machine and for the phone.
func checkStatic(s *score, _ bool) {
	program, err := needStaticcheck()
	if err != nil {
		s.check("staticcheck", err)
		return
	}
	s.check("staticcheck native", cmd(program, "-checks", lintChecks, "./...").quiet())
	s.check("staticcheck wasm", cmd(program, "-checks", lintChecks, "./cmd/wasm", "./calc/...").with("GOOS=js", "GOARCH=wasm").quiet())
}

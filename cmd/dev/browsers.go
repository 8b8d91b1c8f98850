package main

import "path/filepath"

// checkBrowsers holds all that ships to the oldest browsers that pwa/browsers.json
// names: what modules, templates and style sheets ask for, by the open data of MDN.
// Syntax is the bundler's: refuseNewSyntax. First it finds what is planted beside it.
func checkBrowsers(s *score, _ bool) {
	if err := npmInstall(compatTools); err != nil {
		s.check("browsers", err)
		return
	}
	s.check("browsers planted", cmd("node", "--test", filepath.Join(compatTools, "planted.test.mjs")).quiet())
	s.check("browsers", cmd("node", filepath.Join(compatTools, "check.mjs")).quiet())
}

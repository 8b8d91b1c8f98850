package release

// Pages are the man page and the completion of three shells, by what the program is
// called with to print each, and where Debian has them.
var Pages = []struct {
	Args []string
	Name string
	gzip bool
}{
	{Args: []string{"man"}, Name: "usr/share/man/man1/kerfside.1.gz", gzip: true},
	{Args: []string{"completion", "bash"}, Name: "usr/share/bash-completion/completions/kerfside"},
	{Args: []string{"completion", "fish"}, Name: "usr/share/fish/vendor_completions.d/kerfside.fish"},
	{Args: []string{"completion", "zsh"}, Name: "usr/share/zsh/vendor-completions/_kerfside"},
}

// PageEntries puts each of Pages in its place; printed returns what the program
// prints for its words.
func PageEntries(printed func(args ...string) (string, error)) ([]Entry, error) {
	var all []Entry
	for _, p := range Pages {
		text, err := printed(p.Args...)
		if err != nil {
			return nil, err
		}
		data := []byte(text)
		if p.gzip {
			data = gzipped(data)
		}
		all = append(all, Entry{Name: p.Name, Mode: 0o644, Data: data})
	}
	return all, nil
}

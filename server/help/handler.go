package help

import (
	"net/http"
	"strings"
	"sync"
)

// styled is the style sheet of the pages, and its address.
const (
	styleFile = "page.css"
	styled    = "/help/" + styleFile
)

// Handler answers GET and HEAD below /help. missing answers what is no page.
func Handler(missing http.Handler) http.Handler {
	made := sync.OnceValues(render)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		all, err := made()
		if err != nil {
			http.Error(w, "the pages cannot be made: "+err.Error(), http.StatusInternalServerError)
			return
		}
		body, ok := all[strings.TrimSuffix(r.URL.Path, "/")]
		if !ok {
			missing.ServeHTTP(w, r)
			return
		}
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		if r.URL.Path == styled {
			w.Header().Set("Content-Type", "text/css; charset=utf-8")
		}
		w.Header().Set("Cache-Control", "no-cache")
		w.Write(body) // an error here means that nobody listens any more
	})
}

// render makes all that lies below /help, by its address.
func render() (map[string][]byte, error) {
	style, err := files.ReadFile(styleFile)
	if err != nil {
		return nil, err
	}
	all := map[string][]byte{styled: style}
	for _, p := range Pages() {
		body, err := p.HTML()
		if err != nil {
			return nil, err
		}
		all["/help/"+p.Name] = body
		if p.Name == order[0] {
			all["/help"] = body
		}
	}
	return all, nil
}

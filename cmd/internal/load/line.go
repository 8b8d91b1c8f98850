package load

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"net/http"
	"strconv"
	"time"

	"github.com/klauspost/compress/gzip"
)

// maxDevices is how many may be on the line at once without a new connection
// for each request.
const maxDevices = 128

// line is the way to a server. Replies come gzipped where the server can, as
// browsers ask for.
type line struct {
	url    string
	client *http.Client
	more   *http.Cookie // nil for none
}

func newLine(url string) line {
	return line{url: url, client: &http.Client{Transport: &http.Transport{MaxIdleConns: maxDevices, MaxIdleConnsPerHost: maxDevices, DisableCompression: true}}}
}

// refusal is an answer that is no success.
type refusal struct {
	text  string
	after time.Duration // when to ask again; 0 if the server did not say
}

func (r *refusal) Error() string { return r.text }

// post sends a body and returns that of the reply.
func (l line) post(ctx context.Context, path, kind string, body []byte, cookie *http.Cookie) ([]byte, error) {
	r, err := http.NewRequestWithContext(ctx, "POST", l.url+path, bytes.NewReader(body))
	if err != nil {
		return nil, err
	}
	r.Header.Set("Content-Type", kind)
	r.Header.Set("X-Kerfside", "1")
	for _, one := range []*http.Cookie{cookie, l.more} {
		if one != nil {
			r.AddCookie(one)
		}
	}
	return l.do(r)
}

// do asks for a gzipped reply and unpacks it with a library that takes less of
// the machine than the transport's own would.
func (l line) do(r *http.Request) ([]byte, error) {
	r.Header.Set("Accept-Encoding", "gzip")
	reply, err := l.client.Do(r)
	if err != nil {
		return nil, err
	}
	defer reply.Body.Close()
	body := io.Reader(reply.Body)
	if reply.Header.Get("Content-Encoding") == "gzip" {
		if body, err = gzip.NewReader(body); err != nil {
			return nil, err
		}
	}
	text, err := io.ReadAll(body)
	if err != nil {
		return nil, err
	}
	if reply.StatusCode/100 != 2 {
		seconds, _ := strconv.Atoi(reply.Header.Get("Retry-After"))
		return nil, &refusal{fmt.Sprintf("%s %s: %s: %.300s", r.Method, r.URL.Path, reply.Status, text), time.Duration(seconds) * time.Second}
	}
	return text, nil
}

package main

import (
	"context"
	"encoding/json"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"

	"kerfside/cmd/internal/browser"
)

// lightReport is what is read of a Lighthouse report.
type lightReport struct {
	Categories map[string]struct {
		Title string
		Score *float64 // 0 to 1; null if it could not be judged
	}
	Audits map[string]struct {
		Title        string
		Score        *float64
		DisplayValue string
	}
}

// lighthouse starts the server on a port and a database of its own, notes the
// scores of Lighthouse and says every audit of weight that is not perfect.
func lighthouse(ctx context.Context, f figures) error {
	r, err := startInstance()
	if err != nil {
		return err
	}
	defer r.stop()
	report := filepath.Join(r.dir, "report.json")
	chromium, err := browser.Find()
	if err != nil {
		return err
	}
	err = cmd("node", npmTool(lightTools, "lighthouse", "cli", "index.js"), r.url+"/", "--quiet", "--output=json", "--output-path="+report,
		"--only-categories=performance,accessibility,best-practices", "--chrome-flags=--headless=new --no-sandbox --disable-gpu --disable-quic").
		with("CHROME_PATH="+chromium).loudUntil(ctx, io.Discard)
	if err != nil {
		return err
	}
	return readLight(f, report)
}

// readLight reads a report.
func readLight(f figures, path string) error {
	data, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	var r lightReport
	if err := json.Unmarshal(data, &r); err != nil {
		return err
	}
	for id, c := range r.Categories {
		if c.Score == nil {
			f.missing(id, errors.New("not judged by Lighthouse"))
			continue
		}
		f.found(id, math.Round(*c.Score*100))
	}
	for id, a := range r.Audits {
		if a.Score != nil && *a.Score < 0.9 {
			say("below 90: %s: %s %s", id, a.Title, a.DisplayValue)
		}
	}
	return nil
}

package assets

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"path"
	"strconv"
	"strings"
)

// stillFolder has the drawings that never change, each an SVG file.
const stillFolder = "draw/still/"

// isStill reports whether a file is one of them. Phones get them all in one file.
func isStill(name string) bool { return strings.HasPrefix(name, stillFolder) }

// Still is a drawing that never changes. Its frame is that of all drawings.
type Still struct {
	Width  int     `json:"width"`
	Height int     `json:"height"`
	Title  string  `json:"title"`
	Desc   string  `json:"desc"`
	Shapes []Shape `json:"shapes"`
}

// Shape is an element of a drawing: it holds words or other shapes.
type Shape struct {
	Name   string            `json:"name"`
	Attrs  map[string]string `json:"attrs"`
	Text   string            `json:"text,omitempty"`
	Shapes []Shape           `json:"shapes,omitempty"`
}

// StillDrawings reads the drawings among the files of the app, by their names.
func StillDrawings(raw map[string][]byte) (map[string]Still, error) {
	all := map[string]Still{}
	for name, svg := range raw {
		if !isStill(name) {
			continue
		}
		still, err := readStill(svg)
		if err != nil {
			return nil, fmt.Errorf("pwa/%s: %w", name, err)
		}
		all[strings.TrimSuffix(path.Base(name), ".svg")] = still
	}
	return all, nil
}

// readStill reads one drawing.
func readStill(svg []byte) (Still, error) {
	d := xml.NewDecoder(bytes.NewReader(svg))
	var top Shape
	if err := readShapes(d, &top); err != nil {
		return Still{}, err
	}
	if len(top.Shapes) != 1 || top.Shapes[0].Name != "svg" || len(top.Shapes[0].Shapes) < 3 {
		return Still{}, fmt.Errorf("it is not an svg with a title, a desc and shapes")
	}
	root := top.Shapes[0]
	still := Still{Title: root.Shapes[0].Text, Desc: root.Shapes[1].Text, Shapes: root.Shapes[2:]}
	if root.Shapes[0].Name != "title" || root.Shapes[1].Name != "desc" {
		return Still{}, fmt.Errorf("it does not begin with a title and a desc")
	}
	box := strings.Fields(root.Attrs["viewBox"])
	if len(box) != 4 || box[0] != "0" || box[1] != "0" {
		return Still{}, fmt.Errorf("its viewBox is %q, and not \"0 0 WIDTH HEIGHT\"", root.Attrs["viewBox"])
	}
	for i, side := range []*int{&still.Width, &still.Height} {
		var err error
		if *side, err = strconv.Atoi(box[2+i]); err != nil {
			return Still{}, fmt.Errorf("its viewBox: %w", err)
		}
	}
	return still, nil
}

// readShapes reads what is in an element up to its end, or to the end of the file.
func readShapes(d *xml.Decoder, in *Shape) error {
	for {
		token, err := d.Token()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
		switch token := token.(type) {
		case xml.StartElement:
			s := Shape{Name: token.Name.Local, Attrs: map[string]string{}}
			for _, a := range token.Attr {
				s.Attrs[a.Name.Local] = a.Value
			}
			if err := readShapes(d, &s); err != nil {
				return err
			}
			in.Shapes = append(in.Shapes, s)
		case xml.EndElement:
			if len(in.Shapes) > 0 {
				in.Text = "" // the blanks between them
			}
			return nil
		case xml.CharData:
			in.Text += string(token)
		}
	}
}

package browser

import (
	"bufio"
	"errors"
	"os"
)

// pipe carries texts that end in a zero byte over two files, as Chromium does.
type pipe struct {
	in  *os.File
	out *os.File
	r   *bufio.Reader
}

func newPipe(in, out *os.File) *pipe {
	return &pipe{in: in, out: out, r: bufio.NewReaderSize(in, 1<<20)}
}

func (p *pipe) send(text []byte) error {
	_, err := p.out.Write(append(text, 0))
	return err
}

func (p *pipe) receive() ([]byte, error) {
	text, err := p.r.ReadBytes(0)
	if err != nil {
		return nil, err
	}
	return text[:len(text)-1], nil
}

func (p *pipe) Close() error { return errors.Join(p.in.Close(), p.out.Close()) }

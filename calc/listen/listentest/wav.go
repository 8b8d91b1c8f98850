package listentest

import (
	"bytes"
	"encoding/binary"
	"math"
)

// WAV returns the scene as a file of sixteen bits, one channel.
func (s *Scene) WAV() []byte {
	data := make([]byte, 0, 2*len(s.Samples))
	for _, v := range s.Samples {
		data = binary.LittleEndian.AppendUint16(data, uint16(int16(math.Round(32767*math.Max(-1, math.Min(1, v))))))
	}
	var file bytes.Buffer
	file.WriteString("RIFF")
	for _, part := range []any{uint32(36 + len(data)), []byte("WAVEfmt "), uint32(16), uint16(1), uint16(1), uint32(Rate), uint32(2 * Rate), uint16(2), uint16(16), []byte("data"), uint32(len(data)), data} {
		binary.Write(&file, binary.LittleEndian, part)
	}
	return file.Bytes()
}

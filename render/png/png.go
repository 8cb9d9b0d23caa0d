// Package png writes pictures as PNG files that know their size in millimetres.
package png

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/png"
	"io"
	"math"
)

// head is the length of the signature and the header chunk, after which the
// physical size may stand (ISO/IEC 15948, 5.6 and 11.3.5.3).
const head = 8 + 4 + 4 + 13 + 4

// Write writes img to w with its size: pixels per millimetre in the pHYs chunk,
// so that a program that heeds it prints the picture at its scale. 0 leaves the
// size out. The same picture gives the same bytes.
func Write(w io.Writer, img image.Image, perMM float64) error {
	var b bytes.Buffer
	// Speed before size: the pictures are made anew with every set.
	if err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&b, img); err != nil {
		return err
	}
	data := b.Bytes()
	if perMM > 0 && len(data) > head {
		data = append(append(append([]byte(nil), data[:head]...), size(perMM)...), data[head:]...)
	}
	_, err := w.Write(data)
	return err
}

// size returns the pHYs chunk: pixels per metre across and down, unit 1.
func size(perMM float64) []byte {
	body := []byte("pHYs")
	n := uint32(math.Round(perMM * 1000))
	body = binary.BigEndian.AppendUint32(body, n)
	body = binary.BigEndian.AppendUint32(body, n)
	body = append(body, 1)
	chunk := binary.BigEndian.AppendUint32(nil, uint32(len(body)-4))
	chunk = append(chunk, body...)
	return binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(body))
}

// DataURI returns img as a data URI (RFC 2397) for an image in SVG or HTML.
func DataURI(img image.Image) (string, error) {
	var b bytes.Buffer
	if err := Write(&b, img, 0); err != nil {
		return "", err
	}
	return "data:image/png;base64," + base64.StdEncoding.EncodeToString(b.Bytes()), nil
}

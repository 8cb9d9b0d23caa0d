package png

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"strings"
	"testing"
)

func picture() image.Image {
	m := image.NewGray(image.Rect(0, 0, 9, 5))
	for i := range m.Pix {
		m.Pix[i] = uint8(5 * i)
	}
	return m
}

// The chunks are walked as ISO/IEC 15948 (section 5) lays them out: pHYs stands
// between IHDR and IDAT with 2000 pixels to the metre, and every sum is right.
func TestSizeOfAPixel(t *testing.T) {
	var b bytes.Buffer
	if err := Write(&b, picture(), 2); err != nil {
		t.Fatal(err)
	}
	data := b.Bytes()
	var order []string
	for i := 8; i < len(data); {
		n := int(binary.BigEndian.Uint32(data[i:]))
		kind, body := string(data[i+4:i+8]), data[i+8:i+8+n]
		if sum := binary.BigEndian.Uint32(data[i+8+n:]); sum != crc32.ChecksumIEEE(data[i+4:i+8+n]) {
			t.Errorf("chunk %s: wrong sum", kind)
		}
		if kind == "pHYs" && (binary.BigEndian.Uint32(body) != 2000 || binary.BigEndian.Uint32(body[4:]) != 2000 || body[8] != 1) {
			t.Errorf("pHYs % x", body)
		}
		order = append(order, kind)
		i += 12 + n
	}
	if got := strings.Join(order, " "); got != "IHDR pHYs IDAT IEND" {
		t.Errorf("chunks %s", got)
	}
}

func TestReadsBack(t *testing.T) {
	for _, perMM := range []float64{0, 2} {
		var a, b bytes.Buffer
		if Write(&a, picture(), perMM) != nil || Write(&b, picture(), perMM) != nil || !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Fatal("two writings differ")
		}
		same(t, &a)
	}
	uri, err := DataURI(picture())
	data, ok := strings.CutPrefix(uri, "data:image/png;base64,")
	if err != nil || !ok {
		t.Fatal(uri, err)
	}
	raw, err := base64.StdEncoding.DecodeString(data)
	if err != nil {
		t.Fatal(err)
	}
	same(t, bytes.NewBuffer(raw))
}

func same(t *testing.T, b *bytes.Buffer) {
	t.Helper()
	got, err := png.Decode(b)
	if err != nil {
		t.Fatal(err)
	}
	want := picture()
	for y := range 5 {
		for x := range 9 {
			if g, w := color.GrayModel.Convert(got.At(x, y)), want.At(x, y); g != w {
				t.Fatalf("pixel %d, %d: %v, want %v", x, y, g, w)
			}
		}
	}
}

func TestEmptyPictureIsAnError(t *testing.T) {
	if Write(&bytes.Buffer{}, image.NewGray(image.Rect(0, 0, 0, 0)), 2) == nil {
		t.Error("a picture of no pixels was written")
	}
}

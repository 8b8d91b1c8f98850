package main

import (
	"bytes"
	"image"
	"image/jpeg"
	"os"
	"path/filepath"
	"testing"

	"kerfside/cmd/internal/browser"
)

// inEngines runs a test of the app in Chromium, and in the long run in the other engines.
func inEngines(t *testing.T, test func(t *testing.T, engine browser.Engine)) {
	for _, engine := range append([]browser.Engine{browser.Chromium}, others()...) {
		t.Run(engine.String(), func(t *testing.T) {
			t.Parallel()
			test(t, engine)
		})
	}
}

// upright is what a camera writes that was held on its side: Exif's orientation 6.
const upright = "Exif\x00\x00MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00\x06\x00\x00\x00\x00\x00\x00"

// camera makes a file as one with 48 megapixels writes it, held on its side: 8000 dots wide.
// Its header may say that there are more lines than the 6000 that follow.
func camera(t *testing.T, lines int) []byte {
	t.Helper()
	picture := image.NewYCbCr(image.Rect(0, 0, 8000, 6000), image.YCbCrSubsampleRatio420)
	for i := range picture.Y {
		picture.Y[i] = uint8(i/8000%64 + i%8000/64)
	}
	for i := range picture.Cb {
		picture.Cb[i], picture.Cr[i] = 128, 128
	}
	var file bytes.Buffer
	if err := jpeg.Encode(&file, picture, nil); err != nil {
		t.Fatal(err)
	}
	data := file.Bytes()
	frame := bytes.Index(data, []byte{0xff, 0xc0}) // then length, precision, lines, width
	data[frame+5], data[frame+6] = byte(lines>>8), byte(lines)
	return append(append([]byte{0xff, 0xd8, 0xff, 0xe1, 0, byte(len(upright) + 2)}, upright...), data[2:]...)
}

// listen notes the largest picture that the page is handed, in pixels, by whatever way.
const listen = `(() => {
	globalThis.largest = 0;
	const note = (picture) => ((largest = Math.max(largest, (picture.codedWidth ?? picture.width) * (picture.codedHeight ?? picture.height))), picture);
	const real = createImageBitmap;
	globalThis.createImageBitmap = (...words) => real(...words).then(note);
	if (globalThis.ImageDecoder) {
		const { decode } = ImageDecoder.prototype;
		ImageDecoder.prototype.decode = function (...words) { return decode.apply(this, words).then((found) => (note(found.image), found)); };
	}
	return true;
})()`

// mostDecoded is the most that the page may be handed of any picture, pixels.
const mostDecoded = 4096 * 4096

// A picture of 48 megapixels is kept upright, and no more of it is decoded than is worked on. One of more
// than the app opens is refused before that, and so is one that the browser cannot read; both with what to do.
func TestBrowserLargePicture(t *testing.T) { inEngines(t, testLargePicture) }

func testLargePicture(t *testing.T, engine browser.Engine) {
	ctx, d := atPagesIn(t, engine, journeyLimit)
	d.visit(ctx, t, "/cut")
	d.ask(ctx, t, listen, new(bool))
	dir := t.TempDir()
	give := func(name string, data []byte) {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		if err := d.page.SetFiles(ctx, `document.querySelector("main input[type=file]")`, path); err != nil {
			t.Fatal(err)
		}
	}
	give("more.jpg", camera(t, 8100))
	d.stands(ctx, t, "a picture of 65 megapixels", `/65 MP.*64 MP/s.test(document.querySelector("main").innerText)`)
	give("camera.heic", []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"))
	d.stands(ctx, t, "a picture as HEIC", `/JPEG or PNG, not HEIC/.test(document.querySelector("main").innerText)`)
	var largest int
	if d.ask(ctx, t, "largest", &largest); largest != 0 {
		t.Errorf("%d pixels were decoded of what was refused", largest)
	}
	give("camera.jpg", camera(t, 6000))
	d.stands(ctx, t, "a picture of 48 megapixels", `/Photo kept/.test(document.body.innerText)`)
	if d.ask(ctx, t, "largest", &largest); largest == 0 || largest > mostDecoded {
		t.Errorf("%d pixels were decoded, want at most %d", largest, mostDecoded)
	}
	d.visit(ctx, t, "/session/session-of-the-test-01")
	d.stands(ctx, t, "the entry", `document.querySelector("main img.thumb")?.naturalHeight > document.querySelector("main img.thumb")?.naturalWidth`)
	t.Logf("tally: %d thousand pixels at most decoded of a picture of 48 million", largest/1000)
}

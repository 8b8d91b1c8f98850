package wear

import (
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
)

// picture is a made-up picture of a bore in something round of 5 mm, so many
// times as wide: its marks are off by sigma pixels.
func picture(r *rand.Rand, n int, span, sigma, wider float64) (PhotoInput, ellipse) {
	a := 40 + 160*r.Float64()
	true := newEllipse(1000*r.Float64(), 1000*r.Float64(), a, a*(0.85+0.15*r.Float64()), math.Pi*r.Float64())
	in := PhotoInput{Width: 5 * unit.Millimetre, Mark: 0.01, WidthError: 0}
	in.Rim = on(true, n, 7*r.Float64(), span)
	in.Scale = on(newEllipse(true.x, true.y, wider*a, wider*a, 0), 6, 7*r.Float64(), 2*math.Pi)
	for _, list := range [][]spot{in.Rim, in.Scale} {
		for i := range list {
			list[i].x += sigma * r.NormFloat64()
			list[i].y += sigma * r.NormFloat64()
		}
	}
	return in, true
}

// TestPhotoErrorsHold draws pictures of known bores, marked over all of the rim
// or over a part, and counts how often the interval that is told holds the size:
// 95 in 100 is what it says.
func TestPhotoErrorsHold(t *testing.T) {
	for _, c := range []struct {
		n                  int
		span, sigma, wider float64
	}{{n: 8, span: 2 * math.Pi, sigma: 0.6, wider: 4}, {n: 12, span: 2 * math.Pi, sigma: 1.2, wider: 4}, {n: 12, span: 1.4 * math.Pi, sigma: 0.6, wider: 4}, {n: 24, span: 2 * math.Pi, sigma: 1.5, wider: 4}, {n: 24, span: 2 * math.Pi, sigma: 1.2, wider: 1.2}} {
		t.Run(fmt.Sprintf("%d marks over %.0f°, %g pixels off, object %g times as wide", c.n, c.span*180/math.Pi, c.sigma, c.wider), func(t *testing.T) {
			r := rand.New(rand.NewSource(11))
			held, all := 0, 0
			for range 500 {
				in, bore := picture(r, c.n, c.span, c.sigma, c.wider)
				res, err := ComputePhoto(in)
				if err != nil {
					continue // a picture that it will not read
				}
				pixel := 5 * unit.Millimetre / unit.Length(2*c.wider*bore.a)
				for _, size := range [][3]float64{{float64(res.Largest), 2 * bore.a, float64(res.LargestError)}, {float64(res.Smallest), 2 * bore.b, float64(res.SmallestError)}, {float64(res.Out), 2 * (bore.a - bore.b), float64(res.OutError)}} {
					all++
					if math.Abs(size[0]-size[1]*float64(pixel)) <= size[2] {
						held++
					}
				}
			}
			if all < 1200 {
				t.Fatalf("only %d readings of 1500: too many were refused", all)
			}
			share := float64(held) / float64(all)
			t.Logf("held %.1f %% of %d", 100*share, all)
			if share < 0.93 || share > 0.99 {
				t.Errorf("the interval held the size in %.1f %% of %d readings, want about 95 %%", 100*share, all)
			}
		})
	}
}

// TestPhotoScales: a picture taken from nearer has more pixels and tells the
// same size; an object twice as wide makes everything twice as wide.
func TestPhotoScales(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	for range 200 {
		in, _ := picture(r, 8+r.Intn(20), 2*math.Pi, 0.5, 4)
		before, err := ComputePhoto(in)
		if err != nil {
			continue
		}
		near(t, "largest less smallest", float64(before.Out), float64(before.Largest-before.Smallest), 1e-9)
		if before.LargestError <= 0 || before.SmallestError <= 0 || before.OutError < 0 {
			t.Fatalf("errors %v, %v, %v: no reading is exact", before.LargestError, before.SmallestError, before.OutError)
		}
		large := in
		large.Rim, large.Scale, large.Mark = enlarged(in.Rim, 3), enlarged(in.Scale, 3), 3*in.Mark
		after, err := ComputePhoto(large)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "largest of a larger picture", float64(after.Largest), float64(before.Largest), 1e-9)
		near(t, "its error", float64(after.LargestError), float64(before.LargestError), 1e-5)
		wide := in
		wide.Width *= 2
		after, err = ComputePhoto(wide)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "largest beside something twice as wide", float64(after.Largest), 2*float64(before.Largest), 1e-12)
	}
}

func enlarged(points []spot, k float64) []spot {
	list := make([]spot, len(points))
	for i, p := range points {
		list[i] = spot{k * p.x, k * p.y}
	}
	return list
}

// TestPhotoMoreIsBetter: more marks all around, and marks over more of the
// rim, never leave the size more open, when they lie on it alike.
func TestPhotoMoreIsBetter(t *testing.T) {
	bore := newEllipse(300, 300, 100, 96, 0.4)
	reading := func(n int, span float64) unit.Length {
		res, err := ComputePhoto(PhotoInput{Rim: on(bore, n, 0.3, span), Scale: on(newEllipse(300, 300, 400, 400, 0), 6, 0, 2*math.Pi), Width: 5 * unit.Millimetre, Mark: 1})
		if err != nil {
			t.Fatalf("%d marks over %g: %v", n, span, err)
		}
		return res.LargestError
	}
	for n := 8; n < 40; n++ {
		if reading(n+1, 2*math.Pi) > reading(n, 2*math.Pi)*(1+1e-9) {
			t.Errorf("%d marks leave more open than %d", n+1, n)
		}
	}
	if whole, part := reading(24, 2*math.Pi), reading(24, 1.3*math.Pi); part < 1.5*whole {
		t.Errorf("error %v over 234° of the rim, %v all around: a gap must tell", part, whole)
	}
}

// TestPhotoNamesTheWorst: one mark beside the rim is the one that is named.
func TestPhotoNamesTheWorst(t *testing.T) {
	in := PhotoInput{Rim: on(newEllipse(300, 300, 100, 98, 0), 14, 0, 2*math.Pi), Scale: on(newEllipse(300, 300, 400, 400, 0), 6, 0, 2*math.Pi), Width: 5 * unit.Millimetre}
	in.Rim[5].x -= 6
	in.Rim[5].y += 6
	res, err := ComputePhoto(in)
	if err != nil {
		t.Fatal(err)
	}
	if res.Worst != 6 {
		t.Errorf("mark %d is told as furthest off, want 6", res.Worst)
	}
	in.Rim[5] = spot{300, 300}
	if _, err := ComputePhoto(in); problem.KindOf(err) != problem.Refused || !strings.Contains(problem.From(err).Hint, "Mark 6 lies") {
		t.Errorf("a mark in the middle of the bore: %v, want refused for that mark", err)
	}
}

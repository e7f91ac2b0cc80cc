package sketch

// passed is the highest frequency, as a part of the rate, that twice keeps.
const passed = 0.21

// halfway are the weights of the samples on both sides of a new one, the nearest first: they make the largest error up
// to passed as small as it can be, 86 dB under the sound (least squares, weighted again until even).
var halfway = [4]float32{0.607153, -0.137025, 0.03515, -0.005329}

// twice puts a new sample behind each.
func twice(x []float32) []float32 {
	if len(x) == 0 {
		return nil
	}
	y := make([]float32, 2*len(x))
	const n = len(halfway)
	at := func(i int) float32 {
		if i < 0 || i >= len(x) {
			return 0
		}
		return x[i]
	}
	slow := func(i int) {
		y[2*i] = x[i]
		for k, w := range halfway {
			y[2*i+1] += float32(w * (at(i-k) + at(i+1+k)))
		}
	}
	for i := range min(n, len(x)) {
		slow(i)
	}
	a, b, c, d := halfway[0], halfway[1], halfway[2], halfway[3]
	for i := n; i+n < len(x); i++ {
		z, two := (*[8]float32)(x[i-3:]), (*[2]float32)(y[2*i:])
		two[0] = z[3]
		two[1] = float32(a*(z[3]+z[4])) + float32(b*(z[2]+z[5])) + float32(c*(z[1]+z[6])) + float32(d*(z[0]+z[7]))
	}
	for i := max(n, len(x)-n); i < len(x); i++ {
		slow(i)
	}
	return y
}

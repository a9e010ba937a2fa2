package doubt

import "math"

// Phi is the chance that a standard normal figure lies below z.
func Phi(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// Coefficients of AS 241, PPND16: M. J. Wichura, The percentage points of the normal
// distribution, Applied Statistics 37 (1988) 477-484. Relative accuracy 1e-16.
var (
	centreOver  = [8]float64{3.3871328727963666080, 1.3314166789178437745e2, 1.9715909503065514427e3, 1.3731693765509461125e4, 4.5921953931549871457e4, 6.7265770927008700853e4, 3.3430575583588128105e4, 2.5090809287301226727e3}
	centreUnder = [8]float64{1, 4.2313330701600911252e1, 6.8718700749205790830e2, 5.3941960214247511077e3, 2.1213794301586595867e4, 3.9307895800092710610e4, 2.8729085735721942674e4, 5.2264952788528545610e3}
	flankOver   = [8]float64{1.42343711074968357734, 4.63033784615654529590, 5.76949722146069140550, 3.64784832476320460504, 1.27045825245236838258, 2.41780725177450611770e-1, 2.27238449892691845833e-2, 7.74545014278341407640e-4}
	flankUnder  = [8]float64{1, 2.05319162663775882187, 1.67638483018380384940, 6.89767334985100004550e-1, 1.48103976427480074590e-1, 1.51986665636164571966e-2, 5.47593808499534494600e-4, 1.05075007164441684324e-9}
	tailOver    = [8]float64{6.65790464350110377720, 5.46378491116411436990, 1.78482653991729133580, 2.96560571828504891230e-1, 2.65321895265761230930e-2, 1.24266094738807843860e-3, 2.71155556874348757815e-5, 2.01033439929228813265e-7}
	tailUnder   = [8]float64{1, 5.99832206555887937690e-1, 1.36929880922735805310e-1, 1.48753612908506148525e-2, 7.86869131145613259100e-4, 1.84631831751005468180e-5, 1.42151175831644588870e-7, 2.04426310338993978564e-15}
)

// Quantile is the standard normal figure that so large a share lies below, by AS 241.
// It is -Inf for 0, +Inf for 1, NaN outside.
func Quantile(share float64) float64 {
	q := share - 0.5
	if math.Abs(q) <= 0.425 {
		r := 0.180625 - q*q
		return q * horner(&centreOver, r) / horner(&centreUnder, r)
	}
	r := share
	if q > 0 {
		r = 1 - share
	}
	switch {
	case r == 0:
		return math.Inf(int(math.Copysign(1, q)))
	case !(r > 0):
		return math.NaN()
	}
	r = math.Sqrt(-math.Log(r))
	z := 0.0
	if r <= 5 {
		z = horner(&flankOver, r-1.6) / horner(&flankUnder, r-1.6)
	} else {
		z = horner(&tailOver, r-5) / horner(&tailUnder, r-5)
	}
	return math.Copysign(z, q)
}

// horner is the polynomial with these coefficients, the constant first.
func horner(c *[8]float64, x float64) float64 {
	return ((((((c[7]*x+c[6])*x+c[5])*x+c[4])*x+c[3])*x+c[2])*x+c[1])*x + c[0]
}

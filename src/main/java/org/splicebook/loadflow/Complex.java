package org.splicebook.loadflow;

/**
 * A complex number: an rms phasor, an impedance, an admittance.
 *
 * @param re real part
 * @param im imaginary part
 */
public record Complex(double re, double im) {
    /** Zero. */
    public static final Complex ZERO = new Complex(0, 0);

    /** {@return a real number} */
    public static Complex of(double re) {
        return new Complex(re, 0);
    }

    /** {@return the number of that magnitude at that angle} */
    public static Complex polar(double magnitude, double degrees) {
        double quarters = degrees / 90;
        if (quarters == Math.rint(quarters)) { // exact on the axes, so that 120 and 180 degrees apart cancel exactly
            int q = Math.floorMod((int) quarters, 4);
            return new Complex(
                    q == 0 ? magnitude : q == 2 ? -magnitude : 0, q == 1 ? magnitude : q == 3 ? -magnitude : 0);
        }
        double a = Math.toRadians(degrees);
        return new Complex(magnitude * Math.cos(a), magnitude * Math.sin(a));
    }

    /** {@return the sum} */
    public Complex plus(Complex o) {
        return new Complex(re + o.re, im + o.im);
    }

    /** {@return the difference} */
    public Complex minus(Complex o) {
        return new Complex(re - o.re, im - o.im);
    }

    /** {@return the product} */
    public Complex times(Complex o) {
        return new Complex(re * o.re - im * o.im, re * o.im + im * o.re);
    }

    /** {@return the product with a real number} */
    public Complex times(double f) {
        return new Complex(re * f, im * f);
    }

    /** {@return one over this} */
    public Complex inverse() {
        double d = re * re + im * im;
        return new Complex(re / d, -im / d);
    }

    /** {@return the quotient} */
    public Complex over(Complex o) {
        return times(o.inverse());
    }

    /** {@return this mirrored at the real axis} */
    public Complex conjugate() {
        return new Complex(re, -im);
    }

    /** {@return the negative} */
    public Complex negated() {
        return new Complex(-re, -im);
    }

    /** {@return the magnitude: what a meter shows of a phasor} */
    public double magnitude() {
        return Math.hypot(re, im);
    }

    /** {@return the angle in degrees, from -180 to 180} */
    public double degrees() {
        return Math.toDegrees(Math.atan2(im, re));
    }
}

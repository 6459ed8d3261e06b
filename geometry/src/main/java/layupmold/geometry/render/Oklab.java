package layupmold.geometry.render;

/**
 * OKLab, a space in which equal distances look about equally different (Björn Ottosson, "A perceptual color space for
 * image processing", 2020), and its way to and from 24-bit sRGB (IEC 61966-2-1).
 *
 * @param l lightness, 0 black to 1 white
 * @param a green to red
 * @param b blue to yellow
 */
public record Oklab(double l, double a, double b) {

    private static final double[] LINEAR_OF_BYTE = new double[256];

    static {
        for (int i = 0; i < 256; i++) {
            LINEAR_OF_BYTE[i] = toLinear(i / 255.0);
        }
    }

    /**
     * @param lightness 0 to 1
     * @param chroma distance from grey, 0 to about 0.32 inside sRGB
     * @param hueDeg hue angle, degrees
     */
    public static Oklab ofHue(double lightness, double chroma, double hueDeg) {
        double hue = Math.toRadians(hueDeg);
        return new Oklab(lightness, chroma * Math.cos(hue), chroma * Math.sin(hue));
    }

    /** From 0xRRGGBB; higher bits are ignored. */
    public static Oklab ofRgb(int rgb) {
        return ofLinear(LINEAR_OF_BYTE[rgb >> 16 & 255], LINEAR_OF_BYTE[rgb >> 8 & 255], LINEAR_OF_BYTE[rgb & 255]);
    }

    /** From linear-light sRGB components. */
    public static Oklab ofLinear(double red, double green, double blue) {
        double l = Math.cbrt(0.4122214708 * red + 0.5363325363 * green + 0.0514459929 * blue);
        double m = Math.cbrt(0.2119034982 * red + 0.6806995451 * green + 0.1073969566 * blue);
        double s = Math.cbrt(0.0883024619 * red + 0.2817188376 * green + 0.6299787005 * blue);
        return new Oklab(
                0.2104542553 * l + 0.7936177850 * m - 0.0040720468 * s,
                1.9779984951 * l - 2.4285922050 * m + 0.4505937099 * s,
                0.0259040371 * l + 0.7827717662 * m - 0.8086757660 * s);
    }

    /** Linear-light sRGB components; outside 0..1 where sRGB cannot show the colour. */
    public double[] toLinear() {
        double l = cube(this.l + 0.3963377774 * a + 0.2158037573 * b);
        double m = cube(this.l - 0.1055613458 * a - 0.0638541728 * b);
        double s = cube(this.l - 0.0894841775 * a - 1.2914855480 * b);
        return new double[] {
            4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s,
            -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s,
            -0.0041960863 * l - 0.7034186147 * m + 1.7076147010 * s};
    }

    /** Nearest 0xRRGGBB, components clamped. */
    public int toRgb() {
        double[] linear = toLinear();
        return toByte(linear[0]) << 16 | toByte(linear[1]) << 8 | toByte(linear[2]);
    }

    /** Euclidean distance; about 0.02 is just noticeable. */
    public double distance(Oklab other) {
        double dl = l - other.l;
        double da = a - other.a;
        double db = b - other.b;
        return Math.sqrt(dl * dl + da * da + db * db);
    }

    /** Straight line from this (t = 0) to {@code other} (t = 1). */
    public Oklab mix(Oklab other, double t) {
        return new Oklab(l + t * (other.l - l), a + t * (other.a - a), b + t * (other.b - b));
    }

    /** Linear light of an 8-bit sRGB component. */
    static double linearOfByte(int component) {
        return LINEAR_OF_BYTE[component];
    }

    /** The sRGB transfer function, encoded 0..1 to linear 0..1. */
    static double toLinear(double encoded) {
        return encoded <= 0.04045 ? encoded / 12.92 : Math.pow((encoded + 0.055) / 1.055, 2.4);
    }

    /** The sRGB transfer function, linear to an 8-bit component, clamped. */
    static int toByte(double linear) {
        double clamped = Math.max(0, Math.min(1, linear));
        double encoded = clamped <= 0.0031308 ? 12.92 * clamped : 1.055 * Math.pow(clamped, 1 / 2.4) - 0.055;
        return (int) Math.round(255 * encoded);
    }

    private static double cube(double x) {
        return x * x * x;
    }
}

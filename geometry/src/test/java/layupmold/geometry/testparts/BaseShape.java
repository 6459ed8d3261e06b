package layupmold.geometry.testparts;

import java.util.List;
import java.util.SplittableRandom;
import layupmold.geometry.shape.Bowl;
import layupmold.geometry.shape.Outline;
import layupmold.geometry.shape.PlanarDomain;
import layupmold.geometry.shape.Profile;
import layupmold.geometry.shape.Surface;
import org.joml.Vector3d;

/** The forms that random shells start from, mouth towards −z. */
public enum BaseShape {
    /** Shallow bump with an elliptic perimeter. */
    DOME,
    /** Curved up one way and down the other. */
    SADDLE,
    /** Half a cylinder with rounded end caps. */
    CAPPED_TROUGH,
    /** Cone with a rounded tip. */
    CONE,
    /** Flat bottom, rounded corners, drafted walls. */
    TRAY,
    /** Ball closed beyond its equator. */
    HELMET,
    /** Moon-shaped piece of a ball. */
    CRESCENT,
    /** Lobed piece of a ball: the perimeter goes up and down. */
    WAVY,
    /** Round piece cut off a ball at a slant. */
    TILTED;

    /**
     * A surface and where to cut it.
     *
     * @param surface outer wall
     * @param perimeter in the surface's parameters
     * @param leastRadiusMm tightest radius of the surface where its inner side is hollow
     */
    record Blank(Surface surface, double[] perimeter, double leastRadiusMm) {
        PlanarDomain domain(List<double[]> openings) {
            return new PlanarDomain(perimeter, openings);
        }
    }

    Blank make(SplittableRandom random, double spacingMm) {
        return switch (this) {
            case DOME -> dome(random, spacingMm);
            case SADDLE -> saddle(random, spacingMm);
            case CAPPED_TROUGH -> cappedTrough(random, spacingMm);
            case CONE -> cone(random, spacingMm);
            case TRAY -> tray(random, spacingMm);
            case HELMET -> helmet(random, spacingMm);
            case CRESCENT -> crescent(random, spacingMm);
            case WAVY -> wavy(random, spacingMm);
            case TILTED -> tilted(random, spacingMm);
        };
    }

    private static Blank dome(SplittableRandom random, double spacing) {
        double a = random.nextDouble(50, 110);
        double b = a * random.nextDouble(0.6, 1);
        double height = random.nextDouble(0.15, 0.4) * b;
        Surface surface = (u, v) -> new Vector3d(u, v, height * (1 - u * u / (a * a) - v * v / (b * b)));
        return new Blank(surface, Outline.ellipse(0, 0, a, b, 0, spacing), b * b / (2 * height));
    }

    private static Blank saddle(SplittableRandom random, double spacing) {
        double a = random.nextDouble(60, 110);
        double down = random.nextDouble(70, 150);
        double up = random.nextDouble(120, 300);
        Surface surface = (u, v) -> new Vector3d(u, v, -u * u / (2 * down) + v * v / (2 * up));
        return new Blank(surface, Outline.ellipse(0, 0, a, a * random.nextDouble(0.7, 1.1), 0, spacing), down);
    }

    private static Blank cappedTrough(SplittableRandom random, double spacing) {
        double half = random.nextDouble(40, 110);
        double radius = random.nextDouble(30, 55);
        Profile profile = Profile.start().turn(radius, 85).straight(random.nextDouble(5, 25));
        return bowl(half, 0, profile, radius, spacing);
    }

    private static Blank cone(SplittableRandom random, double spacing) {
        double tip = random.nextDouble(16, 30);
        Profile profile = Profile.start().turn(tip, random.nextDouble(30, 65)).straight(random.nextDouble(40, 80));
        return bowl(0, 0, profile, tip, spacing);
    }

    private static Blank tray(SplittableRandom random, double spacing) {
        double corner = random.nextDouble(14, 25);
        Profile profile = Profile.start().straight(random.nextDouble(3, 10))
                .turn(corner, random.nextDouble(70, 86)).straight(random.nextDouble(10, 35));
        return bowl(random.nextDouble(30, 70), random.nextDouble(15, 40), profile, corner, spacing);
    }

    private static Blank helmet(SplittableRandom random, double spacing) {
        double radius = random.nextDouble(70, 110);
        Profile profile = Profile.start().turn(radius, random.nextDouble(98, 118));
        return bowl(0, 0, profile, radius, spacing);
    }

    private static Blank crescent(SplittableRandom random, double spacing) {
        double radius = random.nextDouble(100, 180);
        double arc = random.nextDouble(45, 65);
        double sweep = Math.toRadians(random.nextDouble(120, 230));
        double[] line = new double[2 * 65];
        for (int i = 0; i <= 64; i++) {
            double angle = sweep * (i / 64.0 - 0.5);
            line[2 * i] = arc * Math.cos(angle);
            line[2 * i + 1] = arc * Math.sin(angle);
        }
        double[] perimeter = Outline.band(line, random.nextDouble(16, 24), spacing);
        return new Blank(ball(radius), perimeter, radius);
    }

    private static Blank wavy(SplittableRandom random, double spacing) {
        double radius = random.nextDouble(70, 120);
        int lobes = random.nextInt(2, 6);
        double amplitude = random.nextDouble(0.05, 0.5) / lobes;
        double phase = random.nextDouble(0, Math.PI);
        double middle = radius * random.nextDouble(0.7, 1.1);
        double[] perimeter = Outline.of((s, xy) -> {
            double angle = 2 * Math.PI * s;
            double r = middle * (1 + amplitude * Math.cos(lobes * angle + phase));
            xy[0] = r * Math.cos(angle);
            xy[1] = r * Math.sin(angle);
        }, spacing);
        return new Blank(ball(radius), perimeter, radius);
    }

    private static Blank tilted(SplittableRandom random, double spacing) {
        double radius = random.nextDouble(70, 120);
        double across = radius * random.nextDouble(0.6, 0.9);
        double[] perimeter = Outline.ellipse(radius * random.nextDouble(0.2, 0.5), 0, across,
                across * random.nextDouble(0.75, 1), random.nextDouble(0, 90), spacing);
        return new Blank(ball(radius), perimeter, radius);
    }

    private static Bowl ball(double radius) {
        return new Bowl(0, 0, Profile.start().turn(radius, 170));
    }

    /** A bowl cut level at the end of its profile. */
    private static Blank bowl(double half, double halfWidth, Profile profile, double leastRadius, double spacing) {
        double reach = profile.length();
        double[] corners = {-half, -halfWidth, half, -halfWidth, half, halfWidth, -half, halfWidth, -half, -halfWidth};
        double[] perimeter = half == 0
                ? Outline.ellipse(0, 0, reach, reach, 0, spacing)
                : Outline.band(corners, reach, spacing);
        return new Blank(new Bowl(half, halfWidth, profile), perimeter, leastRadius);
    }
}

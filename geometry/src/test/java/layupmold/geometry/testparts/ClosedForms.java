package layupmold.geometry.testparts;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.shape.ShellRegion;

/**
 * Thin shells whose areas and volumes have formulas. All stand mouth down around the z axis, have an even wall and a
 * sharp rim at right angles to the walls; bodies of revolution have all vertices on the true surfaces.
 */
public final class ClosedForms {

    private ClosedForms() {
    }

    /**
     * A spherical cap about the origin. Outer wall: area 2πR²(1 − cos θ); shell: volume (2π/3)(R³ − (R − t)³)(1 − cos θ);
     * perimeter 2πR sin θ.
     *
     * @param halfAngleDeg θ between the axis and the rim, below 180
     */
    public static TestPart sphericalCap(double radius, double halfAngleDeg, double thickness, int segments) {
        int rings = Math.max(2, (int) Math.round(segments * halfAngleDeg / 360));
        double[] outer = new double[2 * (rings + 1)];
        double[] inner = new double[2 * (rings + 1)];
        for (int i = 0; i <= rings; i++) {
            double angle = Math.toRadians(halfAngleDeg) * i / rings;
            outer[2 * i] = radius * Math.sin(angle);
            outer[2 * i + 1] = radius * Math.cos(angle);
            inner[2 * i] = (radius - thickness) * Math.sin(angle);
            inner[2 * i + 1] = (radius - thickness) * Math.cos(angle);
        }
        return revolved("spherical cap", outer, inner, segments, thickness);
    }

    /**
     * A circular cone with its tip up at the origin. Outer wall: area π r s with base radius r and slant s = hypot(r, h);
     * the inner wall is the parallel cone, its tip t / sin α below (α the half angle at the tip).
     */
    public static TestPart cone(double baseRadius, double height, double thickness, int segments) {
        double slant = Math.hypot(baseRadius, height);
        double sin = baseRadius / slant;
        double cos = height / slant;
        int rings = Math.max(2, (int) Math.round(slant * segments / (2 * Math.PI * baseRadius)));
        double[] outer = new double[2 * (rings + 1)];
        double[] inner = new double[2 * (rings + 1)];
        double tip = -thickness / sin;
        double innerRadius = baseRadius - thickness * cos;
        double innerFoot = -height - thickness * sin;
        for (int i = 0; i <= rings; i++) {
            double share = (double) i / rings;
            outer[2 * i] = baseRadius * share;
            outer[2 * i + 1] = -height * share;
            inner[2 * i] = innerRadius * share;
            inner[2 * i + 1] = tip + (innerFoot - tip) * share;
        }
        return revolved("cone", outer, inner, segments, thickness);
    }

    /**
     * A box without a floor side, mouth down, with sharp edges. Outer wall: area lw + 2(l + w)h; shell: volume
     * lwh − (l − 2t)(w − 2t)(h − t); perimeter 2(l + w).
     */
    public static TestPart tray(double length, double width, double height, double thickness, double spacing) {
        Patches patches = new Patches();
        addBox(patches, length / 2, width / 2, -height, 0, spacing, ShellRegion.OUTER);
        addBox(patches, length / 2 - thickness, width / 2 - thickness, -height, -thickness, spacing,
                ShellRegion.INNER);
        addTrayRim(patches, length / 2, width / 2, thickness, -height, spacing);
        return patches.part("tray", thickness, new double[] {2 * (length + width)});
    }

    /**
     * A flat plate, outer wall up, with one straight V groove along y: opening width w and depth d at x = 0, ending
     * open at both rims. Outer wall: area (l − w)b + 2b·hypot(w/2, d). The inner wall is flat.
     */
    public static TestPart groovePlate(
            double length, double breadth, double thickness, double grooveWidth, double grooveDepth, double spacing) {
        List<double[]> section = new ArrayList<>();
        addFlat(section, -length / 2, -grooveWidth / 2, spacing);
        section.add(new double[] {0, -grooveDepth});
        addFlat(section, grooveWidth / 2, length / 2, spacing);
        Patches patches = extruded(section, breadth, thickness, thickness, spacing);
        double perimeter = 2 * (breadth + length - grooveWidth + 2 * Math.hypot(grooveWidth / 2, grooveDepth));
        return patches.part("groove plate", thickness, new double[] {perimeter});
    }

    /** The same with a square groove w wide and d deep: outer wall l b + 2 d b. */
    public static TestPart channelPlate(
            double length, double breadth, double thickness, double width, double depth, double spacing) {
        List<double[]> section = new ArrayList<>();
        addFlat(section, -length / 2, -width / 2, spacing);
        section.add(new double[] {-width / 2, -depth});
        section.add(new double[] {width / 2, -depth});
        addFlat(section, width / 2, length / 2, spacing);
        return extruded(section, breadth, depth, thickness, spacing)
                .part("channel plate", thickness, new double[] {2 * (breadth + length + 2 * depth)});
    }

    private static void addFlat(List<double[]> section, double from, double to, double spacing) {
        int steps = (int) Math.ceil((to - from) / spacing);
        for (int i = 0; i <= steps; i++) {
            section.add(new double[] {i == steps ? to : from + (to - from) * i / steps, 0});
        }
    }

    /**
     * A plate along y whose outer wall has a section of points (x, z); the inner wall is flat. Its rim has a row of
     * vertices {@code ledge} below the outer wall.
     */
    private static Patches extruded(
            List<double[]> section, double breadth, double ledge, double thickness, double spacing) {
        int rows = (int) Math.ceil(breadth / spacing);
        int last = section.size() - 1;
        Patches patches = new Patches();
        for (int i = 0; i < last; i++) {
            double[] p = section.get(i);
            double[] q = section.get(i + 1);
            for (int j = 0; j < rows; j++) {
                double y0 = breadth * j / rows - breadth / 2;
                double y1 = breadth * (j + 1) / rows - breadth / 2;
                patches.quad(p[0], y0, p[1], q[0], y0, q[1], q[0], y1, q[1], p[0], y1, p[1], ShellRegion.OUTER);
                if (p[0] < q[0]) {
                    patches.quad(p[0], y0, -thickness, p[0], y1, -thickness, q[0], y1, -thickness, q[0], y0, -thickness,
                            ShellRegion.INNER);
                }
                if (i == 0) {
                    double x = section.get(last)[0];
                    rim(patches, p[0], y1, p[1], p[0], y0, p[1], -ledge, -thickness);
                    rim(patches, x, y0, p[1], x, y1, p[1], -ledge, -thickness);
                }
            }
            if (p[0] < q[0]) {
                rim(patches, p[0], -breadth / 2, p[1], q[0], -breadth / 2, q[1], -ledge, -thickness);
                rim(patches, q[0], breadth / 2, q[1], p[0], breadth / 2, p[1], -ledge, -thickness);
            }
        }
        return patches;
    }

    /** Below an edge of the outer wall: down to one height, then to another, where they differ. */
    private static void rim(Patches patches, double x0, double y0, double z0, double x1, double y1, double z1,
            double ledge, double foot) {
        if (ledge <= foot) {
            patches.rim(x0, y0, z0, x1, y1, z1, x1, y1, foot, x0, y0, foot);
            return;
        }
        if (z0 > ledge) {
            patches.quad(x1, y1, z1, x0, y0, z0, x0, y0, ledge, x1, y1, ledge, ShellRegion.RIM_OUTER_HALF);
        }
        patches.rim(x0, y0, ledge, x1, y1, ledge, x1, y1, foot, x0, y0, foot);
    }

    private static void addBox(
            Patches patches, double a, double b, double low, double high, double spacing, ShellRegion region) {
        patches.grid(-a, -b, high, 2 * a, 0, 0, 0, 2 * b, 0, spacing, region);
        patches.grid(-a, -b, low, 2 * a, 0, 0, 0, 0, high - low, spacing, region);
        patches.grid(a, b, low, -2 * a, 0, 0, 0, 0, high - low, spacing, region);
        patches.grid(a, -b, low, 0, 2 * b, 0, 0, 0, high - low, spacing, region);
        patches.grid(-a, b, low, 0, -2 * b, 0, 0, 0, high - low, spacing, region);
    }

    /** Four trapezoids between the two rectangles, cut like the box sides beside them. */
    private static void addTrayRim(Patches patches, double a, double b, double t, double z, double spacing) {
        double[] outer = {-a, -b, a, -b, a, b, -a, b};
        double[] inner = {-a + t, -b + t, a - t, -b + t, a - t, b - t, -a + t, b - t};
        for (int side = 0; side < 4; side++) {
            int p = 2 * side;
            int q = 2 * ((side + 1) % 4);
            int outerCount = Patches.steps(Math.hypot(outer[q] - outer[p], outer[q + 1] - outer[p + 1]), spacing);
            int innerCount = Patches.steps(Math.hypot(inner[q] - inner[p], inner[q + 1] - inner[p + 1]), spacing);
            patches.zip(outer, inner, p, q, outerCount, innerCount, z);
        }
    }

    private static TestPart revolved(
            String name, double[] outer, double[] inner, int segments, double thickness) {
        Patches patches = new Patches();
        int last = outer.length / 2 - 1;
        for (int k = 0; k < segments; k++) {
            double a0 = 2 * Math.PI * k / segments;
            double a1 = 2 * Math.PI * ((k + 1) % segments) / segments;
            for (int i = 0; i < last; i++) {
                patches.revolvedQuad(outer, i, i + 1, a0, a1, ShellRegion.OUTER);
                patches.revolvedQuad(inner, i + 1, i, a0, a1, ShellRegion.INNER);
            }
            double[] rim = {outer[2 * last], outer[2 * last + 1], (outer[2 * last] + inner[2 * last]) / 2,
                (outer[2 * last + 1] + inner[2 * last + 1]) / 2, inner[2 * last], inner[2 * last + 1]};
            patches.revolvedQuad(rim, 0, 1, a0, a1, ShellRegion.RIM_OUTER_HALF);
            patches.revolvedQuad(rim, 1, 2, a0, a1, ShellRegion.RIM_INNER_HALF);
        }
        return patches.part(name, thickness, new double[] {2 * Math.PI * outer[2 * last]});
    }
}

package layupmold.geometry.plug;

import layupmold.geometry.mesh.TriangleMesh;

/** Open sheets with an opening around the z axis, facing up. */
final class AnnularSheet {

    private AnnularSheet() {
    }

    /** Height of a sheet over the plan. */
    interface Height {
        double at(double x, double y);
    }

    /** Over the plan between two circles; vertices lie on them. */
    static TriangleMesh of(int segments, double innerMm, double outerMm, Height height) {
        int rings = rings(segments, (outerMm - innerMm) / innerMm);
        double[] xyz = new double[3 * (rings + 1) * segments];
        for (int i = 0; i <= rings; i++) {
            double r = innerMm + (outerMm - innerMm) * i / rings;
            for (int j = 0; j < segments; j++) {
                double a = 2 * Math.PI * j / segments;
                put(xyz, i * segments + j, r * Math.cos(a), r * Math.sin(a), height.at(r * Math.cos(a), r * Math.sin(a)));
            }
        }
        return new TriangleMesh(xyz, strips(rings, segments));
    }

    /** Of the sphere about the origin, between two angles from its north pole, degrees. */
    static TriangleMesh dome(int segments, double radius, double fromDeg, double toDeg) {
        int rings = rings(segments, Math.toRadians(toDeg - fromDeg) / Math.sin(Math.toRadians(fromDeg)));
        double[] xyz = new double[3 * (rings + 1) * segments];
        for (int i = 0; i <= rings; i++) {
            double polar = Math.toRadians(fromDeg + (toDeg - fromDeg) * i / rings);
            for (int j = 0; j < segments; j++) {
                double a = 2 * Math.PI * j / segments;
                put(xyz, i * segments + j, radius * Math.sin(polar) * Math.cos(a),
                        radius * Math.sin(polar) * Math.sin(a), radius * Math.cos(polar));
            }
        }
        return new TriangleMesh(xyz, strips(rings, segments));
    }

    static final int LIP_RINGS = 8;

    /** A flat plate whose opening ends in a quarter round, lip up, as a rounded rim's outer half does. */
    static TriangleMesh lipped(int segments, double innerMm, double outerMm, double lipMm) {
        int plateRings = rings(segments, (outerMm - innerMm - lipMm) / (innerMm + lipMm));
        double[] xyz = new double[3 * (LIP_RINGS + plateRings + 1) * segments];
        for (int i = 0; i <= LIP_RINGS + plateRings; i++) {
            double turn = Math.PI / 2 * Math.min(i, LIP_RINGS) / LIP_RINGS;
            double flat = (outerMm - innerMm - lipMm) * Math.max(0, i - LIP_RINGS) / plateRings;
            double r = innerMm + lipMm - lipMm * Math.cos(turn) + flat;
            for (int j = 0; j < segments; j++) {
                double a = 2 * Math.PI * j / segments;
                put(xyz, i * segments + j, r * Math.cos(a), r * Math.sin(a), lipMm * (1 - Math.sin(turn)));
            }
        }
        return new TriangleMesh(xyz, strips(LIP_RINGS + plateRings, segments));
    }

    /** Triangles about as long as wide at the opening. */
    private static int rings(int segments, double widthByInnerRadius) {
        return (int) Math.ceil(widthByInnerRadius * segments / (2 * Math.PI));
    }

    private static int[] strips(int rings, int segments) {
        int[] triangles = new int[6 * rings * segments];
        int n = 0;
        for (int i = 0; i < rings; i++) {
            for (int j = 0; j < segments; j++) {
                int a = i * segments + j;
                int b = i * segments + (j + 1) % segments;
                for (int v : new int[] {a, a + segments, b + segments, a, b + segments, b}) {
                    triangles[n++] = v;
                }
            }
        }
        return triangles;
    }

    private static void put(double[] xyz, int v, double x, double y, double z) {
        xyz[3 * v] = x;
        xyz[3 * v + 1] = y;
        xyz[3 * v + 2] = z;
    }
}

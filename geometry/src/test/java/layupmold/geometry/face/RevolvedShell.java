package layupmold.geometry.face;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Matrix4d;
import org.joml.Vector3d;

/**
 * A shell of revolution about z, open towards +z, with the truth of every triangle: outer wall, rim, inner wall.
 *
 * @param mesh closed and outward-facing
 * @param region 0 outer wall, 1 rim up to where its normal is square to z, 2 the rest of the rim, 3 inner wall
 */
public record RevolvedShell(TriangleMesh mesh, byte[] region) {

    public enum Rim {
        SHARP, ROUND, COARSE_ROUND, CHAMFERED
    }

    public static final byte OUTER = 0;
    public static final byte RIM_OUTSIDE = 1;
    public static final byte RIM_INSIDE = 2;
    public static final byte INNER = 3;

    /**
     * A bowl cut from a sphere of outer radius {@code radius} about the origin, its rim {@code openDeg} from the lowest
     * point, walls along one radius.
     */
    public static RevolvedShell sphere(double radius, double wall, double openDeg, Rim rim, int around, int along) {
        List<double[]> outer = new ArrayList<>();
        List<double[]> inner = new ArrayList<>();
        for (int i = 0; i <= along; i++) {
            double a = Math.toRadians(openDeg) * i / along;
            outer.add(new double[] {radius * Math.sin(a), -radius * Math.cos(a)});
            inner.add(new double[] {(radius - wall) * Math.sin(a), -(radius - wall) * Math.cos(a)});
        }
        return joined(outer, inner, rim, around);
    }

    /** A cone frustum's mantle with a flat floor: radii and heights outside, the wall at right angles to the mantle. */
    public static RevolvedShell pan(double floorRadius, double draftDeg, double height, double wall, Rim rim, int around,
            int along) {
        double lean = Math.tan(Math.toRadians(draftDeg));
        double sideways = wall / Math.cos(Math.toRadians(draftDeg));
        List<double[]> outer = new ArrayList<>();
        List<double[]> inner = new ArrayList<>();
        for (int i = 0; i <= along; i++) {
            outer.add(new double[] {floorRadius * i / along, 0});
            inner.add(new double[] {(floorRadius - sideways + wall * lean) * i / along, wall});
        }
        double rise = wall * Math.sin(Math.toRadians(draftDeg));
        for (int i = 1; i <= along; i++) {
            double z = height * i / along;
            outer.add(new double[] {floorRadius + z * lean, z});
            double zi = wall + (height + rise - wall) * i / along;
            inner.add(new double[] {floorRadius - sideways + zi * lean, zi});
        }
        return joined(outer, inner, rim, around);
    }

    /** A solid ball. */
    public static RevolvedShell ball(double radius, int around, int along) {
        List<double[]> profile = new ArrayList<>();
        List<Byte> regions = new ArrayList<>();
        for (int i = 0; i <= along; i++) {
            double a = Math.PI * i / along;
            profile.add(new double[] {i == along ? 0 : radius * Math.sin(a), -radius * Math.cos(a)});
            regions.add(OUTER);
        }
        return revolved(profile, regions, around);
    }

    private static RevolvedShell joined(List<double[]> outer, List<double[]> inner, Rim rim, int around) {
        List<double[]> profile = new ArrayList<>(outer);
        List<Byte> regions = new ArrayList<>();
        for (int i = 1; i < outer.size(); i++) {
            regions.add(OUTER);
        }
        double[] a = outer.get(outer.size() - 1);
        double[] b = inner.get(inner.size() - 1);
        double cx = (a[0] + b[0]) / 2;
        double cz = (a[1] + b[1]) / 2;
        double hx = (a[0] - b[0]) / 2;
        double hz = (a[1] - b[1]) / 2;
        if (rim == Rim.ROUND || rim == Rim.COARSE_ROUND) {
            int n = rim == Rim.ROUND ? 16 : 6;
            for (int i = 1; i <= n; i++) {
                double t = Math.PI * i / n;
                double middle = Math.PI * (i - 0.5) / n;
                if (i < n) {
                    profile.add(new double[] {cx + hx * Math.cos(t) - hz * Math.sin(t),
                            cz + hz * Math.cos(t) + hx * Math.sin(t)});
                }
                regions.add(hz * Math.cos(middle) + hx * Math.sin(middle) < 1e-9 ? RIM_OUTSIDE : RIM_INSIDE);
            }
        } else if (rim == Rim.CHAMFERED) {
            double s = 0.6;
            profile.add(new double[] {cx + s * hx - (1 - s) * hz, cz + s * hz + (1 - s) * hx});
            profile.add(new double[] {cx - s * hx - (1 - s) * hz, cz - s * hz + (1 - s) * hx});
            for (int i = 0; i < 3; i++) {
                regions.add(RIM_INSIDE);
            }
        } else {
            regions.add(RIM_INSIDE);
        }
        for (int i = inner.size() - 1; i >= 0; i--) {
            profile.add(inner.get(i));
        }
        for (int i = 1; i < inner.size(); i++) {
            regions.add(INNER);
        }
        return revolved(profile, regions, around);
    }

    /**
     * This shell with meridians {@code first} to {@code last} of another of as many, {@code fromRadius} or farther from
     * the axis: a groove or a ridge that runs out across the rim.
     */
    public RevolvedShell withMeridians(RevolvedShell other, int around, int first, int last, double fromRadius) {
        double[] xyz = mesh.xyz().clone();
        for (int v = 2; v < mesh.vertexCount(); v++) {
            int meridian = (v - 2) % around;
            if (meridian >= first && meridian <= last && Math.hypot(xyz[3 * v], xyz[3 * v + 1]) >= fromRadius) {
                System.arraycopy(other.mesh.xyz(), 3 * v, xyz, 3 * v, 3);
            }
        }
        return new RevolvedShell(new TriangleMesh(xyz, mesh.triangles()), region);
    }

    /** Turns a profile that starts and ends on the axis. */
    private static RevolvedShell revolved(List<double[]> profile, List<Byte> regions, int around) {
        int rings = profile.size() - 2;
        double[] xyz = new double[3 * (rings * around + 2)];
        xyz[2] = profile.get(0)[1];
        xyz[5] = profile.get(rings + 1)[1];
        for (int r = 0; r < rings; r++) {
            for (int j = 0; j < around; j++) {
                double t = 2 * Math.PI * j / around;
                int v = 3 * (2 + r * around + j);
                xyz[v] = profile.get(r + 1)[0] * Math.cos(t);
                xyz[v + 1] = profile.get(r + 1)[0] * Math.sin(t);
                xyz[v + 2] = profile.get(r + 1)[1];
            }
        }
        int[] triangles = new int[6 * around * rings];
        byte[] region = new byte[2 * around * rings];
        int n = 0;
        for (int s = 0; s <= rings; s++) {
            for (int j = 0; j < around; j++) {
                int k = (j + 1) % around;
                int a = s == 0 ? 0 : 2 + (s - 1) * around + j;
                int b = s == 0 ? 0 : 2 + (s - 1) * around + k;
                int c = s == rings ? 1 : 2 + s * around + j;
                int d = s == rings ? 1 : 2 + s * around + k;
                if (s > 0) {
                    region[n / 3] = regions.get(s);
                    triangles[n++] = a;
                    triangles[n++] = b;
                    triangles[n++] = c;
                }
                if (s < rings) {
                    region[n / 3] = regions.get(s);
                    triangles[n++] = b;
                    triangles[n++] = d;
                    triangles[n++] = c;
                }
            }
        }
        return new RevolvedShell(outward(new TriangleMesh(xyz, triangles)), region);
    }

    private static TriangleMesh outward(TriangleMesh mesh) {
        return mesh.volume() > 0 ? mesh : mesh.flipped();
    }

    public RevolvedShell moved(Matrix4d m) {
        double[] xyz = mesh.xyz().clone();
        for (int i = 0; i < xyz.length; i += 3) {
            Vector3d p = m.transformPosition(new Vector3d(xyz[i], xyz[i + 1], xyz[i + 2]));
            xyz[i] = p.x;
            xyz[i + 1] = p.y;
            xyz[i + 2] = p.z;
        }
        return new RevolvedShell(new TriangleMesh(xyz, mesh.triangles()), region);
    }

    public double area(int... regions) {
        double sum = 0;
        for (int t = 0; t < region.length; t++) {
            for (int r : regions) {
                sum += region[t] == r ? mesh.areaNormal(t).length() / 2 : 0;
            }
        }
        return sum;
    }
}

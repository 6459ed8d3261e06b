package layupmold.geometry.testparts;

import java.util.Arrays;
import java.util.SplittableRandom;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shape.ShellRegion;
import layupmold.geometry.shape.ThinShell;
import org.joml.Matrix4d;
import org.joml.Vector3d;

/** Turns a freshly built shell into a part as posted: noisy, shuffled, moved, in company, perhaps inside out. */
final class Disguise {

    private Disguise() {
    }

    static TestPart apply(
            ShellSpec spec, ThinShell shell, double least, double greatest, SplittableRandom random) {
        double[] xyz = shell.mesh().xyz().clone();
        if (spec.noiseMm() > 0) {
            addNoise(shell, spec.noiseMm(), xyz, random);
        }
        double[] loopLengths = loopLengths(shell, xyz);
        TriangleMesh mesh = new TriangleMesh(xyz, shell.mesh().triangles());
        byte[] regions = shell.regions();
        byte[] loops = shell.loopOfTriangle();
        for (int i = 0; i < spec.specks(); i++) {
            mesh = withSpeck(mesh, random);
            regions = extended(regions, mesh.triangleCount(), (byte) ShellRegion.OTHER.ordinal());
            loops = extended(loops, mesh.triangleCount(), (byte) -1);
        }
        int[] order = shuffled(mesh.triangleCount(), random);
        mesh = reordered(mesh, order, random);
        regions = picked(regions, order);
        loops = picked(loops, order);
        RigidTransform move = placement(spec.placement(), random);
        mesh = move.apply(mesh);
        if (spec.insideOut()) {
            mesh = mesh.flipped();
        }
        Vector3d pull = move.applyToDirection(new Vector3d(0, 0, -1));
        return new TestPart(spec.toString(), mesh, regions, loops, pull, least, greatest, loopLengths.length - 1,
                loopLengths);
    }

    /** Moves wall vertices along their normals, less where a triangle is so thin that it would fold. */
    private static void addNoise(ThinShell shell, double noiseMm, double[] xyz, SplittableRandom random) {
        int[] triangles = shell.mesh().triangles();
        Vector3d[] normals = new Vector3d[xyz.length / 3];
        double[] amplitude = new double[normals.length];
        Arrays.setAll(normals, v -> new Vector3d());
        Arrays.fill(amplitude, noiseMm);
        for (int t = 0; t < shell.regions().length; t++) {
            ShellRegion region = ShellRegion.of(shell.regions()[t]);
            boolean wall = region == ShellRegion.OUTER || region == ShellRegion.INNER;
            Vector3d n = shell.mesh().areaNormal(t);
            double limit = wall ? 0.2 * n.length() / longestEdge(shell.mesh(), t) : 0;
            for (int i = 0; i < 3; i++) {
                int v = triangles[3 * t + i];
                normals[v].add(n);
                amplitude[v] = Math.min(amplitude[v], limit);
            }
        }
        for (int v = 0; v < normals.length; v++) {
            Vector3d shift = normals[v].normalize(amplitude[v] * random.nextDouble(-1, 1));
            xyz[3 * v] += shift.x;
            xyz[3 * v + 1] += shift.y;
            xyz[3 * v + 2] += shift.z;
        }
    }

    private static double longestEdge(TriangleMesh mesh, int t) {
        Vector3d a = mesh.corner(t, 0);
        Vector3d b = mesh.corner(t, 1);
        Vector3d c = mesh.corner(t, 2);
        return Math.max(a.distance(b), Math.max(b.distance(c), c.distance(a)));
    }

    private static double[] loopLengths(ThinShell shell, double[] xyz) {
        double[] lengths = new double[shell.outerLoops().size()];
        for (int i = 0; i < lengths.length; i++) {
            int[] loop = shell.outerLoops().get(i);
            for (int k = 0; k < loop.length; k++) {
                int a = 3 * loop[k];
                int b = 3 * loop[(k + 1) % loop.length];
                lengths[i] += Vector3d.distance(xyz[a], xyz[a + 1], xyz[a + 2], xyz[b], xyz[b + 1], xyz[b + 2]);
            }
        }
        return lengths;
    }

    /** A small octahedron well outside the part's bounds. */
    private static TriangleMesh withSpeck(TriangleMesh mesh, SplittableRandom random) {
        double[] box = mesh.bounds();
        double size = random.nextDouble(0.2, 4);
        double x = random.nextDouble(box[0], box[3]);
        double y = random.nextDouble(box[1], box[4]);
        double z = box[5] + size + random.nextDouble(2, 20);
        int base = mesh.vertexCount();
        double[] xyz = Arrays.copyOf(mesh.xyz(), 3 * (base + 6));
        double[] corners = {size, 0, 0, -size, 0, 0, 0, size, 0, 0, -size, 0, 0, 0, size, 0, 0, -size};
        for (int i = 0; i < 6; i++) {
            xyz[3 * (base + i)] = x + corners[3 * i];
            xyz[3 * (base + i) + 1] = y + corners[3 * i + 1];
            xyz[3 * (base + i) + 2] = z + corners[3 * i + 2];
        }
        int[] faces = {0, 2, 4, 2, 1, 4, 1, 3, 4, 3, 0, 4, 2, 0, 5, 1, 2, 5, 3, 1, 5, 0, 3, 5};
        int[] triangles = Arrays.copyOf(mesh.triangles(), mesh.triangles().length + faces.length);
        for (int i = 0; i < faces.length; i++) {
            triangles[mesh.triangles().length + i] = base + faces[i];
        }
        return new TriangleMesh(xyz, triangles);
    }

    private static byte[] extended(byte[] values, int length, byte with) {
        byte[] result = Arrays.copyOf(values, length);
        Arrays.fill(result, values.length, length, with);
        return result;
    }

    private static int[] shuffled(int n, SplittableRandom random) {
        int[] order = new int[n];
        for (int i = 0; i < n; i++) {
            int j = random.nextInt(i + 1);
            order[i] = order[j];
            order[j] = i;
        }
        return order;
    }

    /** Triangle {@code order[t]} becomes triangle {@code t}; vertices are shuffled too. */
    private static TriangleMesh reordered(TriangleMesh mesh, int[] order, SplittableRandom random) {
        int[] vertexAt = shuffled(mesh.vertexCount(), random);
        double[] xyz = new double[mesh.xyz().length];
        int[] newIndex = new int[vertexAt.length];
        for (int v = 0; v < vertexAt.length; v++) {
            newIndex[vertexAt[v]] = v;
            System.arraycopy(mesh.xyz(), 3 * vertexAt[v], xyz, 3 * v, 3);
        }
        int[] triangles = new int[mesh.triangles().length];
        for (int t = 0; t < order.length; t++) {
            int turn = random.nextInt(3);
            for (int i = 0; i < 3; i++) {
                triangles[3 * t + i] = newIndex[mesh.triangles()[3 * order[t] + (i + turn) % 3]];
            }
        }
        return new TriangleMesh(xyz, triangles);
    }

    private static byte[] picked(byte[] values, int[] order) {
        byte[] result = new byte[order.length];
        for (int t = 0; t < order.length; t++) {
            result[t] = values[order[t]];
        }
        return result;
    }

    private static RigidTransform placement(ShellSpec.Placement placement, SplittableRandom random) {
        if (placement == ShellSpec.Placement.UPRIGHT) {
            return RigidTransform.identity();
        }
        double reach = placement == ShellSpec.Placement.FAR ? 12_000 : 100;
        Matrix4d matrix = new Matrix4d()
                .translation(random.nextDouble(-reach, reach), random.nextDouble(-reach, reach),
                        random.nextDouble(-reach, reach))
                .rotateXYZ(random.nextDouble(0, 2 * Math.PI), random.nextDouble(0, 2 * Math.PI),
                        random.nextDouble(0, 2 * Math.PI));
        return new RigidTransform(matrix);
    }
}

package layupmold.geometry.face;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/**
 * Where to cut a shell again whose face's border zigzags all around ({@link Zigzags}), as on isosurfaces: no edge or
 * round can be told from the noise there, but normals that are evened out over the surface turn as the rim does.
 */
final class FairCut {

    /** Of the bell curve that normals are evened out by, in scales: wider ones waver less and round off more. */
    static final double[] WIDTHS = {0.2, 0.3, 0.4};
    /** How far from the border it may move, in scales: a full round is 1.6 from wall to wall. */
    private static final double REACH = 3;
    /** Nearer than this to the border is no wall to refer to, in scales. */
    private static final double WALL_FROM = 1.2;
    /** Width of the bell curve that the wall's normals are evened out by, in scales. */
    private static final double WALL_WIDTH = 1;
    /** Openings end where their sides have less draft than this, or than half the draft of the wall around. */
    private static final double LEAST_DRAFT = Math.sin(Math.toRadians(8));

    private static final double SHARP = Math.toRadians(70);
    private static final double MOSTLY = 0.8;

    private final double scaleMm;
    private final Vector3d pull;
    private final BorderReach reach;
    private final FaceMesh near;
    /** By vertex of {@code near}, the part's. */
    private final int[] ofPart;
    private final SurfaceHeat heat;
    private final double[][] wall;

    private FairCut(TriangleMesh mesh, boolean[] kept, BorderReach reach, double scaleMm, Vector3d pull) {
        this.scaleMm = scaleMm;
        this.pull = pull;
        this.reach = reach;
        this.near = FaceMesh.compact(mesh, reach.triangles());
        this.heat = new SurfaceHeat(near.mesh());
        this.ofPart = new int[near.mesh().vertexCount()];
        boolean[] isWall = new boolean[near.source().length];
        for (int t = 0; t < isWall.length; t++) {
            int source = near.source()[t];
            for (int k = 0; k < 3; k++) {
                ofPart[near.mesh().triangles()[3 * t + k]] = mesh.triangles()[3 * source + k];
            }
            isWall[t] = kept[source] && reach.isBeyond(source, WALL_FROM * scaleMm);
        }
        this.wall = normals(isWall, WALL_WIDTH * scaleMm);
    }

    /**
     * O(n) and some hundred passes over what is near; null if no loop of the face zigzags all around.
     *
     * @param mesh the part
     * @param kept its face, by triangle
     * @param face the same as a mesh of its own
     * @param scaleMm the wall's thickness
     * @param pull unit vector; null to end every loop square to its wall
     */
    static FairCut of(TriangleMesh mesh, EdgeTopology topology, boolean[] kept, FaceMesh face, double scaleMm,
            Vector3d pull) {
        BorderReach reach = new BorderReach(mesh);
        FaceLoops loops = FaceLoops.of(face.mesh(), face.topology());
        for (int[] loop : face.topology().boundaryLoops()) {
            if (!Zigzags.isAllAround(face, loop, Zigzags.lengths(face, loop), scaleMm)) {
                continue;
            }
            int[] edges = Arrays.stream(loop).map(h -> 3 * face.source()[h / 3] + h % 3).toArray();
            if (!isSharp(mesh, topology, edges)) {
                for (int h : edges) {
                    reach.start(topology.from(h), loop[0] == loops.perimeter()[0]);
                }
            }
        }
        if (reach.isEmpty()) {
            return null;
        }
        reach.spread(topology, REACH * scaleMm);
        return new FairCut(mesh, kept, reach, scaleMm, pull);
    }

    /** Whether most of a loop runs along an edge, however jagged: that is where it belongs. */
    private static boolean isSharp(TriangleMesh mesh, EdgeTopology topology, int[] loop) {
        double sharp = 0;
        double length = 0;
        for (int h : loop) {
            double mm = mesh.vertex(topology.from(h)).distance(mesh.vertex(topology.to(h)));
            double turn = mesh.areaNormal(h / 3).angle(mesh.areaNormal(topology.twin(h) / 3));
            length += mm;
            sharp += turn > SHARP ? mm : 0;
        }
        return sharp > MOSTLY * length;
    }

    /**
     * A number at each vertex of the part near such a loop, negative where the face goes on; NaN elsewhere.
     *
     * @param width one of {@link #WIDTHS}
     */
    float[] field(double width) {
        boolean[] all = new boolean[near.source().length];
        Arrays.fill(all, true);
        double[][] normals = normals(all, width * scaleMm);
        float[] field = new float[reach.vertexCount()];
        Arrays.fill(field, Float.NaN);
        for (int v = 0; v < ofPart.length; v++) {
            field[ofPart[v]] = (float) value(unit(normals, v), unit(wall, v), reach.isAtPerimeter(ofPart[v]));
        }
        return field;
    }

    private static Vector3d unit(double[][] vectors, int v) {
        Vector3d unit = new Vector3d(vectors[0][v], vectors[1][v], vectors[2][v]);
        return unit.lengthSquared() > 0 ? unit.normalize() : unit;
    }

    /** As {@link RimField}, and openings end where their sides run along the pull, if that comes first. */
    private double value(Vector3d normal, Vector3d wall, boolean perimeter) {
        double square = -normal.dot(wall);
        if (pull == null) {
            return square;
        }
        double draft = -wall.dot(pull);
        return perimeter
                ? RimField.pastSilhouette(normal.dot(pull), -draft)
                : Math.max(RimField.NEARLY_SQUARE + square, normal.dot(pull) + Math.min(LEAST_DRAFT, draft / 2));
    }

    /** The mean normals of some triangles, weighed by a bell curve, and carried on to where none of them is. */
    private double[][] normals(boolean[] some, double widthMm) {
        double[] mass = new double[ofPart.length];
        double[][] sum = new double[3][ofPart.length];
        for (int t = 0; t < some.length; t++) {
            Vector3d normal = near.mesh().areaNormal(t).div(6);
            for (int i = 3 * t; some[t] && i < 3 * t + 3; i++) {
                int v = near.mesh().triangles()[i];
                mass[v] += normal.length();
                for (int k = 0; k < 3; k++) {
                    sum[k][v] += normal.get(k);
                }
            }
        }
        for (int k = 0; k < 3; k++) {
            sum[k] = heat.spread(widthMm, mass, sum[k]);
        }
        return sum;
    }
}

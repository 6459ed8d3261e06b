package layupmold.geometry.check;

import com.carrotsearch.hppc.IntArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.bvh.VertexDistance;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.InspectSpec;
import org.joml.Vector3d;

/** The flange's figures, measured on the finished solid. */
public final class FlangeMeasurement {

    /** Where folds of the face reach the flange, hundredths of a square millimetre face anywhere: no cloth notices. */
    private static final double IGNORED_SHARE = 1e-3;

    /** What a tool may be off anywhere. */
    private static final double LEVEL_MM = InspectSpec.LEAST_TOLERANCE_MM;
    /** A border may be this much narrower than asked: corners lie on a lattice, and are one where they are nearer. */
    private static final double SLACK_MM = 0.01;

    private FlangeMeasurement() {
    }

    /**
     * Where the level border is narrowest. What lies within {@value #LEVEL_MM} mm of its plane counts as level.
     *
     * @param widthMm least distance in any direction between its inner rim and the outline; infinite without a border
     * @param at a corner of either there, in the solid's frame; null without a border
     */
    public record Border(double widthMm, Place at) {
    }

    /** O(n log n). */
    public static Border narrowestBorder(TriangleMesh solid, byte[] regions, EdgeTopology topology) {
        IntArrayList outline = new IntArrayList();
        for (int h = 0; h < topology.halfEdgeCount(); h++) {
            int twin = topology.twin(h);
            if (regions[h / 3] == MoldRegion.BORDER.ordinal() && twin >= 0
                    && regions[twin / 3] == MoldRegion.SIDE.ordinal()) {
                outline.add(topology.from(h), topology.to(h));
            }
        }
        if (outline.isEmpty()) {
            return new Border(Double.POSITIVE_INFINITY, null);
        }
        TriangleMesh outer = TriangleMesh.ofSegments(solid.xyz(), outline.toArray());
        TriangleMesh rim = LevelRim.of(solid, regions, topology, solid.vertex(outline.get(0)).z, LEVEL_MM);
        VertexDistance outwards = least(rim, outer);
        VertexDistance inwards = least(outer, rim);
        boolean atOutline = inwards.mm() < outwards.mm();
        VertexDistance least = atOutline ? inwards : outwards;
        return new Border(least.mm(),
                least.vertex() < 0 ? null : Place.at((atOutline ? outer : rim).vertex(least.vertex())));
    }

    private static VertexDistance least(TriangleMesh from, TriangleMesh to) {
        int[] vertices = IntStream.of(from.triangles()).distinct().toArray();
        return VertexDistance.least(from.xyz(), vertices, TriangleBvh.of(to), null);
    }

    /** An ERROR if the border is narrower than asked somewhere, by more than {@value #SLACK_MM} mm. */
    public static List<Finding> check(Border border, double askedMm) {
        return border.widthMm >= askedMm - SLACK_MM ? List.of() : List.of(
                Finding.error("check", "flange-too-narrow", "The flange's level border is narrower than asked.")
                        .measured(border.widthMm, askedMm, "mm").at(border.at)
                        .advising("This is a fault of the mold maker, not of your part: ask for a wider flange, "
                                + "and report the part."));
    }

    /** Least angle between wall and pull of all but a thousandth of its area, degrees; 90 without a wall. O(n log n). */
    public static double leastWallDraftDeg(TriangleMesh solid, byte[] regions) {
        int[] wall = IntStream.range(0, regions.length).filter(t -> regions[t] == MoldRegion.WALL.ordinal()).toArray();
        double[][] draftAndArea = new double[wall.length][];
        double area = 0;
        for (int i = 0; i < wall.length; i++) {
            Vector3d n = solid.areaNormal(wall[i]);
            double length = n.length();
            draftAndArea[i] = new double[] {length > 0 ? n.z / length : 1, length / 2};
            area += length / 2;
        }
        Arrays.sort(draftAndArea, Comparator.comparingDouble(facet -> facet[0]));
        double passed = 0;
        for (double[] facet : draftAndArea) {
            passed += facet[1];
            if (passed > IGNORED_SHARE * area) {
                return Math.toDegrees(Math.asin(facet[0]));
            }
        }
        return 90;
    }
}

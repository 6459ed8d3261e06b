package layupmold.geometry.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Matrix4d;

/** The pictures of a part and its mold, in the order a maker wants to see them. */
public final class MoldPictures {

    static final int PART = 0xC9C1B4;
    static final int MOLD = 0xC6BFB4;
    static final int KEPT = 0x2E7F87;
    static final int REMOVED = 0xD9A25F;

    /** Colours of {@link MoldRegion}, in its order. */
    private static final int[] REGIONS = {
        0x2E7F87, 0x7FB3A8, 0xD9B36A, 0xC58A4B, 0xE0CFA8, 0xB9B1A5, 0x8F887E, 0x8C5A6B, 0x7A6A8F};
    private static final String[] REGION_NAMES = {"tool surface", "cap", "drafted wall", "rounded edge", "border", "side",
        "base", "core plug", "notch or hole"};
    /** How far the kept face is lifted off the part so that it hides the triangles it was cut from. */
    private static final double LIFT_SHARE = 2e-4;

    private MoldPictures() {
    }

    /**
     * @param part the posted mesh, cleaned, in the mold's frame
     * @param face the kept face in the mold's frame, outward normals
     * @param solid the finished mold
     * @param regions {@link MoldRegion} ordinal of each of its triangles
     * @param maps what was measured on it
     */
    public record Subject(
            TriangleMesh part, TriangleMesh face, TriangleMesh solid, byte[] regions, List<SurfaceMap> maps) {
        public Subject {
            maps = List.copyOf(maps);
        }
    }

    /** All pictures; drawing happens only when one is asked for its PNG. O(triangles). */
    public static List<Picture> of(Subject subject) {
        List<Picture> pictures = new ArrayList<>();
        pictures.add(part(subject));
        pictures.add(keptAndRemoved(subject));
        pictures.add(moldAbove(subject));
        pictures.add(moldBelow(subject));
        for (SurfaceMap map : subject.maps()) {
            pictures.add(map(subject, map));
        }
        return List.copyOf(pictures);
    }

    private static Picture part(Subject subject) {
        RigidTransform turn = faceUp(subject.face());
        Item part = new Item(turn.apply(subject.part()), new Paint.Plain(PART));
        return new Picture("part", "The part as posted, its face to the front.",
                Scene.of("Part", size(subject.part()), Camera.from(-58, 42), part));
    }

    private static Picture keptAndRemoved(Subject subject) {
        RigidTransform turn = faceUp(subject.face());
        Item kept = new Item(lifted(turn.apply(subject.face())), new Paint.Plain(KEPT));
        Item all = new Item(turn.apply(subject.part()), new Paint.Plain(REMOVED));
        Scene scene = Scene.of("Kept face", "The laminate copies the kept face; back wall and rim are left out",
                Camera.from(-58, 24), kept, all);
        return new Picture("kept-face", "The face that is kept and what is removed from the part, in two colours.",
                scene.explainedBy(new Legend.Key(List.of(
                        new Legend.Swatch("kept face", KEPT), new Legend.Swatch("back wall and rim, removed", REMOVED)))));
    }

    private static Picture moldAbove(Subject subject) {
        Item mold = new Item(subject.solid(), new Paint.Regions(subject.regions(), REGIONS));
        Scene scene = Scene.of("Mold from above", size(subject.solid()), Camera.from(-58, 44), mold).onGround();
        return new Picture("mold-above", "The mold as it stands on the printer's bed, its areas coloured.",
                scene.explainedBy(new Legend.Key(swatches(subject.regions()))));
    }

    private static Picture moldBelow(Subject subject) {
        Item mold = new Item(subject.solid(), new Paint.Plain(MOLD));
        return new Picture("mold-below", "The mold from below: what stands on the printer's bed.",
                Scene.of("Mold from below", "The side that stands on the bed", Camera.from(-58, -36), mold));
    }

    private static Picture map(Subject subject, SurfaceMap map) {
        Item mold = new Item(subject.solid(), new Paint.TriangleValues(map.values(), map.scale()));
        Scene scene = Scene.of(map.scale().title(), map.explanation(), Camera.from(-58, 48), mold).onGround()
                .asMap(new Legend.Scale(map.scale())).marking(map.markers());
        return new Picture(map.name(), map.scale().title() + ": " + map.explanation() + ".", scene);
    }

    /** Names and colours of the regions that occur. */
    private static List<Legend.Swatch> swatches(byte[] regions) {
        boolean[] seen = new boolean[MoldRegion.values().length];
        for (byte region : regions) {
            seen[region] = true;
        }
        List<Legend.Swatch> swatches = new ArrayList<>();
        for (int r = 0; r < seen.length; r++) {
            if (seen[r] && r != MoldRegion.BASE.ordinal()) {
                swatches.add(new Legend.Swatch(REGION_NAMES[r], REGIONS[r]));
            }
        }
        return swatches;
    }

    /** Turns a face that looks down, as in a female mold, half way round. */
    private static RigidTransform faceUp(TriangleMesh face) {
        double up = 0;
        for (int t = 0; t < face.triangleCount(); t++) {
            up += face.areaNormal(t).z;
        }
        return up >= 0 ? RigidTransform.identity() : new RigidTransform(new Matrix4d().rotateX(Math.PI));
    }

    private static TriangleMesh lifted(TriangleMesh face) {
        double[] box = face.bounds();
        double lift = LIFT_SHARE * Math.sqrt(Math.pow(box[3] - box[0], 2) + Math.pow(box[4] - box[1], 2)
                + Math.pow(box[5] - box[2], 2));
        float[] normals = ShadingNormals.ofCorners(face);
        double[] xyz = face.xyz().clone();
        boolean[] moved = new boolean[face.vertexCount()];
        for (int c = 0; c < face.triangles().length; c++) {
            int v = face.triangles()[c];
            for (int k = 0; k < 3 && !moved[v]; k++) {
                xyz[3 * v + k] += lift * normals[3 * c + k];
            }
            moved[v] = true;
        }
        return new TriangleMesh(xyz, face.triangles());
    }

    private static String size(TriangleMesh mesh) {
        double[] box = mesh.bounds();
        return String.format(Locale.ROOT, "%.0f × %.0f × %.0f mm", box[3] - box[0], box[4] - box[1], box[5] - box[2]);
    }
}
